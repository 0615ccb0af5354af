package describe

import (
	"strings"
	"unicode/utf8"

	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// reader is the state of one reading of a tree.
type reader struct {
	file     string
	text     string
	ascii    bool
	units    unit.System
	env      map[string]unit.Quantity
	broken   map[string]bool // let names without a value
	problems diag.Problems
	key      string // the key whose value is being read, for messages
	keyNode  *node  // its node, nil where the key is only a name for messages
	refs     []ref
	named    []Word // names of what is not under holes
	lastName Word   // of the named thing that is being read
}

// ref is a word that names a hole; in a waiver it may also name another opening,
// a saddle or a tab.
type ref struct {
	word   Word
	single bool // must be one hole, not a pattern
}

// Parse reads a description. file is the name for messages.
//
// The error is diag.Problems with everything that is wrong with the text, in
// the order of the file; the part is nil then. Where the text is not YAML at
// all, only the first place where that shows is known.
func Parse(file string, text []byte) (*Part, error) {
	s, ascii, bad := screen(file, text)
	if bad != nil {
		return nil, diag.Problems{*bad}
	}
	root, problems := readTree(file, s, ascii)
	r := &reader{file: file, text: s, ascii: ascii, problems: problems}
	var p *Part
	if root != nil {
		p = r.part(root)
	}
	if err := r.problems.Err(); err != nil {
		return nil, err
	}
	return p, nil
}

func (r *reader) pos(n *node) diag.Pos {
	return diag.Pos{File: r.file, Line: int(n.line), Col: int(n.col)}
}

// full reports whether enough problems have been found; from the last on they
// only make the list longer.
func (r *reader) full() bool { return len(r.problems) >= maxProblems }

func (r *reader) add(pos diag.Pos, format string, args ...any) {
	if !r.full() {
		r.problems.Add(pos, format, args...)
	}
}

func (r *reader) addHint(pos diag.Pos, hint, format string, args ...any) {
	if !r.full() {
		r.problems.AddHint(pos, hint, format, args...)
	}
}

// nothing reports a key without a value. A value that begins with # is a comment
// for YAML: the hint says so where the line looks like that.
func (r *reader) nothing(n *node, wanted string) {
	pos, hint := r.pos(n), ""
	if k := r.keyNode; k != nil && k.text == r.key && n.style == plainStyle && n.text == "" {
		if n.line != k.line {
			pos = r.pos(k)
		}
		rest := afterCol(lineText(r.text, int(k.line)), int(k.col)+utf8.RuneCountInString(k.text))
		rest = strings.TrimLeft(rest, " :")
		if len(rest) > 1 && rest[0] == '#' && rest[1] != ' ' {
			word, _, _ := strings.Cut(rest, " ")
			hint = "a # after a space begins a comment; put the text in quotes: " + r.key + ": \"" + strings.TrimRight(word, ",}]") + "\""
		}
	}
	r.addHint(pos, hint, "%s is empty, wanted %s", r.key, wanted)
}

// afterCol gives what stands in a line from a column on.
func afterCol(line string, col int) string {
	for i := range line {
		if col--; col == 0 {
			return line[i:]
		}
	}
	return ""
}
