package profiles

import (
	"fmt"
	"strconv"
	"strings"
)

// gaugeFamily is one gauge system: thickness (in) by gauge number.
type gaugeFamily struct {
	name    string
	aliases []string
	first   int       // gauge number of inches[0]
	inches  []float64 // one for each following number
	source  Source
	seen    []int // numbers whose row was read; the others are from memory
}

var gaugeFamilies = []gaugeFamily{
	{
		name:    "steel sheet",
		aliases: []string{"steel", "sheet steel", "carbon steel", "mild steel", "mild steel sheet", "plain steel", "hot rolled", "cold rolled", "msg"},
		first:   3,
		inches: []float64{
			0.2391, 0.2242, 0.2092, 0.1943, 0.1793, 0.1644, 0.1495, 0.1345, 0.1196, 0.1046,
			0.0897, 0.0747, 0.0673, 0.0598, 0.0538, 0.0478, 0.0418, 0.0359, 0.0329, 0.0299,
			0.0269, 0.0239, 0.0209, 0.0179, 0.0164, 0.0149, 0.0135, 0.0120,
		},
		source: Source{"Manufacturers' Standard Gage for sheet steel (41.82 lb/ft2 per inch)", FromMemory},
		seen:   []int{3, 4, 7, 8, 10, 11, 12, 14, 16, 18, 20, 24, 28},
	},
	{
		name:    "galvanised sheet",
		aliases: []string{"galvanised", "galvanized", "galvanized sheet", "galvanised steel", "galvanized steel", "galvanised steel sheet", "galvanized steel sheet", "galv", "zinc coated"},
		first:   8,
		inches: []float64{
			0.1681, 0.1532, 0.1382, 0.1233, 0.1084, 0.0934, 0.0785, 0.0710, 0.0635, 0.0575,
			0.0516, 0.0456, 0.0396, 0.0366, 0.0336, 0.0306, 0.0276, 0.0247, 0.0217, 0.0202,
			0.0187, 0.0172, 0.0157,
		},
		source: Source{"Galvanized Sheet Gage (coating included)", FromMemory},
	},
	{
		name:    "stainless sheet",
		aliases: []string{"stainless", "stainless steel", "stainless steel sheet"},
		first:   7,
		inches: []float64{
			0.1875, 0.1719, 0.1562, 0.1406, 0.1250, 0.1094, 0.0937, 0.0781, 0.0703, 0.0625,
			0.0562, 0.0500, 0.0437, 0.0375, 0.0344, 0.0312, 0.0281, 0.0250, 0.0219, 0.0187,
			0.0172, 0.0156, 0.0141, 0.0125,
		},
		source: Source{"United States Standard Gage as used for stainless sheet", FromMemory},
	},
	{
		name:    "aluminium sheet",
		aliases: []string{"aluminium", "aluminum", "aluminum sheet", "alloy sheet", "awg", "brown and sharpe"},
		first:   3,
		inches: []float64{
			0.2294, 0.2043, 0.1819, 0.1620, 0.1443, 0.1285, 0.1144, 0.1019, 0.0907, 0.0808,
			0.0720, 0.0641, 0.0571, 0.0508, 0.0453, 0.0403, 0.0359, 0.0320, 0.0285, 0.0253,
			0.0226, 0.0201, 0.0179, 0.0159, 0.0142, 0.0126, 0.0113, 0.0100,
		},
		source: Source{"American Wire Gage (Brown & Sharpe), 0.005 x 92^((36-n)/39) in", FromMemory},
	},
	{
		name:    "tube",
		aliases: []string{"tubing", "tube wall", "steel tube", "steel tubing", "bwg", "birmingham"},
		first:   1,
		inches: []float64{
			0.300, 0.284, 0.259, 0.238, 0.220, 0.203, 0.180, 0.165, 0.148, 0.134,
			0.120, 0.109, 0.095, 0.083, 0.072, 0.065, 0.058, 0.049, 0.042, 0.035,
			0.032, 0.028, 0.025, 0.022, 0.020, 0.018,
		},
		source: Source{"Birmingham Wire Gage, for tube walls", FromMemory},
	},
}

// GaugeFamilies gives the names of the gauge systems, for messages and help.
func GaugeFamilies() []string {
	out := make([]string, len(gaugeFamilies))
	for i, f := range gaugeFamilies {
		out[i] = f.name
	}
	return out
}

// Gauge gives the thickness (mm) of a gauge number in a family of stock:
// "steel sheet", "galvanised sheet", "stainless sheet", "aluminium sheet" or
// "tube". The same number means another thickness in each of them, so a gauge
// without its family is an error that lists the families.
func Gauge(number int, family string) (mm float64, src Source, err error) {
	if len(family) > longestName {
		return 0, Source{}, errTooLong
	}
	f, err := findGaugeFamily(number, family)
	if err != nil {
		return 0, Source{}, err
	}
	i := number - f.first
	if i < 0 || i >= len(f.inches) {
		return 0, Source{}, fmt.Errorf("%s has no %d gauge; it runs from %d to %d", f.name, number, f.first, f.first+len(f.inches)-1)
	}
	return f.inches[i] * inch, f.rowSource(number), nil
}

func findGaugeFamily(number int, family string) (*gaugeFamily, error) {
	if strings.TrimSpace(family) == "" {
		return nil, fmt.Errorf("%d gauge differs from stock to stock; add %s", number, gaugeChoices(number))
	}
	want := squeeze(family)
	var known []string
	for i := range gaugeFamilies {
		f := &gaugeFamilies[i]
		if squeeze(f.name) == want {
			return f, nil
		}
		for _, a := range f.aliases {
			if squeeze(a) == want {
				return f, nil
			}
		}
		known = append(known, f.name)
	}
	return nil, unknown("gauge family", family, known)
}

// gaugeChoices lists the families that have a gauge number, with what it means
// in each.
func gaugeChoices(number int) string {
	var words []string
	for _, f := range gaugeFamilies {
		w := f.name
		if i := number - f.first; i >= 0 && i < len(f.inches) {
			w += " (" + strconv.FormatFloat(f.inches[i], 'f', -1, 64) + " in)"
		}
		words = append(words, w)
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " or " + words[n]
}

func (f *gaugeFamily) rowSource(number int) Source {
	s := f.source
	for _, n := range f.seen {
		if n == number {
			s.Prov = Standard
		}
	}
	return s
}
