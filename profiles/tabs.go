package profiles

// TabFit is how much larger than a tab the slot for it is made, both ways, mm.
type TabFit struct {
	Process string
	Least   float64 // with less the plates have to be forced
	Usual   float64 // what is made where the file does not say
	Source  Source
}

// tabFits by the process that cuts the slot. A slot comes out as rough and as
// tapered as its process cuts, and the tab as well, so that coarse processes
// need more.
var tabFits = []TabFit{
	{"air plasma", 0.8, 0.8, Source{"common practice: 0.8 mm on plasma", CommonPractice}},
	{"tuned plasma", 0.5, 0.8, Source{"common practice: 0.8 mm on plasma, 0.5 mm with hole settings and a fresh tip", CommonPractice}},
	{"fibre laser", 0.3, 0.4, Source{"common practice: 0.3 to 0.5 mm on a laser", CommonPractice}},
	{"waterjet", 0.3, 0.4, Source{"common practice: as on a laser, 0.3 to 0.5 mm", CommonPractice}},
	{"oxy-fuel", 1.0, 1.5, Source{"common practice: 1 to 1.5 mm on a flame-cut edge", CommonPractice}},
	{"saw and drill", 0.5, 1.0, Source{"common practice: 0.5 to 1 mm by hand, filed to fit", CommonPractice}},
}

// TabFitFor gives how much larger than its tab a slot is made by a process. It
// is the coarsest of all for a process that is not in the table.
func TabFitFor(p Process) TabFit { return Default().TabFitFor(p) }

// TabFitFor gives how much larger than its tab a slot is made by a process, from
// the rows of the set.
func (s *Set) TabFitFor(p Process) TabFit {
	rows := s.orDefault().tabFits
	coarsest := rows[0]
	for _, f := range rows {
		if f.Process == p.Name {
			return f
		}
		if f.Usual > coarsest.Usual {
			coarsest = f
		}
	}
	return coarsest
}

func (s *Set) tabTable() Table {
	t := Table{Name: "tab-slots", Title: "how much wider and longer than its tab a slot is made, starting values",
		Columns: []string{"process", "least mm", "usual mm", "ranges"},
		Source:  Source{"common practice; shops differ", CommonPractice}}
	for _, f := range s.tabFits {
		t.Rows = append(t.Rows, []string{f.Process, mm(f.Least), mm(f.Usual), f.Source.Text})
	}
	return t
}
