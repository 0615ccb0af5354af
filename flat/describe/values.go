package describe

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// maxLength (mm) is the longest length and the farthest coordinate of a
// description. Plates come up to some 20 m long; ten times that is a slip of
// the unit.
const maxLength = 50_000

// scalar gives the text of a node that must be a single value.
func (r *reader) scalar(n *node, wanted string) (string, bool) {
	switch {
	case n.kind == brokenKind:
		return "", false
	case n.kind != scalarKind:
		r.add(r.pos(n), "%s is %s, wanted %s", r.key, met(n), wanted)
		return "", false
	case n.empty():
		r.nothing(n, wanted)
		return "", false
	}
	return n.text, true
}

// value gives the text of a length, an angle or a number on one line: the line
// ends of a text written over several lines count as blanks.
func (r *reader) value(n *node, wanted string) (string, bool) {
	text, ok := r.scalar(n, wanted)
	if ok && strings.IndexByte(text, '\n') >= 0 {
		text = strings.ReplaceAll(text, "\n", " ")
	}
	return text, ok
}

// word reads a piece of text on one line.
func (r *reader) word(n *node) Word {
	w := Word{Pos: r.pos(n)}
	text, ok := r.scalar(n, "a text")
	if !ok {
		return w
	}
	text = strings.TrimSpace(text)
	if text == "" {
		r.add(w.Pos, "%s is blank, wanted a text", r.key)
		return w
	}
	if i := strings.IndexFunc(text, func(c rune) bool { return unicode.IsControl(c) || forbidden(c) }); i >= 0 {
		r.addHint(w.Pos, "write it on one line", "%s holds a line end or a control character", r.key)
		return w
	}
	if n := utf8.RuneCountInString(text); n > maxWord {
		r.add(w.Pos, "%s has %d characters, wanted at most %d", r.key, n, maxWord)
		return w
	}
	w.Text, w.Set = text, true
	return w
}

// choice reads one of a few words. Capitals and the number of blanks do not
// count.
func (r *reader) choice(n *node, words ...string) Word {
	w := Word{Pos: r.pos(n)}
	text, ok := r.scalar(n, "one of "+strings.Join(words, ", "))
	if !ok {
		return w
	}
	for _, known := range words {
		if text == known {
			w.Text, w.Set = known, true
			return w
		}
	}
	plain := strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, known := range words {
		if plain == known {
			w.Text, w.Set = known, true
			return w
		}
	}
	r.wrongChoice(w.Pos, text, words)
	return w
}

func (r *reader) wrongChoice(pos diag.Pos, text string, words []string) {
	near := diag.Nearest(text, words)
	if near == "" {
		near = only(text, words)
	}
	hint := ""
	if near != "" {
		hint = "write " + near
	}
	r.addHint(pos, hint, "%s is %s, wanted one of %s", r.key, quote(text), strings.Join(words, ", "))
}

// only gives the one word that begins with the text; "" where several do, or
// none.
func only(text string, words []string) string {
	found := ""
	for _, w := range words {
		if strings.HasPrefix(w, strings.ToLower(text)) {
			if found != "" {
				return ""
			}
			found = w
		}
	}
	return found
}

// flag reads a yes or a no.
func (r *reader) flag(n *node) Flag {
	w := r.choice(n, "yes", "no", "true", "false")
	return Flag{Yes: w.Text == "yes" || w.Text == "true", Pos: w.Pos, Set: w.Set}
}

// count reads a whole number from least to most.
func (r *reader) count(n *node, least, most int) Count {
	c := Count{Pos: r.pos(n)}
	text, ok := r.value(n, "a whole number")
	if !ok {
		return c
	}
	v, err := strconv.Atoi(text)
	if err != nil {
		f, ok := r.number(n, text)
		if !ok {
			return c
		}
		if f != math.Trunc(f) || math.Abs(f) > 1e9 {
			r.add(c.Pos, "%s is %s, wanted a whole number", r.key, quote(text))
			return c
		}
		v = int(f)
	}
	if v < least || v > most {
		r.add(c.Pos, "%s is %d, wanted %d to %d", r.key, v, least, most)
		return c
	}
	c.N, c.Set = v, true
	return c
}

func (r *reader) number(n *node, text string) (float64, bool) {
	f, err := unit.Number(text, r.env)
	if err != nil {
		r.unitProblem(n, err)
		return 0, false
	}
	return f, true
}

// length reads a length of any sign.
func (r *reader) length(n *node) (Length, bool) {
	l := Length{Pos: r.pos(n)}
	text, ok := r.value(n, "a length")
	if !ok {
		return l, false
	}
	mm, err := unit.Length(text, r.env, r.units)
	if err != nil {
		r.unitProblem(n, err)
		return l, false
	}
	if !(math.Abs(mm) <= maxLength) {
		r.addHint(l.Pos, "is the unit right?", "%s is %s, wanted at most %d m", r.key, quote(text), maxLength/1000)
		return l, false
	}
	l.MM, l.Set = mm+0, true // + 0 makes nothing of -0
	return l, true
}

// positive reads a length greater than nothing.
func (r *reader) positive(n *node) Length {
	l, ok := r.length(n)
	if ok && l.MM <= 0 {
		r.add(l.Pos, "%s is %s, wanted more than 0", r.key, quote(n.text))
	}
	return l
}

// notNegative reads a length of nothing or more.
func (r *reader) notNegative(n *node) Length {
	l, ok := r.length(n)
	if ok && l.MM < 0 {
		r.add(l.Pos, "%s is %s, wanted 0 or more", r.key, quote(n.text))
	}
	return l
}

// angle reads an angle from least to most degrees, both included.
func (r *reader) angle(n *node, least, most float64) Angle {
	a := Angle{Pos: r.pos(n)}
	text, ok := r.value(n, "an angle like 30 deg")
	if !ok {
		return a
	}
	rad, err := unit.Angle(text, r.env)
	if err != nil {
		r.unitProblem(n, err)
		return a
	}
	const degree = math.Pi / 180
	if !(rad >= least*degree && rad <= most*degree) {
		r.add(a.Pos, "%s is %s, wanted %g to %g deg", r.key, quote(text), least, most)
		return a
	}
	a.Rad, a.Set = rad+0, true
	return a
}

// point reads [x, y].
func (r *reader) point(n *node) Point {
	p := Point{Pos: r.pos(n)}
	if n.kind == brokenKind {
		return p
	}
	if n.kind != listKind || n.kids != 2 {
		switch {
		case n.empty():
			r.nothing(n, "[x, y]")
		case n.kind == listKind:
			r.add(p.Pos, "%s is a list of %d, wanted [x, y]", r.key, n.kids)
		default:
			r.add(p.Pos, "%s is %s, wanted [x, y]", r.key, met(n))
		}
		return p
	}
	p.X, _ = r.length(n.first)
	p.Y, _ = r.length(n.first.next)
	return p
}

// pair reads [a, b], or one value for both, each with the reader given.
func (r *reader) pair(n *node, one func(*node) Length) [2]Length {
	if n.kind != listKind {
		l := one(n)
		return [2]Length{l, l}
	}
	if n.kids != 2 {
		r.add(r.pos(n), "%s is a list of %d, wanted [first, second] or one value for both", r.key, n.kids)
		return [2]Length{}
	}
	return [2]Length{one(n.first), one(n.first.next)}
}

// list reports whether n is a list. It says so where it is not, or where it has
// fewer items than it must.
func (r *reader) list(n *node, least int, of string) bool {
	if n.kind == brokenKind {
		return false
	}
	if n.kind != listKind {
		if n.empty() {
			r.nothing(n, "a list of "+of)
		} else {
			r.add(r.pos(n), "%s is %s, wanted a list of %s", r.key, met(n), of)
		}
		return false
	}
	if int(n.kids) < least {
		r.add(r.pos(n), "%s is a list of %d, wanted %d or more %s", r.key, n.kids, least, of)
	}
	return true
}

// unitProblem reports what is wrong with a value's text, at the character where
// it is wrong. What follows from a let name that has no value itself is not
// said again.
func (r *reader) unitProblem(n *node, err error) {
	if r.full() || r.namesBroken(n.text) {
		return
	}
	var e *unit.Error
	if !errors.As(err, &e) {
		e = &unit.Error{Msg: err.Error()}
	}
	r.addHint(r.inside(n, e.Offset), e.Hint, "%s: %s", r.key, e.Msg)
}

func (r *reader) namesBroken(text string) bool {
	if len(r.broken) == 0 {
		return false
	}
	found := false
	eachName(text, func(name string) { found = found || r.broken[name] })
	return found
}
