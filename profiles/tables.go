package profiles

import (
	"math"
	"sort"
	"strconv"
)

// Table is one of our tables, ready to be printed. Where the rows are not all
// founded alike, a last column says how each is, and Source.Prov is "".
type Table struct {
	Name    string // `bolt-holes-iso-273`
	Title   string
	Columns []string // with the unit
	Rows    [][]string
	Source  Source
}

// FindTable gives a table by its name.
func FindTable(name string) (Table, error) { return Default().FindTable(name) }

// FindTable gives a table of the set by its name.
func (s *Set) FindTable(name string) (Table, error) {
	if len(name) > longestName {
		return Table{}, errTooLong
	}
	var known []string
	for _, t := range s.Tables() {
		if squeeze(t.Name) == squeeze(name) {
			return t, nil
		}
		known = append(known, t.Name)
	}
	return Table{}, unknown("table", name, known)
}

// Tables gives all tables, sorted by name.
func Tables() []Table { return Default().Tables() }

// Tables gives all tables with the rows of the set, sorted by name.
func (s *Set) Tables() []Table {
	s = s.orDefault()
	ts := []Table{
		isoTable(), asmeTable(), aiscTable(false), aiscTable(true), enHoleTable(),
		edgeTable(false), edgeTable(true), shearedTable(false), shearedTable(true), incrementTable(),
		aiscSpacingTable(), enSpacingTable(),
		gradeTable(), boltStressTable(), threadTable(false), threadTable(true),
		gaugeTable(),
		drillTable("drills-number", "number drills", NumberDrill),
		drillTable("drills-letter", "letter drills", LetterDrill),
		drillTable("drills-fraction", "fraction drills", FractionDrill),
		drillTable("drills-metric", "metric drills", MetricDrill),
		s.materialTable(), s.processTable(), oxyKerfTable(), s.tabTable(), paperTable(),
		s.limitTable(), s.fitTable(), s.coatingTable(), s.rateTable(), s.layerTable(), angularityTable(), deviationTable(),
		boltLengthTable(false), boltLengthTable(true), nutTable(false), nutTable(true),
	}
	if t, ok := s.testBendTable(); ok {
		ts = append(ts, t)
	}
	for i := range ts {
		ts[i].foldProv()
	}
	sort.Slice(ts, func(i, j int) bool { return ts[i].Name < ts[j].Name })
	return ts
}

// founded is the heading of the column that says how a row is founded.
const founded = "founded on"

// foldProv takes the last column off where it is the same in all rows.
func (t *Table) foldProv() {
	last := len(t.Columns) - 1
	if t.Columns[last] != founded {
		return
	}
	p := t.Rows[0][last]
	for _, r := range t.Rows {
		if r[last] != p {
			t.Source.Prov = ""
			return
		}
	}
	t.Source.Prov = Prov(p)
	t.Columns = t.Columns[:last]
	for i := range t.Rows {
		t.Rows[i] = t.Rows[i][:last]
	}
}

// mm and in write a length (mm) for a table, in either unit.
func mm(v float64) string { return short(v, 2) }
func in(v float64) string { return strconv.FormatFloat(math.Round(v/inch*1e4)/1e4, 'f', 4, 64) }

func isoTable() Table {
	t := Table{Name: "bolt-holes-iso-273", Title: "clearance holes for metric bolts",
		Columns: []string{"bolt", "close (fine) mm", "normal (medium) mm", "loose (coarse) mm", founded}, Source: Source{Text: iso273}}
	for _, r := range isoHoles {
		t.Rows = append(t.Rows, []string{r.size, mm(r.dia[0]), mm(r.dia[1]), mm(r.dia[2]), string(r.prov)})
	}
	return t
}

func asmeTable() Table {
	t := Table{Name: "bolt-holes-asme-b18.2.8", Title: "clearance holes for inch bolts and screws",
		Columns: []string{"bolt", "close drill", "close in", "normal drill", "normal in", "loose drill", "loose in", founded},
		Source:  Source{Text: asme + "; rows marked common practice are not sizes of the standard"}}
	for _, r := range asmeHoles {
		row := []string{r.size}
		for i, d := range r.dia {
			row = append(row, r.drill[i], in(d*inch))
		}
		t.Rows = append(t.Rows, append(row, provs(r.prov)))
	}
	return t
}

// provs says how the columns close, normal and loose of a row are founded.
func provs(p [3]Prov) string {
	switch p {
	case mms:
		return "loose: " + string(Standard) + "; others " + string(FromMemory)
	case msm:
		return "normal: " + string(Standard) + "; others " + string(FromMemory)
	case mss:
		return "close: " + string(FromMemory) + "; others " + string(Standard)
	}
	return string(p[0])
}

func aiscTable(metric bool) Table {
	rows, name, title, text, f := aiscInch, "bolt-holes-aisc-j3.3", "structural bolt holes, inch", tableJ33, float64(inch)
	last := []string{"from 1-1/8", "d + 1/8", "d + 5/16", "(d + 1/8) x (d + 3/8)", "(d + 1/8) x 2.5 d", string(FromMemory)}
	size := func(v float64) string { n, _ := sixtyFourths(v / inch); return fraction(n) }
	text += "; editions up to 360-10 have d + 1/16 for standard holes and slot widths from 1 in up"
	if metric {
		rows, name, title, text, f = aiscMetric, "bolt-holes-aisc-j3.3m", "structural bolt holes, metric", tableJ33M, 1
		last = []string{"from M36", "d + 3", "d + 8", "(d + 3) x (d + 10)", "(d + 3) x 2.5 d", string(Standard)}
		size = mm
	}
	unit := " in"
	if metric {
		unit = " mm"
	}
	t := Table{Name: name, Title: title,
		Columns: []string{"bolt", "standard" + unit, "oversized" + unit, "short slot" + unit, "long slot" + unit, founded}, Source: Source{Text: text}}
	for _, r := range rows {
		p := string(r.prov[0])
		if r.prov[0] != r.prov[1] {
			p = "standard hole and short slot: " + p + "; others " + string(r.prov[1])
		}
		r = r.scaled(f)
		t.Rows = append(t.Rows, []string{r.size, size(r.standard), size(r.oversized),
			size(r.short[0]) + " x " + size(r.short[1]), size(r.long[0]) + " x " + size(r.long[1]), p})
	}
	t.Rows = append(t.Rows, last)
	return t
}

func enHoleTable() Table {
	return Table{Name: "bolt-holes-en-1090-2", Title: "clearances of structural bolt holes",
		Columns: []string{"bolt", "normal round mm", "oversize round mm", "short slot, on length mm", "long slot, on length"},
		Rows: [][]string{
			{"M12 and M14", "1", "3", "4", "1.5 d"},
			{"M16 to M22", "2", "4", "6", "1.5 d"},
			{"M24", "2", "6", "8", "1.5 d"},
			{"M27 and up", "3", "8", "10", "1.5 d"},
		},
		Source: Source{table11, FromMemory}}
}

func edgeTable(metric bool) Table {
	t := Table{Name: "edge-distance-aisc-j3.4", Title: "least distance from hole centre to edge, inch bolts",
		Columns: []string{"bolt in", "edge distance in", founded}, Source: Source{Text: tableJ34}}
	rows, unit, last := edgesInch, inch, "over 1-1/4"
	if metric {
		t.Name, t.Title, t.Source.Text = "edge-distance-aisc-j3.4m", "least distance from hole centre to edge, metric bolts", tableJ34M
		t.Columns = []string{"bolt mm", "edge distance mm", founded}
		rows, unit, last = edgesMetric, 1, "over 36"
	}
	for _, r := range rows {
		t.Rows = append(t.Rows, []string{sizeIn(r.d*unit, metric), sizeIn(r.cut*unit, metric), string(r.prov)})
	}
	t.Rows = append(t.Rows, []string{last, "1.25 d", string(Standard)})
	return t
}

func shearedTable(metric bool) Table {
	t := Table{Name: "edge-distance-aisc-2005-sheared", Title: "least distance from hole centre to a sheared edge, inch bolts, older edition",
		Columns: []string{"bolt in", "edge distance in", founded}, Source: Source{Text: tableJ34Sheared}}
	rows, unit, last, prov := edgesInch, inch, "over 1-1/4", FromMemory
	if metric {
		t.Name, t.Title, t.Source.Text = "edge-distance-aisc-2005-sheared-metric", "least distance from hole centre to a sheared edge, metric bolts, older edition", tableJ34MSheared
		t.Columns = []string{"bolt mm", "edge distance mm", founded}
		rows, unit, last, prov = edgesMetric, 1, "over 36", Standard
	}
	for _, r := range rows {
		t.Rows = append(t.Rows, []string{sizeIn(r.d*unit, metric), sizeIn(r.sheared*unit, metric), string(r.provSheared)})
	}
	t.Rows = append(t.Rows, []string{last, "1.75 d", string(prov)})
	return t
}

// sizeIn writes a length (mm) in the unit of a table's sizes.
func sizeIn(v float64, metric bool) string {
	if metric {
		return mm(v)
	}
	n, _ := sixtyFourths(v / inch)
	return fraction(n)
}

func incrementTable() Table {
	return Table{Name: "edge-increment-aisc-j3.5", Title: "added to the edge distance for oversized and slotted holes",
		Columns: []string{"bolt", "oversized", "short slot across the edge", "long slot across the edge", "slot along the edge"},
		Rows: [][]string{
			{"up to 7/8 in", "1/16 in", "1/8 in", "0.75 d", "0"},
			{"1 in", "1/8 in", "1/8 in", "0.75 d", "0"},
			{"from 1-1/8 in", "1/8 in", "3/16 in", "0.75 d", "0"},
			{"up to M22", "2 mm", "3 mm", "0.75 d", "0"},
			{"M24", "3 mm", "3 mm", "0.75 d", "0"},
			{"from M27", "3 mm", "5 mm", "0.75 d", "0"},
		},
		Source: Source{tableJ35, FromMemory}}
}

func aiscSpacingTable() Table {
	s := AISCSpacing(false)
	return Table{Name: "spacing-aisc", Title: "spacing of bolts, d = diameter of the bolt, t = thinner plate",
		Columns: []string{"distance", "value"},
		Rows: [][]string{
			{"least between centres", "2-2/3 d"},
			{"preferred between centres", "3 d"},
			{"least metal between holes", "d"},
			{"most from centre to edge", "12 t and 6 in (150 mm)"},
			{"most between centres, painted", "24 t and 12 in (300 mm)"},
			{"most between centres, bare weathering steel", "14 t and 7 in (180 mm)"},
		},
		Source: s.Source}
}

func enSpacingTable() Table {
	s := EN1993Spacing()
	least, most := string(s.Source.Prov), string(s.SourceMost.Prov)
	d0 := func(f float64) string { return short(f, 2) + " d0" }
	return Table{Name: "spacing-en-1993-1-8", Title: "spacing of bolts, d0 = diameter of the hole, t = thinner plate",
		Columns: []string{"distance", "value", founded},
		Rows: [][]string{
			{"e1, least along the load to the end", d0(s.E1), least},
			{"e2, least across the load to the edge", d0(s.E2), least},
			{"e3 and e4, least from a slot", d0(s.E3), least},
			{"p1, least along the load", d0(s.P1), least},
			{"p2, least across the load", d0(s.P2), least},
			{"p2 in staggered rows, with L at least 2.4 d0", d0(s.P2Staggered), least},
			{"e1 and e2, most, exposed", "4 t + 40 mm", most},
			{"p1 and p2, most", "14 t and 200 mm", most},
		},
		Source: Source{Text: s.Source.Text}}
}

func gradeTable() Table {
	t := Table{Name: "bolt-grades", Title: "strength of bolts, least values",
		Columns: []string{"grade", "size", "proof MPa", "yield MPa", "tensile MPa", "standard", founded},
		Source:  Source{Text: "SAE J429, ASTM A307 and F3125, ISO 898-1, ISO 3506-1"}}
	for _, g := range grades {
		f, size := 1.0, "M"+short(g.from, 1)+" to M"+short(g.to, 1)
		if !g.metric {
			f, size = ksi, sizeIn(g.from, false)+" to "+sizeIn(g.to, false)
		}
		t.Rows = append(t.Rows, []string{g.name, size, stress(g.proof * f), stress(g.yield * f), stress(g.tensile * f), g.source.Text, string(g.source.Prov)})
	}
	return t
}

func stress(v float64) string {
	if v == 0 {
		return "-"
	}
	return short(v, 0)
}

func boltStressTable() Table {
	t := Table{Name: "bolt-shear-aisc-j3.2", Title: "nominal stresses on the shank; N: threads in the shear plane, X: outside it",
		Columns: []string{"bolt", "Fnt ksi", "Fnv N ksi", "Fnv X ksi", "Fnt MPa", "Fnv N MPa", "Fnv X MPa", founded},
		Source:  Source{Text: "AISC 360-16, Table J3.2"}}
	for _, r := range structural {
		t.Rows = append(t.Rows, []string{r.group, short(r.fntKsi, 0), short(r.fnvNKsi, 0), short(r.fnvXKsi, 0),
			short(r.fntMPa, 0), short(r.fnvNMPa, 0), short(r.fnvXMPa, 0), string(r.prov)})
	}
	t.Rows = append(t.Rows, []string{"threaded parts", "0.75 Fu", "0.450 Fu", "0.563 Fu", "0.75 Fu", "0.450 Fu", "0.563 Fu", string(Standard)})
	return t
}

func threadTable(metric bool) Table {
	t := Table{Name: "threads-inch", Title: "inch threads, the coarse one first", Columns: []string{"size", "diameter in", "threads", "stress area mm2, coarse"}, Source: unifiedThreads}
	rows := inchThreads
	if metric {
		t.Name, t.Title, t.Source = "threads-metric", "metric threads, the coarse one first", metricThreads
		t.Columns = []string{"size", "diameter mm", "threads", "stress area mm2, coarse"}
		rows = metricSizes
	}
	for i := range rows {
		r := &rows[i]
		a, _ := StressArea(Bolt{Size: r.size, D: r.d, Metric: metric})
		d := in(r.d)
		if metric {
			d = mm(r.d)
		}
		t.Rows = append(t.Rows, []string{r.size, d, r.threadNames(metric), short(a, 2)})
	}
	return t
}

func gaugeTable() Table {
	t := Table{Name: "gauges", Title: "thickness by gauge, in", Columns: []string{"gauge"},
		Source: Source{Text: "steel sheet: Manufacturers' Standard Gage (rows 3, 4, 7, 8, 10 to 12, 14, 16, 18, 20, 24, 28 " + string(Standard) + "); galvanised: Galvanized Sheet Gage; stainless: United States Standard Gage; aluminium: American Wire Gage; tube: Birmingham Wire Gage; others " + string(FromMemory)}}
	first, last := gaugeFamilies[0].first, 0
	for _, f := range gaugeFamilies {
		t.Columns = append(t.Columns, f.name)
		first, last = min(first, f.first), max(last, f.first+len(f.inches)-1)
	}
	for n := first; n <= last; n++ {
		row := []string{strconv.Itoa(n)}
		for _, f := range gaugeFamilies {
			s := "-"
			if i := n - f.first; i >= 0 && i < len(f.inches) {
				s = strconv.FormatFloat(f.inches[i], 'f', 4, 64)
			}
			row = append(row, s)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func drillTable(name, title string, set DrillSet) Table {
	t := Table{Name: name, Title: title, Columns: []string{"drill", "in", "mm"}, Source: drillSources[set]}
	for _, d := range Drills(set) {
		t.Rows = append(t.Rows, []string{d.Name, in(d.D), short(d.D, 3)})
	}
	return t
}

func (s *Set) materialTable() Table {
	t := Table{Name: "materials", Title: "plate materials, least strengths",
		Columns: []string{"material", "group", "Fy MPa", "Fu MPa", "kg/m3", "up to mm", "standard", founded},
		Source:  Source{Text: "ASTM, EN and alloy standards as named in each row"}}
	for _, r := range s.materials {
		m := r.m
		limit := "-"
		if m.MaxT > 0 {
			limit = short(m.MaxT, 1)
		}
		t.Rows = append(t.Rows, []string{m.Name, string(m.Group), short(m.Fy, 0), short(m.Fu, 0), short(m.Density, 0), limit, m.Source.Text, string(m.Source.Prov)})
	}
	return t
}

func (s *Set) processTable() Table {
	t := Table{Name: "processes", Title: "cutting processes, starting values to calibrate; t = plate thickness",
		Columns: []string{"process", "kerf mm", "least hole", "least web or slot", "shortest edge mm", "tolerance mm", "class", "range", "ranges of figures"},
		Source:  Source{"common practice; shops differ", CommonPractice}}
	for _, r := range s.processes {
		p := r.p
		t.Rows = append(t.Rows, []string{p.Name, mm(p.Kerf), ofT(p.MinHoleT, p.MinHole), ofT(p.MinWebT, p.MinWeb), mm(p.MinSeg), "+/-" + mm(p.Tolerance), orDash(p.Class), orDash(p.Range), p.Source.Text})
	}
	return t
}

// orDash writes a number that is not always there.
func orDash(n int) string {
	if n == 0 {
		return "-"
	}
	return strconv.Itoa(n)
}

// ofT writes a limit that is the larger of a multiple of t and a length.
func ofT(f, least float64) string {
	if f == 0 {
		return mm(least) + " mm"
	}
	return mm(f) + " t and " + mm(least) + " mm"
}

func oxyKerfTable() Table {
	t := Table{Name: "kerf-oxy-fuel", Title: "kerf of acetylene cutting tips by plate thickness",
		Columns: []string{"plate in", "kerf in", "plate mm", "kerf mm"}, Source: oxyKerfSource}
	for _, r := range oxyKerf {
		t.Rows = append(t.Rows, []string{sizeIn(r.T, false), short(r.Kerf/inch, 2), mm(r.T), mm(r.Kerf)})
	}
	return t
}

func paperTable() Table {
	t := Table{Name: "papers", Title: "sheets of paper, upright",
		Columns: []string{"paper", "width mm", "height mm", "also", "standard", founded}, Source: Source{Text: "ISO 216, ASME Y14.1, office papers"}}
	for _, p := range papers {
		also := "-"
		if len(p.Aliases) > 0 {
			also = list(p.Aliases)
		}
		t.Rows = append(t.Rows, []string{p.Name, mm(p.W), mm(p.H), also, p.Source.Text, string(p.Source.Prov)})
	}
	return t
}
