package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/bend"
)

// In 4 mm plate the usual die is 32 mm and leaves 5.33 mm. Made for 2 mm, a square
// bend is off by (2 - pi/2) x 3.33 = 1.43 mm; for 5 mm by 0.14, which nobody minds.
func TestAirBendRadius(t *testing.T) {
	part := func(bends string) string {
		return bentHead + "formed: {u: {inside width: 80, legs: 60, length: 70}}\nbends: " + bends + "\n"
	}
	b := read(t, part("{radius: 2, rule: k 0.42}"), "")[0]
	fs := of(b, airBendRadius)
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, "made for an inside radius of 2.00 mm; an air bend in the usual V-die of 32 mm takes about 5.3 mm, and then the flat is 1.4 mm too long at the bend of flange \"left\" and at 1 more")
	assert.Equal(t, []string{"left", "right"}, fs[0].Features)
	assert.Contains(t, fs[0].Fix, "take a V-die of 25 mm, which leaves about 4.2 mm")
	c := newContext(b)
	assert.InDelta(t, (2-math.Pi/2)*(32.0/6-2), c.radiusError(&c.bends()[0], 32), 1e-9)
	fs = of(read(t, part("{radius: 12, rule: k 0.42}"), "")[0], airBendRadius)
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, "too short")
	for _, tooled := range []string{"{radius: 5, rule: k 0.42}", "{radius: 2, rule: deduction 7.1 mm}", "{radius: 2, rule: allowance 5.6 mm}"} {
		assert.Empty(t, of(read(t, part(tooled), "")[0], airBendRadius), tooled)
	}
	v, ok := bend.DieForRadius(bend.Steel, 4, 5)
	assert.True(t, ok)
	assert.Equal(t, bend.Die(32), v)
	_, ok = bend.DieForRadius(bend.Steel, 60, 5)
	assert.False(t, ok)
	assert.Less(t, bend.Die(32).RadiusIn(bend.Aluminium), bend.Die(32).RadiusIn(bend.Steel))
	assert.Less(t, bend.Die(32).RadiusIn(bend.Steel), bend.Die(32).RadiusIn(bend.StainlessSteel))
}
