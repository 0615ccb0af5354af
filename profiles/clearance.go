package profiles

import (
	"fmt"
	"strings"
)

// Names of the standards for clearance holes.
const (
	StandardISO273 = "iso 273"
	StandardASME   = "asme b18.2.8"
	StandardAISC   = "aisc j3.3"
	StandardEN1090 = "en 1090-2"
)

// ClearanceStandards gives the names of the standards for clearance holes.
func ClearanceStandards() []string {
	return []string{StandardISO273, StandardASME, StandardAISC, StandardEN1090}
}

// isoRow is one row of ISO 273: fine, medium, coarse, mm.
type isoRow struct {
	size string
	dia  [3]float64
	prov Prov
}

const iso273 = "ISO 273:1979"

var isoHoles = []isoRow{
	{"M3", [3]float64{3.2, 3.4, 3.6}, Standard},
	{"M3.5", [3]float64{3.7, 3.9, 4.2}, FromMemory},
	{"M4", [3]float64{4.3, 4.5, 4.8}, Standard},
	{"M5", [3]float64{5.3, 5.5, 5.8}, FromMemory},
	{"M6", [3]float64{6.4, 6.6, 7}, Standard},
	{"M7", [3]float64{7.4, 7.6, 8}, FromMemory},
	{"M8", [3]float64{8.4, 9, 10}, Standard},
	{"M10", [3]float64{10.5, 11, 12}, Standard},
	{"M12", [3]float64{13, 13.5, 14.5}, Standard},
	{"M14", [3]float64{15, 15.5, 16.5}, FromMemory},
	{"M16", [3]float64{17, 17.5, 18.5}, Standard},
	{"M18", [3]float64{19, 20, 21}, FromMemory},
	{"M20", [3]float64{21, 22, 24}, Standard},
	{"M22", [3]float64{23, 24, 26}, FromMemory},
	{"M24", [3]float64{25, 26, 28}, Standard},
	{"M27", [3]float64{28, 30, 32}, FromMemory},
	{"M30", [3]float64{31, 33, 35}, Standard},
	{"M33", [3]float64{34, 36, 38}, FromMemory},
	{"M36", [3]float64{37, 39, 42}, Standard},
}

// asmeRow is one row of ASME B18.2.8: close, normal, loose. The hole is its
// drill's diameter; the standard's least hole is that, rounded to 0.001 in.
type asmeRow struct {
	size  string
	drill [3]string
	dia   [3]float64 // in
	prov  [3]Prov
}

const (
	asme     = "ASME B18.2.8-1999 (R2017), Table 1"
	betweens = "not a size of ASME B18.2.8: between its neighbours' clearances"
)

var (
	mms = [3]Prov{FromMemory, FromMemory, Standard}
	mss = [3]Prov{FromMemory, Standard, Standard}
	msm = [3]Prov{FromMemory, Standard, FromMemory}
	mmm = [3]Prov{FromMemory, FromMemory, FromMemory}
	ccc = [3]Prov{CommonPractice, CommonPractice, CommonPractice}
)

var asmeHoles = []asmeRow{
	{"#4", [3]string{"#31", "#30", "#27"}, [3]float64{0.1200, 0.1285, 0.1440}, mmm},
	{"#5", [3]string{"9/64", "5/32", "11/64"}, [3]float64{9.0 / 64, 5.0 / 32, 11.0 / 64}, mmm},
	{"#6", [3]string{"#23", "#18", "#13"}, [3]float64{0.1540, 0.1695, 0.1850}, mmm},
	{"#8", [3]string{"#15", "#9", "#3"}, [3]float64{0.1800, 0.1960, 0.2130}, mmm},
	{"#10", [3]string{"#5", "#2", "B"}, [3]float64{0.2055, 0.2210, 0.2380}, msm},
	{"#12", [3]string{"A", "E", "17/64"}, [3]float64{0.2340, 0.2500, 17.0 / 64}, ccc},
	{"1/4", [3]string{"17/64", "9/32", "19/64"}, [3]float64{17.0 / 64, 9.0 / 32, 19.0 / 64}, mss},
	{"5/16", [3]string{"21/64", "11/32", "23/64"}, [3]float64{21.0 / 64, 11.0 / 32, 23.0 / 64}, mmm},
	{"3/8", [3]string{"25/64", "13/32", "27/64"}, [3]float64{25.0 / 64, 13.0 / 32, 27.0 / 64}, mss},
	{"7/16", [3]string{"29/64", "15/32", "31/64"}, [3]float64{29.0 / 64, 15.0 / 32, 31.0 / 64}, mmm},
	{"1/2", [3]string{"17/32", "9/16", "39/64"}, [3]float64{17.0 / 32, 9.0 / 16, 39.0 / 64}, mms},
	{"9/16", [3]string{"19/32", "5/8", "43/64"}, [3]float64{19.0 / 32, 5.0 / 8, 43.0 / 64}, ccc},
	{"5/8", [3]string{"21/32", "11/16", "47/64"}, [3]float64{21.0 / 32, 11.0 / 16, 47.0 / 64}, mms},
	{"3/4", [3]string{"25/32", "13/16", "29/32"}, [3]float64{25.0 / 32, 13.0 / 16, 29.0 / 32}, mms},
	{"7/8", [3]string{"29/32", "15/16", "1-1/32"}, [3]float64{29.0 / 32, 15.0 / 16, 33.0 / 32}, mmm},
	{"1", [3]string{"1-1/32", "1-3/32", "1-5/32"}, [3]float64{33.0 / 32, 35.0 / 32, 37.0 / 32}, mms},
	{"1-1/8", [3]string{"1-5/32", "1-7/32", "1-5/16"}, [3]float64{37.0 / 32, 39.0 / 32, 21.0 / 16}, mmm},
	{"1-1/4", [3]string{"1-9/32", "1-11/32", "1-7/16"}, [3]float64{41.0 / 32, 43.0 / 32, 23.0 / 16}, mms},
	{"1-3/8", [3]string{"1-7/16", "1-1/2", "1-39/64"}, [3]float64{23.0 / 16, 3.0 / 2, 103.0 / 64}, mmm},
	{"1-1/2", [3]string{"1-9/16", "1-5/8", "1-47/64"}, [3]float64{25.0 / 16, 13.0 / 8, 111.0 / 64}, mms},
}

// ClearanceFor gives the clearance hole of a bolt.
//
// standard is "iso 273", "asme b18.2.8", "aisc j3.3" (also "aisc") or
// "en 1090-2"; where it is "", iso 273 for a metric bolt and asme b18.2.8 for
// an inch bolt. The metric part of ASME B18.2.8 has the diameters of ISO 273.
//
// fit is "close", "normal" (where it is "") or "loose"; ISO 273 calls them
// fine, medium and coarse, and those words are read too. AISC and EN 1090-2
// know "standard" and "oversized"; there "normal" means standard.
//
// It is an error where the standard has no row for the bolt or does not know
// the fit.
func ClearanceFor(b Bolt, standard, fit string) (Clearance, error) {
	if len(standard) > longestName || len(fit) > longestName {
		return Clearance{}, errTooLong
	}
	std, err := clearanceStandard(b, standard)
	if err != nil {
		return Clearance{}, err
	}
	if std == StandardAISC || std == StandardEN1090 {
		oversized, err := structuralFit(std, fit)
		if err != nil {
			return Clearance{}, err
		}
		return structuralClearance(b, std, oversized)
	}
	f, err := machineFit(std, fit)
	if err != nil {
		return Clearance{}, err
	}
	if b.Metric {
		return isoClearance(b, std, f)
	}
	return asmeClearance(b, std, f)
}

func clearanceStandard(b Bolt, name string) (string, error) {
	switch squeeze(name) {
	case "":
		if b.Metric {
			return StandardISO273, nil
		}
		return StandardASME, nil
	case "iso273", "iso273:1979", "iso":
		return StandardISO273, nil
	case "asmeb18.2.8", "b18.2.8", "asme":
		return StandardASME, nil
	case "aiscj3.3", "aisc", "aisc360", "j3.3", "aiscj3.3m", "j3.3m":
		return StandardAISC, nil
	case "en10902", "en1090":
		return StandardEN1090, nil
	}
	return "", unknown("hole standard", name, ClearanceStandards())
}

// machineFit gives 0 for close, 1 for normal, 2 for loose.
func machineFit(standard, name string) (int, error) {
	switch squeeze(name) {
	case "close", "fine":
		return 0, nil
	case "", "normal", "medium":
		return 1, nil
	case "loose", "coarse", "free":
		return 2, nil
	case "standard", "oversized", "oversize":
		return 0, fmt.Errorf("%s has no %s fit; write close, normal or loose, or choose the standard %s", standard, squeeze(name), StandardAISC)
	}
	return 0, unknown("fit", name, []string{"close", "normal", "loose"})
}

func structuralFit(standard, name string) (oversized bool, err error) {
	switch squeeze(name) {
	case "", "standard", "normal":
		return false, nil
	case "oversized", "oversize":
		return true, nil
	case "close", "fine", "medium", "loose", "coarse":
		return false, fmt.Errorf("%s has no %s fit; write standard or oversized, or choose another standard: %s or %s", standard, squeeze(name), StandardISO273, StandardASME)
	}
	return false, unknown("fit", name, []string{"standard", "oversized"})
}

func isoClearance(b Bolt, std string, fit int) (Clearance, error) {
	for _, r := range isoHoles {
		if r.size != b.Size {
			continue
		}
		src := Source{iso273 + [...]string{", fine series", ", medium series", ", coarse series"}[fit], r.prov}
		if std == StandardASME {
			src = Source{"ASME B18.2.8-1999 (R2017), metric holes, as " + src.Text, FromMemory}
		}
		return metricClearance(r.dia[fit], src), nil
	}
	return Clearance{}, noRow(iso273, b, isoHoles[0].size+" to "+isoHoles[len(isoHoles)-1].size, StandardASME)
}

func asmeClearance(b Bolt, std string, fit int) (Clearance, error) {
	if std == StandardISO273 {
		return Clearance{}, noRow(iso273, b, "metric bolts", StandardASME)
	}
	for _, r := range asmeHoles {
		if r.size != b.Size {
			continue
		}
		text := asme
		if r.prov[fit] == CommonPractice {
			text = betweens
		}
		src := Source{text + [...]string{", close fit", ", normal fit", ", loose fit"}[fit], r.prov[fit]}
		return inchClearance(r.dia[fit]*inch, r.drill[fit], src), nil
	}
	return Clearance{}, noRow(asme, b, asmeHoles[0].size+" to "+asmeHoles[len(asmeHoles)-1].size, "")
}

func metricClearance(d float64, src Source) Clearance {
	return Clearance{Dia: d, Call: short(d, 2) + " mm drill", Source: src}
}

func inchClearance(d float64, drill string, src Source) Clearance {
	name := drill
	if strings.Contains(drill, "/") || drill[0] >= '0' && drill[0] <= '9' {
		name += " in"
	}
	return Clearance{Dia: d, Drill: drill, Call: name + " drill (" + short(d, 1) + " mm)", Source: src}
}

// noRow is the error for a bolt that a table does not hold.
func noRow(table string, b Bolt, holds, instead string) error {
	if instead != "" {
		return fmt.Errorf("%s has no row for %s; it holds %s; choose the standard %s", table, b.Size, holds, instead)
	}
	return fmt.Errorf("%s has no row for %s; it holds %s", table, b.Size, holds)
}
