package unit

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

// Limits on a text, so that a hostile one cannot exhaust anything.
const (
	longestText = 1000 // bytes
	deepest     = 50   // parentheses, function calls and signs within each other
)

// parser reads one text by recursive descent:
//
//	sum     = product { ("+" | "-") product }
//	product = signed { ("*" | "/") signed }
//	signed  = [ "+" | "-" ] value
//	value   = number [ unit ] | name | function "(" sum ")" | "(" sum ")" [ unit ]
//
// The first thing wrong is kept in err and ends the reading.
type parser struct {
	s     string
	i     int // byte offset of what comes next
	env   map[string]Quantity
	sys   System
	depth int
	err   *Error
}

// eval reads the whole text.
func eval(text string, env map[string]Quantity, sys System) (Quantity, *Error) {
	p := parser{s: text, env: env, sys: sys}
	if len(text) > longestText {
		p.fail(0, "the text is longer than 1000 characters", "split it with names under let:")
		return Quantity{}, p.err
	}
	p.space()
	if p.i == len(text) {
		p.fail(p.i, "nothing is written here", "write a value such as 1-3/4 in, 44.5 mm or 15 deg")
		return Quantity{}, p.err
	}
	q := p.sum()
	if p.err == nil && p.i < len(text) {
		p.leftOver()
	}
	if p.err != nil {
		return Quantity{}, p.err
	}
	if q.V == 0 {
		q.V = 0 // never -0
	}
	return q, nil
}

// fail keeps the first error; at is a byte offset.
func (p *parser) fail(at int, msg, hint string) {
	if p.err == nil {
		p.err = &Error{Offset: utf8.RuneCountInString(p.s[:min(at, len(p.s))]), Msg: msg, Hint: hint}
	}
}

// space skips blanks.
func (p *parser) space() {
	for p.i < len(p.s) {
		switch p.s[p.i] {
		case ' ', '\t':
			p.i++
			continue
		case 0xC2: // no-break space
			if strings.HasPrefix(p.s[p.i:], "\u00a0") {
				p.i += 2
				continue
			}
		case 0xE2: // thin and narrow spaces
			if strings.HasPrefix(p.s[p.i:], "\u2009") || strings.HasPrefix(p.s[p.i:], "\u202f") {
				p.i += 3
				continue
			}
		}
		return
	}
}

// peek is the next byte, 0 at the end.
func (p *parser) peek() byte {
	if p.i < len(p.s) {
		return p.s[p.i]
	}
	return 0
}

// operator gives the operator that stands at byte i and its width, 0 if none
// does.
func operator(s string, i int) (op byte, width int) {
	if i >= len(s) {
		return 0, 0
	}
	switch c := s[i]; c {
	case '+', '-', '*', '/':
		return c, 1
	case 0xC3:
		switch {
		case strings.HasPrefix(s[i:], "×"):
			return '*', 2
		case strings.HasPrefix(s[i:], "÷"):
			return '/', 2
		}
	case 0xE2:
		if strings.HasPrefix(s[i:], "−") || strings.HasPrefix(s[i:], "–") { // minus sign, en dash
			return '-', 3
		}
	}
	return 0, 0
}

func (p *parser) sum() Quantity {
	p.space()
	atA := p.i
	a := p.product()
	for p.err == nil {
		p.space()
		op, w := operator(p.s, p.i)
		if op != '+' && op != '-' {
			break
		}
		atOp := p.i
		p.i += w
		p.space()
		atB := p.i
		b := p.product()
		if p.err == nil {
			a = p.add(a, b, op, atA, atOp, atB)
		}
	}
	return a
}

func (p *parser) product() Quantity {
	a := p.signed()
	for p.err == nil {
		p.space()
		op, w := operator(p.s, p.i)
		if op != '*' && op != '/' {
			break
		}
		at := p.i
		p.i += w
		b := p.signed()
		if p.err != nil {
			break
		}
		if op == '*' {
			a = p.multiply(a, b, at)
		} else {
			a = p.divide(a, b, at)
		}
	}
	return a
}

func (p *parser) signed() Quantity {
	p.space()
	op, w := operator(p.s, p.i)
	if op != '+' && op != '-' {
		return p.value()
	}
	if !p.enter() {
		return Quantity{}
	}
	p.i += w
	q := p.signed()
	p.depth--
	if op == '-' {
		q.V = -q.V
	}
	return q
}

// enter counts one more level.
func (p *parser) enter() bool {
	p.depth++
	if p.depth > deepest {
		p.fail(p.i, "too many parentheses or signs within each other", "split it with names under let:")
		return false
	}
	return true
}

func (p *parser) value() Quantity {
	switch c := p.peek(); {
	case isDigit(c) || c == '.':
		return p.number()
	case c == '(':
		return p.parenthesis()
	case isLetter(c):
		return p.word()
	case c == '#':
		return p.numberDrill()
	case c >= utf8.RuneSelf:
		if _, _, w := vulgar(p.s, p.i); w > 0 {
			return p.number()
		}
	}
	p.missing()
	return Quantity{}
}

// missing says that a value was wanted where none stands.
func (p *parser) missing() {
	if p.i >= len(p.s) {
		p.fail(p.i, "a value is missing at the end", "write a number, a name or a parenthesis there")
		return
	}
	p.fail(p.i, fmt.Sprintf("a value is wanted before %q", p.excerpt(p.i)), "write a number, a name or a parenthesis there")
}

// excerpt is a short piece of the text for a message.
func (p *parser) excerpt(at int) string { return cut(p.s[at:]) }

// cut keeps the first characters of a text.
func cut(s string) string {
	const most = 24
	n := 0
	for i := range s {
		if n == most {
			return s[:i] + "..."
		}
		n++
	}
	return s
}

func (p *parser) parenthesis() Quantity {
	open := p.i
	if !p.enter() {
		return Quantity{}
	}
	p.i++
	q := p.sum()
	p.depth--
	if p.err != nil {
		return Quantity{}
	}
	p.space()
	if p.peek() != ')' {
		if p.i < len(p.s) {
			p.leftOver()
		} else {
			p.fail(open, "this parenthesis is not closed", "add the missing )")
		}
		return Quantity{}
	}
	p.i++
	return p.unitAfter(q, open)
}

// unitAfter gives a parenthesis its unit, if one follows: (3/8 + 1/16) in.
func (p *parser) unitAfter(q Quantity, open int) Quantity {
	back := p.i
	p.space()
	at := p.i
	sc, ok := p.unit()
	switch {
	case p.err != nil:
		return Quantity{}
	case !ok:
		p.i = back
		return q
	case q.Dim != Plain:
		p.fail(at, "a unit follows a value that already has one: "+q.Dim.String(), "take one of the units out")
		return Quantity{}
	}
	return p.keep(Quantity{q.V * sc.mul / sc.div, sc.dim}, open)
}

// keep checks that a value is finite and not absurdly large.
func (p *parser) keep(q Quantity, at int) Quantity {
	if !q.within() {
		p.fail(at, "the value is too large", "the most is "+Quantity{dims[q.Dim].most, q.Dim}.String())
		return Quantity{}
	}
	return q
}

// word reads a name, a function, or a letter drill.
func (p *parser) word() Quantity {
	at := p.i
	for p.i < len(p.s) && (isLetter(p.s[p.i]) || isDigit(p.s[p.i])) {
		p.i++
	}
	w := p.s[at:p.i]
	back := p.i
	p.space()
	if p.peek() == '(' {
		return p.call(w, at)
	}
	if len(w) == 1 && p.drillWord() {
		return p.drill(w, at)
	}
	p.i = back
	if q, ok := p.env[w]; ok {
		if q.Dim < 0 || int(q.Dim) >= len(dims) {
			p.fail(at, fmt.Sprintf("%s has no dimension known here", w), "")
			return Quantity{}
		}
		return p.keep(q, at)
	}
	p.unknownName(w, at)
	return Quantity{}
}

func (p *parser) call(w string, at int) Quantity {
	if !isFunction(w) {
		if _, ok := p.env[w]; ok {
			p.fail(p.i, fmt.Sprintf("%s is a name and takes no parenthesis", w), "to multiply write "+w+" * (...)")
		} else {
			p.fail(at, fmt.Sprintf("unknown function %q", cut(w)), "known are sqrt, sin, cos and tan")
		}
		return Quantity{}
	}
	open := p.i
	if !p.enter() {
		return Quantity{}
	}
	p.i++
	q := p.sum()
	p.depth--
	p.space()
	switch {
	case p.err != nil:
		return Quantity{}
	case p.peek() != ')':
		if p.i < len(p.s) {
			p.leftOver()
		} else {
			p.fail(open, "this parenthesis is not closed", "add the missing )")
		}
		return Quantity{}
	}
	p.i++
	return p.apply(w, q, at, open+1)
}

func (p *parser) apply(w string, q Quantity, at, arg int) Quantity {
	if w == "sqrt" {
		switch {
		case q.V < 0:
			p.fail(arg, "the square root of a negative value", "give sqrt a value of 0 or more")
		case q.Dim == Plain:
			return Quantity{math.Sqrt(q.V), Plain}
		case q.Dim == AreaDim:
			return Quantity{math.Sqrt(q.V), LengthDim}
		default:
			p.fail(arg, "the square root of "+q.Dim.String(), "give sqrt a plain number or an area, such as a*a + b*b")
		}
		return Quantity{}
	}
	if q.Dim != AngleDim {
		p.fail(arg, w+" of "+q.Dim.String(), "give "+w+" an angle, such as "+w+"(30 deg)")
		return Quantity{}
	}
	switch w {
	case "sin":
		q.V = math.Sin(q.V)
	case "cos":
		q.V = math.Cos(q.V)
	default:
		q.V = math.Tan(q.V)
	}
	return p.keep(Quantity{q.V, Plain}, at)
}

// unknownName says that a word is no name of the file, and what it may be.
func (p *parser) unknownName(w string, at int) {
	msg := fmt.Sprintf("unknown name %q", cut(w))
	if _, ok := unitWord(w); ok {
		p.fail(at, "the unit "+w+" stands without a number", "write the number before it, such as 1 "+w)
		return
	}
	if isFunction(w) {
		p.fail(at, w+" takes its value in parentheses", "write "+w+"(...)")
		return
	}
	if near := nearestName(w, p.env); near != "" {
		p.fail(at, msg, "did you mean "+near)
		return
	}
	p.fail(at, msg, "define it under let:, or write a number with its unit")
}

// leftOver says what to do with text that no value or operator can begin.
func (p *parser) leftOver() {
	c := p.peek()
	msg := fmt.Sprintf("an operator is wanted before %q", p.excerpt(p.i))
	switch {
	case c == ')':
		p.fail(p.i, "a ) without its (", "take it out, or add the ( before it")
	case c == ',':
		p.fail(p.i, "a comma within a value", "write a decimal with a point: 44.5")
	case c == '^' || c == '*':
		p.fail(p.i, msg, "for a power write the value twice: a * a")
	default:
		p.fail(p.i, msg, "write + - * or / between two values; a plain number takes the unit after it")
	}
}
