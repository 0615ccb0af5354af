package layout

import (
	"cmp"
	"slices"
)

// bestFirst orders layouts of one job: those that place more area before others,
// then those on fewer sheets, then those that leave the larger piece of the last
// sheet for the rack. Of layouts that are alike the later comes first.
func bestFirst(pieces []Piece, sheets []Sheet, all []*Result, gap float64) []*Result {
	type ranked struct {
		r              *Result
		unplaced, left float64
		at             int
	}
	list := make([]ranked, len(all))
	for i, r := range all {
		list[i] = ranked{r, unplacedArea(pieces, r), leftArea(pieces, sheets, r, gap), i}
	}
	slices.SortFunc(list, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.unplaced, b.unplaced), len(a.r.Sheets)-len(b.r.Sheets), cmp.Compare(b.left, a.left), b.at-a.at)
	})
	out := make([]*Result, len(list))
	for i := range list {
		out[i] = list[i].r
	}
	return out
}

func unplacedArea(pieces []Piece, r *Result) (a float64) {
	for _, u := range r.Unplaced {
		a += float64(u.Count) * pieces[u.Piece].Region.Area()
	}
	return a
}

// leftArea is the area of the largest piece that is left of the last sheet, mm²;
// nothing where it cannot be told.
func leftArea(pieces []Piece, sheets []Sheet, r *Result, gap float64) float64 {
	if len(r.Sheets) == 0 {
		return 0
	}
	last := len(r.Sheets) - 1
	var on []Placement
	for _, p := range r.Placements {
		if p.Sheet == last {
			on = append(on, p)
		}
	}
	left, err := Leftover(pieces, sheets[r.Sheets[last].Kind], on, gap)
	if err != nil || len(left) == 0 {
		return 0
	}
	return left[0].Area()
}
