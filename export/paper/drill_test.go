package paper

import (
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/unit"
)

// What a person drills with: a pilot in both systems, and on metric sheets the
// fraction drill that fits.
func TestByHand(t *testing.T) {
	bolt := func(dia float64, callout string) blank.Hole {
		return blank.Hole{Purpose: blank.BoltHole, Dia: dia, CutDia: dia, Callout: callout}
	}
	slot := bolt(14.29, "slot 9/16 x 11/16 in")
	slot.Length = 17.46
	ream := bolt(25.4, "ream 25.4 mm")
	ream.Method, ream.CutDia = blank.Ream, 23.5
	drill := bolt(5, "drill 5 mm")
	drill.Method, drill.CutDia = blank.Drill, 0
	for _, c := range []struct {
		h    blank.Hole
		sys  unit.System
		want string
	}{
		{bolt(13.49375, "17/32 in (13.49 mm)"), unit.Inch, "pilot 1/4 in (6 mm)"},
		{bolt(13.5, "13.5 mm for M12"), unit.Millimetre, "or 17/32 in drill, pilot 6 mm (1/4 in)"},
		{bolt(13.1, "13.1 mm"), unit.Millimetre, "or 33/64 in drill, pilot 6 mm (1/4 in)"},
		{bolt(13.3, "13.3 mm"), unit.Millimetre, "pilot 6 mm (1/4 in)"},
		{bolt(12.7, "12.7 mm (1/2 in)"), unit.Millimetre, "pilot 6 mm (1/4 in)"},
		{bolt(6, "6 mm"), unit.Millimetre, "or 15/64 in drill, pilot 3 mm (1/8 in)"},
		{bolt(4, "4 mm"), unit.Millimetre, "or 5/32 in drill"},
		{bolt(25, "25 mm"), unit.Inch, "pilot 5/16 in (8 mm)"},
		{bolt(27, "27 mm"), unit.Inch, ""},
		{slot, unit.Inch, "pilot 1/4 in (6 mm)"},
		{ream, unit.Millimetre, "pilot 8 mm (5/16 in)"},
		{drill, unit.Inch, ""},
		{blank.Hole{Purpose: blank.RingOpening, Dia: 12, CutDia: 12}, unit.Inch, ""},
		{blank.Hole{Purpose: blank.Bore, Dia: 12, CutDia: 12}, unit.Inch, ""},
	} {
		if got := byHand(&c.h, c.sys); got != c.want {
			t.Errorf("%v mm, %s: %q, want %q", c.h.Dia, c.h.Callout, got, c.want)
		}
	}
}
