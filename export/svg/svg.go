// Package svg writes sheets as SVG 1.1 pages at true scale, for paper: held
// against the job, punched through or cut by.
//
// Width and height are given in the paper's own unit and the viewBox in mm, so
// that one user unit is one mm; a page rule makes browsers print it at that
// size. Only SVG's y axis points down, so this package turns y over; nothing
// before it does.
package svg

import (
	"bytes"
	"encoding/xml"
	"math"
	"strings"
	"sync"

	svgo "github.com/ajstarks/svgo/float"

	"blankwright/export/paper"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Options says how a page is made. The zero value asks for the smallest usual
// paper and the file's own units.
type Options = paper.Options

// decimals of every coordinate: 0.1 µm.
const decimals = 4

// Write draws the blank on one page at scale 1:1 and gives the file. Findings
// that failed, were waived or warn are numbered on the drawing and listed.
// Errors are those of paper.Compose. The bytes depend on the arguments alone.
func Write(b *blank.Blank, findings []diag.Finding, o Options) ([]byte, error) {
	s, err := paper.Compose(b, findings, o)
	if err != nil {
		return nil, err
	}
	defer s.Release()
	return Render(s), nil
}

// Render gives a sheet as an SVG file.
func Render(s *paper.Sheet) []byte {
	w := writers.Get().(*writer)
	defer writers.Put(w)
	w.out.Reset()
	w.height = s.Height
	w.start(s)
	for i := range s.Layers {
		w.layer(paper.LayerID(i), &s.Layers[i], true)
	}
	if s.CheckBlock != paper.NoBlock {
		w.svg.Group(`id="checks"`, `transform="translate(`+short(w.x(s.Checks.X))+" "+short(w.y(s.Checks.Y))+`)"`)
		w.out.Write(checkBlocks()[s.CheckBlock])
		w.svg.Gend()
	}
	w.svg.Gend()
	w.svg.End()
	return bytes.Clone(w.out.Bytes())
}

var writers = sync.Pool{New: func() any { return newWriter(0) }}

// checkBlocks are the parts of files that are the same in all.
var checkBlocks = sync.OnceValue(func() map[paper.BlockID][]byte {
	blocks := make(map[paper.BlockID][]byte)
	for _, id := range [...]paper.BlockID{paper.FullBlock, paper.StripBlock} {
		w := newWriter(0)
		ls := id.Layers()
		for i := range ls {
			w.layer(paper.LayerID(i), &ls[i], false)
		}
		blocks[id] = w.out.Bytes()
	}
	return blocks
})

type writer struct {
	out    *bytes.Buffer
	svg    *svgo.SVG
	height float64 // of the page, to turn y over
	path   []byte
	attr   []byte
}

func newWriter(height float64) *writer {
	out := new(bytes.Buffer)
	w := &writer{out: out, svg: svgo.New(out), height: height}
	w.svg.Decimals = decimals
	return w
}

func (w *writer) x(v float64) float64 { return tidy(v) }
func (w *writer) y(v float64) float64 { return tidy(w.height - v) }

// tidy rounds to the decimals written, so that nothing is written as -0.
func tidy(v float64) float64 { return math.Round(v*1e4)/1e4 + 0 }

// fontFamily asks for a plain sans serif face; those named are as wide as the
// sheet's measured texts.
const fontFamily = `font-family="Helvetica, Arial, 'Liberation Sans', sans-serif"`

func (w *writer) start(s *paper.Sheet) {
	u, k := "mm", 1.0
	if s.Page.Inch {
		u, k = "in", unit.MM
	}
	pw, ph := s.Page.Width, s.Page.Height
	desc := s.Shows + " at true scale, 1:1. One user unit is 1 mm. The edge is the centre of the line."
	switch {
	case s.CheckBlock == paper.NoBlock:
		desc = s.Shows + ". Not at true scale: do not measure from it."
		w.svg.StartviewUnit(pw/k, ph/k, u, 0, 0, pw, ph)
	case s.Measured.Off():
		// The drawing is stretched to the page by as much as the printer is off.
		w.svg.Startunit(pw/k, ph/k, u, `viewBox="0 0 `+num.Short(s.Width, 6)+" "+num.Short(s.Height, 6)+`"`, `preserveAspectRatio="none"`)
		desc = s.Shows + ", corrected for a printer that draws " + s.Measured.String() + " mm for 100 x 100 mm. The edge is the centre of the line."
	default:
		w.svg.StartviewUnit(pw/k, ph/k, u, 0, 0, pw, ph)
	}
	w.svg.Title(s.Title)
	w.svg.Desc(desc)
	w.svg.Style("text/css", "@page{size:"+num.Short(pw/k, decimals)+u+" "+num.Short(ph/k, decimals)+u+";margin:0}")
	w.svg.Group(`fill="none"`, `stroke="none"`, fontFamily)
}

// layer writes one group: lines as one path, then circles, then texts. Named
// groups have an id, which must come only once in a file.
func (w *writer) layer(id paper.LayerID, l *paper.Layer, named bool) {
	if len(l.Segs)+len(l.Circles)+len(l.Texts) == 0 {
		return
	}
	if named {
		w.svg.Group(ids()[id], groups()[id])
	} else {
		w.svg.Group(groups()[id])
	}
	if len(l.Segs) > 0 {
		w.svg.Path(w.pathData(l.Segs))
	}
	for _, c := range l.Circles {
		w.circle(c)
	}
	for i := range l.Texts {
		w.text(&l.Texts[i])
	}
	w.svg.Gend()
}

// groups are the start tags' attributes of all layers, without their ids.
var groups = sync.OnceValue(func() []string {
	all := make([]string, len(paper.Layers{}))
	for i := range all {
		all[i] = attributes(paper.LayerID(i).Spec())
	}
	return all
})

// ids are the id attributes of all layers.
var ids = sync.OnceValue(func() []string {
	all := make([]string, len(paper.Layers{}))
	for i := range all {
		all[i] = `id="` + paper.LayerID(i).Spec().Name + `"`
	}
	return all
})

// attributes are those that all things on a layer share.
func attributes(spec *paper.Spec) string {
	var at []string
	if spec.Pen.Width > 0 {
		at = append(at, `stroke="#000"`, `stroke-width="`+short(spec.Pen.Width)+`"`, `stroke-linejoin="round"`)
	}
	if dash := spec.Pen.Dash; dash[0] > 0 {
		at = append(at, `stroke-dasharray="`+short(dash[0])+" "+short(dash[1])+" "+short(dash[2])+" "+short(dash[3])+`"`)
	}
	font := spec.Style.Font()
	switch {
	case spec.Pen.Fill == paper.White, font.White:
		at = append(at, `fill="#fff"`)
	case spec.Pen.Fill == paper.Black, font.Size > 0:
		at = append(at, `fill="#000"`)
	}
	if font.Size > 0 {
		at = append(at, `font-size="`+short(font.Size)+`"`)
	}
	if font.Bold {
		at = append(at, `font-weight="bold"`)
	}
	return strings.Join(at, " ")
}

func short(v float64) string { return num.Short(v, decimals) }

// circle writes a whole circle.
func (w *writer) circle(c geom.Circle) {
	at := w.place(c.C)
	b := append(w.attr[:0], `<circle cx="`...)
	b = appendFixed(b, at.x)
	b = appendFixed(append(b, `" cy="`...), at.y)
	b = appendFixed(append(b, `" r="`...), int64(math.Round(c.R*1e4)))
	w.attr = append(b, "\"/>\n"...)
	w.out.Write(w.attr)
}

// text writes one line of words. Upward ones are turned about their place.
func (w *writer) text(t *paper.Text) {
	at := w.place(t.At)
	b := append(w.attr[:0], `<text x="`...)
	b = appendFixed(b, at.x)
	b = appendFixed(append(b, `" y="`...), at.y)
	b = append(append(b, '"'), anchors[t.Anchor]...)
	if t.Up {
		b = appendFixed(append(b, ` transform="rotate(-90 `...), at.x)
		b = appendFixed(append(b, ' '), at.y)
		b = append(b, `)"`...)
	}
	w.attr = append(b, '>')
	w.out.Write(w.attr)
	writeWords(w.out, t.S)
	w.out.WriteString("</text>\n")
}

// writeWords writes a text with whatever means something in XML escaped.
func writeWords(out *bytes.Buffer, s string) {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < ' ' || c > '~' || c == '<' || c == '>' || c == '&' || c == '"' || c == '\'' {
			xml.EscapeText(out, []byte(s)) // a buffer takes all it is given
			return
		}
	}
	out.WriteString(s)
}

var anchors = [...]string{
	paper.Start:  ``,
	paper.Middle: ` text-anchor="middle"`,
	paper.End:    ` text-anchor="end"`,
}
