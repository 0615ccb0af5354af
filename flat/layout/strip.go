package layout

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

func (o *Options) workers() int {
	if o.Workers > 0 {
		return min(o.Workers, mostLanes)
	}
	return min(runtime.NumCPU(), mostLanes)
}

func (o *Options) lanes() int {
	if o.Iterations > 0 {
		return lanesInStep
	}
	return o.workers()
}

// Strip places all pieces on a strip of a given height, mm, as short as the
// search finds. Options.Margin, InsideOpenings and turns are as in Plan.
func Strip(ctx context.Context, pieces []Piece, height float64, o Options) (*StripResult, error) {
	if err := checkOptions(o); err != nil {
		return nil, err
	}
	if len(pieces) == 0 {
		return nil, &InputError{Fault: NoPieces}
	}
	if err := checkPieces(pieces, o.Gap); err != nil {
		return nil, err
	}
	m, err := newModel(pieces, o)
	if err != nil {
		return nil, err
	}
	inset := o.Margin - o.grow()
	m.bins = []bin{{inset, inset, math.Inf(1), height - inset}}
	if err := m.fits(pieces, height-2*inset); err != nil {
		return nil, err
	}
	m.ready()
	first := newGreedy(m)
	for _, i := range m.bySize() {
		if !first.place(ctx, i) {
			return nil, errStopped
		}
	}
	s := &shrink{m: m}
	b := newBoard(ctx, o, o.effort(o.now()), s.used(first.l), first.l.saved())
	finish := func(length float64, spots []spot) *StripResult {
		r := &StripResult{Length: length + inset}
		r.Placements = m.placements(spots)
		a := 0.0
		for _, p := range pieces {
			a += p.Region.Area() * float64(p.Quantity)
		}
		r.Density = a / (height * r.Length)
		return r
	}
	if o.Progress != nil {
		b.report = func(length float64, spots []spot) {
			r := finish(length, spots)
			o.Progress(Progress{1, len(m.items), len(m.items), r.Density, o.now().Sub(b.start)})
		}
	}
	b.search(func(seat *seat) { s.run(newLane(m, o.Seed, seat.lane+1), seat) })
	r := finish(b.length, b.spots)
	sheet := Sheet{Name: "strip", Region: rectangle(geom.Box{Max: geom.Point{X: r.Length, Y: height}})}
	proof := &Result{Sheets: []UsedSheet{{}}, Placements: r.Placements}
	if err := Prove(pieces, []Sheet{sheet}, proof, o.Gap, o.Margin); err != nil {
		return nil, err
	}
	return r, nil
}

var errStopped = errors.New("the search was stopped before the first layout")

// fits reports a piece that no turn brings into the height.
func (m *model) fits(pieces []Piece, height float64) error {
	for i := range m.kinds {
		least := math.Inf(1)
		for _, o := range m.kinds[i].orients {
			or := &m.orients[o]
			least = math.Min(least, or.h-or.trim.y0-or.trim.y1)
		}
		if least > height {
			return &InputError{Fault: PieceTooLarge, Name: pieces[i].Name, Got: least, Want: height}
		}
	}
	return nil
}

// newModel makes the shapes of the pieces.
func newModel(pieces []Piece, o Options) (*model, error) {
	m := &model{}
	outlines := make([][][]geom.Point, len(pieces))
	width, area := math.Inf(1), math.Inf(1) // of the least that could lie in an opening
	for i := range pieces {
		rings, err := outline(pieces[i].Region, o, len(pieces))
		if err != nil {
			return nil, err
		}
		outlines[i] = rings
		width, area = min(width, ringWidth(rings[0])), min(area, ringArea(rings[0]))
	}
	for i := range pieces {
		p := &pieces[i]
		rings := slices.DeleteFunc(outlines[i], func(r []geom.Point) bool {
			return ringArea(r) < 0 && (-ringArea(r) < area || ringWidth(r) < width)
		})
		b := p.Region.Bounds()
		k := m.addKind(p.Region, o.grow(), rings, turnsOf(p, rings, len(pieces)), max(b.Width(), b.Height())*num.LayoutSame)
		for range p.Quantity {
			m.items = append(m.items, k)
		}
	}
	return m, nil
}
