package fold

import (
	"fmt"
	"strings"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Kind is a kind of fault.
type Kind string

// The kinds of faults.
const (
	BadValue  Kind = "value"     // a number that cannot be, or a name that there is not
	NoRoom    Kind = "room"      // an edge, a height or a panel has no room for what is asked
	Overlap   Kind = "overlap"   // the flat would need the same metal twice
	Unsound   Kind = "unsound"   // the outline made does not agree with the parts of the flat
	Touch     Kind = "touch"     // two parts of the flat touch, and nothing would part them
	Cut       Kind = "cut"       // a relief takes metal that something else needs
	HolePlace Kind = "hole"      // a hole runs into a bend, over an edge or into another
	Collision Kind = "collision" // the folded part runs into itself
	Blocked   Kind = "order"     // no order of bends leaves room for a straight blade
)

// Problem is one fault of a part, with its place where it has one.
type Problem struct {
	Kind    Kind
	Panel   string     // the flange, or the base, that is to be changed
	Hole    string     // the hole concerned, "" if none
	At      geom.Point // in the flat pattern, whose base has the coordinates given
	Placed  bool       // At says something
	Message string
	Hint    string // what to do
}

// Problems is the error of an operation that found what cannot be made.
type Problems []Problem

func (ps Problems) Error() string {
	var b strings.Builder
	for i, p := range ps {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(p.Message)
		if p.Placed {
			b.WriteString(" at (" + num.Short(p.At.X, 2) + ", " + num.Short(p.At.Y, 2) + ") of the flat")
		}
		if p.Hint != "" {
			b.WriteString("; " + p.Hint)
		}
	}
	return b.String()
}

// err is nil where there are no problems.
func (ps Problems) err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

func (ps *Problems) add(k Kind, panel, hint, format string, args ...any) *Problem {
	*ps = append(*ps, Problem{Kind: k, Panel: panel, Message: fmt.Sprintf(format, args...), Hint: hint})
	return &(*ps)[len(*ps)-1]
}

func (p *Problem) at(q geom.Point) *Problem {
	p.At, p.Placed = q, true
	return p
}

// mm writes a length for people.
func mm(v float64) string { return num.Short(v, 2) + " mm" }
