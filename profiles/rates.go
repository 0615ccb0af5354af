package profiles

// Rate is how fast a process goes in plate up to a thickness: starting values
// for a quote, to be replaced by what a shop's own table does.
type Rate struct {
	MaxT   float64 // mm
	Feed   float64 // mm/min along the cut, carbon steel
	Pierce float64 // s for one pierce
}

// cutting is what the cut list needs to know of a process.
type cutting struct {
	leadIn float64 // mm
	rates  []Rate  // by growing thickness
	source Source
}

var cuttings = map[string]cutting{
	"air plasma": {5, []Rate{{1.5, 6000, 0.1}, {3.5, 4000, 0.3}, {6.5, 2000, 0.5}, {10, 1300, 0.7}, {13, 900, 1}, {20, 450, 1.5}, {26, 300, 2}},
		Source{"common practice, from memory: 45 to 105 A by thickness; lead-in 5 to 8 mm", CommonPractice}},
	"tuned plasma": {5, []Rate{{1.5, 6500, 0.1}, {3.5, 4500, 0.3}, {6.5, 3000, 0.4}, {10, 2000, 0.5}, {13, 1600, 0.7}, {20, 1000, 1}, {26, 700, 1.5}},
		Source{"common practice, from memory: 80 to 200 A by thickness; lead-in 5 to 8 mm", CommonPractice}},
	"fibre laser": {2, []Rate{{1.5, 15000, 0.1}, {3.5, 6000, 0.2}, {6.5, 2500, 0.5}, {10, 1500, 1}, {13, 1000, 2}, {20, 600, 4}, {26, 400, 6}},
		Source{"common practice, from memory: 4 to 6 kW with oxygen; lead-in 2 mm", CommonPractice}},
	"waterjet": {3, []Rate{{3.5, 500, 3}, {6.5, 250, 6}, {10, 150, 10}, {13, 110, 14}, {20, 65, 25}, {26, 50, 30}, {51, 20, 80}},
		Source{"common practice, from memory: 3500 bar with abrasive, middle edge quality; lead-in 3 mm", CommonPractice}},
	"oxy-fuel": {8, []Rate{{6.5, 560, 4}, {10, 500, 5}, {13, 450, 7}, {20, 400, 10}, {26, 350, 12}, {51, 250, 20}},
		Source{"common practice, from memory: acetylene; lead-in 8 mm", CommonPractice}},
}

// RateOf is how fast a process cuts plate of thickness t (mm): the row of the
// next thicker plate. ok is false for a process without rates, and for plate
// thicker than its last row.
func RateOf(process string, t float64) (r Rate, src Source, ok bool) {
	c := cuttings[process]
	for _, r := range c.rates {
		if nano(t) <= nano(r.MaxT) {
			return r, c.source, true
		}
	}
	return Rate{}, Source{}, false
}

// LeadIn is the length (mm) that a process needs on the waste side between the
// pierce and the edge; 0 for a process that does not pierce, or is not known.
func LeadIn(process string) (mm float64, src Source) {
	c := cuttings[process]
	return c.leadIn, c.source
}
