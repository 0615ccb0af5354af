package layout

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// What it costs to try a place for an item in a strip that is full.
func BenchmarkCost(b *testing.B) {
	pieces, height := readStrip(b, "shirts")
	o := Options{}
	m, err := newModel(pieces, o)
	require.NoError(b, err)
	m.bins = []bin{{0, 0, math.Inf(1), height}}
	m.ready()
	g := newGreedy(m)
	for _, i := range m.bySize() {
		require.True(b, g.place(context.Background(), i))
	}
	l := g.l
	l.bins[0].x1 = (&shrink{m: m}).used(l)
	l.sort()
	l.calm()
	r := rand.New(rand.NewPCG(1, 1))
	type try struct {
		i int
		s spot
	}
	var tries []try
	for range 4096 {
		i := r.IntN(l.n)
		os := m.kinds[m.items[i]].orients
		q := os[r.IntN(len(os))]
		x0, y0, x1, y1, _ := l.limits(&l.bins[0], q)
		tries = append(tries, try{i, spot{q, x0 + r.Float64()*(x1-x0), y0 + r.Float64()*(y1-y0)}})
	}
	sum := 0.0
	from := cpuClock()
	for k := range b.N {
		t := &tries[k%len(tries)]
		sum += l.cost(t.i, t.s, math.Inf(1))
	}
	b.ReportMetric(2*float64(cpuClock().Sub(from))/float64(b.N), "cpu-ns/op") // cpuClock counts for two cores
	require.Positive(b, sum)
}
