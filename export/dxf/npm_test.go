package dxf_test

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
)

// npmFolder is where the readers from npm are installed; .ci/run sets it.
const npmFolder = "BLANKWRIGHT_NPM"

// npmTime is how long the readers may take over all drawings: one of them hangs
// on some hostile names.
const npmTime = 2 * time.Minute

// npmEntity is what a reader tells of one entity.
type npmEntity struct {
	Layer, Kind string
	Circle      []float64    // centre, radius
	Arc         []float64    // centre, radius, angles in rad
	Points      [][3]float64 // x, y, bulge
	Closed      bool
}

// TestNpmReaders: two readers written for browsers see the same entities in the
// same order, with the same places, radii and bulges, for every part in every
// flavour.
func TestNpmReaders(t *testing.T) {
	folder := os.Getenv(npmFolder)
	if _, err := os.Stat(filepath.Join(folder, "node_modules", "dxf-parser")); folder == "" || err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s names no folder with the readers from npm: run .ci/run", npmFolder)
		}
		t.Skipf("%s names no folder with the readers from npm", npmFolder)
	}
	ws := writeAll(t)
	args := []string{filepath.Join("testdata", "read_npm.js"), folder}
	for _, w := range ws {
		args = append(args, w.path)
	}
	ctx, cancel := context.WithTimeout(t.Context(), npmTime)
	defer cancel()
	cmd := exec.CommandContext(ctx, "node", args...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, ctx.Err(), "a reader hangs")
	require.NoError(t, err)
	var answers map[string]map[string][]npmEntity
	require.NoError(t, json.Unmarshal(out, &answers))
	require.Len(t, answers, len(ws))
	for _, w := range ws {
		for _, reader := range []string{"dxf-parser", "dxf"} {
			t.Run(reader+"/"+filepath.Base(w.path), func(t *testing.T) { sameByNpm(t, w, answers[w.path][reader]) })
		}
	}
}

func sameByNpm(t *testing.T, w written, got []npmEntity) {
	t.Helper()
	e := expect(w.b, w.o)
	counts := map[string]int{}
	var area float64
	var box geom.Box
	next := 0
	// The cut entities, in order, against the cuts as they are walked.
	var cut []npmEntity
	for _, g := range got {
		counts[g.Layer+" "+g.Kind]++
		if g.Layer != "MARKS" && g.Layer != "BENDS" {
			cut = append(cut, g)
		}
	}
	assert.Equal(t, e.counts, counts)
	near := func(what string, want, have geom.Point) {
		assert.InDelta(t, want.X, have.X, 1e-6, what)
		assert.InDelta(t, want.Y, have.Y, 1e-6, what)
	}
	for _, c := range cutlist.Order(w.b) {
		if c.Round {
			g := cut[next]
			next++
			require.Len(t, g.Circle, 3)
			near(c.Name, e.at(c.Circle.C), geom.Point{X: g.Circle[0], Y: g.Circle[1]})
			assert.InDelta(t, c.Circle.R/e.per, g.Circle[2], 1e-6)
			m, r := geom.Point{X: g.Circle[0], Y: g.Circle[1]}, g.Circle[2]
			box = box.Extend(geom.Point{X: m.X - r, Y: m.Y - r}).Extend(geom.Point{X: m.X + r, Y: m.Y + r})
			area += math.Pi * r * r
			continue
		}
		l := npmLoop(t, cut, &next, c.Loop, e, w.o.Joined)
		area += l.Area()
		box = box.Union(l.Bounds())
	}
	assert.Equal(t, len(cut), next)
	want := 0.0
	for _, areas := range e.areas {
		for _, a := range areas {
			want += a
		}
	}
	assert.InDelta(t, 1, area/want, 1e-6, "area")
	near("box", e.box.Min, box.Min)
	near("box", e.box.Max, box.Max)
}

// npmLoop takes the entities of one closed line, holds each against its segment
// and gives the line that they make.
func npmLoop(t *testing.T, cut []npmEntity, next *int, l geom.Loop, e expected, joined bool) (out geom.Loop) {
	t.Helper()
	at := func(p geom.Point) geom.Point { return e.at(p) }
	if joined {
		g := cut[*next]
		*next++
		require.Len(t, g.Points, len(l))
		assert.True(t, g.Closed, "closed")
		for i, s := range l {
			p, q := g.Points[i], g.Points[(i+1)%len(l)]
			assert.InDeltaSlice(t, []float64{at(s.A).X, at(s.A).Y, s.Bulge}, p[:], 1e-6)
			out = append(out, geom.BulgeSeg(geom.Point{X: p[0], Y: p[1]}, geom.Point{X: q[0], Y: q[1]}, p[2]))
		}
		return out
	}
	for _, s := range l {
		g := cut[*next]
		*next++
		if !s.IsArc() {
			require.Len(t, g.Points, 2)
			a, b := geom.Point{X: g.Points[0][0], Y: g.Points[0][1]}, geom.Point{X: g.Points[1][0], Y: g.Points[1][1]}
			assert.Less(t, at(s.A).Dist(a)+at(s.B).Dist(b), 1e-6)
			out = append(out, geom.Line(a, b))
			continue
		}
		require.Len(t, g.Arc, 5)
		c := geom.Circle{C: geom.Point{X: g.Arc[0], Y: g.Arc[1]}, R: g.Arc[2]}
		from, to := c.C.Polar(c.R, g.Arc[3]), c.C.Polar(c.R, g.Arc[4])
		if s.Bulge < 0 {
			from, to = to, from
		}
		assert.Less(t, at(s.A).Dist(from)+at(s.B).Dist(to), 2e-6)
		assert.InDelta(t, s.Circle().R/e.per, c.R, 1e-6*math.Max(1, c.R))
		seg := geom.Arc(c, from, to, s.Bulge > 0)
		assert.InDelta(t, s.Bulge, seg.Bulge, 1e-6)
		out = append(out, seg)
	}
	return out
}
