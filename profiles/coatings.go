package profiles

// Coating is how thick a coating comes on one face, by plate thickness.
type Coating struct {
	Kind   string  // "galvanised", "paint", "powder"
	From   float64 // plate thickness from which the row holds, mm
	Mean   float64 // thickness on one face, mm
	Source Source
}

var galvanised = Source{"ISO 1461, Table 3, mean coating on steel not centrifuged", FromMemory}

// coatings: rows of one kind lie together, the thinnest plate first.
var coatings = []Coating{
	{"galvanised", 0, 0.045, galvanised}, {"galvanised", 1.5, 0.055, galvanised},
	{"galvanised", 3, 0.070, galvanised}, {"galvanised", 6, 0.085, galvanised},
	{"paint", 0, 0.12, Source{"common practice: primer and top coat, 0.08 to 0.15 mm", CommonPractice}},
	{"powder", 0, 0.10, Source{"common practice: 0.06 to 0.12 mm", CommonPractice}},
}

// CoatingKinds are the kinds of coatings.
func CoatingKinds() []string { return []string{"galvanised", "paint", "powder"} }

// CoatingFor gives a coating on plate of thickness t (mm); false for a kind that
// the set does not have.
func (s *Set) CoatingFor(kind string, t float64) (Coating, bool) {
	var last Coating
	for _, r := range s.orDefault().coatings {
		if r.Kind == kind && nano(t) >= nano(r.From) {
			last = r
		}
	}
	return last, last.Kind != ""
}

func (s *Set) coatingTable() Table {
	t := Table{Name: "coatings", Title: "thickness of coatings on one face", Columns: []string{"coating", "plate from mm", "on one face mm", "source", founded},
		Source: Source{Text: "ISO 1461; common practice"}}
	for _, r := range s.coatings {
		t.Rows = append(t.Rows, []string{r.Kind, mm(r.From), short(r.Mean, 3), r.Source.Text, string(r.Source.Prov)})
	}
	return t
}
