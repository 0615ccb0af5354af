package drawing

import (
	"fmt"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
)

// Kind is what is wrong with a place of a drawing.
type Kind int8

// What may be wrong with a drawing. The first group is found in reading, the
// second in assembling.
const (
	UnitDoubt  Kind = iota // the unit is not known or looks wrong
	NotLevel               // z is not 0
	Tilted                 // drawn in a plane that is not level
	OutOfRange             // farther out than a part can be
	Unreadable             // an entity that makes no sense
	Hidden                 // on a layer that is switched off, or not to be seen
	Wide                   // a line with a width
	NotRead                // kinds of entity that are not read and may hold lines
	NotCut                 // kinds of entity that hold nothing to cut, and are left out

	Gap        // ends that should meet and do not
	Doubled    // one line drawn twice, or in part
	NearDouble // two lines closer than num.NearDouble all along
	Crossing   // two lines cross
	Touching   // an outline touches itself or another
	Branch     // three or more lines end in one place
	Stray      // a line that closes nothing
	Tiny       // a segment shorter than num.TinyEdge
	NoLength   // an entity or segment of no length
	NoArea     // a closed line that encloses nothing
	Outside    // a circle outside of all outlines, which looks like a lost hole
	Island     // a circle round the middle of a round opening
	TextInside // a text inside an outline
	Mark       // an open line on a layer of open lines, taken as a mark
	LeftOut    // an outline that Mend cannot make sound
	Tangled    // more meetings of lines than are looked at
	More       // faults of one kind that are not listed
	kindCount
)

// kindNames are the kinds' ids for people and programs.
var kindNames = [kindCount]string{
	UnitDoubt: "unit-doubt", NotLevel: "not-level", Tilted: "tilted", OutOfRange: "out-of-range",
	Unreadable: "unreadable", Hidden: "hidden", Wide: "wide-line", NotRead: "not-read", NotCut: "not-cut",
	Gap: "open-gap", Doubled: "doubled", NearDouble: "near-double", Crossing: "crossing", Touching: "touching",
	Branch: "branch", Stray: "stray-end", Tiny: "tiny-segment", NoLength: "no-length", NoArea: "no-area",
	Outside: "outside", Island: "island",
	TextInside: "text-inside", Mark: "mark", LeftOut: "left-out", Tangled: "tangled", More: "more",
}

func (k Kind) String() string { return kindNames[k] }

// Fault is one thing that a table, or the person at it, would stumble over.
type Fault struct {
	Kind     Kind
	Severity diag.Severity
	At       geom.Point // mm, in the drawing's coordinates
	To       geom.Point // the other end of a gap or of a stretch; else At
	Size     float64    // of the gap, the distance, the length, mm; 0 where none is meant
	Layer    string
	Line     int    // of the entity in the file, from 1; 0 for the drawing as a whole
	Message  string // with the place, in the unit of the drawing
	Fix      string
	Mends    bool // Mend takes it away
}

func newFault(k Kind, s diag.Severity, at geom.Point) Fault {
	return Fault{Kind: k, Severity: s, At: at, To: at}
}

// Finding is the fault in the form of a rule's finding; the rule is the kind.
func (f Fault) Finding(file string) diag.Finding {
	x := diag.Finding{
		Pos:  diag.Pos{File: file, Line: f.Line, Col: 1},
		Rule: f.Kind.String(), Severity: f.Severity,
		Where: diag.Place{X: f.At.X, Y: f.At.Y}, Got: f.Size, Unit: "mm", Message: f.Message, Fix: f.Fix,
	}
	if f.Line == 0 {
		x.Pos.Col = 0
	}
	if f.Layer != "" {
		x.Features = []string{f.Layer}
	}
	return x
}

// collector keeps faults, of each kind no more than the limit; of the rest it
// keeps the number.
type collector struct {
	limit int
	kept  []Fault
	count [kindCount]int
	first [kindCount]Fault // the first that is not listed
}

func (c *collector) add(f Fault) {
	c.count[f.Kind]++
	switch n := c.count[f.Kind]; {
	case n <= c.limit:
		c.kept = append(c.kept, f)
	case n == c.limit+1:
		c.first[f.Kind] = f
	}
}

// full reports whether the next fault of the kind would not be listed, so that
// no words need be made for it.
func (c *collector) full(k Kind) bool { return c.count[k] > c.limit }

// list gives the faults in the order found, then how many more there are.
func (c *collector) list() []Fault {
	out := c.kept[:len(c.kept):len(c.kept)]
	for k, n := range c.count {
		if n <= c.limit {
			continue
		}
		f := c.first[k]
		out = append(out, Fault{
			Kind: More, Severity: f.Severity, At: f.At, To: f.To, Line: f.Line, Layer: f.Layer, Mends: f.Mends,
			Message: fmt.Sprintf("%d more faults of the kind %s are not listed", n-c.limit, f.Kind),
			Fix:     "mend the listed ones and look again",
		})
	}
	return out
}
