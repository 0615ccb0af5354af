package paper

import (
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// few is how many openings have their callouts written beside them; more get
// letters, and the words go into a table.
const few = 4

// group is a set of holes that are made alike.
type group struct {
	letter string
	words  string
	byHand string // how a person drills it
	method blank.Method
	holes  []int
}

// tag is what stands at the n-th hole of the group: its letter, and a number
// where each hole is told apart.
func (g *group) tag(n int, k kit) string {
	if !k.numbered || len(g.holes) == 1 {
		return g.letter
	}
	return g.letter + strconv.Itoa(n+1)
}

// grouped sorts the holes into groups in the order in which they come. Letters
// run A to Z without I and O, then AA.
func grouped(b *blank.Blank, sys unit.System) []group {
	type key struct {
		words  string
		method blank.Method
	}
	var gs []group
	at := make(map[key]int)
	for i := range b.Holes {
		h := &b.Holes[i]
		k := key{clean(h.Callout), h.Method}
		if k.words == "" {
			k.words = sizeWords(h, sys)
		}
		n, ok := at[k]
		if !ok {
			n = len(gs)
			at[k] = n
			gs = append(gs, group{letter: letters(n), words: k.words, byHand: byHand(h, sys), method: h.Method})
		}
		gs[n].holes = append(gs[n].holes, i)
	}
	return gs
}

// sizeWords is the callout of a hole that brings none.
func sizeWords(h *blank.Hole, sys unit.System) string {
	if h.Length > 0 {
		return "slot " + unit.Text(h.Dia, sys) + " wide, " + unit.Text(h.Length, sys) + " long"
	}
	return unit.Text(h.Dia, sys)
}

func letters(n int) string {
	const alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	if n < len(alphabet) {
		return alphabet[n : n+1]
	}
	return letters(n/len(alphabet)-1) + alphabet[n%len(alphabet):n%len(alphabet)+1]
}

// Widths in mm of a callout: up to the first it stays on one line, up to the
// second its pieces are joined, and beyond the third a piece is broken.
const (
	calloutShort = 36.0
	calloutLine  = 46.0
	calloutMost  = 58.0
)

// calloutLines breaks a callout where its sense allows, into four lines at
// most.
func calloutLines(s string) []string {
	if len(s) < 200 && Width(s, CalloutText) <= calloutShort {
		return []string{s}
	}
	var lines []string
	line := ""
	for _, piece := range senses(s) {
		if line != "" && Width(line, CalloutText)+Width(piece, CalloutText) > calloutLine {
			lines = append(lines, broken(line)...)
			line = ""
		}
		line += piece
	}
	lines = append(lines, broken(line)...)
	if len(lines) > 4 {
		lines = append(lines[:3:3], fit(lines[3]+" ...", CalloutText, calloutMost))
	}
	return lines
}

// sensible breaks words where their sense allows into lines no wider than w, of
// which there are no more than max.
func sensible(s string, st Style, w float64, max int) []string {
	if Width(s, st) <= w {
		return []string{s}
	}
	var lines []string
	line := ""
	for _, piece := range senses(s) {
		if line != "" && Width(line+piece, st) > w {
			lines = append(lines, wrap(strings.TrimSpace(line), st, w, max)...)
			line = ""
		}
		line += piece
	}
	lines = append(lines, wrap(strings.TrimSpace(line), st, w, max)...)
	if len(lines) > max {
		lines = append(lines[:max-1:max-1], fit(lines[max-1]+" ...", st, w))
	}
	return lines
}

// broken breaks a line that is too wide before its size in other units, or
// where it must.
func broken(line string) []string {
	line = strings.TrimSpace(line)
	if Width(line, CalloutText) <= calloutMost {
		return []string{line}
	}
	if i := strings.Index(line, " ("); i > 0 {
		return append(wrap(line[:i], CalloutText, calloutMost, 2), wrap(line[i+1:], CalloutText, calloutMost, 2)...)
	}
	return wrap(line, CalloutText, calloutMost, 3)
}

// senses splits a callout before what it is for or how it lies, and after a
// comma or semicolon. The pieces put together are the callout.
func senses(s string) []string {
	var pieces []string
	from := 0
	for i := 1; i < len(s)-1; i++ {
		switch {
		case strings.HasPrefix(s[i:], " for "), strings.HasPrefix(s[i:], " at "):
		case s[i] == ' ' && (s[i-1] == ',' || s[i-1] == ';'):
		default:
			continue
		}
		pieces = append(pieces, s[from:i])
		from = i
	}
	return append(pieces, s[from:])
}

// callouts writes each opening's callout beside it. Where all are alike, one
// callout says so for all.
func (d *drawing) callouts(gs []group) {
	holes := d.b.Holes
	words := make([]string, len(holes))
	for _, g := range gs {
		for _, i := range g.holes {
			words[i] = g.words
			if g.byHand != "" {
				words[i] += "; " + g.byHand
			}
		}
	}
	if len(gs) == 1 && len(holes) > 1 {
		words = words[:1]
		words[0] = strconv.Itoa(len(holes)) + " x " + words[0]
	}
	labels := make([]label, len(words))
	for i, w := range words {
		h := &holes[i]
		labels[i] = newCallout(h.Centre.Add(d.s.Offset), i, shapeOf(h, h.Dia), w)
	}
	d.spread(labels)
}

// tags puts each hole's letter beside it.
func (d *drawing) tags(gs []group, k kit) {
	layer := Tags
	if k.small {
		layer = SmallTags
	}
	style := specs[layer].Style
	labels := make([]label, 0, len(d.b.Holes))
	for gi := range gs {
		g := &gs[gi]
		for n, i := range g.holes {
			h := &d.b.Holes[i]
			words := g.tag(n, k)
			labels = append(labels, &tag{
				at: h.Centre.Add(d.s.Offset), hole: i, shape: shapeOf(h, h.Dia), letter: words, layer: layer,
				width: Width(words, style), height: styles[style].Size * (capHeight + descent),
			})
		}
	}
	d.spread(labels)
}

// mark is a finding that is shown on the sheet.
type mark struct {
	number string
	where  geom.Point // in the part's own coordinates
	failed bool
	words  string
}

// shown picks the findings that a person at the bench has to know of: failed
// ones, waived ones and warnings, in the order given.
func shown(findings []diag.Finding) []mark {
	var ms []mark
	for i := range findings {
		f := &findings[i]
		if f.Severity == diag.Note && f.Waived == "" {
			continue
		}
		m := mark{number: strconv.Itoa(len(ms) + 1), failed: f.Fails(), where: geom.Point{X: f.Where.X, Y: f.Where.Y}}
		how := "warning"
		switch {
		case m.failed:
			how = "failed"
		case f.Waived != "":
			how = "waived"
		}
		m.words = how + ": " + clean(f.Message)
		if f.Rule != "" {
			m.words += " (" + clean(f.Rule) + ")"
		}
		if f.Waived != "" {
			m.words += "; waived because: " + clean(f.Waived)
		}
		ms = append(ms, m)
	}
	return ms
}

// balloons puts the findings' numbers beside their places. A place that is not
// on the drawing is found in the list alone.
func (d *drawing) balloons(ms []mark) {
	labels := make([]label, 0, len(ms))
	for _, m := range ms {
		at := m.where.Add(d.s.Offset)
		if d.part.Grow(roomOther).Has(at) {
			b := &balloon{at: at, hole: d.holeAt(m.where), number: m.number, failed: m.failed}
			if b.hole != nobody {
				h := &d.b.Holes[b.hole]
				if sh := shapeOf(h, h.Dia); m.where.Dist(h.Centre) < sh.r/2 {
					b.at, b.shape = h.Centre.Add(d.s.Offset), sh
				}
			}
			labels = append(labels, b)
		}
	}
	d.spread(labels)
}

// holeAt is the index of the hole that a place of the part lies in or on the
// edge of, or nobody.
func (d *drawing) holeAt(p geom.Point) int {
	for i := range d.b.Holes {
		h := &d.b.Holes[i]
		sh := shapeOf(h, h.Dia)
		ends := sh.ends(h.Centre)
		if num.AtMost(toLine(p, ends[0], ends[1]), sh.r) {
			return i
		}
	}
	return nobody
}
