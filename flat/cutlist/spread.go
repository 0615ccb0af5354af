package cutlist

import (
	"math"

	"blankwright/flat/geom"
)

const (
	// hot is how many of the parts cut last are still hot (common practice: skip
	// about, so that no corner of the plate gathers the heat).
	hot = 4
	// coolShare is how far from them the next part is to lie, as a share of the
	// diagonal of all that is cut: far enough to be another corner of the plate,
	// near enough that half of the parts qualify.
	coolShare = 0.2
)

// Spread gives the order in which the parts of one sheet are cut, one whole part
// after the other, beginning near from: each time the nearest part that lies well
// away from those cut last and are still hot, else the one that lies farthest from
// them. A part that lies in an opening of another comes before that one, for its
// plate falls with the opening's cut.
//
// Parts are in their places on the sheet and do not overlap; mm. They are not
// changed. Its cost is n² in their number.
func Spread(parts []geom.Region, from geom.Point) []int {
	s := spreader{at: make([]geom.Point, len(parts)), boxes: make([]geom.Box, len(parts)),
		hosts: make([][]int, len(parts)), guests: make([]int, len(parts)), done: make([]bool, len(parts))}
	var all geom.Box
	for i := range parts {
		s.boxes[i] = parts[i].Outer.Bounds()
		s.at[i] = s.boxes[i].Centre()
		all = all.Union(s.boxes[i])
	}
	s.cool = coolShare * math.Hypot(all.Width(), all.Height())
	s.nest(parts)
	order := make([]int, 0, len(parts))
	for range parts {
		i := s.next(order, from)
		s.done[i] = true
		for _, h := range s.hosts[i] {
			s.guests[h]--
		}
		order = append(order, i)
		from = s.at[i]
	}
	return order
}

type spreader struct {
	at     []geom.Point // middles of the parts
	boxes  []geom.Box
	hosts  [][]int // of each part: those in whose openings it lies
	guests []int   // of each part: how many lie in its openings and are not cut yet
	done   []bool
	cool   float64
}

// nest finds which parts lie in openings of others.
func (s *spreader) nest(parts []geom.Region) {
	for j := range parts {
		if len(parts[j].Holes) == 0 {
			continue
		}
		for i := range parts {
			if i == j || len(parts[i].Outer) == 0 || !s.boxes[j].Holds(s.boxes[i].Min) || !s.boxes[j].Holds(s.boxes[i].Max) {
				continue
			}
			if parts[j].Outer.Contains(parts[i].Outer[0].A) == geom.Inside {
				s.hosts[i] = append(s.hosts[i], j)
				s.guests[j]++
			}
		}
	}
}

// next is the part that is cut after those of order, the last of them at from.
func (s *spreader) next(order []int, from geom.Point) int {
	recent := order[max(0, len(order)-hot):]
	best, bestCool, bestFar := -1, false, 0.0
	for i := range s.at {
		if s.done[i] || s.guests[i] > 0 {
			continue
		}
		away := math.Inf(1)
		for _, k := range recent {
			away = min(away, s.at[i].Dist(s.at[k]))
		}
		cool := away >= s.cool
		far := away // of hot parts the farthest is wanted, of cool ones the nearest
		if cool {
			far = -s.at[i].Dist(from)
		}
		if best < 0 || cool && !bestCool || cool == bestCool && far > bestFar {
			best, bestCool, bestFar = i, cool, far
		}
	}
	return best
}
