package svg

import (
	"math"

	"blankwright/export/paper"
	"blankwright/flat/blank"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Folded draws a part with bends as it looks folded: the views from the front,
// from above and from the right in third-angle projection and an isometric one,
// hidden edges dashed in the first three and left out of the last, at the largest usual scale that the page takes. It is a
// picture to look at, not one to measure: it has no check bars. nil for a flat
// part. The bytes depend on the arguments alone.
func Folded(b *blank.Blank, o Options) []byte {
	if b.Formed == nil {
		return nil
	}
	sys := o.Unit
	if sys == unit.Unset && b.Part != nil {
		sys = b.Part.Units
	}
	page := pictureMetric
	if sys == unit.Inch {
		page = pictureInch
	}
	p := newPicture(b.Formed.Flat.Fold(), page)
	w := newWriter(page.Height)
	w.pictureHead(b, p, page)
	for i := range p.views {
		w.view(&p.views[i])
	}
	w.pictureWords(b, p, page, sys, o.Note)
	w.svg.Gend()
	w.svg.End()
	return w.out.Bytes()
}

// The pages of the picture, on their side: ISO A4 and letter.
var (
	pictureMetric = paper.Page{Name: "A4", Width: 297, Height: 210}
	pictureInch   = paper.Page{Name: "letter", Width: 11 * unit.MM, Height: 8.5 * unit.MM, Inch: true}
)

const (
	pictureMargin = 12.0 // of the page, mm
	pictureHead   = 16.0 // for the name over the views
	pictureFoot   = 10.0 // for the sizes under them
	pictureGap    = 18.0 // between the views, for their names, on the page
)

// scales are those of ISO 5455, first the largest: so many mm on the page for one
// of the part.
var scales = [...]float64{5, 2, 1, 1.0 / 2, 1.0 / 5, 1.0 / 10, 1.0 / 20, 1.0 / 50, 1.0 / 100, 1.0 / 200, 1.0 / 500, 1.0 / 1000}

// picture is the four views where they go on the page, mm.
type picture struct {
	views []fold.View
	scale float64
}

func newPicture(g *fold.Folded, page paper.Page) picture {
	room := geom.Point{X: page.Width - 2*pictureMargin, Y: page.Height - 2*pictureMargin - pictureHead - pictureFoot}
	seen := g.Views()
	var p picture
	var box geom.Box
	for _, k := range scales {
		p.scale = k
		p.views = fold.Arrange(seen, pictureGap/k)
		box = geom.Box{}
		for i := range p.views {
			box = box.Union(p.views[i].Box)
		}
		if box.Width()*k <= room.X && box.Height()*k <= room.Y {
			break
		}
	}
	// In the middle of their room.
	k := p.scale
	dx := pictureMargin + (room.X-box.Width()*k)/2 - box.Min.X*k
	dy := pictureMargin + pictureFoot + (room.Y-box.Height()*k)/2 - box.Min.Y*k
	for i := range p.views {
		v := &p.views[i]
		v.Box = geom.Box{}
		for s := range v.Strokes {
			pts := v.Strokes[s].Points
			for n, q := range pts {
				pts[n] = geom.Point{X: q.X*k + dx, Y: q.Y*k + dy}
				v.Box = v.Box.Extend(pts[n])
			}
		}
	}
	return p
}

func (w *writer) pictureHead(b *blank.Blank, p picture, page paper.Page) {
	u, k := "mm", 1.0
	if page.Inch {
		u, k = "in", unit.MM
	}
	w.svg.StartviewUnit(page.Width/k, page.Height/k, u, 0, 0, page.Width, page.Height)
	w.svg.Title(plain(b.Name) + ", folded")
	w.svg.Desc("The folded part in four views, scale " + scaleWords(p.scale) + ". A picture, not a template: do not measure from it.")
	w.svg.Style("text/css", "@page{size:"+num.Short(page.Width/k, decimals)+u+" "+num.Short(page.Height/k, decimals)+u+";margin:0}")
	w.svg.Group(`fill="none"`, `stroke="none"`, fontFamily)
}

// Strokes of the picture: edges, seams of bends, hidden edges (line widths of ISO
// 128-2's 0.35 mm group, from memory).
var pictureStrokes = [...]string{
	fold.Full:   `stroke="#000" stroke-width="0.35" stroke-linecap="round" stroke-linejoin="round"`,
	fold.Seam:   `stroke="#000" stroke-width="0.13"`,
	fold.Hidden: `stroke="#000" stroke-width="0.18" stroke-dasharray="2 1"`,
}

func (w *writer) view(v *fold.View) {
	w.svg.Group(`id="` + v.Eye.String() + `"`)
	for kind := range pictureStrokes {
		b := w.path[:0]
		for _, s := range v.Strokes {
			if int(s.Line) != kind || v.Eye == fold.Isometric && s.Line == fold.Hidden {
				continue
			}
			for i, q := range s.Points {
				op := byte('L')
				if i == 0 {
					op = 'M'
				}
				b = appendPlace(append(b, op), w.place(q))
			}
		}
		w.path = b
		if len(b) > 0 {
			w.svg.Path(string(b), pictureStrokes[kind])
		}
	}
	w.svg.Gend()
}

var viewNames = map[fold.Eye]string{fold.Isometric: "isometric", fold.FromAbove: "from above", fold.FromFront: "from the front", fold.FromRight: "from the right"}

func (w *writer) pictureWords(b *blank.Blank, p picture, page paper.Page, sys unit.System, note string) {
	w.svg.Group(`fill="#000"`, `font-size="3.5"`, `text-anchor="middle"`)
	for i := range p.views {
		v := &p.views[i]
		w.svg.Text(w.x((v.Box.Min.X+v.Box.Max.X)/2), w.y(v.Box.Max.Y+4), viewNames[v.Eye])
	}
	w.svg.Gend()
	name := plain(b.Name)
	if b.Revision != "" {
		name += ", rev " + plain(b.Revision)
	}
	if b.Hand == blank.Mirrored {
		name += ", mirrored"
	}
	top := page.Height - pictureMargin
	w.svg.Group(`fill="#000"`)
	w.svg.Text(w.x(pictureMargin), w.y(top-5), name+", folded", `font-size="6"`, `font-weight="bold"`)
	line := "scale " + scaleWords(p.scale) + ", third-angle projection. A picture, not a template: do not measure from it."
	if note = plain(note); note != "" {
		line += " " + note
	}
	w.svg.Text(w.x(pictureMargin), w.y(top-10.5), line, `font-size="3.5"`)
	size := b.Formed.Flat.Fold().Box()
	d := size.Max.Sub(size.Min)
	w.svg.Text(w.x(pictureMargin), w.y(pictureMargin), "overall "+unit.Text(d.X, sys)+" wide, "+unit.Text(d.Y, sys)+" deep, "+unit.Text(d.Z, sys)+" high", `font-size="3.5"`)
	w.svg.Gend()
}

func scaleWords(k float64) string {
	if k >= 1 {
		return num.Short(k, 0) + ":1"
	}
	return "1:" + num.Short(math.Round(1/k), 0)
}

// plain leaves no control characters in a text.
func plain(s string) string {
	const most = 80 // signs of a line
	out := make([]rune, 0, len(s))
	for _, r := range s {
		if len(out) == most {
			return string(out) + "..."
		}
		if r >= ' ' && r != 0x7f && r != 0xfffd {
			out = append(out, r)
		}
	}
	return string(out)
}
