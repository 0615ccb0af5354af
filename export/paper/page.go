package paper

import (
	"sync"

	"blankwright/flat/unit"
	"blankwright/profiles"
)

// Page is a sheet of paper as it is turned, its unprinted margin included.
type Page struct {
	Name          string  // "A4", "letter", "custom"
	Width, Height float64 // mm
	Inch          bool    // sold in inches: its size is written in them
}

// Pages lists the usual papers of a unit system, upright, from small to large.
func Pages(sys unit.System) []Page {
	if sys == unit.Inch {
		return inchPages()
	}
	return metricPages()
}

var (
	inchPages   = sync.OnceValue(func() []Page { return find("letter", "tabloid", "ANSI C", "ANSI D", "ANSI E") })
	metricPages = sync.OnceValue(func() []Page { return find("A4", "A3", "A2", "A1", "A0") })
)

func find(names ...string) []Page {
	ps := make([]Page, 0, len(names))
	for _, n := range names {
		if p, err := FindPage(n); err == nil {
			ps = append(ps, p)
		}
	}
	return ps
}

// FindPage finds a paper, upright, by its name. The error names the nearest
// known one.
func FindPage(name string) (Page, error) {
	p, err := profiles.FindPaper(name)
	if err != nil {
		return Page{}, err
	}
	q := Page{Name: p.Name, Width: p.W, Height: p.H, Inch: true}
	switch {
	case p.Name[0] == 'A' && len(p.Name) == 2: // ISO 216 A series
		q.Inch = false
	case len(p.Aliases) > 0:
		q.Name = p.Aliases[0]
	}
	return q, nil
}

// turned is the page with its other side up.
func (p Page) turned() Page {
	p.Width, p.Height = p.Height, p.Width
	return p
}

// margin is left blank on every side, mm: common printers reach to 4 to 6 mm
// from the paper's edge (common practice), and a hand needs something to hold.
const margin = 10.0

func (p Page) area() Rect { return Rect{margin, margin, p.Width - margin, p.Height - margin} }
