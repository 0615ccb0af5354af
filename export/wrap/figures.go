package wrap

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blankwright/export/paper"
	"blankwright/flat/check"
	"blankwright/flat/cope"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
)

// Figures adds all that is to be read of a tube to a book: lengths, what each
// end takes off, settings for a hole saw, straight cuts, the tables for marking
// by hand, findings, and what was not checked.
func Figures(b paper.Writer, t *tube.Tube, findings []diag.Finding) {
	b.Heading("Lengths")
	lengths(b, t)
	for i := range t.Ends {
		if !t.Ends[i].Square {
			end(b, t, i)
		}
	}
	if t.Plan != nil {
		b.Heading("Sawing")
		b.Text(fmt.Sprintf("%d pieces of %s from a bar of %s, kerf %s. bars for %d pieces: %d.", t.PerBar, text(t, t.Blank()), text(t, t.Desc.Saw.Bar.MM), text(t, t.Desc.Saw.Kerf.MM), t.Quantity, t.Plan.Bars))
	}
	Told(b, findings, tube.Utilisations(t), t.Method(), tube.Assumptions(t), tube.Unchecked(t))
}

// Told adds findings, utilisations, assumptions and what was not checked.
func Told(b paper.Writer, findings []diag.Finding, used []check.Utilisation, method string, assumed, unchecked []string) {
	b.Heading("Findings")
	if len(findings) == 0 {
		b.Text("None by the rules that were applied.")
	}
	var rows [][]string
	for _, f := range findings {
		words := f.Message
		if f.Waived != "" {
			words += " (waived: " + f.Waived + ")"
		}
		rows = append(rows, []string{f.Severity.String(), f.Rule, words, f.Fix})
	}
	b.Table([]string{"weighs", "rule", "what was found", "what mends it"}, rows)
	if len(used) > 0 {
		b.Heading("How much of what it carries is used, by " + method)
		rows = nil
		for _, u := range used {
			rows = append(rows, []string{u.Rule, u.Place, u.Case, num.Rounded(100*u.Value, 0) + " %", u.Mode, u.Formula})
		}
		b.Table([]string{"rule", "place", "case", "used", "governs", "formula"}, rows)
	}
	if len(assumed) > 0 {
		b.Heading("Taken for granted")
		for _, a := range assumed {
			b.Text("- " + a)
		}
	}
	b.Heading("Not checked")
	for _, u := range unchecked {
		b.Text("- " + u)
	}
}

func lengths(b paper.Writer, t *tube.Tube) {
	p := t.Cut.Piece
	rows := [][]string{
		{"tube", text(t, p.Tube.OD) + " x " + text(t, p.Tube.Wall) + ", " + t.Material.Name},
		{"pieces", strconv.Itoa(t.Quantity) + ", " + t.Hand.String()},
		{"between working points", text(t, p.Centres)},
		{"saw square to", text(t, t.Blank()) + ", by the longest points of the line that is cut"},
		{"between the shortest points", text(t, t.Cut.Throats(t.Line)) + ", to measure on the finished tube"},
		{"mass", num.Rounded(t.Mass, 2) + " kg each"},
	}
	if t.Line == cope.OD {
		rows = append(rows, []string{"by the inside line", text(t, t.Cut.Blank(cope.ID)) + " long: a tube sawn to this is too short"})
	}
	for i := range t.Ends {
		rows = append(rows, []string{t.Ends[i].Word + " end", Deduction(t, i)})
	}
	if !t.Ends[0].Square && !t.Ends[1].Square {
		rows = append(rows, []string{"turn", TurnWords(t)})
	}
	b.Table([]string{"what", "how much"}, rows)
}

// Deduction tells what an end takes off the length between the working points.
func Deduction(t *tube.Tube, end int) string {
	d := t.Cut.Deduction(end, t.Line)
	ear, throat := takes(d.Ear), takes(d.Throat)
	words := ear + text(t, math.Abs(d.Ear)) + " to its longest point, "
	if throat != ear {
		words += throat
	}
	return words + text(t, math.Abs(d.Throat)) + " to its shortest"
}

// takes says what a deduction does to the length between working points: one under
// nothing, to a point beyond the working point, is added.
func takes(mm float64) string {
	if mm < 0 && !num.Zero(mm) {
		return "adds "
	}
	return "takes off "
}

func end(b paper.Writer, t *tube.Tube, i int) {
	e, c := &t.Ends[i], t.Cut.Ends[i]
	b.Heading(capital(e.Word) + " end")
	for _, k := range c.Cutters() {
		b.Text(meets(t, k))
	}
	foul, at := t.Grind(i)
	if t.Line == cope.OD {
		b.Text(fmt.Sprintf("Cut square through the wall it fouls on the inside by up to %s, at %s: grind to the inside line.", text(t, foul), angle(at)))
	}
	if e.Weld != nil {
		b.Text(fmt.Sprintf("Weld: %s along the outside line, of it %s where the walls meet at 60 to 120 deg.", text(t, e.Weld.Length), text(t, e.Weld.Bands.Fillet)))
	}
	for _, s := range e.Saws {
		saw(b, t, s)
	}
	if e.Two != nil {
		b.Text(fmt.Sprintf("Two straight cuts instead: %s and %s from square, meeting across the tube %s from the working point; the gap is %s at most.",
			angle(e.Two.Mitre[0]), angle(e.Two.Mitre[1]), text(t, e.Two.Ears), text(t, e.Two.Gap)))
	}
	stations(b, t, i)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

func meets(t *tube.Tube, k cope.Cutter) string {
	switch k := k.(type) {
	case cope.Main:
		s := "Meets " + or(k.Name, "a main") + ", " + text(t, k.OD) + " outside, at " + angle(k.Angle)
		if !num.Zero(k.Offset) {
			s += ", offset " + side(t, k.Offset, k.Turn)
		}
		if !num.SameAngle(k.Angle, math.Pi/2) {
			s += ", heel (the side of the obtuse angle) at " + place(k.Turn)
		} else if !num.SameAngle(k.Turn, 0) {
			s += ", its axis at " + place(k.Turn)
		}
		if !num.Zero(k.Station) {
			s += ", crossing " + text(t, k.Station) + " inside the working point"
		}
		if k.Length > 0 {
			s += ", " + text(t, k.Length) + " long"
		}
		return s + "."
	case cope.Plate:
		s := "Meets " + or(k.Name, "a plate") + " at " + angle(k.Angle)
		if !num.SameAngle(k.Angle, math.Pi/2) {
			s += ", longest at " + place(k.Turn)
		}
		return s + "."
	}
	return ""
}

// side is how far something is set off, and the line on the tube towards which:
// positive is a quarter counter-clockwise from turn.
func side(t *tube.Tube, mm, turn float64) string {
	q := turn + math.Copysign(math.Pi/2, mm)
	return text(t, math.Abs(mm)) + " towards " + place(math.Mod(q+4*math.Pi, 2*math.Pi))
}

// place is where a generator lies.
func place(q float64) string {
	if num.SameAngle(q, 0) {
		return "the top line"
	}
	return angle(q)
}

func or(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

func saw(b paper.Writer, t *tube.Tube, s cope.SawSetting) {
	if !s.OK() {
		b.Text("No hole saw for " + s.Main + ": " + strings.Join(s.Refused, "; ") + ".")
		return
	}
	way := "out of the tube"
	if s.Centre < 0 {
		way = "into the tube"
	}
	plane := ""
	if !num.SameAngle(s.Angle, math.Pi/2) {
		plane = ", in the plane of the heel"
	}
	middle := "through the tube's middle"
	if !num.Zero(s.Offset) {
		middle = "offset " + side(t, s.Offset, s.Turn)
	}
	words := fmt.Sprintf("Hole saw for %s: %s saw, arbor at %s to the tube (%s from square)%s, %s, its axis %s from the sawn end %s, travel %s.",
		s.Main, text(t, s.Diameter), angle(s.Angle), angle(math.Pi/2-s.Angle), plane, middle, text(t, math.Abs(s.Centre)), way, text(t, s.Depth))
	for _, r := range s.Reminders {
		words += " Mind: " + r + "."
	}
	b.Text(words)
}

// stations is the table for marking an end without a printer.
func stations(b paper.Writer, t *tube.Tube, i int) {
	e := &t.Ends[i]
	list, err := t.Cut.Ends[i].Stations(t.Desc.Stations.N, e.Template.EdgeAt)
	if err != nil {
		return // the description asks for a number that stands
	}
	b.Text(fmt.Sprintf("To mark it by hand: scribe a line square round the tube %s from the longest point, step off round the outside from the top line, and measure out from the square line.",
		text(t, e.Template.EdgeAt-t.Cut.Ends[i].Curve(t.Line).Ear().S)))
	var rows [][]string
	size, write := "mm", func(mm float64) string { return num.Rounded(mm, 2) }
	if t.System() == unit.Inch {
		size, write = "in", func(mm float64) string { return num.Rounded(mm/unit.MM, 3) }
	}
	head := []string{"line", "deg", "round, " + size, "cut, " + size + " from square line"}
	if t.Line == cope.OD {
		head = append(head, "inside, "+size+" from square line")
	}
	head = append(head, "shorter than longest, "+size)
	for _, s := range list {
		row := []string{strconv.Itoa(s.Index), num.Short(s.Q/degree, 2), write(s.Around), write(s.FromEdge[t.Line])}
		if t.Line == cope.OD {
			row = append(row, write(s.FromEdge[cope.ID]))
		}
		rows = append(rows, append(row, write(s.AboveLeast[t.Line])))
	}
	b.Table(head, rows)
}
