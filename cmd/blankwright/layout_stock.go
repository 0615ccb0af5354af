package main

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/drawing"
	"blankwright/flat/geom"
	"blankwright/flat/layout"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// plateStock is plate to cut from, as the person names it.
type plateStock struct {
	layout.Sheet
	remnant   bool
	turned    bool   // so that its length runs along x
	flag      string // as it was written, for messages
	path      string // of a remnant's drawing
	thickness float64
	material  string // "" where neither is said
}

// fillStock reads --sheet and --remnant: remnants come first, so that they are
// used before a whole sheet is cut.
func (l *layouter) fillStock(sheets, remnants []string) error {
	for _, text := range remnants {
		s, err := l.stockOf(text, true)
		if err != nil {
			return err
		}
		l.stock = append(l.stock, s)
	}
	l.tellApart()
	for _, text := range sheets {
		s, err := l.stockOf(text, false)
		if err != nil {
			return err
		}
		l.stock = append(l.stock, s)
	}
	if len(l.stock) == 0 {
		return usage("nothing to cut from; give --sheet 48x96in, or --remnant DROP.dxf")
	}
	return nil
}

// tellApart names remnants of one name in several folders by their paths.
func (l *layouter) tellApart() {
	for i := range l.stock {
		for k := range l.stock {
			if l.stock[i].path != l.stock[k].path && filepath.Base(l.stock[i].path) == filepath.Base(l.stock[k].path) {
				l.stock[i].Name = l.stock[i].path
			}
		}
	}
}

// stockOf reads one of them: what it is, how many, and of which plate.
func (l *layouter) stockOf(text string, remnant bool) (s plateStock, err error) {
	s.remnant = remnant
	s.flag = "--sheet " + text
	rest := text
	if remnant {
		s.flag, s.Count = "--remnant "+text, 1
	}
	if remnant && isFile(text) {
		return s, l.readRemnant(&s, text)
	}
	if i := strings.LastIndexByte(rest, '@'); i >= 0 {
		if err := l.tag(&s, rest[i+1:]); err != nil {
			return s, err
		}
		rest = rest[:i]
	}
	if rest, s.Count, err = cutCount(rest, s.Count); err != nil {
		return s, usage("%s: %v", s.flag, err)
	}
	if remnant {
		return s, l.readRemnant(&s, rest)
	}
	return s, s.whole(rest)
}

func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

// cutCount cuts a count off the end of a text: `4x8ft*2`.
func cutCount(text string, without int) (rest string, n int, err error) {
	rest, count, ok := cutLast(text, "*")
	if !ok {
		return text, without, nil
	}
	n, err = strconv.Atoi(strings.TrimSpace(count))
	if err != nil || n < 1 || n > mostPieces {
		return text, 0, fmt.Errorf("the count %q behind * is no number from 1 to %d", count, mostPieces)
	}
	return rest, n, nil
}

func cutLast(s, sep string) (before, after string, ok bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return s, "", false
}

// tag reads which plate it is: a thickness, a material or both.
func (l *layouter) tag(s *plateStock, text string) error {
	for _, word := range strings.Split(text, ",") {
		word = strings.TrimSpace(word)
		if mm, err := unit.Length(word, nil, unit.Unset); err == nil && num.Finite(mm) && mm > 0 {
			s.thickness = mm
			continue
		}
		m, err := l.profile.FindMaterial(word)
		if err != nil {
			return usage("%s: %q is neither a thickness with its unit nor a material that is known; write @1/4in, @A36 or @1/4in,A36", s.flag, word)
		}
		s.material = m.Name
	}
	return nil
}

// Least and largest side of a sheet, mm, so that a slip of the unit is told.
const (
	leastSide = 20.0
	mostSide  = 30_000.0
)

// whole reads the size of a whole sheet; the unit may stand behind the second
// side alone.
func (s *plateStock) whole(text string) error {
	s.Name = strings.TrimSpace(text)
	a, b, ok := strings.Cut(strings.ReplaceAll(text, "×", "x"), "x")
	wrong := usage("%s: a sheet is width x height with their unit, such as 48x96in, 4x8ft or 1250x2500mm", s.flag)
	if !ok {
		return wrong
	}
	h, err := unit.Length(b, nil, unit.Unset)
	if err != nil {
		return wrong
	}
	w, err := unit.Length(a, nil, unit.Unset)
	if err != nil {
		w, err = unit.Length(a+" "+strings.TrimLeft(b, " 0123456789.-/+½¼¾⅛⅜⅝⅞"), nil, unit.Unset)
	}
	if err != nil || !num.Finite(w, h) {
		return wrong
	}
	if min(w, h) < leastSide || max(w, h) > mostSide {
		return usage("%s: it measures %s x %s mm; a sheet's sides are %v to %v mm", s.flag, num.Short(w, 1), num.Short(h, 1), leastSide, mostSide)
	}
	s.Region = geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: w}, geom.Point{X: w, Y: h}, geom.Point{Y: h})}
	return nil
}

// readRemnant reads a drop's drawing. Its lines stay where they are drawn, so that
// the sheet's coordinates are those of its drawing.
func (l *layouter) readRemnant(s *plateStock, path string) error {
	s.Name, s.path = filepath.Base(path), filepath.Clean(path)
	f, err := os.Open(path)
	if err != nil {
		return usage("%s: %v", s.flag, plainError(err))
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return usage("%s: it is no file", s.flag)
	}
	d, err := drawing.ReadFrom(path, f, drawing.Options{})
	if err != nil {
		return notRead(path, err)
	}
	knowLayers(d, l.profile)
	joined := drawing.Assemble(d, 0)
	clean := drawing.Mend(joined)
	for _, f := range slices.Concat(clean.Left, joined.Faults) {
		if f.Severity == diag.Error && !f.Mends {
			return usage("remnant %s, line %d: %s; `blankwright inspect %s` tells all", path, f.Line, f.Message, path)
		}
	}
	if n := len(clean.Regions); n != 1 {
		return usage("remnant %s: it holds %d closed outlines; a remnant is one, with the openings in it", path, n)
	}
	s.Region = clean.Regions[0]
	edges := len(s.Region.Outer)
	for _, h := range s.Region.Holes {
		edges += len(h)
	}
	if box := s.Region.Bounds(); min(box.Width(), box.Height()) < leastSide || max(box.Width(), box.Height()) > mostSide {
		return usage("remnant %s: read in %s (%s) it measures %s x %s mm; a sheet's sides are %v to %v mm: give its drawing the right unit",
			path, d.Unit.Name, d.Unit.From, num.Short(box.Width(), 1), num.Short(box.Height(), 1), leastSide, mostSide)
	}
	if d.Unit.From == drawing.Assumed {
		l.say("warning: remnant %s does not say its unit and is read in mm; `blankwright inspect %s --units in --mend COPY.dxf` makes one that says inches", path, path)
	}
	if edges > mostEdges {
		return usage("remnant %s: its outline has %d edges, at most %d are taken; trace it with fewer points", path, edges, mostEdges)
	}
	return nil
}

// mostEdges is the most edges that a remnant may have: far more than anybody
// measures, few enough that every part can be held against each of them.
const mostEdges = 5000

// notRead says in one line why a remnant's drawing cannot be read.
func notRead(path string, err error) error {
	var ps diag.Problems
	if !errors.As(err, &ps) || len(ps) == 0 {
		return usage("remnant %s: %v", path, err)
	}
	text := ps[0].Message
	if ps[0].Hint != "" {
		text += "; " + ps[0].Hint
	}
	if line := ps[0].Pos.Line; line > 0 {
		return usage("remnant %s, line %d: %s", path, line, text)
	}
	return usage("remnant %s: %s", path, text)
}

// knowLayers takes the layers that have a name of ours, or of the profile, by their
// meaning, whatever their names say otherwise.
func knowLayers(d *drawing.Drawing, set *profiles.Set) {
	for i := range d.Layers {
		l := &d.Layers[i]
		for id := profiles.LayerMarks; id <= profiles.LayerOutline; id++ {
			if strings.EqualFold(l.Name, set.Layer(id).Name) {
				l.Marks = id == profiles.LayerMarks
			}
		}
	}
}

// fillTurns reads --turns and --grain. With grain, sheets are laid with it along x.
func (l *layouter) fillTurns(turns, grain string) error {
	quarter := math.Pi / 2
	l.turnWords, l.grain = turns, grain
	switch turns {
	case "any":
	case "90":
		l.turns = []float64{0, quarter, 2 * quarter, 3 * quarter}
	case "180":
		l.turns = []float64{0, 2 * quarter}
	case "none":
		l.turns = []float64{0}
	default:
		return usage("--turns %q; it takes any, 90, 180 or none", turns)
	}
	if grain == "" {
		return nil
	}
	if grain != "along" && grain != "across" {
		return usage("--grain %q; it takes along or across", grain)
	}
	l.turns = []float64{0, 2 * quarter}
	if turns == "none" {
		l.turns = l.turns[:1]
	}
	if grain == "across" {
		for i := range l.turns {
			l.turns[i] += quarter
		}
	}
	l.turnWords = "grain " + grain
	l.layStock()
	return nil
}

// layStock turns whole sheets so that their grain runs along x.
func (l *layouter) layStock() {
	for i := range l.stock {
		l.stock[i].lay()
	}
}

// turnsOf are the turns that a part may have on a sheet. Where its description says
// how the plate was rolled, which its bends need, that goes before what the call
// says of all.
func (l *layouter) turnsOf(b *blank.Blank, g *group) []float64 {
	if b.Formed == nil || !b.Formed.GrainKnown {
		return l.turns
	}
	if !slices.Contains(g.grained, b.Name) {
		g.grained = append(g.grained, b.Name)
	}
	l.layStock()
	return []float64{-b.Formed.Grain, math.Pi - b.Formed.Grain}
}

// turnsTold says how the parts of a group may be turned.
func (l *layouter) turnsTold(g *group) string {
	if len(g.grained) == 0 {
		return l.turnWords
	}
	return l.turnWords + "; with the grain: " + strings.Join(g.grained, ", ")
}

// lay turns a whole sheet so that its length, and with it the grain, runs along x.
func (s *plateStock) lay() {
	box := s.Region.Bounds()
	if s.remnant || box.Width() >= box.Height() {
		return
	}
	s.turned = true
	s.Region = geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: box.Height()},
		geom.Point{X: box.Height(), Y: box.Width()}, geom.Point{Y: box.Width()})}
}

// zero says what the coordinates on it count from.
func (s *plateStock) zero() string {
	switch {
	case s.remnant:
		return "that of the remnant's own drawing, " + s.Name
	case s.turned:
		return "lower left corner of the sheet, laid with its length along x"
	}
	return "lower left corner of the sheet"
}

// fits reports whether it may be the plate of a group.
func (s *plateStock) fits(g *group) bool {
	return (s.thickness == 0 || num.Same(s.thickness, g.thickness)) && (s.material == "" || s.material == g.material)
}

// shareStock gives each group its sheets. Where there are several groups, plate of
// which there is not enough for all needs to be told apart.
func (l *layouter) shareStock() error {
	for i := range l.stock {
		s := &l.stock[i]
		var takers []string
		for _, g := range l.groups {
			if s.fits(g) {
				g.stock = append(g.stock, s)
				takers = append(takers, g.words(l.system()))
			}
		}
		switch {
		case len(takers) == 0:
			return usage("%s: no part is cut from such plate; there are parts of %s", s.flag, l.groupWords())
		case len(takers) > 1 && s.Count > 0:
			return usage("%s: there are parts of %s; say which plate it is by its thickness, its material or both, such as @%s",
				s.flag, strings.Join(takers, " and of "), l.groups[0].tagWords(l.system()))
		}
	}
	for _, g := range l.groups {
		if len(g.stock) == 0 {
			return usage("there is nothing to cut %s from; give a --sheet for it", g.words(l.system()))
		}
	}
	return nil
}
