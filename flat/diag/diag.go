// Package diag holds what the program tells people about their files: places
// in the text, problems in a description and findings about a part.
package diag

import (
	"cmp"
	"fmt"
	"sort"
	"strings"
)

// Pos is a place in a description. Line and Col count from 1, Col in
// characters; Line 0 means the file as a whole.
type Pos struct {
	File string `json:"file"`
	Line int    `json:"line"`
	Col  int    `json:"column"`
}

// String gives file:line:column.
func (p Pos) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Before reports whether p comes before q: see Compare.
func (p Pos) Before(q Pos) bool { return p.Compare(q) < 0 }

// Compare orders places by file, line, column.
func (p Pos) Compare(q Pos) int {
	return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
}

// Problem is one thing wrong with a description: what was met and what was
// wanted, then what would be right. Message and Hint are lower case, without a
// final stop.
type Problem struct {
	Pos     Pos
	Message string
	Hint    string
}

// Problems collects what is wrong with a description; as an error it prints
// one line a problem (and one a hint), sorted by place.
type Problems []Problem

// Add notes a problem.
func (ps *Problems) Add(pos Pos, format string, args ...any) {
	*ps = append(*ps, Problem{Pos: pos, Message: fmt.Sprintf(format, args...)})
}

// AddHint notes a problem together with what would be right.
func (ps *Problems) AddHint(pos Pos, hint, format string, args ...any) {
	*ps = append(*ps, Problem{Pos: pos, Message: fmt.Sprintf(format, args...), Hint: hint})
}

// Err gives the problems sorted by place, or nil where there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	sort.SliceStable(ps, func(i, j int) bool { return ps[i].Pos.Before(ps[j].Pos) })
	return ps
}

func (ps Problems) Error() string {
	var b strings.Builder
	for i, p := range ps {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s: error: %s", p.Pos, p.Message)
		if p.Hint != "" {
			fmt.Fprintf(&b, "\n%s: hint: %s", p.Pos, p.Hint)
		}
	}
	return b.String()
}

// Severity says how much a finding weighs.
type Severity int

const (
	// Note is worth knowing and changes nothing.
	Note Severity = iota
	// Warning asks for a look; drawings are written.
	Warning
	// Error is a failed check: no cutting file is written unless the person
	// says so.
	Error
)

func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Warning:
		return "warning"
	}
	return "error"
}

// MarshalText gives the severity's name.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Place is a point on the part, in mm, in the part's own coordinates.
type Place struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// Finding is one rule's word on one place of a part.
type Finding struct {
	Pos         Pos      `json:"position"` // the line that made the feature
	Rule        string   `json:"rule"`     // id of the rule
	Severity    Severity `json:"severity"`
	Features    []string `json:"features"` // names of the holes or edges concerned
	Where       Place    `json:"where"`
	Got         float64  `json:"got"`  // measured, in Unit
	Want        float64  `json:"want"` // required, in Unit
	Unit        string   `json:"unit"` // "mm", "mm2", "kN", "" for a bare number
	Source      string   `json:"source"`
	Message     string   `json:"message"`
	Fix         string   `json:"fix"`                   // the smallest change that mends it
	Formula     string   `json:"formula,omitempty"`     // with the numbers put in
	Utilisation float64  `json:"utilisation,omitempty"` // of what is held, 1 is all of it
	Case        string   `json:"case,omitempty"`        // the load case that governs
	Waived      string   `json:"waived,omitempty"`      // the reason given in the file, when waived
}

// Fails reports whether the finding stops a cutting file: an error that no
// waiver answers for.
func (f Finding) Fails() bool { return f.Severity == Error && f.Waived == "" }
