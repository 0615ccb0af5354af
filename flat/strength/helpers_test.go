package strength

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
)

const (
	ksi = 1000 * pound / (inch * inch) // MPa
	kip = 1000 * pound                 // N
)

// record is one published table or example in testdata.
type record struct {
	ID, Source, Prov string
	Tolerance        float64
	Inputs           map[string]any
	Published        map[string]float64
	Recomputed       map[string]float64
	Wrong            map[string]float64
	Bolts            [][2]float64
	Forces           [][3]float64
	Columns          []string
	Rows             [][]any
	Factors          map[string][2]float64
	Coefficients     map[string]float64
	AlphaV           map[string]float64 `json:"alpha_v"`
	Fub              map[string]float64
}

func load(t testing.TB, file, id string) record {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", file))
	require.NoError(t, err)
	var all []record
	require.NoError(t, json.Unmarshal(b, &all))
	for _, r := range all {
		if r.ID == id {
			require.NotEmpty(t, r.Source, "%s: %s names no source", file, id)
			return r
		}
	}
	require.Fail(t, "no such record", "%s in %s", id, file)
	return record{}
}

func (r record) in(t testing.TB, key string) float64 {
	t.Helper()
	v, ok := r.Inputs[key].(float64)
	require.True(t, ok, "%s has no input %q", r.ID, key)
	return v
}

func (r record) point(t testing.TB, key string) geom.Point {
	t.Helper()
	v, ok := r.Inputs[key].([]any)
	require.True(t, ok && len(v) == 2, "%s has no input %q", r.ID, key)
	return geom.Point{X: v[0].(float64), Y: v[1].(float64)}
}

// same holds a value against what was printed (within the record's tolerance) and
// against what was worked out again (within 0.1 %), where there is either.
func (r record) same(t testing.TB, key string, got float64) {
	t.Helper()
	p, printed := r.Published[key]
	c, computed := r.Recomputed[key]
	require.True(t, printed || computed, "%s has no result %q", r.ID, key)
	if printed {
		require.InEpsilon(t, p, got, r.Tolerance, "%s: %s as printed", r.Source, key)
	}
	if computed {
		require.InEpsilon(t, c, got, min(r.Tolerance, 0.001), "%s: %s recomputed", r.Source, key)
	}
}

func close9(t require.TestingT, want, got, scale float64, what string) {
	require.InDelta(t, want, got, 1e-9*scale, what)
}

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func deg(a float64) float64 { return a * math.Pi / 180 }
