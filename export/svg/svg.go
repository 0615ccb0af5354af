// Package svg writes a blank as one SVG 1.1 page at true scale, for paper: held
// against the job, punched through or cut by.
//
// Width and height are given in the paper's own unit and the viewBox in mm, so
// that one user unit is one mm; a page rule makes browsers print it at that
// size. Only SVG's y axis points down, so this package turns y over; nothing
// before it does.
package svg

import (
	"bytes"
	"math"
	"strings"
	"sync"

	svgo "github.com/ajstarks/svgo/float"

	"blankwright/export/paper"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
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
	w.height = s.Page.Height
	w.start(s)
	for i := range s.Layers {
		w.layer(paper.LayerID(i), &s.Layers[i], true)
	}
	w.svg.Group(`id="checks"`, `transform="translate(`+short(w.x(s.Checks.X))+" "+short(w.y(s.Checks.Y))+`)"`)
	w.out.Write(checkBlock())
	w.svg.Gend()
	w.svg.Gend()
	w.svg.End()
	return bytes.Clone(w.out.Bytes())
}

var writers = sync.Pool{New: func() any { return newWriter(0) }}

// checkBlock is the part of the file that is the same in all.
var checkBlock = sync.OnceValue(func() []byte {
	w := newWriter(0)
	ls := paper.CheckBlock()
	for i := range ls {
		w.layer(paper.LayerID(i), &ls[i], false)
	}
	return w.out.Bytes()
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
	w.svg.StartviewUnit(pw/k, ph/k, u, 0, 0, pw, ph)
	w.svg.Title(s.Title)
	w.svg.Desc("Flat part at true scale, 1:1. One user unit is 1 mm. The edge is the centre of the line.")
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
		w.svg.Circle(w.x(c.C.X), w.y(c.C.Y), tidy(c.R))
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

// text writes one line of words. Upward ones are turned about their place.
func (w *writer) text(t *paper.Text) {
	x, y := w.x(t.At.X), w.y(t.At.Y)
	var turn string
	if t.Up {
		w.attr = append(w.attr[:0], `transform="rotate(-90 `...)
		w.attr = append(w.attr, short(x)...)
		w.attr = append(w.attr, ' ')
		w.attr = append(w.attr, short(y)...)
		w.attr = append(w.attr, `)"`...)
		turn = string(w.attr)
	}
	switch {
	case t.Anchor == paper.Start && !t.Up:
		w.svg.Text(x, y, t.S)
	case t.Up:
		w.svg.Text(x, y, t.S, anchors[t.Anchor], turn)
	default:
		w.svg.Text(x, y, t.S, anchors[t.Anchor])
	}
}

var anchors = [...]string{
	paper.Start:  `text-anchor="start"`,
	paper.Middle: `text-anchor="middle"`,
	paper.End:    `text-anchor="end"`,
}
