package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blankwright/profiles"
)

// form is how a number was written.
type form int8

const (
	whole   form = iota // 3
	over                // 3/4, or a fraction sign
	mixed               // 1-3/4, 1 3/4, 1 with a fraction sign
	decimal             // 1.75, 2e3
)

// number reads a number and the unit after it, if there is one.
func (p *parser) number() Quantity {
	at := p.i
	v, f := p.literal()
	if p.err != nil {
		return Quantity{}
	}
	back := p.i
	p.space()
	if f == whole && p.gaugeWord() {
		return p.gauge(v, at)
	}
	atUnit := p.i
	sc, ok := p.unit()
	switch {
	case p.err != nil:
		return Quantity{}
	case !ok:
		p.i = back
		return p.keep(Quantity{v, Plain}, at)
	case sc.mul == foot && sc.dim == LengthDim:
		return p.feet(v, f, at, atUnit)
	}
	return p.keep(Quantity{v * sc.mul / sc.div, sc.dim}, at)
}

// feet reads the inches that may follow feet: 2'-3", 2' 3-1/2", 2 ft 3 in.
// 2 ft - 3 in, with a space on both sides, is a subtraction.
func (p *parser) feet(v float64, f form, at, atUnit int) Quantity {
	q := Quantity{v * foot, LengthDim}
	back := p.i
	p.space()
	before := p.i > back
	op, w := operator(p.s, p.i)
	atOp := p.i
	after := false
	if op == '-' {
		p.i += w
		gap := p.i
		p.space()
		after = p.i > gap
	} else if op != 0 {
		p.i = back
		return p.keep(q, at)
	}
	if !p.atNumber() || op == '-' && before && after {
		p.i = back
		return p.keep(q, at)
	}
	atInches := p.i
	in, _ := p.literal()
	if p.err != nil {
		return Quantity{}
	}
	p.space()
	sc, ok := p.unit()
	switch {
	case p.err != nil:
		return Quantity{}
	case op == '-' && ok && (sc.dim != LengthDim || sc.mul != MM || sc.div != 1): // 5 ft-3 mm
		p.i = back
		return p.keep(q, at)
	case !ok || sc.dim != LengthDim || sc.mul != MM || sc.div != 1:
		p.fail(atInches, "after feet come inches, here without their mark", `write 2'-3", or 2 ft - 3 with spaces to subtract`)
	case op == '-' && before != after:
		p.fail(atOp, "this may be feet and inches or a subtraction", `write 2'-3" without spaces for feet and inches, or 2 ft - 3 in to subtract`)
	case f != whole:
		p.fail(at, "feet before inches must be a whole number", `write 2'-6" or 2.5 ft`)
	case in >= 12:
		p.fail(atInches, "12 inches or more after feet", "carry them over to the feet")
	default:
		return p.keep(Quantity{float64(v*foot) + float64(in*MM), LengthDim}, at)
	}
	return Quantity{}
}

// atNumber reports whether a number begins here.
func (p *parser) atNumber() bool {
	c := p.peek()
	if isDigit(c) || c == '.' {
		return true
	}
	_, _, w := vulgar(p.s, p.i)
	return w > 0
}

// literal reads a number without its unit.
//
// A whole number and a fraction less than one make a mixed number where a
// hyphen stands directly between them (1-3/4), or only blanks (1 3/4). With
// blanks on both sides of the hyphen it is a subtraction. Whatever might be
// read both ways is an error that names both.
func (p *parser) literal() (float64, form) {
	at := p.i
	if n, d, w := vulgar(p.s, at); w > 0 {
		p.i += w
		return n / d, over
	}
	n, digits := p.digits()
	switch c := p.peek(); {
	case c == '.' || c == 'e' || c == 'E':
		return p.decimal(at, n, digits)
	case digits > 15:
		return p.slowDecimal(at)
	case c == ',' && p.i+1 < len(p.s) && isDigit(p.s[p.i+1]):
		p.fail(p.i, "a comma within a number", "write a decimal with a point: 44.5")
		return 0, whole
	}
	if v, ok := p.fraction(n); ok {
		p.noDivisionBefore(at)
		return v, over
	}
	if p.err != nil {
		return 0, over
	}
	return p.mixed(at, n)
}

// digits reads a run of digits and counts them; the value is exact up to 15.
func (p *parser) digits() (v float64, count int) {
	start := p.i
	n := uint64(0)
	for p.i < len(p.s) && isDigit(p.s[p.i]) {
		if p.i-start < 18 {
			n = n*10 + uint64(p.s[p.i]-'0')
		}
		p.i++
	}
	return float64(n), p.i - start
}

// tens are the powers of ten that float64 holds exactly and that decimal uses.
var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// decimal reads on from the point or the exponent. Up to 15 digits in all the
// quotient of two exact values is the nearest float64.
func (p *parser) decimal(at int, n float64, digits int) (float64, form) {
	if p.peek() == 'e' || p.peek() == 'E' {
		if !p.exponentFollows() {
			return p.wholeBeforeWord(n, digits, at)
		}
		return p.slowDecimal(at)
	}
	p.i++
	start := p.i
	m := n
	for p.i < len(p.s) && isDigit(p.s[p.i]) {
		if digits+p.i-start < 15 {
			m = float64(m*10) + float64(p.s[p.i]-'0')
		}
		p.i++
	}
	k := p.i - start
	switch {
	case digits+k == 0:
		p.fail(at, "a point without digits", "write a number such as 0.5")
		return 0, decimal
	case p.exponentFollows() || digits+k > 15:
		return p.slowDecimal(at)
	}
	return m / tens[k], decimal
}

// wholeBeforeWord is a whole number before a word that begins with e.
func (p *parser) wholeBeforeWord(n float64, digits, at int) (float64, form) {
	if digits > 15 {
		return p.slowDecimal(at)
	}
	return n, whole
}

// exponentFollows reports whether an exponent stands next: e3, E-3.
func (p *parser) exponentFollows() bool {
	i := p.i
	if i >= len(p.s) || p.s[i] != 'e' && p.s[i] != 'E' {
		return false
	}
	i++
	if i < len(p.s) && (p.s[i] == '+' || p.s[i] == '-') {
		i++
	}
	return i < len(p.s) && isDigit(p.s[i])
}

// slowDecimal reads a decimal of any length from at.
func (p *parser) slowDecimal(at int) (float64, form) {
	p.i = at
	p.digits()
	if p.peek() == '.' {
		p.i++
		p.digits()
	}
	if p.exponentFollows() {
		p.i += 2
		p.digits()
	}
	v, err := strconv.ParseFloat(p.s[at:p.i], 64)
	if err != nil || math.IsInf(v, 0) {
		p.fail(at, fmt.Sprintf("%q is too large", cut(p.s[at:p.i])), "write a number that can be built")
		return 0, decimal
	}
	return v, decimal
}

// slash gives the width of a fraction's slash at byte i, 0 if there is none.
func slash(s string, i int) int {
	switch {
	case i < len(s) && s[i] == '/':
		return 1
	case i < len(s) && s[i] == 0xE2 && strings.HasPrefix(s[i:], "⁄"):
		return 3
	}
	return 0
}

// fraction reads the rest of a fraction from its slash, whose upper number is
// n; false, with nothing read, where no whole number follows directly.
func (p *parser) fraction(n float64) (float64, bool) {
	w := slash(p.s, p.i)
	if w == 0 || p.i+w >= len(p.s) || !isDigit(p.s[p.i+w]) {
		return 0, false
	}
	back := p.i
	p.i += w
	at := p.i
	d, digits := p.digits()
	if c := p.peek(); c == '.' || digits > 15 || p.exponentFollows() {
		p.i = back
		return 0, false
	}
	if d == 0 {
		p.fail(at, "a division by zero", "write the lower number of the fraction")
		return 0, false
	}
	return n / d, true
}

// mixed reads on after a whole number: the fraction of a mixed number, if one
// stands there.
func (p *parser) mixed(at int, n float64) (float64, form) {
	back := p.i
	p.space()
	before := p.i > back
	op, w := operator(p.s, p.i)
	atOp := p.i
	after := false
	switch op {
	case 0:
	case '-':
		p.i += w
		gap := p.i
		p.space()
		after = p.i > gap
	default:
		p.i = back
		return n, whole
	}
	atFraction := p.i
	f, ok := p.properFraction()
	switch {
	case p.err != nil:
		return 0, mixed
	case !ok || op == '-' && before && after:
		p.i = back
		return n, whole
	case op == '-' && before != after:
		p.fail(atOp, "this may be a mixed number or a subtraction",
			p.bothWays(at, back, atFraction))
		return 0, mixed
	case f >= 1:
		p.fail(at, fmt.Sprintf("the fraction of the mixed number %s is not less than one", cut(p.s[at:p.i])),
			"write "+p.s[at:back]+" - "+p.s[atFraction:p.i]+" with spaces to subtract")
		return 0, mixed
	}
	if p.touchesOperator(at) {
		p.fail(at, fmt.Sprintf("%s may be a mixed number or a subtraction here", cut(p.s[at:p.i])),
			p.bothWays(at, back, atFraction)+"; for a mixed number put spaces round the operators beside it")
		return 0, mixed
	}
	return n + f, mixed
}

// properFraction reads a fraction such as 3/4 or a fraction sign.
func (p *parser) properFraction() (float64, bool) {
	if n, d, w := vulgar(p.s, p.i); w > 0 {
		p.i += w
		return n / d, true
	}
	n, digits := p.digits()
	if digits == 0 || digits > 15 {
		return 0, false
	}
	return p.fraction(n)
}

// bothWays says how to write a mixed number and how a subtraction. The whole
// number is s[at:end], the fraction s[from:p.i].
func (p *parser) bothWays(at, end, from int) string {
	a, b := p.s[at:end], p.s[from:p.i]
	return "write " + a + "-" + b + " for a mixed number, " + a + " - " + b + " to subtract"
}

// touchesOperator reports whether the mixed number from byte at to here stands
// directly beside an operator that would take another value if it were a
// subtraction: 2*1-3/4, w/2-1/2, 2+1-3/4, 1-3/4*2.
func (p *parser) touchesOperator(at int) bool {
	if op, _ := operator(p.s, p.i); op == '*' || op == '/' {
		return true
	}
	before, op, plus := cutSigns(p.s[:at])
	if op == '*' || op == '/' {
		return true
	}
	before = trimBlanks(before)
	return plus && before != "" && before[len(before)-1] != '('
}

// noDivisionBefore refuses a fraction as a divisor: w/3/4 might be (w/3)/4 or
// w/(3/4).
func (p *parser) noDivisionBefore(at int) {
	before := trimBlanks(p.s[:at])
	for {
		cut, op, _ := cutSigns(before)
		cut = trimBlanks(cut)
		if len(cut) == len(before) {
			if op == '/' {
				break
			}
			return
		}
		before = cut
	}
	f := cut(p.s[at:p.i])
	p.fail(at, "a division by the fraction "+f+" may be read two ways", "write ("+f+") to divide by the fraction, or put the first division in parentheses")
}

// cutSigns takes the signs off the end of s that stand directly at it; op is
// the operator before them, 0 if none stands directly there, and plus says
// whether a + was among the signs.
func cutSigns(s string) (rest string, op byte, plus bool) {
	for {
		op, w := lastOperator(s)
		if op != '+' && op != '-' {
			return s, op, plus
		}
		plus = plus || op == '+'
		s = s[:len(s)-w]
	}
}

func trimBlanks(s string) string { return strings.TrimRight(s, " \t\u00a0\u2009\u202f") }

// lastOperator gives the operator that ends s and its width, 0 if none does.
func lastOperator(s string) (op byte, width int) {
	for w := 1; w <= 3 && w <= len(s); w++ {
		if op, n := operator(s, len(s)-w); n == w {
			return op, w
		}
	}
	return 0, 0
}

// vulgar gives upper and lower number of a fraction sign (½) at byte i and its
// width, 0 if there is none.
func vulgar(s string, i int) (n, d float64, width int) {
	if i+1 < len(s) && s[i] == 0xC2 {
		switch s[i+1] {
		case 0xBC:
			return 1, 4, 2
		case 0xBD:
			return 1, 2, 2
		case 0xBE:
			return 3, 4, 2
		}
		return 0, 1, 0
	}
	if i+2 < len(s) && s[i] == 0xE2 && s[i+1] == 0x85 && s[i+2] >= 0x90 && s[i+2] <= 0x9E {
		f := numberForms[s[i+2]-0x90]
		return f[0], f[1], 3
	}
	return 0, 1, 0
}

// numberForms are the fraction signs U+2150 to U+215E.
var numberForms = [...][2]float64{
	{1, 7}, {1, 9}, {1, 10}, {1, 3}, {2, 3}, {1, 5}, {2, 5}, {3, 5}, {4, 5},
	{1, 6}, {5, 6}, {1, 8}, {3, 8}, {5, 8}, {7, 8},
}

// gaugeWord reports whether the word for a gauge stands next, and reads it.
func (p *parser) gaugeWord() bool {
	for _, w := range [...]string{"gauge", "gage", "ga"} {
		if p.takeWord(w) {
			return true
		}
	}
	return false
}

// takeWord reads the given word (lower case) if it stands next as a whole, in
// any case.
func (p *parser) takeWord(w string) bool {
	end := p.i + len(w)
	if end > len(p.s) || p.s[p.i]|0x20 != w[0] || !strings.EqualFold(p.s[p.i:end], w) {
		return false
	}
	if end < len(p.s) && (isLetter(p.s[end]) || isDigit(p.s[end])) {
		return false
	}
	p.i = end
	return true
}

// gauge reads the family after a gauge: 11 ga steel sheet.
func (p *parser) gauge(v float64, at int) Quantity {
	start, end := p.i, p.i
	for {
		p.space()
		from := p.i
		for isLetter(p.peek()) {
			p.i++
		}
		if p.i == from {
			break
		}
		end = p.i
	}
	p.i = end
	number := -1
	if v < 1000 {
		number = int(v)
	}
	mm, _, err := profiles.Gauge(number, strings.TrimSpace(p.s[start:end]))
	if err != nil {
		p.failWith(at, err)
		return Quantity{}
	}
	return Quantity{mm, LengthDim}
}

// failWith keeps the error of another package, its hint after the semicolon.
func (p *parser) failWith(at int, err error) {
	msg, hint, _ := strings.Cut(err.Error(), "; ")
	p.fail(at, msg, hint)
}

// drillWord reads the word drill, if it stands next.
func (p *parser) drillWord() bool { return p.takeWord("drill") }

// numberDrill reads #7 drill. Without the word it might be a screw.
func (p *parser) numberDrill() Quantity {
	at := p.i
	p.i++
	p.digits()
	name := p.s[at:p.i]
	p.space()
	if !p.drillWord() {
		p.fail(at, name+" may be a drill or a screw", "write "+name+" drill, or use the key drill: or bolt:")
		return Quantity{}
	}
	return p.drill(name, at)
}

func (p *parser) drill(name string, at int) Quantity {
	mm, _, err := profiles.Drill(name)
	if err != nil {
		p.failWith(at, err)
		return Quantity{}
	}
	return Quantity{mm, LengthDim}
}
