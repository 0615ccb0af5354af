package blank

import (
	"math"
	"slices"
	"strings"
	"testing"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// slotted is a size with a slot of a length, mm, or a kind.
func slotted(s describe.Size, length float64, kind string) describe.Size {
	s.Slot = &describe.Slot{Pos: at(50), Kind: describe.Word{Text: kind, Set: kind != "", Pos: at(50)}}
	if length != 0 {
		s.Slot.Length = describe.Length{MM: length, Set: true, Pos: at(50)}
	}
	return s
}

func fitted(s describe.Size, fit, standard string) describe.Size {
	s.Fit, s.Standard = word(fit), word(standard)
	return s
}

func bored(d describe.Length, kind string) describe.Size {
	return describe.Size{Bore: d, Allow: describe.Allow{Kind: word(kind), Pos: at(50)}}
}

func bored2(d, amount describe.Length) describe.Size {
	return describe.Size{Bore: d, Allow: describe.Allow{Amount: amount, Pos: at(50)}}
}

// Sizes come from the tables and the callout reads as a fabricator would say
// it: inches first in inch files, millimetres first in others.
func TestSizesAndCallouts(t *testing.T) {
	in64 := unit.MM / 64
	for _, c := range []struct {
		name          string
		size          describe.Size
		how           string
		dia, cut, len float64
		inch, metric  string // callouts
		source        string
	}{
		{"inch bolt", fitted(bolt("1/2-13 grade 8"), "close", ""), "", 34 * in64, 34 * in64, 0,
			"17/32 in (13.49 mm) for 1/2-13 grade 8", "13.49 mm (17/32 in) for 1/2-13 grade 8", "ASME B18.2.8"},
		{"inch bolt, normal fit", bolt("1/2"), "", 36 * in64, 36 * in64, 0,
			"9/16 in (14.29 mm) for 1/2", "14.29 mm (9/16 in) for 1/2", "normal fit"},
		{"metric bolt", bolt("M12 10.9"), "", 13.5, 13.5, 0,
			"0.531 in (13.5 mm) for M12 10.9", "13.5 mm for M12 10.9", "ISO 273:1979"},
		{"metric bolt, loose", fitted(bolt("M10"), "loose", "iso 273"), "", 12, 12, 0,
			"0.472 in (12 mm) for M10", "12 mm for M10", "coarse series"},
		{"structural", fitted(bolt("M20"), "standard", "aisc j3.3"), "", 22, 22, 0,
			"0.866 in (22 mm) for M20", "22 mm for M20", "J3.3M"},
		{"drilled for a bolt", fitted(bolt("1/2-13 grade 8"), "close", ""), "drill", 34 * in64, 0, 0,
			"drill 17/32 in (13.49 mm) for 1/2-13 grade 8", "drill 13.49 mm (17/32 in) for 1/2-13 grade 8, nearest drill 13.5 mm", "ASME"},
		{"number screw", bolt("#10-24"), "drill", 0.221 * unit.MM, 0, 0,
			"drill #2 (5.61 mm) for #10-24", "drill #2 (5.61 mm) for #10-24", "ASME"},
		{"plain", dia(5), "", 5, 5, 0, "0.197 in (5 mm)", "5 mm", "as described"},
		{"drilled", dia(5), "drill", 5, 0, 0,
			"drill 5 mm (0.197 in), or #8 (5.05 mm)", "drill 5 mm", "as described"},
		{"drilled, no drill near", dia(47.3), "drill", 47.3, 0, 0, "drill 1.862 in (47.3 mm)", "drill 47.3 mm", "as described"},
		{"drill by number", describe.Size{Drill: word("#7")}, "drill", 0.201 * unit.MM, 0, 0,
			"drill #7 (5.11 mm)", "drill #7 (5.11 mm)", "number drills"},
		{"cut to a drill's size", describe.Size{Drill: word("F")}, "", 0.257 * unit.MM, 0.257 * unit.MM, 0,
			"F (6.53 mm)", "F (6.53 mm)", "letter drills"},
		{"fraction drill", describe.Size{Drill: word("1-1/16")}, "drill", 68 * in64, 0, 0,
			"drill 1-1/16 in (26.99 mm)", "drill 26.99 mm (1-1/16 in), nearest drill 27 mm", "fraction drills"},
		{"number drill by another name", describe.Size{Drill: word("no. 7 drill")}, "drill", 0.201 * unit.MM, 0, 0,
			"drill #7 (5.11 mm)", "drill #7 (5.11 mm)", "number drills"},
		{"letter that starts a word", describe.Size{Drill: word("n")}, "drill", 0.302 * unit.MM, 0, 0,
			"drill N (7.67 mm)", "drill N (7.67 mm)", "letter drills"},
		{"fraction with its unit", describe.Size{Drill: word("17/32 in")}, "drill", 34 * in64, 0, 0,
			"drill 17/32 in (13.49 mm)", "drill 13.49 mm (17/32 in), nearest drill 13.5 mm", "fraction drills"},
		{"metric drill", describe.Size{Drill: word("6.8mm")}, "drill", 6.8, 0, 0,
			"drill 6.8 mm (0.268 in)", "drill 6.8 mm", "metric drills"},
		{"reamed", dia(25), "ream", 25, 23.5, 0,
			"ream 0.9843 in (25 mm), cut 0.925 in (23.5 mm), drill 31/32 in (24.61 mm)", "ream 25 mm, cut 23.5 mm, drill 24.5 mm", "as described"},
		{"press fit", bored(inch(1.375), "press"), "", 34.9035, 33.4035, 0,
			"ream 1.3742 in (34.903 mm), press fit for 1-3/8 in (34.92 mm), cut 1.315 in (33.4 mm), drill 1-23/64 in (34.53 mm)",
			"ream 34.903 mm, press fit for 34.92 mm (1-3/8 in), cut 33.4 mm, bore 34.55 mm", "ISO 286-2, H7/p6, middle of the interference (from memory, verify)"},
		{"slip fit", bored(mm(30), "slip"), "", 30.024, 28.524, 0,
			"ream 1.1820 in (30.024 mm), slip fit for 1.181 in (30 mm), cut 1.123 in (28.52 mm), drill 1-11/64 in (29.77 mm)",
			"ream 30.024 mm, slip fit for 30 mm, cut 28.52 mm, bore 29.67 mm", "H7/g6"},
		{"press fit, cut at once", bored(mm(30), "press"), "cut", 29.982, 29.982, 0,
			"bore 1.180 in (29.98 mm), press fit for 1.181 in (30 mm)", "bore 29.98 mm, press fit for 30 mm", "H7/p6"},
		{"shell of a rubber bush", bored(mm(40), "shell"), "", 39.9, 38.4, 0,
			"ream 1.5709 in (39.9 mm), shell fit for 1.575 in (40 mm), cut 1.512 in (38.4 mm), drill 1-9/16 in (39.69 mm)",
			"ream 39.9 mm, shell fit for 40 mm, cut 38.4 mm, bore 39.55 mm", "common practice for the shells of rubber bushes"},
		{"typed allowance", bored2(mm(30), mm(-0.05)), "", 29.95, 29.95, 0,
			"bore 1.179 in (29.95 mm), allowance -0.002 in (0.05 mm), for 1.181 in (30 mm)",
			"bore 29.95 mm, allowance -0.05 mm, for 30 mm", "as described"},
		{"no allowance", bored(mm(30), "none"), "", 30, 30, 0,
			"bore 1.181 in (30 mm), no allowance, for 1.181 in (30 mm)", "bore 30 mm, no allowance, for 30 mm", "no allowance"},
		{"slot by length", slotted(dia(10), 30, ""), "", 10, 10, 30,
			"slot 0.394 x 1.181 in (10 x 30 mm)", "slot 10 x 30 mm", "as described"},
		{"slot for a bolt", slotted(bolt("M12"), 30, ""), "", 13.5, 13.5, 30,
			"slot 0.531 x 1.181 in (13.5 x 30 mm) for M12", "slot 13.5 x 30 mm for M12", "ISO 273"},
		{"short slot", slotted(bolt("3/4"), 0, "short"), "", 52 * in64, 52 * in64, 64 * in64,
			"slot 13/16 x 1 in (20.64 x 25.4 mm) for 3/4", "slot 20.64 x 25.4 mm for 3/4", "short slots"},
		{"long slot", slotted(bolt("M20"), 0, "long"), "", 22, 22, 50,
			"slot 0.866 x 1.969 in (22 x 50 mm) for M20", "slot 22 x 50 mm for M20", "long slots"},
	} {
		t.Run(c.name, func(t *testing.T) {
			set := hole("h", place(3, 4), c.size)
			set.How = describe.Word{Text: c.how, Set: c.how != ""}
			p := plate(big(), set)
			h := made(t, p).Holes[0]
			near(t, "diameter", h.Dia, c.dia, 1e-9)
			near(t, "cut diameter", h.CutDia, c.cut, 1e-9)
			near(t, "length", h.Length, c.len, 1e-9)
			if h.Callout != c.metric {
				t.Errorf("callout in a mm file is\n%q, want\n%q", h.Callout, c.metric)
			}
			if !strings.Contains(h.Source, c.source) {
				t.Errorf("source is %q, want it to name %q", h.Source, c.source)
			}
			if h.Centre != (geom.Point{X: 3, Y: 4}) || h.Pos != at(10) || h.Set != "h" {
				t.Errorf("place or name is lost: %+v", h)
			}
			p.Units = unit.Inch
			if h := made(t, p).Holes[0]; h.Callout != c.inch {
				t.Errorf("callout in an inch file is\n%q, want\n%q", h.Callout, c.inch)
			}
		})
	}
}

func TestPurposeMethodAndBolt(t *testing.T) {
	b := made(t, plate(big(), hole("a", place(0, 0), bolt("M12 8.8")), hole("b", place(50, 0), dia(8)), hole("c", place(100, 0), bored(mm(30), "press"))))
	a, plain, bore := b.Holes[0], b.Holes[1], b.Holes[2]
	if a.Purpose != BoltHole || a.Bolt == nil || a.Bolt.Name != "M12 8.8" || a.Method != Cut {
		t.Errorf("bolt hole is %+v", a)
	}
	if plain.Purpose != PlainHole || plain.Bolt != nil || plain.Nominal != 0 {
		t.Errorf("plain hole is %+v", plain)
	}
	if bore.Purpose != Bore || bore.Method != Ream || bore.Nominal != 30 {
		t.Errorf("bore is %+v", bore)
	}
}

func TestSizesThatCannotBe(t *testing.T) {
	how := func(s string) describe.Word { return wordAt(s, 60) }
	for _, c := range []struct {
		name, want string
		line       int
		size       describe.Size
		how        describe.Word
	}{
		{"no size", "has no size", 10, describe.Size{}, describe.Word{}},
		{"unknown bolt", "5/7", 40, describe.Size{Bolt: wordAt("5/7", 40)}, describe.Word{}},
		{"fit that the standard lacks", "oversized", 41, describe.Size{Bolt: word("M12"), Fit: wordAt("oversized", 41)}, describe.Word{}},
		{"bolt that the table lacks", "J3.3", 40, describe.Size{Bolt: wordAt("3/8", 40), Standard: word("aisc j3.3")}, describe.Word{}},
		{"unknown drill", "#99", 42, describe.Size{Drill: wordAt("#99", 42)}, describe.Word{}},
		{"no diameter", "more than nothing", 10, dia(0), describe.Word{}},
		{"less than no diameter", "more than nothing", 10, dia(-3), describe.Word{}},
		{"huge", "out of reach", 10, dia(1e8), describe.Word{}},
		{"bore of nothing", "leaves nothing", 50, bored2(mm(0.1), mm(-0.2)), describe.Word{}},
		{"unknown allowance", "press, slip, shell, none", 51, describe.Size{Bore: mm(30), Allow: describe.Allow{Kind: wordAt("shrink", 51), Pos: at(51)}}, describe.Word{}},
		{"infinite allowance", "out of reach", 10, bored2(mm(30), describe.Length{MM: math.Inf(1), Set: true, Pos: at(10)}), describe.Word{}},
		{"slot shorter than wide", "no longer than it is wide", 50, slotted(dia(12), 12, ""), describe.Word{}},
		{"slot without length", "length of the slot is missing", 50, slotted(dia(12), 0, ""), describe.Word{}},
		{"kind of slot without a bolt", "made for a bolt", 50, slotted(dia(12), 0, "short"), describe.Word{}},
		{"kind of slot that there is not", "short", 50, slotted(bolt("M16"), 0, "medium"), describe.Word{}},
		{"slotted bore", "only a bolt hole", 50, slotted(bored(mm(30), "none"), 40, ""), describe.Word{}},
		{"slotted drill", "only a bolt hole", 50, slotted(describe.Size{Drill: word("#7")}, 40, ""), describe.Word{}},
		{"drilled slot", "cannot be drilled", 60, slotted(dia(10), 40, ""), how("drill")},
		{"reamed slot", "cannot be reamed", 60, slotted(dia(10), 40, ""), how("ream")},
		{"too small to ream", "too small", 60, dia(2.9), how("ream")},
		{"unknown way", "cut, drill, ream", 60, dia(10), how("punch")},
	} {
		t.Run(c.name, func(t *testing.T) {
			set := hole("h", place(0, 0), c.size)
			set.How = c.how
			wantProblem(t, plate(big(), set), c.line, c.want)
		})
	}
	set := hole("h", place(0, 0), dia(3))
	set.How = how("ream")
	if h := made(t, plate(big(), set)).Holes[0]; h.CutDia != 1.5 {
		t.Errorf("a 3 mm hole to ream is cut %g, want 1.5", h.CutDia)
	}
}

// Loops are made once: what the blank hands out is shared, and still follows
// the hole where someone changes a copy of it.
func TestLoopsAreMadeOnceAndFollowTheHole(t *testing.T) {
	b := made(t, plate(big(), hole("a", place(1, 2), dia(8)), hole("s", place(50, 2), slotted(dia(8), 20, ""))))
	for _, h := range b.Holes {
		if first, second := h.Finished(), h.Finished(); &first[0] != &second[0] || &h.AsCut()[0] != &first[0] {
			t.Errorf("loops of %q are made anew", h.Name)
		}
		if h.Finished().Area() <= 0 {
			t.Errorf("boundary of %q runs clockwise", h.Name)
		}
		h.Dia, h.CutDia = 6, 4
		want, cut := math.Pi*9, math.Pi*4
		if h.Length > 0 {
			want, cut = want+6*14, cut+4*14 // its ends stay as far apart
		}
		near(t, "area after the change", h.Finished().Area(), want, 1e-9)
		near(t, "cut area after the change", h.AsCut().Area(), cut, 1e-9)
	}
	r := b.Region()
	near(t, "plate", r.Area(), 1e6-math.Pi*16*2-8*12, 1e-6)
	if err := r.Validate(); err != nil {
		t.Error(err)
	}
	if n := testing.AllocsPerRun(10, func() { b.Region() }); n > 1 {
		t.Errorf("the region takes %g allocations, want 1", n)
	}
}

func TestDrilledHolesAreStillMetal(t *testing.T) {
	set := hole("a", place(0, 0), dia(8))
	set.How = word("drill")
	b := made(t, plate(big(), set))
	if b.Holes[0].AsCut() != nil || len(b.Region().Holes) != 0 {
		t.Error("a drilled hole is cut")
	}
	near(t, "finished area", b.Holes[0].Finished().Area(), math.Pi*16, 1e-9)
}

func TestSeveralProblemsAtOnce(t *testing.T) {
	from, to := xy(0, 0), xy(50, 0)
	p := plate(describe.Shape{Tangent: []describe.Boss{
		{Pos: at(101), Hole: wordAt("pivto", 101), Radius: mm(20)},
		{Pos: at(102), Hole: wordAt("keeper", 102), Radius: mm(10)}, // its size is at fault, not its place
		{Pos: at(103), Hole: wordAt("adjust", 103), Radius: mm(10)},
		{Pos: at(104), Hole: wordAt("adjust.7", 104), Radius: mm(10)},
		{Pos: at(105), Hole: wordAt("lost", 105), Radius: mm(10)}, // its place is at fault: said once
	}},
		hole("pivot", place(0, 0), bolt("M12")),
		hole("keeper", place(50, 0), describe.Size{Bolt: wordAt("M13", 11)}),
		describe.HoleSet{Name: word("adjust"), Place: describe.Place{Row: &describe.Row{From: from, To: to, Count: n(3)}}, Size: dia(5)},
		hole("lost", describe.Place{}, dia(5)),
	)
	p.Process = wordAt("air plasm", 5)
	p.Plate.Material = wordAt("A37", 4)
	p.Hand, p.Quantity = word("pair"), describe.Count{N: 3, Set: true, Pos: at(3)}
	ps := refused(t, p)
	want := []struct {
		line int
		text string
	}{{3, "even number"}, {4, "A37"}, {5, "air plasma"}, {11, "M13"}, {13, "has no place"},
		{101, `did you mean "pivot"?`}, {103, "adjust.1 to adjust.3"}, {104, "adjust.1 to adjust.3"}}
	if len(ps) != len(want) {
		t.Fatalf("got %d problems, want %d:\n%s", len(ps), len(want), ps)
	}
	for i, w := range want {
		if ps[i].Pos.Line != w.line || !strings.Contains(ps[i].Message+ps[i].Hint, w.text) {
			t.Errorf("problem %d is %s: %s (%s), want line %d and %q", i+1, ps[i].Pos, ps[i].Message, ps[i].Hint, w.line, w.text)
		}
	}
}

func TestNamesServeOnce(t *testing.T) {
	row := describe.Place{Row: &describe.Row{From: xy(0, 0), To: xy(50, 0), Count: n(2)}}
	wantProblem(t, plate(big(), hole("a.2", place(0, 50), dia(5)), hole("a", row, dia(5))), 11, `two holes are named "a.2"`)
	wantProblem(t, plate(big(), hole("a", place(0, 50), dia(5)), hole("a", place(0, 0), dia(5))), 11, `two holes are named "a"`)
	wantProblem(t, plate(big(), hole("a", row, dia(5)), hole("a", place(0, 0), dia(5))), 11, `two holes are named "a"`)
	wantProblem(t, plate(big(), hole("", place(0, 0), dia(5))), 10, "no name")
}

func TestBossNames(t *testing.T) {
	disc := func(name string) describe.Shape {
		return describe.Shape{Tangent: []describe.Boss{{Pos: at(101), Hole: wordAt(name, 101), Radius: mm(20)}}}
	}
	made(t, plate(disc("pin.1"), hole("pin", place(0, 0), dia(5))))
	wantProblem(t, plate(disc("pin.2"), hole("pin", place(0, 0), dia(5))), 101, "write hole: pin")
	wantProblem(t, plate(disc("zebra"), hole("pin", place(0, 0), dia(5))), 101, "listed under holes")
}

func TestShapesThatCannotBe(t *testing.T) {
	corner := func(line int, x, y, r float64) describe.Corner {
		c := describe.Corner{Pos: at(line), At: xy(x, y)}
		if r != 0 {
			c.Radius = describe.Length{MM: r, Set: true, Pos: at(line)}
		}
		return c
	}
	length := func(v float64) describe.Length { return describe.Length{MM: v, Set: true, Pos: at(105)} }
	pin := describe.Boss{Pos: at(101), Hole: wordAt("pin", 101)}
	for _, c := range []struct {
		name, want string
		line       int
		shape      describe.Shape
	}{
		{"no shape", "has no shape", 100, describe.Shape{}},
		{"bow tie", "touches or crosses itself at 25.00 mm, 25.00 mm", 103, describe.Shape{Corners: []describe.Corner{
			corner(101, 0, 0, 0), corner(102, 50, 50, 0), corner(103, 50, 0, 0), corner(104, 0, 50, 0)}}},
		{"touching side", "touches or crosses itself", 104, describe.Shape{Corners: []describe.Corner{
			corner(101, 0, 0, 0), corner(102, 100, 0, 0), corner(103, 100, 50, 0), corner(104, 50, 0, 0), corner(105, 0, 50, 0)}}},
		{"radius that does not fit", "or less", 102, describe.Shape{Corners: []describe.Corner{
			corner(101, 0, 0, 0), corner(102, 50, 0, 60), corner(103, 50, 50, 0)}}},
		{"two corners", "wanted 3 or more", 100, describe.Shape{Corners: []describe.Corner{corner(101, 0, 0, 0), corner(102, 50, 0, 0)}}},
		{"corner on its neighbour", "corner 2", 102, describe.Shape{Corners: []describe.Corner{
			corner(101, 0, 0, 0), corner(102, 50, 0, 0), corner(103, 50, 0, 0), corner(104, 0, 50, 0)}}},
		{"no area", "turns straight back", 101, describe.Shape{Corners: []describe.Corner{
			corner(101, 0, 0, 0), corner(102, 50, 0, 0), corner(103, 90, 0, 0)}}},
		{"radius and chamfer", "wanted one of them", 105, describe.Shape{Rectangle: &describe.Rectangle{
			Pos: at(101), Width: mm(50), Height: mm(50), Radius: length(5), Chamfer: length(5)}}},
		{"rectangle radius", "make it 20.00 mm or less", 105, describe.Shape{Rectangle: &describe.Rectangle{
			Pos: at(101), Width: mm(50), Height: mm(40), Radius: length(21)}}},
		{"ring inside out", "wanted less than its outside", 105, describe.Shape{Ring: &describe.Ring{Pos: at(101), Outside: mm(50), Inside: length(50)}}},
		{"disc of nothing", "more than nothing", 101, describe.Shape{Disc: &describe.Disc{Pos: at(101), Diameter: mm(0)}}},
		{"boss without radius", "radius of the boss is missing", 101, describe.Shape{Tangent: []describe.Boss{{Pos: at(101), At: place(0, 0).At}}}},
		{"boss nowhere", "neither a hole nor a place", 101, describe.Shape{Tangent: []describe.Boss{{Pos: at(101), Radius: mm(5)}}}},
		{"boss twice", "both a hole and a place", 101, describe.Shape{Tangent: []describe.Boss{{Pos: at(101), Hole: word("pin"), At: place(0, 0).At, Radius: mm(5)}}}},
		{"no boss", "no circles", 100, describe.Shape{Tangent: []describe.Boss{}}},
		{"link of one", "wanted 2 or more", 101, describe.Shape{LinkPlate: &describe.LinkPlate{Pos: at(101), Through: []describe.Boss{pin}}}},
		{"link on one place", "lie on one another", 101, describe.Shape{LinkPlate: &describe.LinkPlate{Pos: at(101), Through: []describe.Boss{pin, pin}, Widths: []describe.Length{mm(20)}}}},
		{"link with too many widths", "wanted 1 or 2", 101, describe.Shape{LinkPlate: &describe.LinkPlate{Pos: at(101), Through: []describe.Boss{pin, boss(50, 0, 0)},
			Widths: []describe.Length{mm(20), mm(20), mm(20)}}}},
		{"link end swallowed", "swallowed by boss 2", 101, describe.Shape{LinkPlate: &describe.LinkPlate{Pos: at(101), Through: []describe.Boss{pin, {Pos: at(102), At: place(10, 0).At}},
			Widths: []describe.Length{mm(20), mm(80)}}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			wantProblem(t, plate(c.shape, hole("pin", place(0, 0), dia(5))), c.line, c.want)
		})
	}
}

func TestWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{AsDrawn.String(), "as drawn"}, {Mirrored.String(), "mirrored"},
		{PlainHole.String(), "hole"}, {BoltHole.String(), "bolt hole"}, {Bore.String(), "bore"}, {RingOpening.String(), "ring opening"},
		{Cut.String(), "cut"}, {Drill.String(), "drill"}, {Ream.String(), "ream"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestMarks(t *testing.T) {
	p := plate(big())
	p.Marks = []describe.Mark{
		{Pos: at(70), Text: word("name")},
		{Pos: at(71), Text: word("this side up"), At: place(30, 12).At},
	}
	b := made(t, p)
	want := []MarkText{{Pos: at(70), Text: "axle tab", Auto: true}, {Pos: at(71), Text: "this side up", At: geom.Point{X: 30, Y: 12}}}
	for i, m := range b.Marks {
		if m != want[i] {
			t.Errorf("mark %d is %+v, want %+v", i+1, m, want[i])
		}
	}
	p.Marks[1].At.X.MM = math.Inf(1)
	wantProblem(t, p, 71, "out of reach")
}

// A file that says nothing of marks gets the part's name, printed and read again as
// well; an empty list is none.
func TestMarksWhereNothingIsSaid(t *testing.T) {
	for text, want := range map[string][]string{"": {"a"}, "marks: []\n": nil, "marks:\n": nil, "marks: [{text: B7}]\n": {"B7"}} {
		p, err := describe.Parse("a.yaml", []byte(joined+text))
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{joined + text, string(describe.Print(p))} {
			for _, b := range madeOf(t, text) {
				var got []string
				for _, m := range b.Marks {
					got = append(got, m.Text)
				}
				if !slices.Equal(got, want) {
					t.Errorf("%s: marked %q, want %q:\n%s", b.Hand, got, want, text)
				}
			}
		}
	}
}

func TestHeadOfTheFile(t *testing.T) {
	p := plate(big())
	p.Revision, p.Quantity = word("B"), n(6)
	b := made(t, p)
	if b.Name != "axle tab" || b.Revision != "B" || b.Quantity != 6 || b.Thickness != 6.35 || b.Part != p ||
		b.Material.Name != "A36" || b.Process.Name != "air plasma" || b.Hand != AsDrawn {
		t.Errorf("the blank is %+v", b)
	}
	p.Plate.Thickness = describe.Length{}
	wantProblem(t, p, 2, "plate thickness is missing")
}

func TestProblemsAreSorted(t *testing.T) {
	p := plate(big(), hole("b", place(0, 0), dia(0)), hole("a", describe.Place{}, dia(5)))
	p.Holes[0].Pos, p.Holes[1].Pos = at(30), at(20)
	p.Holes[0].Name.Pos, p.Holes[1].Name.Pos = diag.Pos{}, diag.Pos{}
	ps := refused(t, p)
	if len(ps) != 2 || ps[0].Pos.Line != 20 || ps[1].Pos.Line != 30 {
		t.Errorf("problems are\n%s", ps)
	}
}
