package geom

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBoxEmpty(t *testing.T) {
	var b Box
	require.True(t, b.Empty())
	require.Zero(t, b.Width())
	require.Zero(t, b.Height())
	require.True(t, b.Union(Box{}).Empty())
	require.True(t, b.Grow(1).Empty())
	require.False(t, b.Holds(Point{}))
	require.False(t, b.Meets(BoxOf(Point{})))
	require.True(t, Box{Min: Point{1, 1}}.Empty(), "upside down")
}

func TestBoxOfOnePointIsNotEmpty(t *testing.T) {
	b := Box{}.Extend(Point{}) // the origin itself
	require.False(t, b.Empty())
	require.True(t, b.Holds(Point{}))
	b = b.Extend(Point{5, 7})
	require.Equal(t, Point{}, b.Min)
	require.Equal(t, Point{5, 7}, b.Max)
}

func TestBoxLiteral(t *testing.T) {
	b := Box{Min: Point{0, 0}, Max: Point{10, 0}}
	require.False(t, b.Empty())
	require.Equal(t, 10.0, b.Union(BoxOf(Point{3, 4})).Width())
	require.Equal(t, 4.0, b.Union(BoxOf(Point{3, 4})).Height())
}

func TestBoxUnionMeets(t *testing.T) {
	a, b := BoxOf(Point{0, 0}, Point{2, 1}), BoxOf(Point{3, 5}, Point{2, 1})
	require.True(t, a.Meets(b), "corners touch")
	require.False(t, a.Meets(BoxOf(Point{3, 0}, Point{4, 1})))
	require.Equal(t, BoxOf(Point{}, Point{3, 5}), a.Union(b))
	require.Equal(t, a, a.Union(Box{}))
	require.Equal(t, a, Box{}.Union(a))
	require.Equal(t, Point{1, 0.5}, a.Centre())
	require.Equal(t, BoxOf(Point{-1, -1}, Point{3, 2}), a.Grow(1))
}
