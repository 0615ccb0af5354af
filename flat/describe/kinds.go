package describe

import (
	"strings"

	"blankwright/flat/diag"
)

// Kind is what a file describes.
type Kind int

// The kinds of files.
const (
	PartFile Kind = iota // a flat part: read by Parse
	TubeFile             // a tube with its ends: read by ParseTube
	JobFile              // parts and tubes that belong together: read by ParseJob
)

// KindOf tells from the text what a file describes: its first line that begins
// with `part:`, `tube:` or `job:` says so. Without one of them it is taken as a
// part.
func KindOf(text []byte) Kind {
	for line := range strings.Lines(strings.TrimPrefix(string(text), "\ufeff")) {
		switch word, _, _ := strings.Cut(line, ":"); word {
		case "part":
			return PartFile
		case "tube":
			return TubeFile
		case "job":
			return JobFile
		}
	}
	return PartFile
}

// parseAs reads a text with the reader of its kind. The error is diag.Problems.
func parseAs[T any](file string, text []byte, read func(*reader, *node) *T) (*T, error) {
	s, ascii, bad := screen(file, text)
	if bad != nil {
		return nil, diag.Problems{*bad}
	}
	root, problems := readTree(file, s, ascii)
	r := &reader{file: file, text: s, ascii: ascii, problems: problems}
	var out *T
	if root != nil {
		out = read(r, root)
	}
	if err := r.problems.Err(); err != nil {
		return nil, err
	}
	return out, nil
}

// head reads what every kind of file begins with: its units and let names.
func (r *reader) head(root *node, key string, pos *diag.Pos) {
	*pos = r.pos(root)
	if root.kind != mappingKind {
		return
	}
	r.units = r.readUnits(valueOf(root, "units"))
	if n := valueOf(root, "let"); n != nil {
		r.readLet(n)
	}
	if k := keyOf(root, key); k != nil {
		*pos = r.pos(k)
	}
	r.key, r.keyNode = "the description", nil
}

// items reads a list of at most most mappings, one after the other.
func items[T any](r *reader, n *node, what, like string, most int, read func(*reader, *node, *T)) []T {
	if n.empty() || !r.list(n, 0, like) || n.kids == 0 {
		return nil
	}
	if int(n.kids) > most {
		r.add(r.pos(n), "%s is a list of %d, at most %d are read", r.key, n.kids, most)
		return nil
	}
	out := make([]T, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = what, nil
		var v T
		read(r, item, &v)
		out = append(out, v)
	}
	return out
}
