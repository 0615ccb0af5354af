package drawing

import (
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Assembly is a drawing with its lines joined to outlines and openings.
type Assembly struct {
	Drawing   *Drawing
	Tolerance float64 // within which loose ends were joined, mm

	Contours []Contour // closed lines, in the order of the file
	Marks    []Path    // lines to be marked: on layers for marks, or open and inside an outline
	Open     []Path    // other lines that close nothing
	Faults   []Fault   // the drawing's own first

	changes []Change // that joining made
	untold  int      // changes beyond those that are told of
	tangled bool     // no regions can be told

	// What lies inside an outline that is open is no part of its own: open lines
	// with their ends joined, and boxes of lines that only gaps part.
	half  []Contour
	boxes []geom.Box
}

// Contour is a closed line: an outline where Depth is even, counter-clockwise;
// an opening where it is odd, clockwise. It begins with what is drawn first.
type Contour struct {
	Loop   geom.Loop
	Layer  int // its place in Drawing.Layers
	Line   int // of the first entity in the file
	Depth  int // how many contours lie round it
	Parent int // its place in Contours: the one directly round it; -1 for none
}

// Path is a line that is not closed.
type Path struct {
	Layer int
	Line  int
	Segs  []geom.Seg
}

// Change is one thing that was changed to get clean outlines.
type Change struct {
	At      geom.Point // mm
	Line    int        // of the entity in the file
	Message string     // with the place, in the unit of the drawing
}

// Assemble joins the lines of a drawing. Ends within tolerance (mm;
// num.JoinEnds where it is not more than 0) are joined where nothing joins them
// as drawn; lines drawn twice count once; closed lines are nested by
// containment. All that is wrong is among the faults; d is not changed.
//
// Its cost is n log n in the number of lines for drawings whose lines meet
// mostly at their ends. Where they meet far more often the search is cut short,
// and a fault says so.
func Assemble(d *Drawing, tolerance float64) *Assembly {
	if !(tolerance > 0) {
		tolerance = num.JoinEnds
	}
	a := &assembler{
		d: d, tol: tolerance,
		out:   &Assembly{Drawing: d, Tolerance: tolerance},
		stuck: map[int32]bool{},
	}
	a.faults.limit = Limits{Faults: d.faults.limit}.filled().Faults
	a.take()
	a.dropCopies()
	a.lookAtPairs()
	a.split()
	a.findNodes()
	a.mateNodes()
	a.joinGaps()
	a.untieKnots()
	a.makeChains()
	a.makeContours()
	a.nest()
	if a.dropTwins() {
		a.nest()
	}
	a.tell()
	a.out.Faults = append(append([]Fault(nil), d.Faults...), a.faults.list()...)
	return a.out
}

// Regions are the outlines with their openings as they were joined, in the order
// of the file. They are as sound as the drawing: the faults tell, and Mend gives
// those that are fit to be cut.
func (a *Assembly) Regions() []geom.Region {
	rs, _ := regions(a.Contours)
	return rs
}

// regions puts contours together; of tells which contours each is made of.
func regions(cs []Contour) (rs []geom.Region, of [][]int) {
	at := make([]int, len(cs))
	for i := range cs {
		at[i] = -1
		if cs[i].Depth%2 == 0 {
			at[i] = len(rs)
			rs = append(rs, geom.Region{Outer: cs[i].Loop})
			of = append(of, []int{i})
		}
	}
	for i := range cs {
		if p := cs[i].Parent; cs[i].Depth%2 == 1 && p >= 0 && at[p] >= 0 {
			rs[at[p]].Holes = append(rs[at[p]].Holes, cs[i].Loop)
			of[at[p]] = append(of[at[p]], i)
		}
	}
	return rs, of
}

// assembler is an assembly in the making.
type assembler struct {
	d      *Drawing
	tol    float64
	out    *Assembly
	faults collector

	pieces  []piece
	wear    map[int32]*wear // doubled stretches of pieces
	doubles []double
	contact []contact
	search  budget

	next   []int32 // ends: the next one at the same node, -1
	nodes  []node
	mate   []int32 // ends: the end it is joined to, -1
	knots  [][]int32
	shared []sharing // nodes where lines of several layers pass
	loose  looseEnds
	gaps   []gap          // closed within tolerance
	apart  []gap          // too wide
	stuck  map[int32]bool // ends that hang on an outline

	chains  []chain
	links   []link
	chainOf []int32 // pieces: the chain it is in, -1
	inside  *insideTest
}

// piece is one segment of a shape.
type piece struct {
	seg    geom.Seg
	shape  int32
	origin int32   // the piece it was split from, or itself
	exact  [2]bool // its ends are coordinates of the file
	gone   bool
}

// An end is numbered 2*piece, +1 for B.

func (a *assembler) at(end int32) geom.Point {
	s := &a.pieces[end>>1].seg
	if end&1 == 0 {
		return s.A
	}
	return s.B
}

func (a *assembler) shapeOf(i int32) *Shape { return &a.d.Shapes[a.pieces[i].shape] }
func (a *assembler) layerOf(i int32) int    { return a.shapeOf(i).Layer }

// take makes pieces of all shapes that are to be cut.
func (a *assembler) take() {
	n := 0
	for i := range a.d.Shapes {
		n += len(a.d.Shapes[i].Segs)
	}
	a.pieces = make([]piece, 0, n)
	for i := range a.d.Shapes {
		s := &a.d.Shapes[i]
		if a.d.Layers[s.Layer].Marks {
			a.out.Marks = append(a.out.Marks, Path{s.Layer, s.Line, s.Segs})
			continue
		}
		exact := s.written()
		for _, g := range s.Segs {
			if g.A.Dist(g.B) <= num.Coincident {
				a.tellNoLength(s, g.A)
				continue
			}
			a.pieces = append(a.pieces, piece{seg: g, shape: int32(i), origin: int32(len(a.pieces)), exact: [2]bool{exact, exact}})
		}
	}
}
