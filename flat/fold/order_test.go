package fold

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

var channel = Section{T: 2, R: 2, Rule: bend.KFactor(0.42), Length: 50}

// A channel can be made with a straight blade as long as its second leg does not
// reach the plane that halves the last bend: legs no longer than it is wide.
func TestOrderOfAChannel(t *testing.T) {
	for _, c := range []struct {
		width, left, right float64
		ok                 bool
	}{
		{60, 40, 40, true},
		{60, 55, 55, true},
		{60, 70, 70, false},
		{60, 70, 40, true}, // the long leg comes last
		{60, 40, 70, true},
	} {
		f := flatten(t, U(channel, Size{c.width, bend.Inside}, Size{c.left, bend.Inside}, Size{c.right, bend.Inside}))
		order, err := f.Fold().Order()
		if c.ok {
			require.NoError(t, err)
			assert.ElementsMatch(t, []int{0, 1}, order)
			continue
		}
		require.Error(t, err)
		ps := err.(Problems)
		assert.Equal(t, Blocked, ps[0].Kind)
		assert.Contains(t, err.Error(), "no order of bends leaves room for a straight blade: flange right stands in the way of the bend of flange left, 90 degrees at ")
		assert.True(t, ps[0].Placed)
	}
	// Which leg comes last matters.
	f := flatten(t, U(channel, Size{60, bend.Inside}, Size{70, bend.Inside}, Size{40, bend.Inside}))
	order, err := f.Fold().Order()
	require.NoError(t, err)
	assert.Equal(t, []int{1, 0}, order, "the short leg first: then nothing reaches the blade")
}

// Lips turned in on a channel: made before the legs.
func TestOrderOfALippedChannel(t *testing.T) {
	lipped := func(lip float64) *Part {
		p := U(channel, Size{V: 80}, Size{V: 40}, Size{V: 40})
		for _, on := range []string{"left", "right"} {
			p.Flanges = append(p.Flanges, Flange{Name: on + " lip", On: on, Edge: EndEdge, Height: lip, Angle: deg(90), Radius: 2})
		}
		return p
	}
	order, err := flatten(t, lipped(15)).Fold().Order()
	require.NoError(t, err)
	assert.Equal(t, []int{3, 2, 1, 0}, order, "the outermost first")
	_, err = flatten(t, lipped(45)).Fold().Order()
	assert.Error(t, err)
}

// Legs that lean in so far that they cross, and a lip longer than the room
// between the legs, run into each other.
func TestCollisions(t *testing.T) {
	for name, c := range map[string]struct {
		part *Part
		want string
	}{
		"lip longer than the room": {func() *Part {
			p := U(channel, Size{V: 40}, Size{V: 40}, Size{V: 50})
			p.Flanges = append(p.Flanges, Flange{Name: "lip", On: "left", Edge: EndEdge, Height: 45, Angle: deg(90), Radius: 2})
			return p
		}(), "folded, flange lip runs into flange right"},
		"legs that cross": {func() *Part {
			p := U(channel, Size{V: 40}, Size{V: 60}, Size{V: 60})
			p.Flanges[0].Angle, p.Flanges[1].Angle = deg(130), deg(130)
			return p
		}(), "folded, flange right runs into flange left"},
		"hems over each other": {func() *Part {
			p := U(channel, Size{V: 40}, Size{V: 30}, Size{V: 30})
			p.Flanges[0].Angle, p.Flanges[1].Angle = deg(180), deg(180)
			return p
		}(), "folded, flange right runs into flange left"},
		"curled into the base": {curl(30), "folded, flange in runs into base"},
		"curled into a bend":   {curl(40), "folded, the bend of flange right runs into flange in"},
		"almost parallel": {func() *Part {
			p := U(channel, Size{V: 40}, Size{V: 36}, Size{V: 36})
			p.Flanges[0].Angle, p.Flanges[1].Angle = deg(179.5), deg(179)
			p.Flanges[0].Radius, p.Flanges[1].Radius = 2.2, 2
			return p
		}(), "folded, flange right runs into flange left"},
	} {
		t.Run(name, func(t *testing.T) {
			found := flatten(t, c.part).Fold().Collisions()
			require.NotEmpty(t, found)
			assert.Contains(t, found.Error(), c.want)
			assert.Contains(t, found.Error(), " in space")
			assert.True(t, found[0].Placed)
		})
	}
}

// curl is a channel whose left leg comes round and down into it again.
func curl(back float64) *Part {
	p := U(channel, Size{V: 40}, Size{V: 30}, Size{V: 12})
	p.Flanges = append(p.Flanges, Flange{Name: "back", On: "left", Edge: EndEdge, Height: back, Angle: deg(90), Radius: 2},
		Flange{Name: "in", On: "back", Edge: EndEdge, Height: 40, Angle: deg(90), Radius: 2})
	return p
}

// A tab that goes through a slot of another panel does not collide; where the
// slot is too short it does.
func TestTabThroughSlot(t *testing.T) {
	part := func(slot float64) *Part {
		p := U(channel, Size{V: 60}, Size{V: 40}, Size{V: 50})
		c := geom.Point{X: 25, Y: 38.5}
		w := geom.Polygon(geom.Point{X: c.X - slot/2, Y: c.Y - 2}, geom.Point{X: c.X + slot/2, Y: c.Y - 2},
			geom.Point{X: c.X + slot/2, Y: c.Y + 2}, geom.Point{X: c.X - slot/2, Y: c.Y + 2})
		p.Flanges[1].Holes = []Hole{{"slot", w}}
		// From the left leg over to the right one and through it, 20 mm wide.
		p.Flanges = append(p.Flanges, Flange{Name: "tongue", On: "left", Edge: EndEdge, Height: 65, Angle: deg(90), Radius: 2, Left: 15, Right: 15})
		return p
	}
	assert.Empty(t, flatten(t, part(21)).Fold().Collisions())
	found := flatten(t, part(19)).Fold().Collisions()
	require.Len(t, found, 1)
	assert.Contains(t, found.Error(), "folded, flange tongue runs into flange right")
}

// Parallel planes that face opposite ways share their coordinates rightly.
func TestOnto(t *testing.T) {
	f := flatten(t, U(channel, Size{V: 60}, Size{V: 40}, Size{V: 50}))
	g := f.Fold()
	a, b := &g.places[1], &g.places[2]
	m := onto(a, b)
	for _, q := range []geom.Point{{X: 40, Y: 3}, {X: 50, Y: -7}, {X: 61, Y: 12}} {
		v := b.at(q, 0)
		assert.Less(t, m.Apply(q).Dist(a.flat(v)), 1e-9)
	}
}

// A bend past 135 degrees is looked at where the blade leaves it.
func TestOrderOfAHem(t *testing.T) {
	p := L(channel, Size{V: 60}, Size{V: 20})
	p.Flanges[0].Angle = deg(180)
	order, err := flatten(t, p).Fold().Order()
	require.NoError(t, err)
	assert.Equal(t, []int{0}, order)
}
