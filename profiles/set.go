package profiles

// Set is the tables that a run works with: the embedded ones, or those with a
// shop's own rows and limits on top. A set is never changed once it is made, so
// that runs may share it; a nil set is the embedded one.
type Set struct {
	processes []processRow
	materials []materialRow
	tabFits   []TabFit
	limits    [limitCount]Limit
	fits      []FitRow
	coatings  []Coating
	cuttings  []Cutting
	layers    [layerCount]Layer
	currency  string // of the prices of cuttings; "" without any
	testBends []TestBend
	own       []string // names of the profiles laid on top, in order
}

var embedded = &Set{
	processes: processes, materials: materials, tabFits: tabFits,
	limits: limits, fits: boreFits, coatings: coatings,
	cuttings: cuttings, layers: layers,
}

// Default is the set of embedded tables.
func Default() *Set { return embedded }

func (s *Set) orDefault() *Set {
	if s == nil {
		return embedded
	}
	return s
}

// Own names the profiles that were laid on top of the embedded tables, in the
// order in which they were.
func (s *Set) Own() []string { return append([]string(nil), s.orDefault().own...) }

// Limit gives a shop limit: mm, or a bare number.
func (s *Set) Limit(id LimitID) float64 { return s.orDefault().limits[id].Value }

// LimitRow gives a shop limit with its source.
func (s *Set) LimitRow(id LimitID) Limit { return s.orDefault().limits[id] }
