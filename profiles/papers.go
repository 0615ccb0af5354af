package profiles

// Paper is a sheet of paper, upright.
type Paper struct {
	Name    string
	W, H    float64 // mm
	Aliases []string
	Source  Source
}

var (
	iso216 = Source{"ISO 216:2007, Table 1", FromMemory}
	y14    = Source{"ASME Y14.1, sheet sizes", FromMemory}
)

var papers = []Paper{
	{"A5", 148, 210, nil, iso216},
	{"A4", 210, 297, nil, iso216},
	{"A3", 297, 420, nil, iso216},
	{"A2", 420, 594, nil, iso216},
	{"A1", 594, 841, nil, iso216},
	{"A0", 841, 1189, nil, iso216},
	{"ANSI A", 8.5 * inch, 11 * inch, []string{"letter", "us letter"}, y14},
	{"ANSI B", 11 * inch, 17 * inch, []string{"tabloid", "ledger"}, y14},
	{"ANSI C", 17 * inch, 22 * inch, nil, y14},
	{"ANSI D", 22 * inch, 34 * inch, nil, y14},
	{"ANSI E", 34 * inch, 44 * inch, nil, y14},
	{"legal", 8.5 * inch, 14 * inch, []string{"us legal"}, Source{"North American office paper", CommonPractice}},
}

// Papers gives all papers.
func Papers() []Paper { return append([]Paper(nil), papers...) }

// FindPaper gives a paper by its name: `A4`, `letter`, `ANSI B`, `tabloid`.
func FindPaper(name string) (Paper, error) {
	if len(name) > longestName {
		return Paper{}, errTooLong
	}
	want := squeeze(name)
	var known []string
	for _, p := range papers {
		known = append(known, p.Name)
		if squeeze(p.Name) == want {
			return p, nil
		}
		for _, a := range p.Aliases {
			known = append(known, a)
			if squeeze(a) == want {
				return p, nil
			}
		}
	}
	return Paper{}, unknown("paper", name, known)
}
