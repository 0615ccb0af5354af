package paper

import (
	"fmt"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// Page is a sheet of paper as it is turned, its unprinted margin included.
type Page struct {
	Name          string  // "A4", "letter", "roll 610 mm", "300 x 500 mm"
	Width, Height float64 // mm; of a roll, Height is 0 until a length is cut
	Inch          bool    // sold in inches: its size is written in them
	Roll          bool    // cut from a roll that is Width wide
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

// FindPage finds a paper, upright, by its name (`A4`, `letter`, `tabloid`), by
// its size (`300 x 500 mm`, `8-1/2x14in`: width by height) or as a roll of some
// width (`roll 24 in`). The error says what was wrong with it and names the
// nearest known paper.
func FindPage(name string) (Page, error) {
	low := strings.ToLower(strings.TrimSpace(name))
	switch {
	case len(low) > longestPaper:
		return Page{}, fmt.Errorf("the paper's name has %d letters; give a name such as A4, a size such as 300 x 500 mm or a roll such as roll 24 in", len(low))
	case strings.Contains(low, "roll"):
		return rollPage(low)
	case sized(low):
		return sizedPage(low)
	}
	p, err := profiles.FindPaper(name)
	if err != nil {
		return Page{}, fmt.Errorf("%w; a size such as 300 x 500 mm and a roll such as roll 24 in are taken too", err)
	}
	q := Page{Name: p.Name, Width: p.W, Height: p.H, Inch: true}
	switch {
	case p.Name[0] == 'A' && len(p.Name) == 2: // ISO 216 A series
		q.Inch = false
	case strings.HasPrefix(p.Name, "ANSI") && len(p.Aliases) > 0:
		q.Name = p.Aliases[0]
	}
	return q, nil
}

const longestPaper = 60

// sized reports whether a paper is given by its sides: figures, and a cross
// between them.
func sized(s string) bool {
	i := strings.IndexAny(s, "x×*")
	return i > 0 && strings.ContainsAny(s[:i], "0123456789")
}

func rollPage(s string) (Page, error) {
	words := strings.Trim(strings.Replace(s, "roll", "", 1), " :=-,")
	w, inch, err := side(words, "")
	if err != nil {
		return Page{}, fmt.Errorf("paper %q: %w; write the roll's width with its unit, such as roll 24 in or roll 610 mm", s, err)
	}
	p := Page{Width: w, Inch: inch, Roll: true}
	p.Name = "roll " + p.side(w) + p.unit()
	return p, checkSides(p, w, w)
}

func sizedPage(s string) (Page, error) {
	i := strings.IndexAny(s, "x×*")
	_, n := utf8.DecodeRuneInString(s[i:])
	h, inch, err := side(s[i+n:], "")
	var w float64
	if err == nil {
		w, _, err = side(s[:i], unitWord(s[i+n:]))
	}
	if err != nil {
		return Page{}, fmt.Errorf("paper %q: %w; write width x height with their unit, such as 300 x 500 mm or 8-1/2 x 14 in", s, err)
	}
	p := Page{Width: w, Height: h, Inch: inch}
	p.Name = p.sides()
	return p, checkSides(p, w, h)
}

// side reads one side of a paper; other is the unit that is taken where it has
// none of its own.
func side(s, other string) (mm float64, inch bool, err error) {
	s = strings.TrimSpace(s)
	u := unitWord(s)
	if u == "" {
		s, u = s+" "+other, other
	}
	mm, err = unit.Length(s, nil, unit.Unset)
	return mm, u != "" && !strings.HasSuffix(u, "m"), err
}

// unitWord is what stands behind the last figure.
func unitWord(s string) string {
	i := strings.LastIndexFunc(s, func(r rune) bool { return unicode.IsDigit(r) || unicode.Is(unicode.No, r) })
	if i < 0 {
		return ""
	}
	_, n := utf8.DecodeRuneInString(s[i:])
	return strings.TrimSpace(s[i+n:])
}

// checkSides reports whether the sides of a page can be printed on.
func checkSides(p Page, w, h float64) error {
	if !num.Finite(w, h) || min(w, h) < 50 || max(w, h) > longestRoll {
		return fmt.Errorf("paper %q is %s x %s mm; its sides must be 50 to %d mm", p.Name, num.Short(w, 1), num.Short(h, 1), longestRoll)
	}
	return nil
}

// turned is the page with its other side up.
func (p Page) turned() Page {
	p.Width, p.Height = p.Height, p.Width
	return p
}

// side is a length in the paper's own unit.
func (p Page) side(v float64) string {
	if p.Inch {
		return num.Short(v/unit.MM, 2)
	}
	return num.Short(v, 1)
}

func (p Page) unit() string {
	if p.Inch {
		return " in"
	}
	return " mm"
}

// sides are width and height, as `8.5 x 11 in`.
func (p Page) sides() string { return p.side(p.Width) + " x " + p.side(p.Height) + p.unit() }

// words names the page and its size.
func (p Page) words() string {
	if s := p.sides(); p.Name != s {
		return p.Name + ", " + s
	}
	return p.Name
}

// margin is left blank on every side, mm: common printers reach to 4 to 6 mm
// from the paper's edge (common practice), and a hand needs something to hold.
const margin = 10.0
