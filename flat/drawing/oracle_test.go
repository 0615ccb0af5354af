package drawing_test

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// python is the interpreter that has the system's ezdxf.
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

// flattened is what ezdxf makes of a drawing.
type flattened struct {
	Version string
	Runs    [][][2]float64
	Ignored map[string]int
}

// ezdxfFine is how far ezdxf's flattened lines may lie from its curves.
const ezdxfFine = 1e-3

// TestEzdxf holds drawings that ezdxf makes (blocks nested, turned, mirrored, in
// arrays and unevenly scaled; ellipses; splines of all kinds; extrusions both
// ways; R12 to R2018) against ezdxf's own flattening: both ways no point is
// farther off than the stated error and ezdxf's own.
func TestEzdxf(t *testing.T) {
	needs(t, "ezdxf")
	dir := t.TempDir()
	cmd := exec.Command(python, filepath.Join("testdata", "make_ezdxf.py"), dir)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var answers map[string]flattened
	require.NoError(t, json.Unmarshal(out, &answers))
	require.GreaterOrEqual(t, len(answers), 50)
	for name, want := range answers {
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(filepath.Join(dir, name))
			require.NoError(t, err)
			for _, allowed := range []float64{num.CurveError, 0.001, 0.05} {
				d, err := drawing.Read(name, text, drawing.Options{CurveError: allowed})
				require.NoError(t, err)
				checkFlattened(t, d, want, allowed)
				if d.Deviation == 0 {
					break // no curves: the error allowed changes nothing
				}
			}
		})
	}
}

func checkFlattened(t *testing.T, d *drawing.Drawing, want flattened, allowed float64) {
	t.Helper()
	assert.Equal(t, want.Version, d.Version)
	assert.Equal(t, "mm", d.Unit.Name)
	assert.LessOrEqual(t, d.Deviation, allowed)
	ignored := map[string]int{}
	for _, g := range d.Ignored {
		ignored[g.Kind] = g.Count
	}
	assert.Equal(t, want.Ignored, ignored)
	var ours []geom.Seg
	for _, s := range d.Shapes {
		ours = append(ours, s.Segs...)
		for i := 1; i < len(s.Segs); i++ {
			assert.Equal(t, s.Segs[i-1].B, s.Segs[i].A, "%s hangs together", s.Kind)
		}
	}
	var theirs []geom.Seg
	for _, run := range want.Runs {
		for i := 1; i < len(run); i++ {
			theirs = append(theirs, geom.Line(pt(run[i-1][0], run[i-1][1]), pt(run[i][0], run[i][1])))
		}
	}
	const noise = 1e-6
	off, at := farthest(theirs, ours)
	assert.LessOrEqual(t, off, allowed+noise, "ezdxf has a point at %v that we have not", at)
	off, at = farthest(ours, theirs)
	assert.LessOrEqual(t, off, allowed+ezdxfFine+noise, "we have a point at %v that ezdxf has not", at)
}

// farthest samples segments and tells which sample lies farthest from the
// others.
func farthest(from, to []geom.Seg) (off float64, at geom.Point) {
	near := newNearest(to)
	for _, s := range from {
		n := 1
		if s.IsArc() {
			n = 24
		}
		for i := 0; i <= n; i++ {
			p := s.At(float64(i) / float64(n))
			if d := near.distance(p); d > off {
				off, at = d, p
			}
		}
	}
	return off, at
}

// nearest finds the nearest of many segments: each lies in all cells that its box
// reaches. What is farther than a cell counts as infinitely far.
type nearest map[[2]int][]geom.Seg

const nearCell = 5.0

func cellAt(p geom.Point) (x, y int) {
	return int(math.Floor(p.X / nearCell)), int(math.Floor(p.Y / nearCell))
}

func newNearest(segs []geom.Seg) nearest {
	n := nearest{}
	for _, s := range segs {
		// Long lines in pieces, so that their boxes are small.
		k := 1
		if !s.IsArc() {
			k += int(s.Length() / nearCell)
		}
		for i := range k {
			part := s
			if k > 1 {
				part = geom.Line(s.At(float64(i)/float64(k)), s.At(float64(i+1)/float64(k)))
			}
			n.add(part)
		}
	}
	return n
}

func (n nearest) add(s geom.Seg) {
	b := s.Bounds()
	x0, y0 := cellAt(b.Min)
	x1, y1 := cellAt(b.Max)
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			n[[2]int{x, y}] = append(n[[2]int{x, y}], s)
		}
	}
}

func (n nearest) distance(p geom.Point) float64 {
	best := math.Inf(1)
	x, y := cellAt(p)
	for i := x - 1; i <= x+1; i++ {
		for j := y - 1; j <= y+1; j++ {
			for _, s := range n[[2]int{i, j}] {
				best = math.Min(best, geom.PointSeg(p, s).D)
			}
		}
	}
	return best
}
