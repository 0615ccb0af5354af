// Package papertest makes blanks for the tests of everything that draws on
// paper: brackets of the orchard cart "Medlar" from one hole to many, and plates
// that are long, tiny or large.
package papertest

import (
	"fmt"
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// All gives every part, in a fixed order.
func All() []*blank.Blank {
	return []*blank.Blank{
		AxleTab(), Shackle(), ShackleMirrored(), Crossmember(), Gusset(), FlangeRing(), Hanger(),
		BatteryTray(), DraughtBar(), Shim(), DeckPlate(), Disc(), Frame(), Foreign(),
	}
}

// Part is a blank of a name and unit system; outline and holes are still to
// come.
func Part(name string, sys unit.System, thickness float64) *blank.Blank {
	return &blank.Blank{
		Part:      &describe.Part{Name: describe.Word{Text: name, Set: true}, Units: sys},
		Name:      name,
		Revision:  "B",
		Quantity:  2,
		Thickness: thickness,
		Material:  profiles.Material{Name: "A36"},
		Process:   profiles.Process{Name: "air plasma"},
	}
}

// Round adds a round hole that the table cuts.
func Round(b *blank.Blank, name string, x, y, dia float64, callout string) {
	b.Holes = append(b.Holes, blank.Hole{
		Name: name, Centre: geom.Point{X: x, Y: y}, Dia: dia, CutDia: dia, Purpose: blank.BoltHole, Callout: callout,
	})
}

// Row adds count equal holes of one pattern from one place to another.
func Row(b *blank.Blank, set string, from, to geom.Point, count int, dia float64, callout string) {
	for i := range count {
		p := from.Add(to.Sub(from).Mul(float64(i) / float64(count-1)))
		Round(b, fmt.Sprintf("%s.%d", set, i+1), p.X, p.Y, dia, callout)
		b.Holes[len(b.Holes)-1].Set = set
	}
}

// Ring adds count equal holes on a circle.
func Ring(b *blank.Blank, set string, c geom.Circle, count int, dia float64, callout string) {
	for i := range count {
		p := c.C.Polar(c.R, math.Pi/2+2*math.Pi*float64(i)/float64(count))
		Round(b, fmt.Sprintf("%s.%d", set, i+1), p.X, p.Y, dia, callout)
		b.Holes[len(b.Holes)-1].Set = set
	}
}

// Slot adds a slot that the table cuts; angle in degrees.
func Slot(b *blank.Blank, name string, x, y, width, length, angle float64, callout string) {
	b.Holes = append(b.Holes, blank.Hole{
		Name: name, Centre: geom.Point{X: x, Y: y}, Dia: width, CutDia: width, Length: length,
		Angle: angle * math.Pi / 180, Purpose: blank.BoltHole, Callout: callout,
	})
}

func corners(cs ...geom.Corner) geom.Loop {
	l, err := geom.Corners(cs)
	if err != nil {
		panic(err)
	}
	return l
}

func hull(cs ...geom.Circle) geom.Loop {
	l, err := geom.Hull(cs)
	if err != nil {
		panic(err)
	}
	return l
}

func at(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func in(v float64) float64 { return v * unit.MM }

// Rectangle is a plate centred on the origin with rounded corners.
func Rectangle(w, h, r float64) geom.Loop {
	return corners(geom.Corner{P: at(-w/2, -h/2), Radius: r}, geom.Corner{P: at(w/2, -h/2), Radius: r},
		geom.Corner{P: at(w/2, h/2), Radius: r}, geom.Corner{P: at(-w/2, h/2), Radius: r})
}

// AxleTab has one hole.
func AxleTab() *blank.Blank {
	b := Part("axle tab", unit.Inch, in(0.25))
	b.Outline = hull(geom.Circle{C: at(0, 0), R: in(1)}, geom.Circle{C: at(-in(1.75), in(3.75)), R: in(0.25)},
		geom.Circle{C: at(in(1.75), in(3.75)), R: in(0.25)})
	Round(b, "pivot", 0, 0, in(17.0/32), "17/32 in (13.49 mm) for 1/2-13 grade 8")
	return b
}

// Shackle has a hole at each end and one to be drilled.
func Shackle() *blank.Blank {
	b := Part("shackle plate", unit.Inch, in(0.375))
	b.Part.Hand.Text = "pair"
	b.Outline = hull(geom.Circle{C: at(0, 0), R: in(0.875)}, geom.Circle{C: at(0, in(3.5)), R: in(0.875)})
	Round(b, "bottom", 0, 0, in(17.0/32), "17/32 in (13.49 mm) for 1/2-13 grade 8")
	Round(b, "top", 0, in(3.5), in(19.0/32), "19/32 in (15.08 mm) for 9/16-12 grade 8")
	Round(b, "keeper", 0, in(1.75), 5, "drill 0.197 in (5 mm), nearest drill #9 (4.98 mm)")
	b.Holes[2].Method, b.Holes[2].CutDia = blank.Drill, 0
	return b
}

// ShackleMirrored is its twin.
func ShackleMirrored() *blank.Blank {
	b := Shackle()
	b.Hand = blank.Mirrored
	return b
}

// Crossmember has four holes of two kinds and an outline of 24 corners and
// arcs.
func Crossmember() *blank.Blank {
	b := Part("crossmember plate", unit.Millimetre, 6)
	b.Material.Name = "S275JR"
	b.Outline = corners(
		geom.Corner{P: at(0, 0), Radius: 10}, geom.Corner{P: at(50, 0), Radius: 5}, geom.Corner{P: at(60, 20), Radius: 8},
		geom.Corner{P: at(120, 20), Radius: 8}, geom.Corner{P: at(130, 0), Radius: 5}, geom.Corner{P: at(180, 0), Radius: 10},
		geom.Corner{P: at(180, 60), Radius: 12}, geom.Corner{P: at(150, 110), Radius: 15}, geom.Corner{P: at(110, 110), Radius: 6},
		geom.Corner{P: at(90, 95), Radius: 6}, geom.Corner{P: at(70, 110), Radius: 6}, geom.Corner{P: at(0, 110), Radius: 10})
	Round(b, "low left", 25, 18, 13.5, "13.5 mm for M12 10.9")
	Round(b, "low right", 155, 18, 13.5, "13.5 mm for M12 10.9")
	Round(b, "bush", 45, 70, 34.7, "ream 34.93 mm (1 3/8 in), cut 34.7 mm")
	b.Holes[2].Method, b.Holes[2].Dia = blank.Ream, 34.93
	Slot(b, "adjust", 125, 70, 13.5, 40, 30, "slot 13.5 x 40 mm at 30 deg for M12 10.9")
	return b
}

// Gusset has no hole, a snipe and a hollow edge.
func Gusset() *blank.Blank {
	b := Part("gusset", unit.Millimetre, 5)
	b.Revision = ""
	free := geom.Circle{C: at(88.30951894845301, 88.30951894845301), R: 80}
	b.Outline = geom.Loop{
		geom.Line(at(12, 0), at(80, 0)), geom.Line(at(80, 0), at(80, 8.741973)),
		geom.Arc(free, at(80, 8.741973), at(8.741973, 80), false),
		geom.Line(at(8.741973, 80), at(0, 80)), geom.Line(at(0, 80), at(0, 12)), geom.Line(at(0, 12), at(12, 0)),
	}
	return b
}

// FlangeRing has eight holes on a circle round its opening.
func FlangeRing() *blank.Blank {
	b := Part("flange ring", unit.Millimetre, 10)
	b.Outline = geom.CircleLoop(geom.Circle{R: 80})
	b.Holes = append(b.Holes, blank.Hole{Name: "ring", Purpose: blank.RingOpening, Dia: 89, CutDia: 89, Callout: "89 mm"})
	Ring(b, "bolts", geom.Circle{R: 62.5}, 8, 13.5, "13.5 mm for M12 8.8")
	return b
}

// Hanger has twelve holes of five kinds.
func Hanger() *blank.Blank {
	b := Part("spring hanger plate", unit.Inch, in(0.25))
	b.Outline = corners(
		geom.Corner{P: at(0, 0), Radius: in(0.5)}, geom.Corner{P: at(in(7), 0), Radius: in(0.5)},
		geom.Corner{P: at(in(7), in(2.5)), Radius: in(0.5)}, geom.Corner{P: at(in(4.5), in(5)), Radius: in(1)},
		geom.Corner{P: at(in(2.5), in(5)), Radius: in(1)}, geom.Corner{P: at(0, in(2.5)), Radius: in(0.5)})
	Row(b, "foot", at(in(0.75), in(0.75)), at(in(6.25), in(0.75)), 6, in(13.0/32), "13/32 in (10.32 mm) for 3/8-16 grade 5")
	Row(b, "rail", at(in(2), in(2)), at(in(5), in(2)), 3, in(17.0/32), "17/32 in (13.49 mm) for 1/2-13 grade 8")
	Round(b, "eye", in(3.5), in(4), in(9.0/16), "9/16 in (14.29 mm) for 14 mm pin")
	Round(b, "drain", in(1), in(2.2), 6, "0.236 in (6 mm)")
	Slot(b, "adjust", in(3.5), in(2.9), in(9.0/16), in(1.5), 0, "slot 9/16 x 1-1/2 in (14.29 x 38.1 mm) for 1/2-13 grade 8")
	return b
}

// BatteryTray has sixty holes.
func BatteryTray() *blank.Blank {
	b := Part("battery tray floor", unit.Millimetre, 3)
	b.Outline = Rectangle(360, 230, 12)
	for r := range 5 {
		y := -80 + 40*float64(r)
		Row(b, "vent", at(-150, y), at(150, y), 11, 12, "12 mm")
	}
	for _, x := range []float64{-165, 165} {
		Row(b, "rim", at(x, -100), at(x, 100), 2, 6.6, "6.6 mm for M6 8.8")
	}
	Round(b, "drain", 0, -102, 20, "20 mm")
	return b
}

// DraughtBar is long and thin.
func DraughtBar() *blank.Blank {
	b := Part("draught bar", unit.Millimetre, 8)
	b.Outline = Rectangle(620, 38, 6)
	Row(b, "pin", at(-280, 0), at(280, 0), 8, 13.5, "13.5 mm for M12 8.8")
	Slot(b, "end", 300, 0, 8, 14, 90, "slot 8 x 14 mm")
	return b
}

// Shim is tiny.
func Shim() *blank.Blank {
	b := Part("shim", unit.Millimetre, 1)
	b.Outline = Rectangle(12, 8, 1)
	Round(b, "screw", 0, 0, 3.4, "3.4 mm for M3 8.8")
	return b
}

// DeckPlate is larger than common paper.
func DeckPlate() *blank.Blank {
	b := Part("deck plate", unit.Inch, in(0.1875))
	b.Outline = Rectangle(in(50), in(28), in(1))
	Round(b, "a", in(-20), in(10), in(0.5), "1/2 in (12.7 mm)")
	Round(b, "b", in(20), in(-10), in(0.5), "1/2 in (12.7 mm)")
	Slot(b, "hand hole", 0, 0, in(2), in(5), 0, "slot 2 x 5 in (50.8 x 127 mm)")
	return b
}

// Disc is round, and its one bore is large.
func Disc() *blank.Blank {
	b := Part("brake backing disc", unit.Millimetre, 4)
	b.Outline = geom.CircleLoop(geom.Circle{C: at(50, 50), R: 60})
	Round(b, "bore", 50, 50, 62, "bore 62 mm")
	return b
}

// Frame has cutouts: a large one with round corners, one with bites in its corners
// and a round one; and notes of its own.
func Frame() *blank.Blank {
	b := Part("battery frame", unit.Millimetre, 5)
	b.Outline = Rectangle(180, 120, 8)
	window := Rectangle(80, 70, 10)
	bites := geom.Loop{
		geom.Line(at(64, -28), at(66, -28)), geom.Arc(geom.Circle{C: at(67, -28), R: 1}, at(66, -28), at(68, -28), true),
		geom.Line(at(68, -28), at(70, -28)), geom.Line(at(70, -28), at(70, 8)), geom.Line(at(70, 8), at(64, 8)), geom.Line(at(64, 8), at(64, -28)),
	}
	b.Cutouts = []blank.Cutout{
		{Name: "window", Purpose: blank.CutoutOpening, Loop: window},
		{Name: "tab", Purpose: blank.TabSlotOpening, Loop: bites},
		{Name: "eye", Purpose: blank.CutoutOpening, Loop: geom.CircleLoop(geom.Circle{C: at(-66, 0), R: 9})},
	}
	b.Notes = []string{"tab slot \"tab\": 6.00 mm by 36.00 mm for a tab 35.60 mm wide of 5.60 mm plate"}
	Round(b, "a", -75, 45, 9, "9 mm for M8 8.8")
	Round(b, "b", 75, 45, 9, "9 mm for M8 8.8")
	return b
}

// Foreign has words in it that must not get out of their place.
func Foreign() *blank.Blank {
	b := Part("Fräsplatte <b>&\"'\n</text><script>alert(1)</script>"+string([]byte{0xff, 0x00})+"\u202e 軸受 ]]> --> %d %s", unit.Millimetre, 6)
	b.Revision = "<!-- ' onload='x' \" " + "9"
	b.Material.Name = "S355 & <S275>, normalised and cut from the sheet that lies behind the shed"
	b.Part.Note.Text = "</svg>\r\n<rect width='9' height='9'/>"
	b.Outline = Rectangle(90, 60, 5)
	Round(b, "a", -20, 0, 10, "10 mm \"for\" <M9> & \x01 more\n, drilled")
	b.Marks = []blank.MarkText{{Text: "<&\">", At: at(0, -20)}, {Text: "name", Auto: true}}
	return b
}

// Screen is a plate with columns by rows equal holes, pitch mm apart.
func Screen(cols, rows int, pitch float64) *blank.Blank {
	b := Part("screen", unit.Millimetre, 3)
	b.Outline = Rectangle(float64(cols+1)*pitch, float64(rows+1)*pitch, 10)
	for r := range rows {
		x, y := pitch*float64(cols-1)/2, pitch*(float64(r)-float64(rows-1)/2)
		Row(b, fmt.Sprintf("row%d", r+1), at(-x, y), at(x, y), cols, 8, "8 mm")
	}
	return b
}
