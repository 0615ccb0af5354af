package drawing

import (
	"math"
	"slices"

	"blankwright/flat/geom"
)

// kdTree finds the nearest of many places: each half of the list is split at its
// median, by x and y in turn (J. L. Bentley, "Multidimensional binary search
// trees used for associative searching", CACM 18 (1975),
// DOI 10.1145/361002.361007).
type kdTree struct {
	pts []geom.Point
	ids []int32
}

// newKDTree makes a tree of places; at gives the place of an id. ids is
// reordered.
func newKDTree(ids []int32, at func(id int32) geom.Point) *kdTree {
	t := &kdTree{pts: make([]geom.Point, len(ids)), ids: ids}
	for i, id := range ids {
		t.pts[i] = at(id)
	}
	t.build(0, len(ids), false)
	return t
}

// build orders the places from lo to hi round their medians.
func (t *kdTree) build(lo, hi int, byY bool) {
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		t.selectAt(lo, hi-1, mid, byY)
		byY = !byY
		t.build(lo, mid, byY)
		lo = mid + 1
	}
}

func key(p geom.Point, byY bool) float64 {
	if byY {
		return p.Y
	}
	return p.X
}

// selectAt brings the place that belongs at k there, smaller ones before it.
// C. A. R. Hoare, "Algorithm 65: find", CACM 4 (1961), with the middle of three
// as pivot; equal keys are shared out to both sides.
func (t *kdTree) selectAt(lo, hi, k int, byY bool) {
	for lo < hi {
		a, b, c := key(t.pts[lo], byY), key(t.pts[(lo+hi)/2], byY), key(t.pts[hi], byY)
		pivot := max(min(a, b), min(max(a, b), c))
		i, j := lo, hi
		for i <= j {
			for key(t.pts[i], byY) < pivot {
				i++
			}
			for key(t.pts[j], byY) > pivot {
				j--
			}
			if i <= j {
				t.pts[i], t.pts[j] = t.pts[j], t.pts[i]
				t.ids[i], t.ids[j] = t.ids[j], t.ids[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return
		}
	}
}

// neighbour is a place found, and the square of its distance.
type neighbour struct {
	id int32
	d2 float64
}

// nearest gives up to most places that accept takes and that lie no farther than
// d from p, the nearest first; into is used for them.
func (t *kdTree) nearest(p geom.Point, d float64, most int, into []neighbour, accept func(id int32) bool) []neighbour {
	s := kdSearch{t: t, p: p, most: most, found: into[:0], limit: d * d, accept: accept}
	s.walk(0, len(t.ids), false)
	return s.found
}

type kdSearch struct {
	t      *kdTree
	p      geom.Point
	most   int
	limit  float64
	found  []neighbour
	accept func(id int32) bool
}

func (s *kdSearch) walk(lo, hi int, byY bool) {
	if lo >= hi {
		return
	}
	mid := (lo + hi) / 2
	q := s.t.pts[mid]
	x, y := q.X-s.p.X, q.Y-s.p.Y
	if d2 := x*x + y*y; d2 <= s.limit && s.accept(s.t.ids[mid]) {
		s.keep(neighbour{s.t.ids[mid], d2})
	}
	gap := key(s.p, byY) - key(q, byY)
	nearLo, nearHi, farLo, farHi := lo, mid, mid+1, hi
	if gap > 0 {
		nearLo, nearHi, farLo, farHi = mid+1, hi, lo, mid
	}
	s.walk(nearLo, nearHi, !byY)
	if gap*gap <= s.limit {
		s.walk(farLo, farHi, !byY)
	}
}

// keep sorts a place in among the nearest; equals by their id.
func (s *kdSearch) keep(n neighbour) {
	at, _ := slices.BinarySearchFunc(s.found, n, func(a, b neighbour) int {
		if c := compare(a.d2, b.d2); c != 0 {
			return c
		}
		return int(a.id) - int(b.id)
	})
	if at >= s.most {
		return
	}
	if len(s.found) == s.most {
		s.found = s.found[:s.most-1]
	}
	s.found = slices.Insert(s.found, at, n)
	if len(s.found) == s.most {
		s.limit = math.Min(s.limit, s.found[s.most-1].d2)
	}
}
