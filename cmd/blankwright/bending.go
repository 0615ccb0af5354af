package main

import (
	"fmt"
	"math"
	"strconv"

	"blankwright/flat/bend"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// bendingText says in which order a part is bent, where each bend is marked, and
// whether the flat folds back to what was asked; nil for a flat part.
func bendingText(b *blank.Blank) (lines []string) {
	p := b.Plan()
	if p == nil {
		return nil
	}
	sys := unit.Millimetre
	if b.Part != nil && b.Part.Units != unit.Unset {
		sys = b.Part.Units
	}
	text := func(mm float64) string { return unit.Text(mm, sys) }
	origin := b.Outline.Bounds().Min
	for i := range p.Steps {
		s := &p.Steps[i]
		k := s.Bend
		line := "bend " + strconv.Itoa(s.No) + ": flange " + strconv.Quote(k.Name) + ", " + k.Direction() + " " + bend.Degrees(k.Bend.A) +
			", inside radius " + text(k.Bend.R) + "; "
		if s.Hooked {
			h := &s.Hook
			line += "begins " + text(h.Begins) + ", line " + text(h.Line) + ", ends " + text(h.Ends) + " from the " + h.Name()
		} else {
			at := func(q geom.Point) string { q = q.Sub(origin); return text(q.X) + ", " + text(q.Y) }
			line += "line from " + at(k.Line.A) + " to " + at(k.Line.B) + " of the lower left; no edge runs along it"
		}
		lines = append(lines, line)
	}
	found, looked, not := p.Looked()
	lines = append(lines, "bending: "+found+"; looked at: "+looked+"; not looked at: "+not)
	return append(lines, "folded: "+foldedWords(b))
}

// foldedWords say what of the folded part came back.
func foldedWords(b *blank.Blank) string {
	g := b.Formed.Flat.Fold()
	dims := g.Dims()
	back := 0
	for _, d := range dims {
		if d.Holds() {
			back++
		}
	}
	words := fmt.Sprintf("%d of %d dimensions come back from the flat within %s mm", back, len(dims), num.Short(num.LimitSlack, 6))
	lined := 0
	all := g.InLine()
	for _, a := range all {
		if a.Holds() {
			lined++
		}
	}
	if len(all) > 0 {
		words += fmt.Sprintf("; %d of %d pairs of holes are in line", lined, len(all))
	}
	return words
}

// bendingReport is what --json prints of the bends of a part.
type bendingReport struct {
	OrderFound bool           `json:"order_found"`
	Tool       string         `json:"tool"`
	Die        float64        `json:"die_mm,omitempty"`
	Found      string         `json:"order"`
	Looked     string         `json:"looked_at"`
	NotLooked  string         `json:"not_looked_at"`
	Steps      []bendReport   `json:"steps"`
	Folded     []foldedReport `json:"folded"`
	InLine     []inLineReport `json:"in_line"`
}

// bendReport is one bend; lengths mm, places from the lower left of the flat.
type bendReport struct {
	Bend      int         `json:"bend"`
	Flange    string      `json:"flange"`
	Direction string      `json:"direction"`
	Angle     float64     `json:"angle_deg"`
	Radius    float64     `json:"inside_radius_mm"`
	Takes     float64     `json:"flat_length_mm"`
	K         float64     `json:"k_factor"`
	Rule      string      `json:"rule"`
	Length    float64     `json:"length_mm"`
	Force     float64     `json:"force_kn,omitempty"`
	From      diag.Place  `json:"line_from"`
	To        diag.Place  `json:"line_to"`
	Hook      *hookReport `json:"hook,omitempty"`
}

// hookReport is an edge along the bend, and how far from it the bend lies.
type hookReport struct {
	Edge   string  `json:"edge"`
	Begins float64 `json:"begins_mm"`
	Line   float64 `json:"line_mm"`
	Ends   float64 `json:"ends_mm"`
}

// foldedReport is a dimension of the folded part: asked, and measured on the flat
// folded back; mm, or degrees.
type foldedReport struct {
	What string  `json:"what"`
	Unit string  `json:"unit"`
	Want float64 `json:"want"`
	Got  float64 `json:"got"`
	Back bool    `json:"comes_back"`
}

type inLineReport struct {
	Holes  [2]string `json:"holes"`
	Offset float64   `json:"offset_mm"`
	Holds  bool      `json:"in_line"`
}

func inDegrees(rad float64) float64 { return rad * 180 / math.Pi }

func newBendingReport(b *blank.Blank) *bendingReport {
	p := b.Plan()
	if p == nil {
		return nil
	}
	r := &bendingReport{OrderFound: p.Tool != blank.NoBlade, Tool: p.Tool.String(), Die: float64(p.Die), InLine: []inLineReport{}}
	r.Found, r.Looked, r.NotLooked = p.Looked()
	origin := b.Outline.Bounds().Min
	for i := range p.Steps {
		s := &p.Steps[i]
		k := s.Bend
		step := bendReport{
			Bend: s.No, Flange: k.Name, Direction: k.Direction(), Angle: inDegrees(k.Bend.A), Radius: k.Bend.R,
			Takes: k.Allowance.Length, K: k.Allowance.K, Rule: k.Allowance.By, Length: k.Line.Length(), Force: s.Force / 1000,
			From: placeOf(k.Line.A.Sub(origin)), To: placeOf(k.Line.B.Sub(origin)),
		}
		if s.Hooked {
			step.Hook = &hookReport{s.Hook.Name(), s.Hook.Begins, s.Hook.Line, s.Hook.Ends}
		}
		r.Steps = append(r.Steps, step)
	}
	g := b.Formed.Flat.Fold()
	for _, d := range g.Dims() {
		f := foldedReport{d.Name, "mm", d.Want, d.Got, d.Holds()}
		if d.Angle {
			f.Unit, f.Want, f.Got = "deg", inDegrees(d.Want), inDegrees(d.Got)
		}
		r.Folded = append(r.Folded, f)
	}
	for _, a := range g.InLine() {
		r.InLine = append(r.InLine, inLineReport{[2]string{a.A, a.B}, a.Offset, a.Holds()})
	}
	return r
}

func placeOf(p geom.Point) diag.Place { return diag.Place{X: p.X, Y: p.Y} }
