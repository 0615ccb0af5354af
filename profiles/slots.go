package profiles

import (
	"fmt"
	"strings"
)

// structuralRow is one row of AISC 360 Table J3.3 or J3.3M; inch sizes in
// inches, metric ones in mm. A slot is width by length, overall.
type structuralRow struct {
	size                string
	standard, oversized float64
	short, long         [2]float64
	prov                [2]Prov // of standard hole and short slot; of the rest
}

// From 1 in up the standard hole (and the width of slots) has been d + 1/8
// since AISC 360-16; editions up to 360-10 had d + 1/16, and tables copied from
// them still do.
const (
	tableJ33  = "AISC 360-16 and 360-22, Table J3.3"
	tableJ33M = "AISC 360-16 and 360-22, Table J3.3M"
)

var (
	seenPart = [2]Prov{Standard, FromMemory}
	seenAll  = [2]Prov{Standard, Standard}
	unseen   = [2]Prov{FromMemory, FromMemory}
)

var aiscInch = []structuralRow{
	{"1/2", 9.0 / 16, 5.0 / 8, [2]float64{9.0 / 16, 11.0 / 16}, [2]float64{9.0 / 16, 5.0 / 4}, unseen},
	{"5/8", 11.0 / 16, 13.0 / 16, [2]float64{11.0 / 16, 7.0 / 8}, [2]float64{11.0 / 16, 25.0 / 16}, unseen},
	{"3/4", 13.0 / 16, 15.0 / 16, [2]float64{13.0 / 16, 1}, [2]float64{13.0 / 16, 15.0 / 8}, seenPart},
	{"7/8", 15.0 / 16, 17.0 / 16, [2]float64{15.0 / 16, 9.0 / 8}, [2]float64{15.0 / 16, 35.0 / 16}, unseen},
	{"1", 9.0 / 8, 5.0 / 4, [2]float64{9.0 / 8, 21.0 / 16}, [2]float64{9.0 / 8, 5.0 / 2}, unseen},
}

var aiscMetric = []structuralRow{
	{"M16", 18, 20, [2]float64{18, 22}, [2]float64{18, 40}, seenAll},
	{"M20", 22, 24, [2]float64{22, 26}, [2]float64{22, 50}, seenAll},
	{"M22", 24, 28, [2]float64{24, 30}, [2]float64{24, 55}, unseen},
	{"M24", 27, 30, [2]float64{27, 32}, [2]float64{27, 60}, seenAll},
	{"M27", 30, 35, [2]float64{30, 37}, [2]float64{30, 67}, unseen},
	{"M30", 33, 38, [2]float64{33, 40}, [2]float64{33, 75}, seenAll},
}

// aiscRow gives a bolt's row of Table J3.3 or J3.3M in mm, by the table's
// formula above its last row.
func aiscRow(b Bolt) (r structuralRow, table string, ok bool) {
	rows, table, unit := aiscInch, tableJ33, inch
	if b.Metric {
		rows, table, unit = aiscMetric, tableJ33M, 1
	}
	for _, r := range rows {
		if r.size == b.Size {
			return r.scaled(unit), table, true
		}
	}
	switch {
	case b.Metric && nano(b.D) >= nano(36):
		return structuralRow{b.Size, b.D + 3, b.D + 8, [2]float64{b.D + 3, b.D + 10}, [2]float64{b.D + 3, 2.5 * b.D}, seenAll}, table, true
	case !b.Metric && nano(b.D) >= nano(9.0/8*inch):
		w := b.D + inch/8
		return structuralRow{b.Size, w, b.D + 5*inch/16, [2]float64{w, b.D + 3*inch/8}, [2]float64{w, 2.5 * b.D}, unseen}, table, true
	}
	return structuralRow{}, table, false
}

func (r structuralRow) scaled(f float64) structuralRow {
	r.standard *= f
	r.oversized *= f
	r.short = [2]float64{r.short[0] * f, r.short[1] * f}
	r.long = [2]float64{r.long[0] * f, r.long[1] * f}
	return r
}

const table11 = "EN 1090-2, Table 11"

// enClearance gives the clearances (mm) of EN 1090-2 Table 11 for normal and
// oversize round holes, and on the length of short slotted holes. Long slots
// have 1.5 d. The standard's own note lets M12 and M14 have 2 mm.
func enClearance(b Bolt) (normal, oversize, shortSlot float64, ok bool) {
	if !b.Metric || nano(b.D) < nano(12) {
		return 0, 0, 0, false
	}
	switch d := nano(b.D); {
	case d <= nano(14):
		return 1, 3, 4, true
	case d <= nano(22):
		return 2, 4, 6, true
	case d <= nano(24):
		return 2, 6, 8, true
	}
	return 3, 8, 10, true
}

func structuralClearance(b Bolt, std string, oversized bool) (Clearance, error) {
	if std == StandardEN1090 {
		normal, over, _, ok := enClearance(b)
		switch {
		case !ok:
			return Clearance{}, noRow(table11, b, "metric bolts from M12", defaultStandard(b))
		case oversized:
			return metricClearance(b.D+over, Source{table11 + ", oversize round holes", FromMemory}), nil
		}
		return metricClearance(b.D+normal, Source{table11 + ", normal round holes", FromMemory}), nil
	}
	r, table, ok := aiscRow(b)
	if !ok {
		return Clearance{}, noRow(table, b, aiscSizes(b.Metric), defaultStandard(b))
	}
	d, src := r.standard, Source{table + ", standard holes", r.prov[0]}
	if oversized {
		d, src = r.oversized, Source{table + ", oversized holes", r.prov[1]}
	}
	if b.Metric {
		return metricClearance(d, src), nil
	}
	n64, _ := sixtyFourths(d / inch)
	return inchClearance(d, fraction(n64), src), nil
}

func defaultStandard(b Bolt) string {
	if b.Metric {
		return StandardISO273
	}
	return StandardASME
}

func aiscSizes(metric bool) string {
	rows, top := aiscInch, "all from 1-1/8 up"
	if metric {
		rows, top = aiscMetric, "all from M36 up"
	}
	var s []string
	for _, r := range rows {
		s = append(s, r.size)
	}
	return strings.Join(s, ", ") + " and " + top
}

// SlotFor gives width and overall length (mm) of a "short" or "long" slotted
// hole for a bolt: AISC 360 Table J3.3 or, for metric bolts, J3.3M. M12 and
// M14, which AISC does not hold, come from EN 1090-2 Table 11, and M18 and M33
// from there too. It is an error where neither holds the bolt.
func SlotFor(b Bolt, kind string) (width, length float64, src Source, err error) {
	if len(kind) > longestName {
		return 0, 0, Source{}, errTooLong
	}
	long := false
	switch squeeze(kind) {
	case "short":
	case "long":
		long = true
	default:
		return 0, 0, Source{}, unknown("slot", kind, []string{"short", "long"})
	}
	r, table, ok := aiscRow(b)
	switch {
	case ok && long:
		return r.long[0], r.long[1], Source{table + ", long slots", r.prov[1]}, nil
	case ok:
		return r.short[0], r.short[1], Source{table + ", short slots", r.prov[0]}, nil
	}
	normal, _, onLength, ok := enClearance(b)
	switch {
	case !ok:
		return 0, 0, Source{}, fmt.Errorf("%s has no slot for %s; it holds %s; give the slot's length instead", table, b.Size, aiscSizes(b.Metric))
	case long:
		return b.D + normal, 2.5 * b.D, Source{table11 + ", long slotted holes", FromMemory}, nil
	}
	return b.D + normal, b.D + onLength, Source{table11 + ", short slotted holes", FromMemory}, nil
}
