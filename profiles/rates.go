package profiles

// Rate is how fast a process goes in plate up to a thickness: starting values
// for a quote, to be replaced by what a shop's own table does.
type Rate struct {
	MaxT   float64 // mm
	Feed   float64 // mm/min along the cut, carbon steel
	Pierce float64 // s for one pierce
}

// Price is what a shop asks for cutting by a process, in the currency of its
// profile. Nothing is embedded: prices are a shop's own.
type Price struct {
	Hour   float64 // of cutting and piercing
	Pierce float64 // each
	Kilo   float64 // kg of finished plate
}

// Cutting is what the cut list needs to know of a process.
type Cutting struct {
	Process string
	LeadIn  float64 // mm between the pierce and the edge, on the waste side
	Rates   []Rate  // by growing thickness
	Price   Price
	Priced  bool // a price is given
	Source  Source
}

var cuttings = []Cutting{
	{Process: "air plasma", LeadIn: 5, Rates: []Rate{{1.5, 6000, 0.1}, {3.5, 4000, 0.3}, {6.5, 2000, 0.5}, {10, 1300, 0.7}, {13, 900, 1}, {20, 450, 1.5}, {26, 300, 2}},
		Source: Source{"common practice, from memory: 45 to 105 A by thickness; lead-in 5 to 8 mm", CommonPractice}},
	{Process: "tuned plasma", LeadIn: 5, Rates: []Rate{{1.5, 6500, 0.1}, {3.5, 4500, 0.3}, {6.5, 3000, 0.4}, {10, 2000, 0.5}, {13, 1600, 0.7}, {20, 1000, 1}, {26, 700, 1.5}},
		Source: Source{"common practice, from memory: 80 to 200 A by thickness; lead-in 5 to 8 mm", CommonPractice}},
	{Process: "fibre laser", LeadIn: 2, Rates: []Rate{{1.5, 15000, 0.1}, {3.5, 6000, 0.2}, {6.5, 2500, 0.5}, {10, 1500, 1}, {13, 1000, 2}, {20, 600, 4}, {26, 400, 6}},
		Source: Source{"common practice, from memory: 4 to 6 kW with oxygen; lead-in 2 mm", CommonPractice}},
	{Process: "waterjet", LeadIn: 3, Rates: []Rate{{3.5, 500, 3}, {6.5, 250, 6}, {10, 150, 10}, {13, 110, 14}, {20, 65, 25}, {26, 50, 30}, {51, 20, 80}},
		Source: Source{"common practice, from memory: 3500 bar with abrasive, middle edge quality; lead-in 3 mm", CommonPractice}},
	{Process: "oxy-fuel", LeadIn: 8, Rates: []Rate{{6.5, 560, 4}, {10, 500, 5}, {13, 450, 7}, {20, 400, 10}, {26, 350, 12}, {51, 250, 20}},
		Source: Source{"common practice, from memory: acetylene; lead-in 8 mm", CommonPractice}},
}

// Cutting is the row of a process; the zero row for one that has none, as one by
// hand.
func (s *Set) Cutting(process string) Cutting {
	for _, c := range s.orDefault().cuttings {
		if c.Process == process {
			return c
		}
	}
	return Cutting{}
}

// Currency is what the prices of the set are in; "" where it has none.
func (s *Set) Currency() string { return s.orDefault().currency }

// Rate is how fast the process cuts plate of thickness t (mm): the row of the next
// thicker plate. ok is false for a process without rates, and for plate thicker
// than its last row.
func (c Cutting) Rate(t float64) (r Rate, ok bool) {
	for _, r := range c.Rates {
		if nano(t) <= nano(r.MaxT) {
			return r, true
		}
	}
	return Rate{}, false
}

func (s *Set) rateTable() Table {
	t := Table{Name: "rates", Title: "feeds, pierces and lead-ins by process and thickness, starting values",
		Columns: []string{"process", "plate to mm", "feed mm/min", "pierce s", "lead-in mm", "source"},
		Source:  Source{"common practice; shops differ", CommonPractice}}
	for _, c := range s.cuttings {
		for _, r := range c.Rates {
			t.Rows = append(t.Rows, []string{c.Process, mm(r.MaxT), short(r.Feed, 0), short(r.Pierce, 2), mm(c.LeadIn), c.Source.Text})
		}
	}
	return t
}
