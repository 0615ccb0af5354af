package geom

import (
	"fmt"
	"strconv"
	"strings"
)

// The text form of a loop, for tables of tests and for errors: its vertices,
// each "x y bulge", parted by semicolons or line ends; a bulge of 0 may be left
// out. Loops are parted by an empty line or by "|". Numbers are written so that
// they read back to the same bits. Two additions keep even odd input lossless:
//
//	x y bulge cx cy r    the arc's circle where it is not the one that the
//	                     ends and the bulge give
//	... > x y            where the segment ends, if not at the next vertex

// String is the loop's lossless text form on one line.
func (l Loop) String() string { return string(l.appendText(nil)) }

// String is the region's lossless text form on one line: outer loop, then the
// openings.
func (r Region) String() string {
	b := r.Outer.appendText(nil)
	for _, h := range r.Holes {
		b = h.appendText(append(b, " | "...))
	}
	return string(b)
}

// String is the segment's text form, as one vertex and its end.
func (s Seg) String() string {
	return string(appendNumbers(append(s.appendText(nil), " > "...), s.B.X, s.B.Y))
}

func (l Loop) appendText(b []byte) []byte {
	for i := range l {
		s := &l[i]
		if i > 0 {
			b = append(b, "; "...)
		}
		b = s.appendText(b)
		if next := l[(i+1)%len(l)].A; s.B != next {
			b = appendNumbers(append(b, " > "...), s.B.X, s.B.Y)
		}
	}
	return b
}

func (s Seg) appendText(b []byte) []byte {
	b = appendNumbers(b, s.A.X, s.A.Y)
	if s.Bulge == 0 && s.circ == (Circle{}) {
		return b
	}
	b = appendNumbers(append(b, ' '), s.Bulge)
	if c := s.circ; c != BulgeSeg(s.A, s.B, s.Bulge).circ {
		b = appendNumbers(append(b, ' '), c.C.X, c.C.Y, c.R)
	}
	return b
}

func appendNumbers(b []byte, vs ...float64) []byte {
	for i, v := range vs {
		if i > 0 {
			b = append(b, ' ')
		}
		b = strconv.AppendFloat(b, v, 'g', -1, 64)
	}
	return b
}

// ParseLoop reads the text form of one loop. It checks the writing alone; what
// the loop is worth Validate tells.
func ParseLoop(text string) (Loop, error) {
	ls, err := parseLoops(text)
	switch {
	case err != nil:
		return nil, err
	case len(ls) == 0:
		return nil, nil
	case len(ls) > 1:
		return nil, fmt.Errorf("loop text holds %d loops, wanted one", len(ls))
	}
	return ls[0], nil
}

// ParseRegion reads the text form of a region: outer loop first, then the
// openings, which are turned clockwise if they are written the other way; the
// outer loop is turned counter-clockwise.
func ParseRegion(text string) (Region, error) {
	ls, err := parseLoops(text)
	if err != nil || len(ls) == 0 {
		return Region{}, err
	}
	for i, l := range ls {
		if l.Area() < 0 != (i > 0) {
			ls[i] = l.Reverse()
		}
	}
	r := Region{Outer: ls[0]}
	if len(ls) > 1 {
		r.Holes = ls[1:]
	}
	return r, nil
}

func parseLoops(text string) ([]Loop, error) {
	var loops []Loop
	var cur []vertex
	flush := func() {
		if len(cur) > 0 {
			loops = append(loops, joinVertices(cur))
			cur = nil
		}
	}
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			flush()
			continue
		}
		for j, part := range strings.Split(line, "|") {
			if j > 0 {
				flush()
			}
			for word := range strings.SplitSeq(part, ";") {
				if strings.TrimSpace(word) == "" {
					continue
				}
				v, err := parseVertex(word)
				if err != nil {
					return nil, fmt.Errorf("loop text line %d: %w", i+1, err)
				}
				cur = append(cur, v)
			}
		}
	}
	flush()
	return loops, nil
}

// vertex is one entry of the text form.
type vertex struct {
	p     Point
	bulge float64
	circ  *Circle // given circle, or nil
	end   *Point  // given end, or nil
}

func parseVertex(text string) (vertex, error) {
	var v vertex
	text, end, broken := strings.Cut(text, ">")
	n, err := parseNumbers(text)
	if err != nil {
		return v, err
	}
	switch len(n) {
	case 6:
		v.circ = &Circle{Point{n[3], n[4]}, n[5]}
		fallthrough
	case 3:
		v.bulge = n[2]
		fallthrough
	case 2:
		v.p = Point{n[0], n[1]}
	default:
		return v, fmt.Errorf("vertex %q has %d numbers, wanted x y, x y bulge or x y bulge cx cy r", strings.TrimSpace(text), len(n))
	}
	if broken {
		e, err := parseNumbers(end)
		if err != nil {
			return v, err
		}
		if len(e) != 2 {
			return v, fmt.Errorf("segment end %q has %d numbers, wanted x y", strings.TrimSpace(end), len(e))
		}
		v.end = &Point{e[0], e[1]}
	}
	return v, nil
}

func parseNumbers(text string) ([]float64, error) {
	var out []float64
	for w := range strings.FieldsSeq(text) {
		f, err := strconv.ParseFloat(w, 64)
		if err != nil {
			return nil, fmt.Errorf("%q is not a number", w)
		}
		out = append(out, f)
	}
	return out, nil
}

func joinVertices(vs []vertex) Loop {
	l := make(Loop, len(vs))
	for i, v := range vs {
		end := vs[(i+1)%len(vs)].p
		if v.end != nil {
			end = *v.end
		}
		l[i] = BulgeSeg(v.p, end, v.bulge)
		if v.circ != nil {
			l[i].circ = *v.circ
		}
	}
	return l
}
