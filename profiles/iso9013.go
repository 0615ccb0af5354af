package profiles

import "strconv"

// angularity holds u = base + slope*a of ISO 9013 by range, mm, with a the plate's
// thickness.
var angularity = [...]struct{ base, slope float64 }{
	{0.05, 0.003}, {0.15, 0.007}, {0.4, 0.01}, {0.8, 0.02}, {1.2, 0.035},
}

var angularitySource = Source{"ISO 9013:2017, perpendicularity or angularity tolerance, ranges 1 to 5", Standard}

// Angularity is the width u (mm) between two parallel planes that a cut face of
// plate of thickness t (mm) lies between, by its range 1 to 5 of ISO 9013; 0 for a
// range that there is not.
func Angularity(grade int, t float64) float64 {
	if grade < 1 || grade > len(angularity) {
		return 0
	}
	r := angularity[grade-1]
	return r.base + float64(r.slope*t)
}

func angularityTable() Table {
	t := Table{Name: "cut-angularity-iso-9013", Title: "perpendicularity or angularity of a cut face, u in mm, a = plate thickness in mm",
		Columns: []string{"range", "u", "3 mm", "6 mm", "12.7 mm", "25.4 mm"}, Source: angularitySource}
	for i, r := range angularity {
		row := []string{strconv.Itoa(i + 1), short(r.base, 3) + " + " + short(r.slope, 3) + " a"}
		for _, a := range [...]float64{3, 6, 12.7, 25.4} {
			row = append(row, short(Angularity(i+1, a), 4))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// deviationRow holds the limit deviations of ISO 9013 for plate up to a thickness,
// by nominal size: to 3, 10, 35, 125, 315 and 1000 mm; 0 where the table has none.
type deviationRow struct {
	class int
	to    float64
	dev   [6]float64
	prov  Prov
}

var deviationSizes = [...]float64{3, 10, 35, 125, 315, 1000}

var deviations = [...]deviationRow{
	{1, 1, [6]float64{0.04, 0.1, 0.1, 0.2, 0.2, 0.3}, FromMemory},
	{1, 3.15, [6]float64{0.1, 0.15, 0.2, 0.25, 0.25, 0.35}, Standard},
	{1, 6.3, [6]float64{0.3, 0.3, 0.4, 0.4, 0.5, 0.5}, FromMemory},
	{1, 10, [6]float64{0, 0.5, 0.6, 0.6, 0.7, 0.7}, FromMemory},
	{1, 50, [6]float64{0, 0.6, 0.7, 0.7, 0.8, 1}, FromMemory},
	{1, 100, [6]float64{0, 0, 1.3, 1.3, 1.4, 1.7}, FromMemory},
	{2, 1, [6]float64{0.1, 0.3, 0.4, 0.5, 0.7, 0.8}, FromMemory},
	{2, 3.15, [6]float64{0.2, 0.4, 0.5, 0.7, 0.8, 0.9}, FromMemory},
	{2, 6.3, [6]float64{0.7, 0.8, 0.9, 0.9, 1.1, 1.2}, Standard},
	{2, 10, [6]float64{0, 1, 1.1, 1.3, 1.4, 1.5}, FromMemory},
	{2, 50, [6]float64{0, 1.8, 1.8, 1.8, 1.9, 2.3}, FromMemory},
	{2, 100, [6]float64{0, 0, 2.5, 2.5, 2.6, 3}, FromMemory},
}

const deviationText = "ISO 9013:2017, limit deviations, tolerance classes 1 and 2; rows from memory are those of the 2002 edition"

// CutDeviation is how far (+/- mm) a cut size of so many mm may be off by a
// tolerance class of ISO 9013 in plate of thickness t (mm); false where the table
// has no such row or size.
func CutDeviation(class int, t, size float64) (mm float64, src Source, ok bool) {
	for i := range deviations {
		r := &deviations[i]
		if r.class != class || nano(t) > nano(r.to) {
			continue
		}
		for k, to := range deviationSizes {
			if nano(size) <= nano(to) {
				return r.dev[k], Source{"ISO 9013:2017, class " + strconv.Itoa(class), r.prov}, r.dev[k] > 0
			}
		}
		break
	}
	return 0, Source{}, false
}

func deviationTable() Table {
	t := Table{Name: "cut-deviation-iso-9013", Title: "limit deviations of cut sizes, +/- mm",
		Columns: []string{"class", "plate to mm", "size to 3", "to 10", "to 35", "to 125", "to 315", "to 1000", founded}, Source: Source{Text: deviationText}}
	for _, r := range deviations {
		row := []string{strconv.Itoa(r.class), mm(r.to)}
		for _, d := range r.dev {
			if d == 0 {
				row = append(row, "-")
			} else {
				row = append(row, mm(d))
			}
		}
		t.Rows = append(t.Rows, append(row, string(r.prov)))
	}
	return t
}
