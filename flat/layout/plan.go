package layout

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync/atomic"
	"time"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Plan places the pieces on the sheets. A cancelled ctx ends the search early:
// the best layout so far is the result then. Input that no layout can be made
// from is an *InputError. What is handed out has been proven (Prove).
func Plan(ctx context.Context, pieces []Piece, sheets []Sheet, o Options) (*Result, error) {
	if err := checkInput(pieces, sheets, o); err != nil {
		return nil, err
	}
	p := &planner{given: pieces, pieces: pieces, sheets: sheets, o: o, start: o.now()}
	p.lieDown()
	p.slant()
	if err := p.prepare(); err != nil {
		return nil, err
	}
	effort := o.effort(p.start)
	p.fill(shelfFiller, p.m.bySize())
	p.tell()
	tries := []*Result{p.result()}
	ctx, cancel := effort.bound(ctx)
	defer cancel()
	p.fillBest(ctx)
	tries = append(tries, p.result())
	if !effort.none() && ctx.Err() == nil {
		p.improve(ctx, effort)
		tries = append(tries, p.result())
	}
	// The search errs outward, so that the best is proven too; should the proof find
	// otherwise, another may still do.
	var err error
	for _, r := range bestFirst(pieces, sheets, tries, o.Gap) {
		if err = Prove(pieces, sheets, r, o.Gap, o.Margin); err == nil {
			return r, nil
		}
	}
	return nil, err
}

// planner holds one layout on sheets.
type planner struct {
	given  []Piece
	pieces []Piece // as the search turns them
	sheets []Sheet
	o      Options
	start  time.Time
	back   geom.Motion // from the sheets as the search has them to the sheets given
	m      *model
	plates []plate // by kind of sheet
	used   []filled
	left   []int // items without a place
}

// filled is a used sheet: its kind, and the items on it with their spots in the
// coordinates of its region.
type filled struct {
	kind  int
	items []int
	spots []spot
}

// lieDown turns the job by a quarter turn where every sheet is higher than wide:
// sheets are filled along x, so that what is left is across their longer side.
func (p *planner) lieDown() {
	for _, s := range p.sheets {
		if b := s.Region.Bounds(); b.Height() <= b.Width() {
			return
		}
	}
	p.back = geom.Rotate(math.Pi / 2)
	p.sheets, p.pieces = slices.Clone(p.sheets), slices.Clone(p.pieces)
	for i := range p.sheets {
		p.sheets[i].Region = p.sheets[i].Region.Transform(geom.Rotate(-math.Pi / 2))
	}
	for i := range p.pieces {
		turns := slices.Clone(p.pieces[i].Turns)
		for k := range turns {
			turns[k] -= math.Pi / 2
		}
		p.pieces[i].Turns = turns
	}
}

func (p *planner) prepare() error {
	var err error
	if p.m, err = newModel(p.pieces, p.o); err != nil {
		return err
	}
	p.m.ready()
	for _, s := range p.sheets {
		l, err := p.m.newPlate(s, p.o)
		if err != nil {
			return err
		}
		p.plates = append(p.plates, l)
	}
	p.m.ready()
	return p.checkFits()
}

// checkFits finds a piece that is larger than every sheet.
func (p *planner) checkFits() error {
	for i, k := range p.m.kinds {
		fits := false
		short, room := math.Inf(1), 0.0
		for _, o := range k.orients {
			or := &p.m.orients[o]
			for _, l := range p.plates {
				w, h := l.bin.x1-l.bin.x0, l.bin.y1-l.bin.y0
				ow, oh := or.w-or.trim.x0-or.trim.x1, or.h-or.trim.y0-or.trim.y1
				if num.AtLeast(w, ow) && num.AtLeast(h, oh) {
					fits = true
				}
				over, has := ow-w, w
				if oh-h > over {
					over, has = oh-h, h
				}
				if over < short {
					short, room = over, has
				}
			}
		}
		if !fits {
			return &InputError{Fault: PieceTooLarge, Name: p.pieces[i].Name, Turned: len(p.given[i].Turns) == 0, Got: room + short - p.o.Gap, Want: room - p.o.Gap}
		}
	}
	return nil
}

// part is the model of some items on some bins.
func (m *model) part(items []int, bins []bin, fixed []block) *model {
	kinds := make([]int, len(items))
	for i, it := range items {
		kinds[i] = m.items[it]
	}
	return &model{orients: m.orients, kinds: m.kinds, items: kinds, fixed: fixed, bins: bins, size: m.size, cells: m.cells, fields: m.fields, made: m.made}
}

// filler fills the one bin of a model: it gives the spots of the items that it
// placed, by item; false if it was stopped.
type filler func(m *model) (map[int]spot, bool)

func shelfFiller(m *model) (map[int]spot, bool) { return shelves(m), true }

// greedyFiller fills greedily, and counts its work.
func greedyFiller(ctx context.Context, leading float64, work *atomic.Int64) filler {
	return func(m *model) (map[int]spot, bool) {
		g := newGreedy(m)
		g.leading = leading
		placed := map[int]spot{}
		for i := range m.items {
			if g.place(ctx, i) {
				placed[i] = g.l.spots[i]
			}
		}
		work.Add(int64(g.crossings))
		return placed, ctx.Err() == nil
	}
}

// fill lays the items out sheet by sheet, in order; false if it was stopped.
func (p *planner) fill(by filler, order []int) bool {
	p.used, p.left = nil, order
	for kind := range p.sheets {
		for n := 0; len(p.left) > 0 && (p.sheets[kind].Count == 0 || n < p.sheets[kind].Count); n++ {
			b, blocks := p.plates[kind].moved(0, 0)
			placed, ok := by(p.m.part(p.left, []bin{b}, blocks))
			if !ok {
				return false
			}
			if len(placed) == 0 {
				break
			}
			f := filled{kind: kind}
			var rest []int
			for i, it := range p.left {
				if s, lies := placed[i]; lies {
					f.items = append(f.items, it)
					f.spots = append(f.spots, s)
				} else {
					rest = append(rest, it)
				}
			}
			p.left = rest
			p.used = append(p.used, f)
		}
	}
	return true
}

// tell reports the layout as it is.
func (p *planner) tell() { p.tellShort(-1, 1) }

// tellShort reports it with one sheet of which a share only is used.
func (p *planner) tellShort(short int, share float64) {
	if p.o.Progress == nil {
		return
	}
	g := Progress{Sheets: len(p.used), Total: len(p.m.items), Elapsed: p.o.now().Sub(p.start)}
	area, plate := 0.0, 0.0
	for i, f := range p.used {
		g.Placed += len(f.items)
		if a := p.sheets[f.kind].Region.Area(); i == short {
			plate += a * share
		} else {
			plate += a
		}
		for _, it := range f.items {
			area += p.pieces[p.m.items[it]].Region.Area()
		}
	}
	g.Utilisation = area / plate
	p.o.Progress(g)
}

// result is the layout as it is handed out.
func (p *planner) result() *Result {
	r := &Result{}
	for s, f := range p.used {
		r.Sheets = append(r.Sheets, UsedSheet{Kind: f.kind})
		for i, it := range f.items {
			r.Placements = append(r.Placements, Placement{
				Piece: p.m.items[it], Copy: it, Sheet: s,
				Motion: p.m.orients[f.spots[i].orient].motion(f.spots[i]).Then(p.back),
			})
		}
	}
	slices.SortFunc(r.Placements, func(a, b Placement) int {
		return cmp.Or(a.Sheet-b.Sheet, a.Piece-b.Piece, a.Copy-b.Copy)
	})
	copies := make([]int, len(p.pieces))
	for i := range r.Placements {
		k := r.Placements[i].Piece
		r.Placements[i].Copy = copies[k]
		copies[k]++
	}
	for i, q := range p.pieces {
		if n := q.Quantity - copies[i]; n > 0 {
			r.Unplaced = append(r.Unplaced, Unplaced{i, n, p.why(i)})
		}
	}
	measure(p.pieces, p.sheets, r)
	return r
}

// why tells why copies of a piece have no place.
func (p *planner) why(piece int) string {
	for kind := range p.sheets {
		b, blocks := p.plates[kind].moved(0, 0)
		it := slices.Index(p.m.items, piece)
		if g := newGreedy(p.m.part([]int{it}, []bin{b}, blocks)); g.place(context.Background(), 0) {
			return "no room is left on the sheets; give more sheets" + p.orTurns(piece)
		}
	}
	return "no place was found for it even on an empty sheet: it is larger than the plate that the margins, the openings and the outline leave; give a larger sheet" + p.orTurns(piece)
}

// orTurns is more advice for a piece that may not lie at any angle.
func (p *planner) orTurns(piece int) string {
	if len(p.given[piece].Turns) == 0 {
		return ""
	}
	return ", or allow more turns"
}

// measure fills in the utilisation of a result and its sheets.
func measure(pieces []Piece, sheets []Sheet, r *Result) {
	used := make([]float64, len(r.Sheets))
	for _, p := range r.Placements {
		used[p.Sheet] += pieces[p.Piece].Region.Area()
	}
	sum, plate := 0.0, 0.0
	for i := range r.Sheets {
		a := sheets[r.Sheets[i].Kind].Region.Area()
		r.Sheets[i].Utilisation = used[i] / a
		sum += used[i]
		plate += a
	}
	if plate > 0 {
		r.Utilisation = sum / plate
	}
}
