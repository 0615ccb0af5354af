package profiles

// edgeRow is one row of AISC 360 Table J3.4 (in) or J3.4M (mm): least distance
// from the centre of a standard hole to an edge.
type edgeRow struct {
	d, cut, sheared   float64
	prov, provSheared Prov
}

const (
	tableJ34         = "AISC 360-16, Table J3.4"
	tableJ34M        = "AISC 360-16, Table J3.4M"
	tableJ34Sheared  = "AISC 360-05, Table J3.4, sheared edges"
	tableJ34MSheared = "AISC 360-05, Table J3.4M, sheared edges"
)

var edgesInch = []edgeRow{
	{1.0 / 2, 3.0 / 4, 7.0 / 8, Standard, FromMemory},
	{5.0 / 8, 7.0 / 8, 9.0 / 8, FromMemory, FromMemory},
	{3.0 / 4, 1, 5.0 / 4, Standard, FromMemory},
	{7.0 / 8, 9.0 / 8, 3.0 / 2, Standard, FromMemory},
	{1, 5.0 / 4, 7.0 / 4, FromMemory, FromMemory},
	{9.0 / 8, 3.0 / 2, 2, Standard, FromMemory},
	{5.0 / 4, 13.0 / 8, 9.0 / 4, FromMemory, FromMemory},
}

var edgesMetric = []edgeRow{
	{16, 22, 28, Standard, Standard},
	{20, 26, 34, Standard, Standard},
	{22, 28, 38, FromMemory, FromMemory},
	{24, 30, 42, Standard, Standard},
	{27, 34, 48, FromMemory, FromMemory},
	{30, 38, 52, Standard, Standard},
	{36, 46, 64, FromMemory, FromMemory},
}

// Factors of d beyond the last row (the tables' own) and below the first (the
// ratio of the inch table's first row, carried down; common practice).
const (
	edgeAbove, edgeAboveSheared = 1.25, 1.75
	edgeBelow, edgeBelowSheared = 1.5, 1.75
)

// MinEdgeAISC gives the least distance (mm) from the centre of a standard hole
// to the edge of the part for a bolt of diameter d (mm): AISC 360-16 Table
// J3.4, or J3.4M for a metric bolt, for all kinds of edges. A bolt between two
// rows takes the larger one's. Over the last row the tables give 1.25 d (here
// never less than that row); below the first one, where they give nothing,
// 1.5 d is common practice (here never more than that row).
func MinEdgeAISC(d float64, metric bool) (mm float64, src Source) {
	return minEdge(d, metric, false)
}

// MinEdgeAISCSheared is MinEdgeAISC for sheared edges by the older two-column
// table of AISC 360-05; over its last row it gives 1.75 d, and 1.75 d is
// common practice below its first.
func MinEdgeAISCSheared(d float64, metric bool) (mm float64, src Source) {
	return minEdge(d, metric, true)
}

func minEdge(d float64, metric, sheared bool) (float64, Source) {
	rows, unit, table := edgesInch, inch, tableJ34
	if sheared {
		table = tableJ34Sheared
	}
	if metric {
		rows, unit, table = edgesMetric, 1, tableJ34M
		if sheared {
			table = tableJ34MSheared
		}
	}
	below, above := edgeBelow, edgeAbove
	if sheared {
		below, above = edgeBelowSheared, edgeAboveSheared
	}
	first, last := rows[0].cut, rows[len(rows)-1].cut
	if sheared {
		first, last = rows[0].sheared, rows[len(rows)-1].sheared
	}
	if nano(d) < nano(rows[0].d*unit) {
		return min(below*d, first*unit), Source{table + " starts at a larger bolt; " + short(below, 2) + " d as there", CommonPractice}
	}
	for _, r := range rows {
		switch {
		case nano(d) > nano(r.d*unit):
			continue
		case sheared:
			return r.sheared * unit, Source{table, r.provSheared}
		}
		return r.cut * unit, Source{table, r.prov}
	}
	prov := Standard
	if sheared && !metric {
		prov = FromMemory
	}
	return max(above*d, last*unit), Source{table + ", " + short(above, 2) + " d", prov}
}

// HoleKind is a kind of hole in AISC 360 Table J3.5.
type HoleKind int

// The kinds of holes that add to an edge distance.
const (
	OversizedHole   HoleKind = iota
	ShortSlotAcross          // long axis square to the edge
	LongSlotAcross           // long axis square to the edge
	SlotAlong                // long axis along the edge
)

const tableJ35 = "AISC 360-16, Table J3.5, C2"

// EdgeIncrementAISC gives what an oversized or slotted hole adds (mm) to the
// distance of MinEdgeAISC: AISC 360-16 Table J3.5 or J3.5M.
func EdgeIncrementAISC(d float64, metric bool, kind HoleKind) (mm float64, src Source) {
	src = Source{tableJ35, FromMemory}
	switch kind {
	case LongSlotAcross:
		return 0.75 * d, src
	case SlotAlong:
		return 0, src
	}
	c := [2][3]float64{{inch / 16, inch / 8, inch / 8}, {inch / 8, inch / 8, 3 * inch / 16}}
	steps := [2]float64{7.0 / 8 * inch, 1 * inch}
	if metric {
		c = [2][3]float64{{2, 3, 3}, {3, 3, 5}}
		steps = [2]float64{22, 24}
	}
	row := 2
	for i, s := range steps {
		if nano(d) <= nano(s) {
			row = i
			break
		}
	}
	return c[kind][row], src
}

// Spacing factors of AISC 360-16 J3.3 and J3.5; multiples of the bolt's
// diameter d.
type SpacingAISC struct {
	Least     float64 // between centres: 2 2/3 d
	Preferred float64 // between centres: 3 d
	Clear     float64 // least metal between holes: d (since 360-16)
	Source    Source

	// Largest distances: the smaller of a multiple of the thinner plate's
	// thickness and a length (mm).
	EdgeT, EdgeMost           float64 // centre to edge: 12 t, 6 in (150 mm)
	PitchT, PitchMost         float64 // painted, or not subject to rust: 24 t, 12 in (300 mm)
	BarePitchT, BarePitchMost float64 // bare weathering steel: 14 t, 7 in (180 mm)
}

// AISCSpacing gives the spacing rules of AISC 360-16, J3.3 and J3.5.
func AISCSpacing(metric bool) SpacingAISC {
	s := SpacingAISC{
		Least: 8.0 / 3, Preferred: 3, Clear: 1,
		Source: Source{"AISC 360-16, J3.3 and J3.5", Standard},
		EdgeT:  12, EdgeMost: 6 * inch,
		PitchT: 24, PitchMost: 12 * inch,
		BarePitchT: 14, BarePitchMost: 7 * inch,
	}
	if metric {
		s.EdgeMost, s.PitchMost, s.BarePitchMost = 150, 300, 180
	}
	return s
}

// SpacingEN are the distances of EN 1993-1-8:2005 Table 3.3 as multiples of
// the hole's diameter d0 (not the bolt's). e1 and p1 run along the load, e2 and
// p2 across it; e3 and e4 are to the edge from a slot's axis and end centre.
type SpacingEN struct {
	E1, E2, E3, E4    float64
	P1, P2            float64
	P2Staggered       float64 // allowed where staggered rows keep L
	StaggerL          float64
	Source            Source
	EdgeT, EdgePlus   float64 // most, exposed: 4 t + 40 mm
	PitchT, PitchMost float64 // most: smaller of 14 t and 200 mm
	SourceMost        Source
}

// EN1993Spacing gives the distances of EN 1993-1-8:2005 Table 3.3.
func EN1993Spacing() SpacingEN {
	const table = "EN 1993-1-8:2005, Table 3.3"
	return SpacingEN{
		E1: 1.2, E2: 1.2, E3: 1.5, E4: 1.5,
		P1: 2.2, P2: 2.4, P2Staggered: 1.2, StaggerL: 2.4,
		Source: Source{table, Standard},
		EdgeT:  4, EdgePlus: 40, PitchT: 14, PitchMost: 200,
		SourceMost: Source{table, FromMemory},
	}
}
