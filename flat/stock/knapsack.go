package stock

import "sort"

// knapsack fills one bar with the most worth: at most limit[i] of each item.
type knapsack struct {
	order  []int // items by worth for a micrometre, falling
	width  []int64
	worth  []int64
	limit  []int
	best   int64
	pick   []int // of items
	now    []int
	enough int64 // a worth that cannot be passed
	steps  int
	cut    bool // the steps ran out
}

// Steps after which the filling of one bar ends: beyond, the best found stands
// and bound tells what might have been.
const (
	boundSteps = 60000 // where the bound hangs on it
	planSteps  = 4000  // where a good filling is enough
)

// fill gives the pieces of the best filling found of a bar with the given room,
// their worth, and a bound on the worth of any filling.
//
// Method: branch and bound in the order of worth for length (Gilmore and Gomory
// 1963), the bound by the rest of the room at the next item's rate.
func fill(width, worth []int64, limit []int, room int64, steps int) (pick []int, got, bound int64) {
	k := knapsack{width: width, worth: worth, limit: limit, steps: steps, pick: make([]int, len(width)), now: make([]int, len(width))}
	for i := range width {
		if worth[i] > 0 && limit[i] > 0 && width[i] <= room {
			k.order = append(k.order, i)
		}
	}
	sort.SliceStable(k.order, func(a, b int) bool {
		i, j := k.order[a], k.order[b]
		// worth/width compared without division; both are under 2^45.
		l, r := float64(worth[i])*float64(width[j]), float64(worth[j])*float64(width[i])
		if l != r {
			return l > r
		}
		return width[i] > width[j]
	})
	if len(k.order) == 0 {
		return k.pick, 0, 0
	}
	first := k.order[0]
	k.enough = rate(room, worth[first], width[first])
	k.look(0, room, 0)
	bound = k.best
	if k.cut {
		bound = k.enough
	}
	return k.pick, k.best, bound
}

// rate is what room holds at most of something of the given worth and width.
func rate(room, worth, width int64) int64 {
	q, r := room/width, room%width
	// r·worth can pass 63 bits: halves are enough for a bound.
	return q*worth + int64(float64(r)*float64(worth)/float64(width)) + 1
}

func (k *knapsack) look(at int, room, worth int64) {
	if worth > k.best {
		k.best = worth
		copy(k.pick, k.now)
	}
	if at == len(k.order) || k.best >= k.enough {
		return
	}
	if k.steps--; k.steps < 0 {
		k.cut = true
		return
	}
	i := k.order[at]
	if worth+rate(room, k.worth[i], k.width[i]) <= k.best {
		return
	}
	n := int(min(int64(k.limit[i]), room/k.width[i]))
	last := at+1 == len(k.order)
	for ; n >= 0 && !k.cut; n-- {
		k.now[i] = n
		left := room - int64(n)*k.width[i]
		got := worth + int64(n)*k.worth[i]
		if !last {
			j := k.order[at+1]
			if got+rate(left, k.worth[j], k.width[j]) <= k.best {
				break // with fewer of this item there is no more to be had
			}
		}
		k.look(at+1, left, got)
		if last {
			break
		}
	}
	k.now[i] = 0
}
