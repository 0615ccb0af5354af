package profiles

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
)

// DrillSet is a family of drill sizes.
type DrillSet int

// The families of drill sizes.
const (
	NumberDrill DrillSet = iota
	LetterDrill
	FractionDrill
	MetricDrill
)

// DrillSize is one twist drill.
type DrillSize struct {
	Name string  // `#7`, `F`, `17/32`, `6.8 mm`
	D    float64 // mm
	Set  DrillSet
}

// numberDrills are the diameters (in) of drills #1 to #80.
var numberDrills = [...]float64{
	0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935,
	0.1910, 0.1890, 0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610,
	0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285,
	0.1200, 0.1160, 0.1130, 0.1110, 0.1100, 0.1065, 0.1040, 0.1015, 0.0995, 0.0980,
	0.0960, 0.0935, 0.0890, 0.0860, 0.0820, 0.0810, 0.0785, 0.0760, 0.0730, 0.0700,
	0.0670, 0.0635, 0.0595, 0.0550, 0.0520, 0.0465, 0.0430, 0.0420, 0.0410, 0.0400,
	0.0390, 0.0380, 0.0370, 0.0360, 0.0350, 0.0330, 0.0320, 0.0310, 0.0292, 0.0280,
	0.0260, 0.0250, 0.0240, 0.0225, 0.0210, 0.0200, 0.0180, 0.0160, 0.0145, 0.0135,
}

// letterDrills are the diameters (in) of drills A to Z.
var letterDrills = [...]float64{
	0.2340, 0.2380, 0.2420, 0.2460, 0.2500, 0.2570, 0.2610, 0.2660, 0.2720, 0.2770,
	0.2810, 0.2900, 0.2950, 0.3020, 0.3160, 0.3230, 0.3320, 0.3390, 0.3480, 0.3580,
	0.3680, 0.3770, 0.3860, 0.3970, 0.4040, 0.4130,
}

// Fraction drills go by 64ths of an inch to 1-3/4, then by 32nds to 2; here in
// 64ths.
const (
	finestFraction  = 112
	largestFraction = 128
)

var drillSources = [...]Source{
	NumberDrill:   {"ASME B94.11M, number drills #1 to #80", FromMemory},
	LetterDrill:   {"ASME B94.11M, letter drills A to Z", FromMemory},
	FractionDrill: {"ASME B94.11M, fraction drills by 1/64 in to 1-3/4 in, by 1/32 in to 2 in", FromMemory},
	MetricDrill:   {"metric drills usually stocked: by 0.1 mm to 14, by 0.5 mm to 32, by 1 mm to 40", CommonPractice},
}

// Drill gives the diameter (mm) of a drill by its name: a number `#7` (also
// `no. 7`), a letter `F`, a fraction of an inch `17/32` or `1-1/16`, or a
// metric size `6.8 mm` or `6.8mm`. The word drill may follow. A number without
// its mark or unit is an error, for 7 may be a number drill or 7 mm.
func Drill(name string) (mm float64, src Source, err error) {
	if len(name) > longestName {
		return 0, Source{}, errTooLong
	}
	d, err := drillByName(name)
	if err != nil {
		return 0, Source{}, err
	}
	return d.D, drillSources[d.Set], nil
}

func drillByName(name string) (DrillSize, error) {
	s := strings.ToLower(strings.TrimSpace(name))
	s = strings.TrimSpace(strings.TrimSuffix(s, "drill"))
	if rest, ok := cutNumberMark(s); ok {
		n, err := strconv.Atoi(rest)
		if err != nil || n < 1 || n > len(numberDrills) {
			return DrillSize{}, fmt.Errorf("unknown drill %q; number drills run from #1 to #%d", name, len(numberDrills))
		}
		return numberDrill(n), nil
	}
	if len(s) == 1 && 'a' <= s[0] && s[0] <= 'z' {
		return letterDrill(int(s[0] - 'a')), nil
	}
	if rest, ok := strings.CutSuffix(s, "mm"); ok {
		return metricDrill(name, strings.TrimSpace(rest))
	}
	return fractionDrillByName(name, cutInchMark(s))
}

// cutNumberMark takes the mark of a number size off: #7, no. 7, no 7.
func cutNumberMark(s string) (string, bool) {
	for _, mark := range [...]string{"#", "no.", "no "} {
		if rest, ok := strings.CutPrefix(s, mark); ok {
			return strings.TrimSpace(rest), true
		}
	}
	return s, false
}

// cutInchMark takes the inch mark or word off the end.
func cutInchMark(s string) string {
	for _, mark := range [...]string{`"`, "″", "”", "inch", "in"} {
		if rest, ok := strings.CutSuffix(s, mark); ok {
			return strings.TrimSpace(rest)
		}
	}
	return s
}

func numberDrill(n int) DrillSize {
	return DrillSize{"#" + strconv.Itoa(n), numberDrills[n-1] * inch, NumberDrill}
}

func letterDrill(i int) DrillSize {
	return DrillSize{string(rune('A' + i)), letterDrills[i] * inch, LetterDrill}
}

func fractionDrill(n64 int) DrillSize {
	return DrillSize{fraction(n64), float64(n64) / 64 * inch, FractionDrill}
}

func fractionDrillByName(name, s string) (DrillSize, error) {
	in, rest, ok := readInches(s)
	if !ok || rest != "" {
		return DrillSize{}, fmt.Errorf("unknown drill %q; a drill is a number such as #7, a letter such as F, a fraction such as 17/32 or a metric size such as 6.8 mm", name)
	}
	n64, whole := sixtyFourths(in)
	switch {
	case !strings.Contains(s, "/") && in > largestFraction/64.0:
		return DrillSize{}, fmt.Errorf("drill %q may be a number or a metric size; write #%s or %s mm", name, s, s)
	case in <= 0 || in > largestFraction/64.0:
		return DrillSize{}, fmt.Errorf("unknown drill %q; fraction drills run from 1/64 to %s", name, fraction(largestFraction))
	case !whole:
		return DrillSize{}, fmt.Errorf("unknown drill %q; fraction drills go by 64ths, the nearest is %s", name, fraction(max(1, n64)))
	case n64 > finestFraction && n64%2 == 1:
		return DrillSize{}, fmt.Errorf("unknown drill %q; fraction drills over %s go by 32nds, the nearest are %s and %s", name, fraction(finestFraction), fraction(n64-1), fraction(n64+1))
	}
	return fractionDrill(n64), nil
}

func metricDrill(name, s string) (DrillSize, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || v < 0.1 || v > 100 {
		return DrillSize{}, fmt.Errorf("unknown drill %q; metric drills run from 0.1 to 100 mm", name)
	}
	return DrillSize{short(v, 3) + " mm", v, MetricDrill}, nil
}

// Drills gives the drills of a family, smallest first.
func Drills(set DrillSet) []DrillSize {
	var out []DrillSize
	switch set {
	case NumberDrill:
		for n := len(numberDrills); n >= 1; n-- {
			out = append(out, numberDrill(n))
		}
	case LetterDrill:
		for i := range letterDrills {
			out = append(out, letterDrill(i))
		}
	case FractionDrill:
		for n := 1; n <= largestFraction; n++ {
			if n <= finestFraction || n%2 == 0 {
				out = append(out, fractionDrill(n))
			}
		}
	case MetricDrill:
		for i, step := 10, 1; i <= 400; i += step { // tenths of a millimetre
			switch {
			case i >= 320:
				step = 10
			case i >= 140:
				step = 5
			}
			d := float64(i) / 10
			out = append(out, DrillSize{short(d, 1) + " mm", d, MetricDrill})
		}
	}
	return out
}

// DrillAtOrAbove gives the smallest drill of the named families (of all inch
// families where none is named) that is not smaller than mm; false where none
// is that large. Of equal drills the family named first wins.
func DrillAtOrAbove(mm float64, sets ...DrillSet) (DrillSize, bool) {
	all := drillsOf(sets)
	i := sort.Search(len(all), func(i int) bool { return nano(all[i].D) >= nano(mm) })
	if i == len(all) {
		return DrillSize{}, false
	}
	return all[i], true
}

// DrillAtOrBelow gives the largest drill of the named families (of all inch
// families where none is named) that is not larger than mm; false where none
// is that small. Of equal drills the family named first wins.
func DrillAtOrBelow(mm float64, sets ...DrillSet) (DrillSize, bool) {
	all := drillsOf(sets)
	i := sort.Search(len(all), func(i int) bool { return nano(all[i].D) > nano(mm) }) - 1
	if i < 0 {
		return DrillSize{}, false
	}
	for i > 0 && nano(all[i-1].D) == nano(all[i].D) {
		i--
	}
	return all[i], true
}

func drillsOf(sets []DrillSet) []DrillSize {
	if len(sets) == 0 {
		sets = []DrillSet{FractionDrill, NumberDrill, LetterDrill}
	}
	var all []DrillSize
	for _, s := range sets {
		all = append(all, Drills(s)...)
	}
	sort.SliceStable(all, func(i, j int) bool { return nano(all[i].D) < nano(all[j].D) })
	return all
}

// nano is a length in whole nanometres, so that sizes from inches and from
// millimetres compare without regard to their last bit.
func nano(mm float64) int64 { return int64(math.Round(mm * 1e6)) }
