package layout

import (
	"context"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func plannerFor(t *testing.T, pieces []Piece, sheets []Sheet, o Options) *planner {
	t.Helper()
	p := &planner{pieces: pieces, sheets: sheets, o: o}
	p.lieDown()
	require.NoError(t, p.prepare())
	return p
}

// The best of several fillings is better than the first on a job of many kinds,
// and so is what is handed out without any search.
func TestFillBest(t *testing.T) {
	pieces := brackets(t, 50)
	p := plannerFor(t, pieces, []Sheet{plain("sheet", 2000, 600, 0)}, Options{Gap: 6, Margin: 8, InsideOpenings: true})
	first := *p
	var work atomic.Int64
	require.True(t, first.fill(greedyFiller(context.Background(), 1, &work), p.m.bySize()))
	assert.Positive(t, work.Load())
	p.fill(shelfFiller, p.m.bySize())
	p.fillBest(context.Background())
	assert.Negative(t, p.score().compare(first.score()))
	assert.Empty(t, p.left)
}

// Without time, what lies already stays.
func TestFillBestStops(t *testing.T) {
	p := plannerFor(t, brackets(t, 20), []Sheet{plain("sheet", 2000, 600, 0)}, Options{Gap: 6, Margin: 8})
	p.fill(shelfFiller, p.m.bySize())
	was := p.score()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p.fillBest(ctx)
	assert.Equal(t, was, p.score())
}

// Every filling takes each item once; the shuffled ones differ by seed.
func TestFillingOrders(t *testing.T) {
	p := plannerFor(t, brackets(t, 50), []Sheet{plain("sheet", 2000, 600, 0)}, Options{Gap: 6, Margin: 8})
	for n := range fillings {
		f := p.m.filling(n, 1)
		again := p.m.filling(n, 1)
		assert.Equal(t, f, again)
		other := p.m.filling(n, 2)
		assert.Equal(t, n < 2*len(measures), slices.Equal(f.order, other.order), "filling %d", n)
		slices.Sort(f.order)
		for i := range f.order {
			assert.Equal(t, i, f.order[i])
		}
	}
	assert.Equal(t, p.m.bySize(), p.m.filling(0, 1).order)
}
