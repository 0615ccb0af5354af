package platemap

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/paper"
	"blankwright/flat/geom"
)

// smallParts is a sheet with n kinds of small parts, all over it.
func smallParts(n int, side float64) *Picture {
	p := job(0)
	p.Kinds, p.Parts, p.Left, p.Notes = nil, nil, nil, nil
	for i := range n {
		p.Kinds = append(p.Kinds, Kind{"shim " + strconv.Itoa(i+1), "as drawn", rectangle(side, side), 2})
		for k := range 2 {
			p.Parts = append(p.Parts, Part{i, geom.Translate(20+float64(i%10)*55, 20+float64(i/10)*110+float64(k)*40)})
		}
	}
	return p
}

// numbers counts the numbers on the parts of each page, by kind.
func numbers(s *paper.Sheet) map[string]int {
	n := map[string]int{}
	for _, on := range [...]paper.LayerID{paper.Tags, paper.PlateNumbers} {
		for _, q := range s.Layers[on].Texts {
			n[q.S]++
		}
	}
	return n
}

// Every part that is too small for its number on the picture has it on a close-up,
// and all of a close-up lies on its page.
func TestCloseUps(t *testing.T) {
	for _, r := range []struct {
		kinds int
		side  float64
	}{{2, 12}, {30, 12}, {60, 18}, {99, 18}} {
		p := smallParts(r.kinds, r.side)
		pages, err := Draw(p, letter(t))
		require.NoError(t, err)
		require.Contains(t, words(pages[:1]), "too small here for their numbers: see the close-ups that follow")
		seen, names := map[string]int{}, map[string]bool{}
		for _, s := range pages {
			assert.False(t, names[s.Name], s.Name)
			names[s.Name] = true
			for k, n := range numbers(s) {
				seen[k] += n
			}
			for id := range s.Layers {
				for _, g := range s.Layers[id].Segs {
					b := g.Bounds()
					assert.True(t, b.Min.X > 4 && b.Min.Y > 4 && b.Max.X < s.Page.Width-4 && b.Max.Y < s.Page.Height-4, "%v", b)
				}
			}
			for _, q := range s.Texts() {
				b := q.Box()
				assert.True(t, b.X0 > 4 && b.Y0 > 4 && b.X1 < s.Page.Width-4 && b.Y1 < s.Page.Height-4, "%q at %v", q.S, b)
			}
		}
		for i := range r.kinds {
			assert.GreaterOrEqual(t, seen[strconv.Itoa(i+1)], 2, "%d kinds: kind %d", r.kinds, i+1)
		}
	}
}

// A close-up says where it is, and shows edges at its own scale, cut off at its
// frame.
func TestCloseUpShowsItsWindow(t *testing.T) {
	p := smallParts(2, 6)
	p.Kinds = append(p.Kinds, Kind{"plate", "as drawn", rectangle(500, 900), 1})
	p.Parts = append(p.Parts, Part{2, geom.Translate(60, 200)})
	pages, err := Draw(p, letter(t))
	require.NoError(t, err)
	require.Len(t, pages, 2)
	s := pages[1]
	assert.Equal(t, "1-2", s.Name)
	assert.Contains(t, words(pages[1:]), "close-up 1:1, 0 to ")
	var frame, parts geom.Box
	for _, g := range s.Layers[paper.Frame].Segs[4:] { // behind those of the window are those of the map
		assert.Greater(t, g.Bounds().Min.Y, s.Page.Height-margin-headRow)
	}
	for _, g := range s.Layers[paper.Frame].Segs[:4] {
		frame = frame.Union(g.Bounds())
	}
	sides := 0
	for _, g := range s.Layers[paper.PlateParts].Segs {
		parts = parts.Union(g.Bounds())
		if side := g.A.Dist(g.B); side > 5.99 && side < 6.01 {
			sides++
		}
	}
	assert.Equal(t, 16, sides, "of four squares of 6 mm")
	grown := frame.Grow(1e-9)
	assert.True(t, grown.Holds(parts.Min) && grown.Holds(parts.Max))
	assert.InDelta(t, frame.Max.X, parts.Max.X, 1e-9, "the plate runs out of the window")
	assert.NotEmpty(t, s.Layers[paper.Shade].Segs)
}

// Parts of one kind need no number, and what cannot be numbered on a few pages is
// said to be without.
func TestCloseUpsHaveALimit(t *testing.T) {
	pages, err := Draw(smallParts(1, 6), letter(t))
	require.NoError(t, err)
	require.Len(t, pages, 1)
	assert.Contains(t, words(pages), "2 parts are too small here for their numbers: the CSV tells their places")

	p := smallParts(99, 2)
	pages, err = Draw(p, letter(t))
	require.NoError(t, err)
	assert.Contains(t, words(pages[len(pages)-1:]), "198 parts are too small here for their numbers: the CSV tells their places")
	closeUps := 0
	for _, s := range pages {
		if len(s.Layers[paper.Shade].Segs) > 0 {
			closeUps++
		}
	}
	assert.Positive(t, closeUps)
	assert.LessOrEqual(t, closeUps, mostCloseUps)
}
