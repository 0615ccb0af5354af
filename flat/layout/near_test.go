package layout

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The finder lists what going through all items lists, whatever has moved, and
// boxes beyond its area too.
func TestFinderFindsAll(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	random := func() box {
		x, y := 120*r.Float64()-10, 60*r.Float64()-5
		return box{x, y, x + 15*r.Float64(), y + 15*r.Float64()}
	}
	for _, n := range []int{1, 63, 64, 65, 200} {
		l := &lane{n: n, all: n, boxes: make([]box, n)}
		l.finder = newFinder(n, box{0, 0, 100, 50}, 5)
		for i := range n {
			l.boxes[i] = random()
			if i%7 == 3 {
				l.boxes[i] = nowhere
			}
			l.finder.put(i, l.boxes[i])
		}
		for range 500 {
			i := r.IntN(n)
			l.boxes[i] = random()
			l.finder.put(i, l.boxes[i])
			a := random()
			plain := *l
			plain.finder, plain.found = nil, nil
			want, got := plain.near(i, a), l.near(i, a)
			assert.True(t, slices.Equal(want, got), "%v, %v", want, got)
		}
	}
}

// Both ways to add up depths agree, and a bound only cuts short.
func TestCostIsTheSumOfDepths(t *testing.T) {
	pieces, height := readStrip(t, "shirts")
	m, err := newModel(pieces, Options{})
	assert.NoError(t, err)
	m.bins = []bin{{0, 0, 60, height}}
	m.ready()
	l := newLane(m, 1, 1)
	for i := range l.n {
		assert.True(t, l.throw(i))
	}
	cost := make([]float64, l.n)
	for i := range cost {
		cost[i] = l.cost(i, l.spots[i], math.Inf(1))
		assert.InDelta(t, l.find(i, l.spots[i]), cost[i], 1e-9)
	}
	l.sort()
	l.calm()
	for i, c := range cost {
		assert.InDelta(t, c, l.cost(i, l.spots[i], math.Inf(1)), 1e-9)
		assert.GreaterOrEqual(t, l.cost(i, l.spots[i], c/2), c/2)
	}
}
