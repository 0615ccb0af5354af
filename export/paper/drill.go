package paper

import (
	"math"
	"strings"
	"sync"

	"blankwright/flat/blank"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// Drilling by hand. What is held against the work gets a centre punch, a pilot
// drill and the drill itself.

// pilots are the pilot drills for holes up to a size: about as wide as the
// chisel edge of the drill that follows, so that it does not wander (common
// practice). Larger holes than the last are cut or sawn.
var pilots = [...]struct {
	upTo     float64 // diameter of the hole, mm
	inch, mm string
}{
	{5, "", ""},
	{10.2, "1/8 in", "3 mm"},
	{16.2, "1/4 in", "6 mm"},
	{26, "5/16 in", "8 mm"},
}

// byHand says how the hole is drilled: a drill of the other system, where one
// fits and the callout has none, and the pilot. It is empty of holes that are
// not drilled by hand.
func byHand(h *blank.Hole, sys unit.System) string {
	if h.Purpose != blank.BoltHole && h.Method != blank.Drill && h.Purpose != blank.PlainHole {
		return ""
	}
	var parts []string
	if sys != unit.Inch && h.Length == 0 && h.Method != blank.Ream && !strings.Contains(h.Callout, " in") {
		if name := inchDrill(h.Dia); name != "" {
			parts = append(parts, "or "+name+" in drill")
		}
	}
	for _, p := range pilots {
		if !num.AtMost(h.Dia, p.upTo) {
			continue
		}
		switch {
		case p.inch == "":
		case sys == unit.Inch:
			parts = append(parts, "pilot "+p.inch+" ("+p.mm+")")
		default:
			parts = append(parts, "pilot "+p.mm+" ("+p.inch+")")
		}
		break
	}
	return strings.Join(parts, ", ")
}

// inchNear is how far a fraction drill may be from a metric hole and still be
// named for it, mm: what a twist drill in a hand-held machine cuts over its own
// size (common practice).
const inchNear = 0.1

// inchDrill is the fraction drill that makes a hole of the size, or nothing.
func inchDrill(dia float64) string {
	best, off := "", inchNear
	for _, d := range fractionDrills() {
		if v := math.Abs(d.D - dia); v <= off {
			best, off = d.Name, v
		}
	}
	return best
}

var fractionDrills = sync.OnceValue(func() []profiles.DrillSize { return profiles.Drills(profiles.FractionDrill) })
