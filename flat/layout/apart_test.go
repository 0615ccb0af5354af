package layout

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/geom"
)

// python is the interpreter that has the system's Shapely.
const python = "/usr/bin/python3"

// chord is how far (mm) a polygon that Shapely measures may lie from its arc.
const chord = 2e-3

// rings are the loops of a region as points, arcs by chords.
func rings(r geom.Region) [][][2]float64 {
	var out [][][2]float64
	for _, l := range append([]geom.Loop{r.Outer}, r.Holes...) {
		var ring [][2]float64
		for _, s := range l {
			n := 1
			if s.IsArc() {
				n = arcSteps(s.Circle().R, s.Sweep(), chord)
			}
			for i := range n {
				p := s.At(float64(i) / float64(n))
				ring = append(ring, [2]float64{p.X, p.Y})
			}
		}
		out = append(out, ring)
	}
	return out
}

// job is a random task for Plan.
type job struct {
	pieces []Piece
	sheets []Sheet
	o      Options
}

// randomPiece is a plate with arcs, hollow corners or openings.
func randomPiece(t testing.TB, r *rand.Rand) geom.Region {
	size := 20 + 100*r.Float64()
	w, h := size*(0.4+0.6*r.Float64()), size*(0.4+0.6*r.Float64())
	at := func(x, y float64) geom.Point { return geom.Point{X: x * w, Y: y * h} }
	var outer geom.Loop
	switch r.IntN(6) {
	case 0:
		outer = geom.CircleLoop(geom.Circle{C: at(0.5, 0.5), R: w / 2})
	case 1:
		outer = geom.Slot(at(0, 0), at(1, 0.5), 0.3*size)
	case 2: // an angle bracket, rounded
		var err error
		c := 0.08 * min(w, h)
		outer, err = geom.Corners([]geom.Corner{{P: at(0, 0), Radius: c}, {P: at(1, 0), Radius: c}, {P: at(1, 0.3), Radius: c}, {P: at(0.3, 0.3), Radius: c}, {P: at(0.3, 1), Chamfer: c}, {P: at(0, 1), Radius: c}})
		require.NoError(t, err)
	case 3: // a saddle
		s := geom.Circle{C: at(0.5, 1), R: 0.35 * min(w, h)}
		a, b := geom.Point{X: s.C.X + s.R, Y: s.C.Y}, geom.Point{X: s.C.X - s.R, Y: s.C.Y}
		outer = geom.Loop{geom.Line(at(0, 0), at(1, 0)), geom.Line(at(1, 0), at(1, 1)), geom.Line(at(1, 1), a), geom.Arc(s, a, b, false), geom.Line(b, at(0, 1)), geom.Line(at(0, 1), at(0, 0))}
	case 4:
		outer = geom.Polygon(star(r, 3+r.IntN(9), size/2)...)
	default:
		outer = geom.Polygon(at(0, 0), at(1, 0), at(1, 1), at(0, 1))
	}
	region := geom.Region{Outer: outer}
	if r.IntN(2) == 0 {
		hole := geom.CircleLoop(geom.Circle{C: outer.Centroid(), R: size * (0.05 + 0.3*r.Float64())}).Reverse()
		with := geom.Region{Outer: outer, Holes: []geom.Loop{hole}}
		if with.Validate() == nil {
			region = with
		}
	}
	if r.IntN(3) == 0 {
		region = region.Transform(geom.MirrorX())
	}
	require.NoError(t, region.Validate())
	return region
}

func randomSheet(t *testing.T, r *rand.Rand) geom.Region {
	w, h := 150+350*r.Float64(), 150+350*r.Float64()
	at := func(x, y float64) geom.Point { return geom.Point{X: x*w - 100, Y: y*h + 50} }
	s := geom.Region{Outer: geom.Polygon(at(0, 0), at(1, 0), at(1, 1), at(0, 1))}
	switch r.IntN(4) {
	case 0: // a drop with a corner gone and a round bite
		c := geom.Circle{C: at(0.6, 1), R: 0.2 * min(w, h)}
		a, b := geom.Point{X: c.C.X + c.R, Y: c.C.Y}, geom.Point{X: c.C.X - c.R, Y: c.C.Y}
		s.Outer = geom.Loop{geom.Line(at(0.2, 0), at(1, 0.1)), geom.Line(at(1, 0.1), at(1, 1)), geom.Line(at(1, 1), a), geom.Arc(c, a, b, false), geom.Line(b, at(0, 0.9)), geom.Line(at(0, 0.9), at(0, 0.3)), geom.Line(at(0, 0.3), at(0.2, 0))}
	case 1: // a round one was cut from it
		s.Holes = []geom.Loop{geom.CircleLoop(geom.Circle{C: at(0.3+0.4*r.Float64(), 0.5), R: 0.15 * min(w, h)}).Reverse()}
	}
	require.NoError(t, s.Validate())
	return s
}

func randomJob(t *testing.T, r *rand.Rand) job {
	var j job
	j.o = Options{Seed: r.Uint64(), Iterations: r.IntN(4), Margin: 12 * r.Float64(), InsideOpenings: r.IntN(2) == 0}
	j.o.Gap = []float64{0, 0.5, 3, 8 * r.Float64()}[r.IntN(4)]
	if r.IntN(5) == 0 {
		j.o.Margin = 0
	}
	for range 1 + r.IntN(4) {
		p := Piece{Name: "piece", Region: randomPiece(t, r), Quantity: 1 + r.IntN(5)}
		p.Turns = [][]float64{nil, {0}, {0, math.Pi}, {0.3, 2}}[r.IntN(4)]
		j.pieces = append(j.pieces, p)
	}
	for range 1 + r.IntN(2) {
		j.sheets = append(j.sheets, Sheet{Name: "sheet", Region: randomSheet(t, r), Count: r.IntN(3)})
	}
	return j
}

// shapelyJob is a layout as the oracle reads it.
type shapelyJob struct {
	Gap    float64          `json:"gap"`
	Margin float64          `json:"margin"`
	Sheets [][][][2]float64 `json:"sheets"`
	Pieces [][2]any         `json:"pieces"`
}

func (j job) forShapely(res *Result) shapelyJob {
	s := shapelyJob{Gap: j.o.Gap, Margin: j.o.Margin, Pieces: [][2]any{}}
	for _, u := range res.Sheets {
		s.Sheets = append(s.Sheets, rings(j.sheets[u.Kind].Region))
	}
	for _, p := range res.Placements {
		s.Pieces = append(s.Pieces, [2]any{p.Sheet, rings(j.pieces[p.Piece].Region.Transform(p.Motion))})
	}
	return s
}

// measured is the oracle's answer on one layout.
type measured struct {
	near, edge float64 // mm over what was asked
	bad        bool
}

func shapely(t *testing.T, jobs []shapelyJob) []measured {
	t.Helper()
	if exec.Command(python, "-c", "import shapely").Run() != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("python3-shapely is not installed")
		}
		t.Skip("python3-shapely is not installed")
	}
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	for _, j := range jobs {
		require.NoError(t, enc.Encode(j))
	}
	cmd := exec.Command(python, "testdata/apart.py")
	cmd.Stdin, cmd.Stderr = &in, os.Stderr
	text, err := cmd.Output()
	require.NoError(t, err)
	var out []measured
	for lines := bufio.NewScanner(bytes.NewReader(text)); lines.Scan(); {
		var v []any
		require.NoError(t, json.Unmarshal(lines.Bytes(), &v))
		out = append(out, measured{v[0].(float64), v[1].(float64), v[2].(bool)})
	}
	require.Len(t, out, len(jobs))
	return out
}

func (m measured) right() bool { return !m.bad && m.near > -3*chord && m.edge > -3*chord }

// Pieces of random jobs never lie nearer to each other than the gap, nor to the
// edge of their sheet than the margin, as an independent library measures.
func TestNeverOverlap(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	var jobs []shapelyJob
	placed, unplaced := 0, 0
	for range 1000 {
		j := randomJob(t, r)
		res, err := Plan(context.Background(), j.pieces, j.sheets, j.o)
		var wrong *InputError
		if err != nil {
			require.ErrorAs(t, err, &wrong)
			require.Contains(t, []Fault{PieceTooLarge, GapTooLarge}, wrong.Fault, err)
			continue
		}
		placed += len(res.Placements)
		for _, u := range res.Unplaced {
			unplaced += u.Count
		}
		jobs = append(jobs, j.forShapely(res))
	}
	t.Logf("%d layouts, %d pieces placed, %d not", len(jobs), placed, unplaced)
	assert.Greater(t, len(jobs), 800)
	assert.Greater(t, unplaced, 20)
	assert.Greater(t, placed, 5*unplaced)
	for i, m := range shapely(t, jobs) {
		assert.True(t, m.right(), "layout %d: %+v", i, m)
	}
}

// Both the proof and the oracle find pieces that are moved too near.
func TestProofFindsFaults(t *testing.T) {
	square := geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: 50}, geom.Point{X: 50, Y: 50}, geom.Point{Y: 50})}
	disc := geom.Region{Outer: geom.CircleLoop(geom.Circle{C: geom.Point{X: 25, Y: 25}, R: 25}), Holes: []geom.Loop{geom.CircleLoop(geom.Circle{C: geom.Point{X: 25, Y: 25}, R: 20}).Reverse()}}
	coin := geom.Region{Outer: geom.CircleLoop(geom.Circle{R: 5})}
	holed := plain("sheet", 300, 200, 1)
	holed.Region.Holes = []geom.Loop{geom.CircleLoop(geom.Circle{C: geom.Point{X: 250, Y: 100}, R: 5}).Reverse()}
	cases := []struct {
		name        string
		gap, margin float64
		a, b        geom.Region
		bx, by      float64 // where b goes; a lies at 10, 10
		ok          bool
	}{
		{"apart by the gap", 4, 10, square, square, 64, 10, true},
		{"too near", 4, 10, square, square, 63.9, 10, false},
		{"crossing", 4, 10, square, disc, 40, 10, false},
		{"same place", 4, 10, square, square, 10, 10, false},
		{"touching without a gap", 0, 0, square, square, 60, 10, true},
		{"overlapping without a gap", 0, 0, square, square, 59.99, 10, false},
		{"in material", 0, 0, square, coin, 35, 35, false},
		{"in an opening", 4, 10, disc, coin, 35, 35, true},
		{"too near in an opening", 4, 10, disc, coin, 47, 35, false},
		{"on the margin", 4, 10, square, square, 64, 140, true},
		{"over the margin", 4, 10, square, square, 64, 140.1, false},
		{"off the sheet", 4, 10, square, square, 400, 10, false},
		{"over the edge", 0, 0, square, square, 260, 10, false},
		{"on an opening of the sheet", 0, 0, square, square, 225, 75, false},
		{"an opening round one of the sheet", 4, 10, square, disc, 225, 75, true},
		{"too near to an opening of the sheet", 4, 16, square, disc, 225, 75, false},
	}
	errs := make([]error, len(cases))
	var jobs []shapelyJob
	for i, c := range cases {
		pieces := []Piece{{Name: "a", Region: c.a, Quantity: 1}, {Name: "b", Region: c.b, Quantity: 1}}
		res := &Result{Sheets: []UsedSheet{{}}, Placements: []Placement{{Motion: geom.Translate(10, 10)}, {Piece: 1, Motion: geom.Translate(c.bx, c.by)}}}
		if c.margin == 16 {
			pieces[0].Region = coin // keeps its own margin
			res.Placements[0].Motion = geom.Translate(40, 40)
		}
		sheets := []Sheet{holed}
		errs[i] = Prove(pieces, sheets, res, c.gap, c.margin)
		jobs = append(jobs, job{pieces, sheets, Options{Gap: c.gap, Margin: c.margin}}.forShapely(res))
	}
	measured := shapely(t, jobs)
	for i, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.ok, measured[i].right(), "%+v", measured[i])
			if c.ok {
				require.NoError(t, errs[i])
				return
			}
			var fault *ProofError
			require.ErrorAs(t, errs[i], &fault)
			assert.Contains(t, []string{fault.A, fault.B}, "b", fault)
		})
	}
}
