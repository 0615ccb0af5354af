package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blankwright/flat/num"
)

// Reading is what a printer makes of the 100 mm bars: their measured lengths
// across and up, mm. The zero Reading is a printer that nobody has measured; it
// is taken to be true.
type Reading struct{ X, Y float64 }

// mostOff is how far a printer may be off and still be corrected, in parts of
// the length. Feed rollers and warm paper are off by a few tenths of a per cent;
// a page that was fitted to the paper is off by 3 % and more, and is better
// printed again (common practice).
const mostOff = 0.05

// ParseReading reads `99.4x100.2`: the 100 mm bar across, then the one up, in
// mm. It is an error when either is more than 5 % off.
func ParseReading(text string) (Reading, error) {
	const want = "write what the 100 mm bars measure across and up in mm, such as 99.4x100.2"
	across, up, ok := strings.Cut(strings.ReplaceAll(strings.ToLower(text), "×", "x"), "x")
	if !ok || len(text) > longestPaper {
		return Reading{}, fmt.Errorf("%q is not two lengths; %s", shortened(text), want)
	}
	var r Reading
	for i, s := range [2]string{across, up} {
		s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "mm"))
		v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
		if err != nil || !num.Finite(v) || strings.ContainsAny(s, "pxe_n") {
			return Reading{}, fmt.Errorf("%q is not a length in mm; %s", s, want)
		}
		if !num.AtMost(math.Abs(v-barMM), mostOff*barMM) {
			hint := "a page so far off was fitted or enlarged: print it again at 100 %, actual size, and measure the 100 mm bars in mm"
			return Reading{}, fmt.Errorf("%s mm is more than 5 %% off 100 mm; %s", num.Short(v, 3), hint)
		}
		v = math.Round(v*100) / 100
		if i == 0 {
			r.X = v
		} else {
			r.Y = v
		}
	}
	return r, nil
}

func shortened(s string) string {
	if len(s) > longestPaper {
		return s[:longestPaper] + "..."
	}
	return s
}

// Off reports whether the printer draws anything but 100 mm.
func (r Reading) Off() bool { return r != Reading{} && r != Reading{barMM, barMM} }

// scale is what lengths are multiplied by so that this printer draws them true.
func (r Reading) scale() (x, y float64) {
	if !r.Off() {
		return 1, 1
	}
	return barMM / r.X, barMM / r.Y
}

// String is the reading for people: `99.4 x 100.2`.
func (r Reading) String() string { return num.Short(r.X, 2) + " x " + num.Short(r.Y, 2) }

// FileWord is what the names of corrected files bear: `corrected-99.4x100.2`, or
// nothing where nothing is corrected.
func (r Reading) FileWord() string {
	if !r.Off() {
		return ""
	}
	return "corrected-" + num.Short(r.X, 2) + "x" + num.Short(r.Y, 2)
}

// check reports a reading that did not come from ParseReading and makes no
// sense.
func (r Reading) check() error {
	if r == (Reading{}) {
		return nil
	}
	_, err := ParseReading(r.String())
	return err
}
