package dxf_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

const plateGap = 8.0

// sheetOf puts the parts in a row, each turned by another angle, so that none is
// nearer than the gap to the next.
func sheetOf(bs ...*blank.Blank) *dxf.Plate {
	p := &dxf.Plate{Name: "1 of 1, 24x48in", Zero: "lower left corner of the sheet", Gap: plateGap}
	x := 0.0
	for i, b := range bs {
		turn := geom.Rotate(float64(i*i) * 0.7)
		if i < 5 {
			turn = geom.Rotate(float64(i) * math.Pi / 2)
		}
		box := b.Outline.Transform(turn).Bounds()
		m := turn.Then(geom.Translate(x-box.Min.X, 20-box.Min.Y))
		p.Parts = append(p.Parts, dxf.Placed{Blank: b, Label: fmt.Sprint(i + 1), Motion: m})
		x += box.Width() + plateGap
	}
	return p
}

// plateParts are all parts of the tests, the first of them twice.
func plateParts(t *testing.T) []*blank.Blank { return append(parts(t), parts(t)[0]) }

func TestPlateReadBack(t *testing.T) {
	for name, o := range flavours() {
		t.Run(name, func(t *testing.T) {
			p := sheetOf(plateParts(t)...)
			data, err := dxf.WritePlate(p, o)
			require.NoError(t, err)
			assert.NoError(t, dxf.VerifyPlate(data, p, o))
			fewer := *p
			fewer.Parts = p.Parts[:len(p.Parts)-1]
			assert.Error(t, dxf.VerifyPlate(data, &fewer, o), "a part less")
			turned := *p
			turned.Parts = slices.Clone(p.Parts)
			turned.Parts[2].Motion = geom.Rotate(0.001).Then(turned.Parts[2].Motion)
			assert.Error(t, dxf.VerifyPlate(data, &turned, o), "a part turned")
			swapped := *p
			swapped.Parts = slices.Clone(p.Parts)
			swapped.Parts[0], swapped.Parts[1] = swapped.Parts[1], swapped.Parts[0]
			assert.Error(t, dxf.VerifyPlate(data, &swapped, o), "another order")
			wide := *p
			wide.Gap = plateGap + 0.01
			assert.ErrorContains(t, dxf.VerifyPlate(data, &wide, o), "mm of each other")
		})
	}
}

// Same bytes from many goroutines.
func TestPlateSameBytes(t *testing.T) {
	p := sheetOf(parts(t)...)
	o := dxf.Options{Unit: unit.Inch}
	first, err := dxf.WritePlate(p, o)
	require.NoError(t, err)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			data, err := dxf.WritePlate(p, o)
			if err != nil || !bytes.Equal(data, first) {
				t.Errorf("differs, or %v", err)
			}
		})
	}
	wg.Wait()
}

// The file goes from marks to whole parts, each from its holes to its outline, and
// its head says which part lies where.
func TestPlateOrder(t *testing.T) {
	a := plate("gusset", saddle(), cut("a", 12, 38, 13.5), drilled("d", 82, 40, 4))
	b := plate("tab", saddle(), cut("big", 30, 30, 20), cut("small", 12, 38, 6))
	b.Hand = blank.Mirrored
	p := sheetOf(a, b, a)
	data, err := dxf.WritePlate(p, dxf.Options{Unit: unit.Millimetre, Note: "for the bench"})
	require.NoError(t, err)
	var layers []string
	lines := strings.Split(string(data), "\r\n")
	in := false
	for i, l := range lines {
		in = in || l == "ENTITIES"
		if in && l == "  8" && (len(layers) == 0 || layers[len(layers)-1] != lines[i+1]) {
			layers = append(layers, lines[i+1])
		}
	}
	assert.Equal(t, []string{"MARKS", "HOLES", "OUTLINE", "HOLES", "OUTLINE", "HOLES", "OUTLINE"}, layers)
	text := string(data)
	for _, want := range []string{
		"sheet: 1 of 1, 24x48in", "parts: 3", "zero: lower left corner of the sheet",
		"part 1: gusset (as drawn), lower left at 0.000, 20.000 mm, turned 0 deg",
		"part 2: tab (mirrored), lower left at ", ", turned 90 deg", "note: for the bench",
		"start: 2 small at ", "drill by hand: d of gusset (as drawn), diameter 4.000", "never at cutting power",
	} {
		assert.Contains(t, text, want)
	}
	assert.Equal(t, 1, strings.Count(text, "drill by hand: "), "once for a kind of part")
}

func TestPlateRefuses(t *testing.T) {
	good := plate("tab", saddle(), cut("a", 12, 38, 13.5))
	o := dxf.Options{Unit: unit.Millimetre}
	_, err := dxf.WritePlate(nil, o)
	assert.ErrorContains(t, err, "no part")
	_, err = dxf.WritePlate(&dxf.Plate{}, o)
	assert.ErrorContains(t, err, "no part")
	_, err = dxf.WritePlate(sheetOf(good), dxf.Options{})
	assert.ErrorContains(t, err, "no unit")
	_, err = dxf.WritePlate(&dxf.Plate{Parts: []dxf.Placed{{}}}, o)
	assert.ErrorContains(t, err, "no blank")
	_, err = dxf.WritePlate(&dxf.Plate{Parts: []dxf.Placed{{Blank: good, Motion: geom.MirrorY()}}}, o)
	assert.ErrorContains(t, err, "mirrored")
	_, err = dxf.WritePlate(&dxf.Plate{Parts: []dxf.Placed{{Blank: good, Motion: geom.Translate(math.NaN(), 0)}}}, o)
	assert.Error(t, err)
	open := plate("open", saddle()[1:])
	_, err = dxf.WritePlate(&dxf.Plate{Parts: []dxf.Placed{{Blank: good}, {Blank: open}}}, o)
	assert.ErrorContains(t, err, `"open"`)
	// Two parts on one place are found in what is read back.
	p := &dxf.Plate{Name: "x", Gap: 5, Parts: []dxf.Placed{{Blank: good, Label: "1"}, {Blank: good, Label: "2", Motion: geom.Translate(3, 4)}}}
	data, err := dxf.WritePlate(p, o)
	require.NoError(t, err)
	assert.ErrorContains(t, dxf.VerifyPlate(data, p, o), "parts 1 and 2 come within 0 mm")
}

// A library that is not ours finds the sheet's drawing without fault, every part's
// lines closed and as large as they should be.
func TestPlateEzdxf(t *testing.T) {
	needs(t, "ezdxf")
	dir := t.TempDir()
	var ws []written
	p := sheetOf(plateParts(t)...)
	for name, o := range flavours() {
		data, err := dxf.WritePlate(p, o)
		require.NoError(t, err)
		path := filepath.Join(dir, name+".dxf")
		require.NoError(t, os.WriteFile(path, data, 0o600))
		ws = append(ws, written{path: path, o: o})
	}
	for path, a := range ask[ezdxfAnswer](t, "read_ezdxf.py", ws) {
		i := slices.IndexFunc(ws, func(w written) bool { return w.path == path })
		assert.Empty(t, a.Errors, "audit errors")
		assert.Empty(t, a.Fixes, "audit fixes")
		counts, loops := map[string]int{}, map[string][]float64{}
		for _, q := range p.Parts {
			e := expect(q.Blank, ws[i].o)
			for k, n := range e.counts {
				counts[k] += n
			}
			for layer, areas := range e.loops {
				loops[layer] = append(loops[layer], areas...)
			}
		}
		assert.Equal(t, counts, a.Counts, path)
		for layer, want := range loops {
			var areas []float64
			for _, l := range a.Loops[layer] {
				areas = append(areas, l[0])
				assert.Less(t, l[1], joinTol, "gap on %s", layer)
			}
			slices.Sort(want)
			slices.Sort(areas)
			assert.InDeltaSlice(t, want, areas, 1e-5, layer)
		}
	}
}
