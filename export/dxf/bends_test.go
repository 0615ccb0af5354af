package dxf_test

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

func bentPart(t *testing.T) *blank.Blank {
	t.Helper()
	p, err := describe.Parse("bent.yaml", []byte("part: angle\nunits: mm\nplate: {thickness: 3, material: S355MC}\nprocess: fibre laser\n"+
		"formed: {u: {width: 60, legs: [50, 40], length: 80}}\nbends: {radius: 3, rule: k 0.42}\n"))
	require.NoError(t, err)
	bs, err := blank.Make(p)
	require.NoError(t, err)
	return bs[0]
}

// Bend lines are on a layer of their own, whole or their ends, in both versions,
// and a reader that we did not write finds them there.
func TestBendLines(t *testing.T) {
	needs(t, "ezdxf")
	b := bentPart(t)
	const script = `
import sys, json, ezdxf
d = ezdxf.readfile(sys.argv[1])
lines = [[e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y] for e in d.modelspace() if e.dxf.layer == "BENDS"]
kinds = sorted({e.dxftype() for e in d.modelspace() if e.dxf.layer == "BENDS"})
print(json.dumps({"lines": lines, "kinds": kinds, "layer": "BENDS" in d.layers}))
`
	for _, v := range []dxf.Version{dxf.R2000, dxf.R12} {
		for _, ends := range []bool{false, true} {
			data, err := dxf.Write(b, dxf.Options{Unit: unit.Millimetre, Version: v, BendEnds: ends})
			require.NoError(t, err)
			file := filepath.Join(t.TempDir(), "bent.dxf")
			require.NoError(t, os.WriteFile(file, data, 0o600))
			out, err := exec.Command(python, "-c", script, file).CombinedOutput()
			require.NoError(t, err, "%s", out)
			var got struct {
				Lines [][4]float64
				Kinds []string
				Layer bool
			}
			require.NoError(t, json.Unmarshal(out, &got), "%s", out)
			assert.True(t, got.Layer)
			assert.Equal(t, []string{"LINE"}, got.Kinds)
			origin := b.Outline.Bounds().Min
			if ends {
				assert.Len(t, got.Lines, 4)
			} else if assert.Len(t, got.Lines, 2) {
				for i, l := range got.Lines {
					k := b.Formed.Flat.Bends[i].Line
					assert.InDelta(t, k.A.X-origin.X, l[0], 1e-7)
					assert.InDelta(t, k.A.Y-origin.Y, l[1], 1e-7)
					assert.InDelta(t, k.B.X-origin.X, l[2], 1e-7)
					assert.InDelta(t, k.B.Y-origin.Y, l[3], 1e-7)
				}
			}
			for _, want := range []string{"layer BENDS: bend lines, not to be cut", "bend 2: left, up 90 degrees, inside radius 3.000 mm, from", "note: bends of flanges left, right"} {
				assert.Contains(t, string(data), want)
			}
		}
	}
}

// The drawing is read back: a bend line that is lost, moved, behind the cuts or
// in front of the marks is told.
func TestVerifyBends(t *testing.T) {
	b := bentPart(t)
	b.Holes = append(b.Holes, drilled("d", 0, 0, 5))
	for _, ends := range []bool{false, true} {
		for _, v := range []dxf.Version{dxf.R2000, dxf.R12} {
			o := dxf.Options{Unit: unit.Inch, Version: v, BendEnds: ends}
			data, err := dxf.Write(b, o)
			require.NoError(t, err)
			require.NoError(t, dxf.Verify(data, b, o))
			o.BendEnds = !ends
			require.ErrorContains(t, dxf.Verify(data, b, o), "on BENDS, wanted")
			o.BendEnds = ends
			text := string(data)
			from := strings.Index(text, "ENTITIES")
			at := from + strings.Index(text[from:], "  8\r\nBENDS\r\n")
			begin := strings.LastIndex(text[:at], "  0\r\nLINE")
			end := at + strings.Index(text[at:], "  0\r\n")
			line, without := text[begin:end], text[:begin]+text[end:]
			x := strings.Index(line, " 10\r\n") + 5
			stop := strings.LastIndex(without, "  0\r\nENDSEC")
			if v == dxf.R2000 {
				stop = strings.LastIndex(without[:strings.Index(without, "OBJECTS")], "  0\r\nENDSEC")
			}
			first := from + strings.Index(text[from:], "  0\r\nLINE")
			for want, bad := range map[string]string{
				"lines on BENDS, wanted":     without,
				"is not where it should be":  text[:begin] + line[:x] + "1" + line[x:] + text[end:],
				"behind what is cut":         without[:stop] + line + without[stop:],
				"stands behind the bend":     text[:first] + line + text[first:begin] + text[end:],
				"a CIRCLE stands on BENDS":   text[:begin] + strings.Replace(line, "LINE", "CIRCLE", 1) + text[end:],
				"2 lines on BENDS, wanted 0": "",
			} {
				if bad == "" {
					if ends {
						continue
					}
					flat := *b
					flat.Formed = nil
					require.ErrorContains(t, dxf.Verify(data, &flat, o), want)
					continue
				}
				require.ErrorContains(t, dxf.Verify([]byte(bad), b, o), want)
			}
		}
	}
}

// A bend line without a place or a length is not drawn.
func TestBendLineWithoutPlace(t *testing.T) {
	for _, l := range []geom.Seg{geom.Line(pt(1, 1), pt(1, 1)), geom.Line(pt(math.NaN(), 0), pt(1, 1))} {
		b := bentPart(t)
		b.Formed.Flat.Bends[0].Line = l
		_, err := dxf.Write(b, dxf.Options{Unit: unit.Millimetre})
		require.ErrorContains(t, err, "bend line \"left\"")
	}
}

// A flat part has no layer of bend lines.
func TestNoBendLayer(t *testing.T) {
	for _, b := range parts(t) {
		if b.Formed != nil {
			continue
		}
		data, err := dxf.Write(b, dxf.Options{Unit: unit.Millimetre})
		require.NoError(t, err)
		assert.False(t, strings.Contains(string(data), "BENDS"))
	}
}
