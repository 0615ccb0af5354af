package layout

import (
	"fmt"
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// ProofError is a place where a layout breaks what was promised.
type ProofError struct {
	Sheet     int    // index of Result.Sheets
	A, B      string // names of the two pieces, or of the piece and the sheet
	At        geom.Point
	Got, Want float64 // mm apart; Got is 0 where they overlap
}

func (e *ProofError) Error() string {
	return fmt.Sprintf("on sheet %d %q and %q are %s mm apart at (%s, %s), which must be %s", e.Sheet+1, e.A, e.B,
		num.Short(e.Got, 4), num.Short(e.At.X, 2), num.Short(e.At.Y, 2), num.Short(e.Want, 4))
}

// Prove checks a layout on the true lines and arcs: every copy that is neither
// placed nor listed as unplaced, two pieces nearer to each other than gap, or a
// piece nearer to an edge of its sheet than margin, mm, is an error (a
// *ProofError for the distances). A distance on its limit is enough
// (num.AtLeast). With a gap or margin of 0 pieces may touch.
func Prove(pieces []Piece, sheets []Sheet, r *Result, gap, margin float64) error {
	if err := proveCounts(pieces, sheets, r); err != nil {
		return err
	}
	on := make([][]int, len(r.Sheets))
	for i, p := range r.Placements {
		on[p.Sheet] = append(on[p.Sheet], i)
	}
	for s, list := range on {
		if err := proveSheet(pieces, &sheets[r.Sheets[s].Kind], s, r.Placements, list, gap, margin); err != nil {
			return err
		}
	}
	return nil
}

// proveCounts checks that every copy is there once.
func proveCounts(pieces []Piece, sheets []Sheet, r *Result) error {
	used := make([]int, len(sheets))
	for _, s := range r.Sheets {
		if s.Kind < 0 || s.Kind >= len(sheets) {
			return fmt.Errorf("a sheet of kind %d is used, which was not given", s.Kind)
		}
		used[s.Kind]++
	}
	for k, n := range used {
		if c := sheets[k].Count; c > 0 && n > c {
			return fmt.Errorf("sheet %q is used %d times, and there are %d", sheets[k].Name, n, c)
		}
	}
	type copyOf struct{ piece, copy int }
	seen := map[copyOf]bool{}
	count := make([]int, len(pieces))
	for _, p := range r.Placements {
		if p.Piece < 0 || p.Piece >= len(pieces) || p.Sheet < 0 || p.Sheet >= len(r.Sheets) ||
			p.Copy < 0 || p.Copy >= pieces[p.Piece].Quantity || seen[copyOf{p.Piece, p.Copy}] {
			return fmt.Errorf("copy %d of piece %d is placed twice, or was not asked for", p.Copy, p.Piece)
		}
		seen[copyOf{p.Piece, p.Copy}] = true
		count[p.Piece]++
	}
	for _, u := range r.Unplaced {
		if u.Piece < 0 || u.Piece >= len(pieces) {
			return fmt.Errorf("piece %d is unplaced, which was not given", u.Piece)
		}
		count[u.Piece] += u.Count
	}
	for i, n := range count {
		if n != pieces[i].Quantity {
			return fmt.Errorf("piece %q has %d copies placed or listed, and %d were asked for", pieces[i].Name, n, pieces[i].Quantity)
		}
	}
	return nil
}

// solid is a placed piece in the proof.
type solid struct {
	name   string
	region geom.Region
	box    geom.Box
}

func (s *solid) loops() []geom.Loop { return append([]geom.Loop{s.region.Outer}, s.region.Holes...) }

func proveSheet(pieces []Piece, sheet *Sheet, at int, all []Placement, list []int, gap, margin float64) error {
	exact := make([]solid, len(list))
	for i, k := range list {
		p := &pieces[all[k].Piece]
		r := p.Region.Transform(all[k].Motion)
		exact[i] = solid{p.Name, r, r.Bounds()}
	}
	// Where touching is allowed a distance of 0 says nothing: pieces less a hair
	// must then be apart.
	var shrunk []solid
	if gap <= num.LimitSlack || margin <= num.LimitSlack {
		shrunk = make([]solid, len(list))
		for i := range exact {
			rs, err := geom.Offset([]geom.Region{exact[i].region}, -num.LimitSlack, geom.Mitre)
			if err != nil {
				return err
			}
			if len(rs) != 1 {
				return fmt.Errorf("piece %q is too thin to be proven", exact[i].name)
			}
			shrunk[i] = solid{exact[i].name, rs[0], rs[0].Bounds()}
		}
	}
	solids := exact
	if gap <= num.LimitSlack {
		solids, gap = shrunk, 0
	}
	if err := provePairs(solids, at, gap); err != nil {
		return err
	}
	solids = exact
	if margin <= num.LimitSlack {
		solids, margin = shrunk, 0
	}
	return proveInside(solids, sheet, at, margin)
}

// apart reports whether a measured distance meets its limit; touching never
// does.
func apart(got, want float64) bool { return got > 0 && num.AtLeast(got, want) }

func provePairs(solids []solid, at int, gap float64) error {
	var loops []geom.Loop
	var owner []int
	for i := range solids {
		for _, l := range solids[i].loops() {
			loops = append(loops, l)
			owner = append(owner, i)
		}
	}
	for _, p := range geom.NewIndex(loops...).Pairs(gap) {
		a, b := owner[p.I], owner[p.J]
		if a != b && !apart(p.D, gap) {
			return &ProofError{at, solids[a].name, solids[b].name, p.P, p.D, gap}
		}
	}
	// Boundaries that keep apart may still be one inside the other.
	for a := range solids {
		for b := range solids {
			if a == b || !within(solids[a].box, solids[b].box) {
				continue
			}
			if p := solids[a].region.Outer[0].A; solids[b].region.Contains(p) != geom.Outside {
				return &ProofError{at, solids[a].name, solids[b].name, p, 0, gap}
			}
		}
	}
	return nil
}

func within(a, b geom.Box) bool {
	return a.Min.X >= b.Min.X && a.Min.Y >= b.Min.Y && a.Max.X <= b.Max.X && a.Max.Y <= b.Max.Y
}

func proveInside(solids []solid, sheet *Sheet, at int, margin float64) error {
	edges := append([]geom.Loop{sheet.Region.Outer}, sheet.Region.Holes...)
	for i := range solids {
		s := &solids[i]
		if p := s.region.Outer[0].A; sheet.Region.Contains(p) != geom.Inside {
			return &ProofError{at, s.name, sheet.Name, p, 0, margin}
		}
		for j, e := range edges {
			for _, l := range s.loops() {
				if n := geom.LoopLoop(l, e); !apart(n.D, margin) {
					return &ProofError{at, s.name, sheet.Name, n.P, math.Max(n.D, 0), margin}
				}
			}
			if p := e[0].A; j > 0 && s.region.Contains(p) != geom.Outside {
				return &ProofError{at, s.name, sheet.Name, p, 0, margin}
			}
		}
	}
	return nil
}
