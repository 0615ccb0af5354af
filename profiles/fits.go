package profiles

// FitRow is the allowance of one kind of fit for bores up to a diameter.
type FitRow struct {
	Kind      string  // "press", "slip", "shell"
	To        float64 // bores up to this, mm
	Allowance float64 // bore less what goes in, mm: negative where that has to be pressed in
	Source    Source
}

var (
	pressSource = Source{"ISO 286-2, H7/p6, middle of the interference", FromMemory}
	slipSource  = Source{"ISO 286-2, H7/g6, middle of the clearance", FromMemory}
	shellSource = Source{"common practice for the shells of rubber bushes: 0.05 to 0.15 mm by size; the maker's figure goes first", CommonPractice}
)

// boreFits: rows of one kind lie together, the smallest first; the last one
// holds for what is larger as well.
var boreFits = []FitRow{
	{"press", 6, -0.010, pressSource}, {"press", 10, -0.012, pressSource}, {"press", 18, -0.0145, pressSource},
	{"press", 30, -0.018, pressSource}, {"press", 50, -0.0215, pressSource}, {"press", 80, -0.0265, pressSource},
	{"press", 120, -0.0305, pressSource}, {"press", 180, -0.0355, pressSource},

	{"slip", 6, 0.014, slipSource}, {"slip", 10, 0.017, slipSource}, {"slip", 18, 0.0205, slipSource},
	{"slip", 30, 0.024, slipSource}, {"slip", 50, 0.0295, slipSource}, {"slip", 80, 0.0345, slipSource},
	{"slip", 120, 0.0405, slipSource}, {"slip", 180, 0.0465, slipSource},

	{"shell", 25, -0.05, shellSource}, {"shell", 40, -0.10, shellSource}, {"shell", 180, -0.15, shellSource},
}

// FitKinds are the kinds of fits that a bore may have.
func FitKinds() []string { return []string{"press", "slip", "shell"} }

// FitFor gives the allowance of a fit for what goes in, of diameter d (mm); false
// for a kind that the set does not have.
func (s *Set) FitFor(kind string, d float64) (FitRow, bool) {
	var last FitRow
	for _, r := range s.orDefault().fits {
		if r.Kind != kind {
			continue
		}
		if last = r; nano(d) <= nano(r.To) {
			break
		}
	}
	return last, last.Kind != ""
}

func (s *Set) fitTable() Table {
	t := Table{Name: "bore-fits", Title: "allowance of a bore by what goes in; the last row of a kind holds beyond it",
		Columns: []string{"fit", "up to mm", "allowance mm", "source", founded}, Source: Source{Text: "ISO 286-2; common practice for shells of rubber bushes"}}
	for _, r := range s.fits {
		t.Rows = append(t.Rows, []string{r.Kind, mm(r.To), short(r.Allowance, 4), r.Source.Text, string(r.Source.Prov)})
	}
	return t
}
