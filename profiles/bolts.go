package profiles

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// FindBolt reads a bolt or screw by its name: size, then thread if wanted, then
// grade if wanted.
//
//	1/2   1/2-13   1/2-20 UNF   1/2-13 grade 8   5/8 in gr5   1-1/4   1 1/4-7 A325
//	#10-24   10-24   no. 8
//	M14   M14 10.9   M12x1.25 8.8   M16x1.5 class 10.9   M20 A325M
//
// A length is not part of the name. An unknown size names the nearest known
// ones, a thread that the size does not have names those it has.
func FindBolt(text string) (Bolt, error) {
	if len(text) > longestName {
		return Bolt{}, errTooLong
	}
	s := strings.ToLower(text)
	if strings.IndexFunc(s, func(r rune) bool { return r >= 0x80 }) >= 0 {
		s = glyphs.Replace(s)
	}
	s = strings.TrimSpace(s)
	if s == "" {
		return Bolt{}, fmt.Errorf("no bolt named; write one such as 1/2-13 grade 8 or M14 10.9")
	}
	if s[0] == 'm' {
		return findMetricBolt(text, strings.TrimSpace(s[1:]))
	}
	return findInchBolt(text, s)
}

// glyphs turns signs that people's keyboards make into plain ones.
var glyphs = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8",
	"⅝", " 5/8", "⅞", " 7/8", "⁄", "/", "×", "x", "″", `"`, "”", `"`, "–", "-", "\u00a0", " ")

func findMetricBolt(text, s string) (Bolt, error) {
	d, rest, ok := readDecimal(s)
	if !ok {
		return Bolt{}, unreadable(text)
	}
	t, err := findSize(text, metricSizes, d)
	if err != nil {
		return Bolt{}, err
	}
	b := Bolt{Name: t.size, Size: t.size, D: t.d, Metric: true, Source: metricThreads}
	rest = strings.TrimSpace(rest)
	if rest != "" && (rest[0] == 'x' || rest[0] == '-') {
		p, after, ok := readDecimal(strings.TrimSpace(rest[1:]))
		own, has := t.pitch(p)
		switch {
		case ok && has:
			b.Pitch, b.Name = own, t.size+"x"+short(own, 2)
			rest = strings.TrimSpace(after)
		case rest[0] == '-': // M14-10.9: a class
			rest = strings.TrimSpace(rest[1:])
		case ok && p > t.pitches[0]:
			return Bolt{}, fmt.Errorf("bolt %q: x%s is no pitch of %s but looks like a length; give size, pitch and class alone", text, short(p, 2), t.size)
		default:
			return Bolt{}, fmt.Errorf("bolt %q: %s has no such pitch; it has %s", text, t.size, t.threadNames(true))
		}
	}
	return withGrade(b, text, rest)
}

func findInchBolt(text, s string) (Bolt, error) {
	var t *thread
	var err error
	rest := ""
	if no, ok := cutNumberMark(s); ok {
		n, after, ok := readDecimal(no)
		if !ok {
			return Bolt{}, unreadable(text)
		}
		rest = after
		t, err = findNumberSize(text, int(n))
	} else if n, after, ok := bareNumberSize(s); ok {
		rest = after
		t, err = findNumberSize(text, n)
	} else {
		in, after, ok := readInches(s)
		if !ok {
			return Bolt{}, unreadable(text)
		}
		if after != "" && after[0] == '/' {
			return Bolt{}, unreadable(text)
		}
		rest = cutInchWord(after)
		t, err = findInchSize(text, in)
	}
	if err != nil {
		return Bolt{}, err
	}
	b := Bolt{Name: t.size, Size: t.size, D: t.d, Source: unifiedThreads}
	rest = strings.TrimSpace(rest)
	if rest != "" && rest[0] == '-' {
		n, after, ok := readWhole(strings.TrimSpace(rest[1:]))
		own, has := t.pitch(inch / float64(max(n, 1)))
		if !ok || !has {
			return Bolt{}, fmt.Errorf("bolt %q: %s has no such thread; it has %s", text, t.size, t.threadNames(false))
		}
		b.Pitch, b.Name = own, t.size+"-"+strconv.Itoa(n)
		rest = after
	}
	return withGrade(b, text, rest)
}

// withGrade reads what follows size and thread.
func withGrade(b Bolt, text, rest string) (Bolt, error) {
	rest = strings.TrimSpace(rest)
	for i, series := range [...]string{"unc", "unf"} {
		after, ok := strings.CutPrefix(rest, series)
		if !ok || b.Metric {
			continue
		}
		p := threadOf(b).pitches[i]
		if b.Pitch != 0 && nano(b.Pitch) != nano(p) {
			return Bolt{}, fmt.Errorf("bolt %q: %s is not %s; write the thread alone", text, b.Name, strings.ToUpper(series))
		}
		if b.Pitch == 0 {
			b.Pitch, b.Name = p, b.Size+"-"+strconv.Itoa(int(math.Round(inch/p)))
		}
		rest = strings.TrimSpace(after)
	}
	rest = strings.TrimSpace(strings.TrimLeft(rest, ",-"))
	if rest == "" {
		return b, nil
	}
	if rest[0] == 'x' {
		return Bolt{}, fmt.Errorf("bolt %q: %q looks like a length; give size, thread and grade alone", text, rest)
	}
	g, err := findGrade(rest, b.Metric)
	if err != nil {
		return Bolt{}, fmt.Errorf("bolt %q: %w", text, err)
	}
	b.Grade = g
	b.Name += " " + g
	return b, nil
}

func unreadable(text string) error {
	return fmt.Errorf("cannot read bolt %q; write size, thread and grade such as 1/2-13 grade 8, #10-24 or M14 10.9", text)
}

// findSize is the row of a nominal diameter (mm).
func findSize(text string, rows []thread, d float64) (*thread, error) {
	above := len(rows)
	for i := range rows {
		if nano(rows[i].d) == nano(d) {
			return &rows[i], nil
		}
		if rows[i].d > d && above == len(rows) {
			above = i
		}
	}
	near := ""
	switch above {
	case 0:
		near = "the smallest known is " + rows[0].size
	case len(rows):
		near = "the largest known is " + rows[len(rows)-1].size
	default:
		near = "the nearest known are " + rows[above-1].size + " and " + rows[above].size
	}
	return nil, fmt.Errorf("unknown bolt size %q; %s", text, near)
}

// findInchSize is the row of a size in inches, number sizes left out.
func findInchSize(text string, in float64) (*thread, error) {
	t, err := findSize(text, inchThreads, in*inch)
	if err == nil && t.size[0] == '#' {
		return nil, fmt.Errorf("unknown bolt size %q; the number size of that diameter is %s", text, t.size)
	}
	if n := int(in); err != nil && float64(n) == in {
		if t, e := findNumberSize(text, n); e == nil {
			return nil, fmt.Errorf("bolt size %q may be a number or a metric size; write %s or M%d", text, t.size, n)
		}
	}
	return t, err
}

func findNumberSize(text string, n int) (*thread, error) {
	size := "#" + strconv.Itoa(n)
	last := ""
	for i := range inchThreads {
		t := &inchThreads[i]
		if t.size == size {
			return t, nil
		}
		if t.size[0] == '#' {
			last = t.size
		}
	}
	return nil, fmt.Errorf("unknown screw size %q; number sizes known are %s to %s", text, inchThreads[0].size, last)
}

// bareNumberSize reads 10-24: a number size without its mark, told from inches
// by a thread that only the number size has.
func bareNumberSize(s string) (n int, rest string, ok bool) {
	n, after, ok := readWhole(s)
	if !ok || n < 2 || after == "" || after[0] != '-' {
		return 0, "", false
	}
	if _, tail, ok := readWhole(after[1:]); !ok || tail != "" && tail[0] == '/' {
		return 0, "", false
	}
	return n, after, true
}

// cutInchWord takes an inch mark or word off the front.
func cutInchWord(s string) string {
	t := strings.TrimLeft(s, " ")
	for _, w := range [...]string{`"`, "inch", "in"} {
		if rest, ok := strings.CutPrefix(t, w); ok {
			return rest
		}
	}
	return s
}

// pitch gives the size's own pitch (mm) that p is, if it has it.
func (t *thread) pitch(p float64) (float64, bool) {
	for _, q := range t.pitches {
		if nano(p) == nano(q) {
			return q, true
		}
	}
	return 0, false
}

func (t *thread) threadNames(metric bool) string {
	var out []string
	for _, p := range t.pitches {
		if metric {
			out = append(out, t.size+"x"+short(p, 2))
		} else {
			out = append(out, t.size+"-"+strconv.Itoa(int(math.Round(inch/p))))
		}
	}
	return list(out)
}

// readInches reads 1/2, 1-1/2, 1 1/2, 2 or 0.5 at the front of s.
func readInches(s string) (in float64, rest string, ok bool) {
	whole, after, ok := readWhole(s)
	if !ok {
		return readDecimal(s)
	}
	if after != "" && after[0] == '.' {
		return readDecimal(s)
	}
	if f, tail, ok := readOver(whole, after); ok {
		return f, tail, true
	}
	if after != "" && (after[0] == '-' || after[0] == ' ') {
		if n, tail, ok := readWhole(strings.TrimLeft(after, "- ")); ok {
			if f, tail, ok := readOver(n, tail); ok && f < 1 {
				return float64(whole) + f, tail, true
			}
		}
	}
	return float64(whole), after, true
}

// readOver reads the rest of a fraction after its upper number.
func readOver(n int, s string) (f float64, rest string, ok bool) {
	if s == "" || s[0] != '/' {
		return 0, s, false
	}
	d, rest, ok := readWhole(s[1:])
	if !ok || d == 0 {
		return 0, s, false
	}
	return float64(n) / float64(d), rest, true
}

// readWhole reads up to four digits at the front of s.
func readWhole(s string) (n int, rest string, ok bool) {
	i := 0
	for i < len(s) && i < 4 && '0' <= s[i] && s[i] <= '9' {
		n = n*10 + int(s[i]-'0')
		i++
	}
	return n, s[i:], i > 0
}

// readDecimal reads a plain decimal at the front of s.
func readDecimal(s string) (v float64, rest string, ok bool) {
	i := 0
	for i < len(s) && i < 12 && ('0' <= s[i] && s[i] <= '9' || s[i] == '.') {
		i++
	}
	v, err := strconv.ParseFloat(s[:i], 64)
	if err != nil {
		return 0, s, false
	}
	return v, s[i:], true
}
