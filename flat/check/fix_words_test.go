package check

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Holes of one pattern that all run into one opening are one finding, mended by the
// pattern.
func TestPatternAgainstOneOpening(t *testing.T) {
	b := partOf(t, head+`holes: {flange: {circle: {at: [0, 0], diameter: 86, count: 6}, bolt: M10 8.8}}
outline: {ring: {outside: 200, inside: 80}}
`)
	rs := Results(b)
	require.Len(t, rs, 2, "%s", AppendText(nil, Run(b)))
	for i, k := range []*Check{edgeDistance, openingsOverlap} {
		assert.Equal(t, k.ID, rs[i].Rule)
		assert.Len(t, rs[i].Features, 7)
		require.Len(t, rs[i].Changes, 1)
		assert.Contains(t, rs[i].Fix, `make the diameter of the circle of "flange" at least `)
		after, err := rs[i].Changes[0].Apply(b)
		require.NoError(t, err)
		for _, f := range Run(after) {
			assert.NotEqual(t, k.ID, f.Rule)
		}
	}
}

// Two bolts a little too near each other between tight edges are moved apart, and
// not left out.
func TestBoltsALittleTooNear(t *testing.T) {
	b := partOf(t, head+`holes:
  a: {at: [20, 20], bolt: M12 8.8}
  b: {at: [50.33, 20], bolt: M12 8.8}
outline: {corners: [[0, 0], [70.33, 0], [70.33, 40], [0, 40]]}
`)
	for _, r := range Results(b) {
		assert.NotContains(t, r.Fix, "leave")
	}
}

// A bore is as large as what goes in: nobody is told to make it larger.
func TestSmallBoreIsDrilled(t *testing.T) {
	b := partOf(t, head+"holes: {pin: {at: [0, 0], bore: 1/4 in}}\noutline: {disc: {diameter: 80}}\n")
	rs := Results(b)
	require.NotEmpty(t, rs)
	assert.NotContains(t, rs[0].Fix, "make the diameter")
	assert.Contains(t, rs[0].Fix, "how: drill")
}

// All findings on one hole send it the same way.
func TestOneMoveForAllFindings(t *testing.T) {
	b := partOf(t, head+`holes:
  a: {at: [12, 4], diameter: 14}
  b: {at: [26, 12], diameter: 14}
outline: {rectangle: {at: [50, 50], width: 100, height: 100}}
`)
	moves := map[string]string{}
	for _, r := range Results(b) {
		for _, ch := range r.Changes {
			if ch.Kind != Move {
				continue
			}
			if before, ok := moves[ch.Hole]; ok {
				assert.Equal(t, before, ch.Text, "%s", r.Message)
			}
			moves[ch.Hole] = ch.Text
		}
	}
	assert.NotEmpty(t, moves)
}

// A finding cites the one figure that was asked for.
func TestFiguresAreCitedAlone(t *testing.T) {
	b := partOf(t, head+"holes: {a: {at: [0, 0], diameter: 14}, b: {at: [18, 0], diameter: 14}}\noutline: {disc: {diameter: 120}}\n")
	rs := Results(b)
	require.NotEmpty(t, rs)
	assert.Equal(t, "least web t and 3 mm, common practice", rs[0].Source)
	assert.False(t, strings.Contains(rs[0].Source, "kerf"))
	assert.NotEmpty(t, rs[0].Formula)
	assert.Greater(t, rs[0].Utilisation, 1.0)
}
