package drawing_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/drawing"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// Nine decimals of an inch are 1.3e-8 mm; an arc's end worked out from them, and
// the circle of a short arc from a bulge of fifteen, err by a few times that.
const ownTol = 1e-7

func flavours() map[string]dxf.Options {
	m := map[string]dxf.Options{}
	for name, sys := range map[string]unit.System{"mm": unit.Millimetre, "in": unit.Inch} {
		for version, v := range map[string]dxf.Version{"r2000": dxf.R2000, "r12": dxf.R12} {
			m[name+"-"+version+"-loose"] = dxf.Options{Unit: sys, Version: v}
			m[name+"-"+version+"-joined"] = dxf.Options{Unit: sys, Version: v, Joined: true}
		}
	}
	return m
}

// TestOwnFiles reads back all that our writer draws: the same segments in the
// same order, the same circles, no fault, nothing to mend.
func TestOwnFiles(t *testing.T) {
	for name, o := range flavours() {
		for i, b := range ownParts(t) {
			t.Run(fmt.Sprintf("%s/%d %s", name, i, b.Name), func(t *testing.T) {
				text, err := dxf.Write(b, o)
				require.NoError(t, err)
				d, err := drawing.Read("own.dxf", text, drawing.Options{})
				require.NoError(t, err)
				checkOwn(t, b, o, d)
			})
		}
	}
}

func checkOwn(t *testing.T, b *blank.Blank, o dxf.Options, d *drawing.Drawing) {
	t.Helper()
	assert.Equal(t, map[unit.System]string{unit.Millimetre: "mm", unit.Inch: "in"}[o.Unit], d.Unit.Name)
	assert.Empty(t, d.Ignored)
	a := drawing.Assemble(d, 0)
	for _, f := range a.Faults {
		// A crescent's or a star's smallest edge is the part's own affair.
		if f.Kind != drawing.Tiny && f.Severity != diag.Note {
			assert.Fail(t, "fault in our own file", "%v: %s", f.Kind, f.Message)
		}
	}
	assert.Empty(t, a.Open)
	min := b.Outline.Bounds().Min
	want := b.Region().Transform(geom.Translate(-min.X, -min.Y))
	if want.Validate() != nil {
		sameContours(t, want, a) // a sample's trap: an opening in another
		return
	}
	got := a.Regions()
	require.Len(t, got, 1)
	sameRegion(t, want, got[0])

	m := drawing.Mend(a)
	require.Len(t, m.Regions, 1, "%v", m.Left)
	assert.InDelta(t, want.Area(), m.Regions[0].Area(), 1e-4)
	require.Len(t, m.Regions[0].Holes, len(want.Holes))
}

// sameRegion holds two regions together segment by segment; openings may be in
// another order.
func sameRegion(t *testing.T, want, got geom.Region) {
	t.Helper()
	require.NoError(t, got.Validate())
	assert.NoError(t, sameLoop(want.Outer, got.Outer), "outline")
	require.Len(t, got.Holes, len(want.Holes))
	taken := make([]bool, len(got.Holes))
	for i, h := range want.Holes {
		found := false
		for j, g := range got.Holes {
			if !taken[j] && sameLoop(h, g) == nil {
				taken[j], found = true, true
				break
			}
		}
		assert.True(t, found, "opening %d: %s", i, h)
	}
}

// sameContours holds the loops of a region that is not sound against what was
// found, whatever lies in what.
func sameContours(t *testing.T, want geom.Region, a *drawing.Assembly) {
	t.Helper()
	loops := append([]geom.Loop{want.Outer}, want.Holes...)
	require.Len(t, a.Contours, len(loops))
	for i, l := range loops {
		found := false
		for _, c := range a.Contours {
			found = found || sameLoop(l, c.Loop) == nil || sameLoop(l.Reverse(), c.Loop) == nil
		}
		assert.True(t, found, "loop %d: %s", i, l)
	}
}

// sameLoop tells how two loops differ that should be the same round another
// start.
func sameLoop(want, got geom.Loop) error {
	if len(want) != len(got) {
		return fmt.Errorf("%d segments, wanted %d", len(got), len(want))
	}
	var last error
	for shift := range got {
		last = nil
		for i := range want {
			if err := sameSeg(want[i], got[(i+shift)%len(got)]); err != nil {
				last = fmt.Errorf("segment %d: %w", i, err)
				break
			}
		}
		if last == nil {
			return nil
		}
	}
	return last
}

func sameSeg(w, g geom.Seg) error {
	switch {
	case w.A.Dist(g.A) > ownTol || w.B.Dist(g.B) > ownTol:
		return fmt.Errorf("from %v to %v, wanted %v to %v", g.A, g.B, w.A, w.B)
	case w.IsArc() != g.IsArc():
		return fmt.Errorf("bulge %g, wanted %g", g.Bulge, w.Bulge)
	case w.Mid().Dist(g.Mid()) > ownTol:
		return fmt.Errorf("middle %v, wanted %v", g.Mid(), w.Mid())
	}
	// The radius of a flat arc from its bulge errs by more than its points.
	allow := ownTol * (1 + 1/math.Max(math.Abs(w.Bulge)*math.Abs(w.Bulge), 1e-4))
	if d := math.Abs(w.Circle().R - g.Circle().R); d > allow {
		return fmt.Errorf("radius %g, wanted %g", g.Circle().R, w.Circle().R)
	}
	return nil
}
