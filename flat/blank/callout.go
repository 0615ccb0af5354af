package blank

import (
	"math"
	"strings"
	"sync"

	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// drillFits is how far a usual drill may be from the size asked for and still
// be named beside it, mm. A twist drill in a hand-held machine cuts about this
// much over its own size (common practice).
const drillFits = 0.1

// words builds the callout of a hole: what a fabricator reads beside it on the
// paper. Inch files read inches first, others millimetres.
type words struct {
	lead  string // "bore "
	drill string // name of the drill of this size, where it has one: `17/32`, `#7`
	tail  string // what it is for: " for M12 10.9"
	last  string // what comes after that: ", cut 1.312 in (33.33 mm)"
	size  string // set by finish
}

// finish writes the callout into the hole, whose size and method are known.
func (w words) finish(h *Hole, sys unit.System) {
	var buf [96]byte
	b := buf[:0]
	switch {
	case h.Length != 0:
		w.lead = "slot "
		b = appendSlot(b, h.Dia, h.Length, sys)
	case w.drill != "":
		b = appendDrill(b, w.drill, h.Dia, sys)
	default:
		b = appendLength(b, h.Dia, sys)
	}
	w.size = string(b)
	switch h.Method {
	case Drill:
		w.lead = "drill "
		if w.drill == "" || sys != unit.Inch && isFraction(w.drill) {
			// In an inch file a size may still be that of a metric drill.
			d, ok := nextDrill(metricDrills(), h.Dia)
			metric := ok && sys == unit.Inch && num.Zero(d.D-h.Dia)
			if metric {
				w.size = string(appendDrill(buf[:0], d.Name, d.D, sys))
			}
			w.last = usualDrill(h.Dia, sys, metric)
		}
	case Ream:
		w.lead = "ream "
		w.size = string(appendReamed(buf[:0], h.Dia, sys))
		w.last = ", cut " + string(appendLength(buf[:0], h.CutDia, sys)) + ", " + reamSteps(h, sys)
	}
	h.words = w
	h.Callout = w.at(h.Angle)
}

// at is the callout for a slot at an angle.
func (w words) at(angle float64) string {
	turn := ""
	if angle != 0 {
		turn = " at " + num.Short(angle*180/math.Pi, 2) + " deg"
	}
	return w.lead + w.size + turn + w.tail + w.last
}

// appendLength writes `17/32 in (13.49 mm)` or `1.371 in (34.82 mm)` in inch
// files, else `13.5 mm`, with the inch size beside it where it is one:
// `13.49 mm (17/32 in)`.
func appendLength(b []byte, mm float64, sys unit.System) []byte {
	if sys == unit.Inch {
		b = append(appendInch(b, mm), " in ("...)
		return append(appendMM(b, mm), " mm)"...)
	}
	b = append(appendMM(b, mm), " mm"...)
	if f, exact := unit.Fraction(mm); exact {
		b = append(append(append(b, " ("...), f...), " in)"...)
	}
	return b
}

func appendMM(b []byte, mm float64) []byte { return append(b, num.Short(mm, 2)...) }

func appendInch(b []byte, mm float64) []byte {
	if f, exact := unit.Fraction(mm); exact {
		return append(b, f...)
	}
	return append(b, num.Format(mm/unit.MM, 3)...)
}

// appendSlot writes `9/16 x 1-1/4 in (14.29 x 31.75 mm)`, width first.
func appendSlot(b []byte, width, length float64, sys unit.System) []byte {
	if sys == unit.Inch {
		b = append(appendInch(b, width), " x "...)
		b = append(appendInch(b, length), " in ("...)
		b = append(appendMM(b, width), " x "...)
		return append(appendMM(b, length), " mm)"...)
	}
	b = append(appendMM(b, width), " x "...)
	return append(appendMM(b, length), " mm"...)
}

// appendDrill writes a size by the drill that makes it: `#7 (5.11 mm)`.
func appendDrill(b []byte, name string, mm float64, sys unit.System) []byte {
	switch {
	case isMetric(name) && sys == unit.Inch:
		b = append(append(b, name...), " ("...)
		return append(appendInch(b, mm), " in)"...)
	case isMetric(name):
		return append(b, name...)
	case isFraction(name) && sys == unit.Inch:
		b = append(append(b, name...), " in ("...)
	case isFraction(name):
		b = append(appendMM(b, mm), " mm ("...)
		return append(append(b, name...), " in)"...)
	default:
		b = append(append(b, name...), " ("...)
	}
	return append(appendMM(b, mm), " mm)"...)
}

func isMetric(drill string) bool { return strings.HasSuffix(drill, "mm") }

// isFraction tells inch sizes (`17/32`, `1-1/32`) from numbers, letters and
// metric sizes.
func isFraction(drill string) bool {
	return drill != "" && '0' <= drill[0] && drill[0] <= '9' && !isMetric(drill)
}

// drillName is the usual name of a drill that a file names in its own way:
// `no. 7 drill` is #7.
func drillName(text string, mm float64) string {
	s := strings.ToUpper(strings.TrimSpace(text))
	s = strings.TrimSpace(strings.TrimSuffix(s, "DRILL"))
	switch {
	case strings.HasSuffix(s, "MM"):
		return num.Short(mm, 3) + " mm"
	case len(s) == 1 && 'A' <= s[0] && s[0] <= 'Z':
		return s
	case strings.HasPrefix(s, "#"):
		return "#" + strings.TrimSpace(s[1:])
	case strings.HasPrefix(s, "NO"):
		return "#" + strings.TrimSpace(strings.TrimPrefix(s[2:], "."))
	}
	f, _ := unit.Fraction(mm)
	return f
}

func allowanceText(mm float64, sys unit.System) string {
	sign := "+"
	if mm < 0 {
		sign, mm = "-", -mm
	}
	return "allowance " + sign + string(appendLength(nil, mm, sys))
}

// smallestUsual is the finest number drill that a shop drilling plate has at
// hand: #60, 1.02 mm (common practice).
const smallestUsual = 1.0

// inchDrills and metricDrills are the drills that shops have.
var (
	inchDrills = sync.OnceValue(func() []profiles.DrillSize {
		return usualDrills(profiles.FractionDrill, profiles.NumberDrill, profiles.LetterDrill)
	})
	metricDrills = sync.OnceValue(func() []profiles.DrillSize { return usualDrills(profiles.MetricDrill) })
)

func usualDrills(sets ...profiles.DrillSet) []profiles.DrillSize {
	var ds []profiles.DrillSize
	for _, set := range sets {
		for _, d := range profiles.Drills(set) {
			if d.D >= smallestUsual {
				ds = append(ds, d)
			}
		}
	}
	return ds
}

// usualDrill names the drill to take where the size is not that of a drill of the
// file's units: the next larger one that fits, for a smaller drill would leave the
// hole too tight. `, nearest drill 13.5 mm`, or after a size that is that of a
// metric drill `, or #8 (5.05 mm)`.
func usualDrill(mm float64, sys unit.System, metric bool) string {
	drills := metricDrills()
	if sys == unit.Inch {
		drills = inchDrills()
	}
	d, ok := nextDrill(drills, mm)
	if !ok || num.Zero(d.D-mm) || d.D-mm > drillFits {
		return ""
	}
	lead := ", nearest drill "
	if metric {
		lead = ", or "
	}
	return lead + string(appendDrill(nil, d.Name, d.D, sys))
}

// nextDrill is the smallest drill that is not smaller than a size; drills of
// several families may come in any order.
func nextDrill(drills []profiles.DrillSize, mm float64) (best profiles.DrillSize, ok bool) {
	for _, d := range drills {
		if (d.D > mm || num.Zero(d.D-mm)) && (!ok || d.D < best.D) {
			best, ok = d, true
		}
	}
	return best, ok
}

// reamDrill is the usual drill that leaves the reamer its stock; where there is
// none, the size to bore to, in the middle of that.
func (m *maker) reamDrill(h *Hole) float64 {
	drills := metricDrills()
	if m.part.Units == unit.Inch {
		drills = inchDrills()
	}
	least, most := m.set.Limit(profiles.ReamStockLeast), m.set.Limit(profiles.ReamStockMost)
	best := 0.0
	for _, d := range drills {
		if stock := h.Dia - d.D; d.D > best && num.AtLeast(stock, least) && num.AtMost(stock, most) {
			best = d.D
		}
	}
	if best == 0 {
		best = h.Dia - (least+most)/2
	}
	return max(best, h.CutDia)
}

// reamSteps says what comes between the cut and the reamer.
func reamSteps(h *Hole, sys unit.System) string {
	drills := metricDrills()
	if sys == unit.Inch {
		drills = inchDrills()
	}
	for _, d := range drills {
		if d.D == h.DrillDia {
			return "drill " + string(appendDrill(nil, d.Name, d.D, sys))
		}
	}
	return "bore " + string(appendLength(nil, h.DrillDia, sys))
}

// appendReamed writes a size to the hundredth of a millimetre and finer: fits are
// a few of those.
func appendReamed(b []byte, mm float64, sys unit.System) []byte {
	if sys == unit.Inch {
		b = append(append(b, num.Format(mm/unit.MM, 4)...), " in ("...)
		return append(append(b, num.Short(mm, 3)...), " mm)"...)
	}
	return append(append(b, num.Short(mm, 3)...), " mm"...)
}
