package unit

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"blankwright/flat/diag"
)

// unit reads a unit, if one stands next. A word that stands where a unit would
// and is none is an error.
func (p *parser) unit() (scale, bool) {
	at := p.i
	c := p.peek()
	switch {
	case c == '\'' || c == '"' || c >= utf8.RuneSelf:
		if w := markWidth(p.s, at); w > 0 {
			p.i += w
			return unitWord(p.s[at:p.i])
		}
		if !strings.HasPrefix(p.s[at:], "µ") && !strings.HasPrefix(p.s[at:], "μ") {
			return scale{}, false
		}
		p.i += 2
	case !isLetter(c):
		return scale{}, false
	}
	for p.i < len(p.s) && isLetter(p.s[p.i]) {
		p.i++
	}
	if p.i < len(p.s) && (p.s[p.i] == '2' || p.s[p.i] == 0xC2) {
		p.square()
	}
	sc, ok := p.joined(at)
	if ok {
		return sc, true
	}
	w := p.s[at:p.i]
	if sc, ok = unitWord(w); ok {
		return sc, true
	}
	if len(w) < 16 {
		if known, ok := anyCase(lowerASCII(w)); ok {
			return unitWord(known)
		}
	}
	p.unknownUnit(w, at)
	return scale{}, false
}

// markWidth gives the width of a unit's mark at byte i: ' " ” ″ ′ ’ ° and twice
// a single mark for inches.
func markWidth(s string, i int) int {
	switch r, w := utf8.DecodeRuneInString(s[i:]); r {
	case '\'', '′', '’':
		if strings.HasPrefix(s[i+w:], s[i:i+w]) {
			return 2 * w
		}
		return w
	case '"', '″', '”', '“', '°':
		return w
	}
	return 0
}

// square reads the 2 of an area's unit.
func (p *parser) square() {
	w := 1
	if p.s[p.i] == 0xC2 {
		if !strings.HasPrefix(p.s[p.i:], "²") {
			return
		}
		w = 2
	}
	p.i += w
}

// joined reads on to a unit made of two, such as lbf-ft, N·m or N/mm2, if what
// follows makes one.
func (p *parser) joined(at int) (scale, bool) {
	i := p.i
	if i >= len(p.s) {
		return scale{}, false
	}
	switch c := p.s[i]; {
	case c == '-' || c == '.' || c == '*' || c == '/':
		i++
	case c == 0xC2 && strings.HasPrefix(p.s[i:], "·"):
		i += 2
	case c == 0xE2 && (strings.HasPrefix(p.s[i:], "⋅") || strings.HasPrefix(p.s[i:], "•")):
		i += 3
	case c == ' ':
		return p.newtonMetres(at)
	default:
		return scale{}, false
	}
	first := i
	for i < len(p.s) && isLetter(p.s[i]) {
		i++
	}
	if i == first {
		return scale{}, false
	}
	switch {
	case i < len(p.s) && p.s[i] == '2':
		i++
	case strings.HasPrefix(p.s[i:], "²"):
		i += 2
	}
	w := p.s[at:i]
	if len(w) > 16 {
		return scale{}, false
	}
	sc, ok := longUnitWord(w)
	if !ok {
		var known string
		if known, ok = anyCase(lowerASCII(w)); ok {
			sc, ok = longUnitWord(known)
		}
	}
	if ok {
		p.i = i
	}
	return sc, ok
}

// newtonMetres reads N m, with a blank, as the SI writes it.
func (p *parser) newtonMetres(at int) (scale, bool) {
	mul := 0.0
	switch p.s[at:p.i] {
	case "N":
		mul = 1
	case "kN":
		mul = 1000
	default:
		return scale{}, false
	}
	back := p.i
	p.space()
	switch {
	case p.takeExact("mm"):
		return scale{TorqueDim, mul, 1}, true
	case p.takeExact("m"):
		return scale{TorqueDim, 1000 * mul, 1}, true
	}
	p.i = back
	return scale{}, false
}

// takeExact reads a word as it stands, case and all.
func (p *parser) takeExact(w string) bool {
	if !strings.HasPrefix(p.s[p.i:], w) {
		return false
	}
	if end := p.i + len(w); end < len(p.s) && (isLetter(p.s[end]) || isDigit(p.s[end])) {
		return false
	}
	p.i += len(w)
	return true
}

// unitNames are offered where a unit is misspelt.
var unitNames = []string{"mm", "cm", "in", "inch", "inches", "ft", "feet", "thou", "metre", "metres", "deg", "degrees", "rad",
	"kN", "lbf", "kip", "kgf", "newton", "lbf-ft", "lbf-in", "MPa", "GPa", "ksi", "psi", "mm2", "in2", "gauge"}

func (p *parser) unknownUnit(w string, at int) {
	msg := fmt.Sprintf("unknown unit %q", cut(w))
	if _, ok := p.env[w]; ok {
		p.fail(at, fmt.Sprintf("the name %s directly after a number", w), "to multiply write * between them")
		return
	}
	if hint := doubtfulUnit(w); hint != "" {
		p.fail(at, "the unit "+w+" is not known here or may mean two things", hint)
		return
	}
	if near := diag.Nearest(w, unitNames); near != "" {
		p.fail(at, msg, "did you mean "+near)
		return
	}
	p.fail(at, msg, "lengths are written in mm, cm, m, in, ft or thou, angles in deg, forces in N, kN, lbf or kip, torques in N.m or lbf-ft")
}

// nearestName finds the name in the env that was most likely meant; the first
// in the alphabet of equally near ones, so that the answer is always the same.
func nearestName(w string, env map[string]Quantity) string {
	best := ""
	for name := range env {
		if diag.Nearest(w, []string{name}) != "" && (best == "" || better(w, name, best)) {
			best = name
		}
	}
	return best
}

// better reports whether a is nearer to w than b, or before it in the alphabet.
func better(w, a, b string) bool {
	ab, ba := diag.Nearest(w, []string{a, b}), diag.Nearest(w, []string{b, a})
	if ab == ba {
		return ab == a
	}
	return a < b
}
