package drawing

import (
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Options say how a drawing is read. The zero value reads with the limits and
// errors that are named here.
type Options struct {
	// Unit of the coordinates by the person's word; Unset believes the file.
	Unit unit.System
	// CurveError is how far, mm, arcs may lie from an ellipse or a spline that
	// they stand for; num.CurveError where not given.
	CurveError float64
	Limits     Limits
}

// Limits keep a hostile drawing from taking all memory or time. A field that is
// not more than 0 has its default.
type Limits struct {
	Bytes  int // of text; 128 MiB
	Pieces int // lines, arcs and texts after blocks are inserted and curves fitted; 500,000
	Depth  int // of blocks inserted in blocks; 32
	Steps  int // entities looked at while inserting blocks, and points of curves worked out; 10,000,000
	Faults int // that are listed of each kind; 1000
}

func (l Limits) filled() Limits {
	fill := func(v *int, def int) {
		if *v <= 0 {
			*v = def
		}
	}
	fill(&l.Bytes, 128<<20)
	fill(&l.Pieces, 500_000)
	fill(&l.Depth, 32)
	fill(&l.Steps, 10_000_000)
	fill(&l.Faults, 1000)
	return l
}

func (o Options) filled() Options {
	if !(o.CurveError > 0) {
		o.CurveError = num.CurveError
	}
	// Finer than this the numbers of a curve say nothing.
	o.CurveError = max(o.CurveError, num.StraightRise)
	o.Limits = o.Limits.filled()
	return o
}
