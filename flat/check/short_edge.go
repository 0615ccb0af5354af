package check

import (
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var shortEdge = &Check{
	ID:       "short-edge",
	Severity: diag.Error,
	Title:    "an edge of the outline or of a cutout is too short to be followed",
	Meaning: "An edge shorter than the table follows may be swallowed by its reader, or turn the side compensation " +
		"for the kerf inside out and leave a nick. It is often left over from arithmetic that almost meets. Edges " +
		"that carry on along the same line or circle count as one.",
	Formula: "length of the edge >= shortest edge of the process's row",
	Source:  "common practice; the row of the process",
	Limits:  "Looks at the edges of the outline and of cutouts, not at what the kerf leaves of an inside corner. Nothing is asked where the file names no process.",
	Run:     runShortEdge,
}

func runShortEdge(c *Context) {
	want := c.Blank.Process.MinSeg
	if want <= 0 || !c.whole() {
		return
	}
	c.shortIn(c.Blank.Outline, nil, want)
	for i := range c.Blank.Cutouts {
		k := &c.Blank.Cutouts[i]
		c.shortIn(k.Loop, k, want)
	}
}

// shortIn reports the short edges of the outline, or of a cutout.
func (c *Context) shortIn(l geom.Loop, k *blank.Cutout, want float64) {
	for i := range l {
		// A run begins where the edge before lies on another line or circle.
		before := l[(i+len(l)-1)%len(l)]
		if !short(l[i].Length(), want) || carriesOn(before, l[i]) {
			continue
		}
		n, sum := 1, l[i].Length()
		for n < len(l) && carriesOn(l[(i+n-1)%len(l)], l[(i+n)%len(l)]) {
			sum += l[(i+n)%len(l)].Length()
			n++
		}
		if short(sum, want) {
			c.reportShort(l, k, i, n, sum, want)
		}
	}
}

// carriesOn reports whether s runs on along the line or circle of r.
func carriesOn(r, s geom.Seg) bool {
	if r.IsArc() != s.IsArc() {
		return false
	}
	if r.IsArc() {
		a, b := r.Circle(), s.Circle()
		return (r.Bulge > 0) == (s.Bulge > 0) && num.Same(a.R, b.R) && num.Zero(a.C.Dist(b.C))
	}
	u, v := r.DirB(), s.DirA()
	return u.Dot(v) > 0 && num.SameAngle(u.Cross(v), 0)
}

func (c *Context) reportShort(l geom.Loop, k *blank.Cutout, i, n int, length, want float64) {
	g, w := c.gotWant(length, want)
	first, last := l[i], l[(i+n-1)%len(l)]
	var changes []Change
	if bridged, ok := bridge(l, i, n); ok {
		changes = []Change{{Kind: Redraw, Outline: bridged.String(),
			Text: "leave that edge out and let the one before it run on to x " + c.len(last.B.X) + ", y " + c.len(last.B.Y)}}
	}
	finding := diag.Finding{
		Pos: c.part.Outline.Pos, Where: at(first.Mid()),
		Got: length, Want: want, Unit: "mm", Source: c.edgeSource(),
		Message: "edge " + strconv.Itoa(i+1) + " of the outline, at x " + c.len(first.A.X) + ", y " + c.len(first.A.Y) +
			", is " + g + " long, " + c.Blank.Process.Name + " follows no less than " + w,
	}
	if k != nil {
		finding.Pos, finding.Features = k.Pos, []string{k.Name}
		for j := range changes {
			changes[j].Kind, changes[j].Hole = Recut, k.Name
		}
		finding.Message = strings.Replace(finding.Message, "the outline", k.Purpose.String()+" "+quoted(k.Name), 1)
	}
	if changes == nil {
		finding.Fix = "make that edge at least " + w + " long"
	}
	c.Report(finding, changes...)
}

// bridge takes the n edges from i on out and lets the edge before them run on
// to where they ended. ok is false where that leaves no valid outline.
func bridge(l geom.Loop, i, n int) (geom.Loop, bool) {
	if len(l)-n < 2 {
		return nil, false
	}
	// Start at the first edge to go.
	turned := append(slices.Clone(l[i:]), l[:i]...)
	kept := turned[n:]
	end := &kept[len(kept)-1]
	*end = geom.BulgeSeg(end.A, turned[n-1].B, end.Bulge)
	return kept, validOutline(kept) == nil
}
