package dxf_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// python is the interpreter that has the system's ezdxf and GDAL.
const python = "/usr/bin/python3"

// needs stops a test whose oracle is missing: in CI that is a failure.
func needs(t *testing.T, module string) {
	t.Helper()
	if err := exec.Command(python, "-c", "import "+module).Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s cannot import %s: %v", python, module, err)
		}
		t.Skipf("%s cannot import %s: %v", python, module, err)
	}
}

// written is a drawing on disk with what it was made from.
type written struct {
	path string
	b    *blank.Blank
	o    dxf.Options
}

func writeAll(t *testing.T) []written {
	t.Helper()
	dir := t.TempDir()
	var ws []written
	for name, o := range flavours() {
		for i, b := range parts(t) {
			data, err := dxf.Write(b, o)
			require.NoError(t, err)
			path := filepath.Join(dir, fmt.Sprintf("%s-%02d.dxf", name, i))
			require.NoError(t, os.WriteFile(path, data, 0o600))
			ws = append(ws, written{path, b, o})
		}
	}
	return ws
}

// ask runs an oracle once over all drawings.
func ask[T any](t *testing.T, script string, ws []written) map[string]T {
	t.Helper()
	args := []string{filepath.Join("testdata", script)}
	for _, w := range ws {
		args = append(args, w.path)
	}
	cmd := exec.Command(python, args...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var answers map[string]T
	require.NoError(t, json.Unmarshal(out, &answers))
	require.Len(t, answers, len(ws))
	return answers
}

// expected is what any reader must find, in drawing units.
type expected struct {
	want
	box    geom.Box
	areas  map[string][]float64 // of closed loops, by layer, sorted
	loops  map[string][]float64 // of those that are no circle
	counts map[string]int       // of entities, by layer and kind
}

func expect(b *blank.Blank, o dxf.Options) expected {
	e := expected{want: wanted(b, o), areas: map[string][]float64{}, loops: map[string][]float64{}, counts: map[string]int{}}
	scale := func(l geom.Loop) {
		box := l.Bounds()
		e.box = e.box.Extend(e.at(box.Min)).Extend(e.at(box.Max))
	}
	add := func(layer string, l geom.Loop) {
		scale(l)
		e.areas[layer] = append(e.areas[layer], l.Area()/e.per/e.per)
		_, whole := l.Circle()
		if !whole {
			e.loops[layer] = append(e.loops[layer], l.Area()/e.per/e.per)
		}
		switch {
		case whole:
			e.counts[layer+" CIRCLE"]++
		case o.Joined && o.Version == dxf.R12:
			e.counts[layer+" POLYLINE"]++
		case o.Joined:
			e.counts[layer+" LWPOLYLINE"]++
		default:
			for _, s := range l {
				if s.IsArc() {
					e.counts[layer+" ARC"]++
				} else {
					e.counts[layer+" LINE"]++
				}
			}
		}
	}
	add("OUTLINE", b.Outline)
	for _, h := range b.Holes {
		if l := h.AsCut(); l != nil {
			layer := "HOLES"
			if h.Length > 0 {
				layer = "SLOTS"
			}
			add(layer, l)
		}
	}
	for _, c := range b.Cutouts {
		add("CUTOUTS", c.Loop)
	}
	if n := len(e.crosses); n > 0 {
		e.counts["MARKS LINE"] += 4 * n
	}
	for _, m := range stroke.Place(b) {
		for _, l := range m.Strokes {
			for _, s := range l {
				if s.IsArc() {
					e.counts["MARKS ARC"]++
				} else {
					e.counts["MARKS LINE"]++
				}
			}
		}
	}
	if b.Formed != nil {
		for i := range b.Formed.Flat.Bends {
			e.counts["BENDS LINE"]++
			if o.BendEnds && b.Formed.Flat.Bends[i].Line.Length() > 18 {
				e.counts["BENDS LINE"]++
			}
		}
	}
	for layer := range e.areas {
		slices.Sort(e.areas[layer])
		slices.Sort(e.loops[layer])
	}
	return e
}

// ezdxfAnswer is what testdata/read_ezdxf.py tells of one drawing.
type ezdxfAnswer struct {
	Version            string
	Errors, Fixes      []string
	Blocks, Paper      int
	Extents, Box       [4]float64
	Units, Measurement int
	Layers             []string
	Counts             map[string]int
	Circles            [][4]any
	Loops              map[string][][2]float64
}

func TestEzdxf(t *testing.T) {
	needs(t, "ezdxf")
	ws := writeAll(t)
	answers := ask[ezdxfAnswer](t, "read_ezdxf.py", ws)
	for _, w := range ws {
		t.Run(filepath.Base(w.path), func(t *testing.T) {
			a, e := answers[w.path], expect(w.b, w.o)
			assert.Empty(t, a.Errors, "audit errors")
			assert.Empty(t, a.Fixes, "audit fixes")
			assert.Equal(t, map[dxf.Version]string{dxf.R2000: "AC1015", dxf.R12: "AC1009"}[w.o.Version], a.Version)
			assert.Equal(t, e.counts, a.Counts)
			assert.Zero(t, a.Paper, "entities in paper space")
			assert.Equal(t, 2, a.Blocks, "model space and paper space only")
			layers := []string{"0", "CUTOUTS", "HOLES", "MARKS", "OUTLINE", "SLOTS"}
			if w.b.Formed != nil {
				layers = slices.Insert(layers, 1, "BENDS")
			}
			assert.Equal(t, layers, without(a.Layers, "DEFPOINTS", "Defpoints"))
			units, measurement := 4, 1
			if w.o.Unit == unit.Inch {
				units, measurement = 1, 0
			}
			if w.o.Version == dxf.R2000 {
				assert.Equal(t, units, a.Units)
				assert.Equal(t, measurement, a.Measurement)
			}
			sameBox(t, e, a.Extents, 1e-8)
			sameBox(t, e, a.Box, 1e-7)
			circles(t, e, a.Circles)
			for layer, loops := range a.Loops {
				areas := []float64{}
				for _, l := range loops {
					areas = append(areas, l[0])
					assert.Less(t, l[1], joinTol, "gap on %s", layer)
				}
				slices.Sort(areas)
				assert.InDeltaSlice(t, e.loops[layer], areas, 1e-5, layer)
			}
			for layer := range e.loops {
				assert.Len(t, a.Loops[layer], len(e.loops[layer]), layer)
			}
		})
	}
}

func without(all []string, names ...string) []string {
	return slices.DeleteFunc(all, func(s string) bool { return slices.Contains(names, s) })
}

// circles holds every circle that was read against the ones that were to be
// drawn: the holes in order, then the outline where it is one.
func circles(t *testing.T, e expected, got [][4]any) {
	t.Helper()
	i := 0
	for _, c := range got {
		if c[0] != "HOLES" {
			continue
		}
		require.Less(t, i, len(e.circles))
		want := e.circles[i]
		i++
		assert.InDelta(t, want.C.X, c[1], placeTol)
		assert.InDelta(t, want.C.Y, c[2], placeTol)
		assert.InDelta(t, want.R, c[3], placeTol)
	}
	assert.Equal(t, len(e.circles), i)
}

func sameBox(t *testing.T, e expected, got [4]float64, tol float64) {
	t.Helper()
	box := e.box
	for _, c := range e.crosses {
		box = box.Extend(c) // a punch mark lies inside the plate in these parts
	}
	assert.InDeltaSlice(t, []float64{box.Min.X, box.Min.Y, box.Max.X, box.Max.Y}, got[:], tol)
}

// gdalAnswer is what testdata/read_gdal.py tells of one drawing.
type gdalAnswer struct {
	Counts map[string]int
	Rings  map[string][]float64
	Box    [4]float64
}

func TestGDAL(t *testing.T) {
	needs(t, "osgeo.ogr")
	ws := writeAll(t)
	answers := ask[gdalAnswer](t, "read_gdal.py", ws)
	for _, w := range ws {
		t.Run(filepath.Base(w.path), func(t *testing.T) {
			a, e := answers[w.path], expect(w.b, w.o)
			for layer, areas := range e.areas {
				require.Len(t, a.Rings[layer], len(areas), layer)
				for i, want := range areas {
					assert.InDelta(t, 1, a.Rings[layer][i]/want, 2e-6, layer)
				}
			}
			assert.Len(t, a.Rings, len(e.areas))
			assert.Equal(t, len(e.circles), a.Counts["HOLES"])
			assert.Equal(t, e.counts["MARKS LINE"]+e.counts["MARKS ARC"], a.Counts["MARKS"])
			assert.Equal(t, e.counts["BENDS LINE"], a.Counts["BENDS"])
			sameBox(t, e, a.Box, 2e-6*math.Max(e.box.Width(), e.box.Height()))
		})
	}
}
