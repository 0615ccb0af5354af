package bend

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestValidate(t *testing.T) {
	for _, r := range []struct {
		b    Bend
		want string
	}{
		{Bend{0, 1, 1}, "thickness is 0 mm"},
		{Bend{2, -0.5, 1}, "inside radius is -0.5 mm, wanted 0 or more"},
		{Bend{2, 1, 0}, "bend angle is 0 degrees"},
		{Bend{2, 1, deg(181)}, "bend angle is 181 degrees, wanted above 0 and at most 180 degrees"},
		{Bend{2, math.NaN(), 1}, "no finite number"},
		{Bend{2, 1, deg(180)}, ""},
		{Bend{2, 0, deg(90)}, ""},
	} {
		err := r.b.Validate()
		if r.want == "" {
			assert.NoError(t, err)
		} else {
			assert.ErrorContains(t, err, r.want)
		}
		for _, rule := range []Rule{KFactor(0.4), Aircraft{}, GivenAllowance(3), GivenDeduction{1, Outside}, DIN6935{}, For(Steel)} {
			_, ruleErr := rule.Allowance(r.b)
			if r.want != "" {
				assert.ErrorContains(t, ruleErr, r.want, "%T", rule)
			}
		}
	}
}

func TestSetbackReferences(t *testing.T) {
	b := Bend{2, 3, deg(90)}
	assert.Equal(t, 5.0, b.Setback(Outside), "exact at a square bend")
	assert.Equal(t, 5.0, b.Setback(Apex))
	assert.Equal(t, 3.0, b.Setback(Inside))
	assert.Equal(t, 0.0, b.Setback(Tangent))
	sharp := Bend{2, 3, deg(120)}
	assert.Equal(t, 5.0, sharp.Setback(Outside), "to the plane that touches the outside")
	assert.Equal(t, 3.0, sharp.Setback(Inside))
	assert.InDelta(t, 5*math.Sqrt(3), sharp.Setback(Apex), 1e-12)
	hem := Bend{2, 0, deg(180)}
	assert.Equal(t, 2.0, hem.Setback(Outside))
	assert.Equal(t, 0.0, hem.Setback(Inside))
	assert.True(t, math.IsInf(hem.Setback(Apex), 1))
	blunt := Bend{2, 3, deg(60)}
	assert.InDelta(t, 5/math.Sqrt(3), blunt.Setback(Outside), 1e-12)
	assert.InDelta(t, 3/math.Sqrt(3), blunt.Setback(Inside), 1e-12)
	assert.InDelta(t, 50-2, b.Convert(50, Outside, Inside), 1e-12)
}

func TestReferenceWords(t *testing.T) {
	for _, r := range []Reference{Outside, Inside, Apex, Tangent} {
		got, err := ParseReference(r.String())
		require.NoError(t, err)
		assert.Equal(t, r, got)
	}
	_, err := ParseReference("sideways")
	assert.ErrorContains(t, err, `"sideways" is no way to measure a leg`)
}

func TestFlatLengthErrors(t *testing.T) {
	b := Bend{3, 3, deg(90)}
	_, err := FlatLength([]float64{10, 20}, []Bend{b, b}, Outside, KFactor(0.4))
	assert.ErrorContains(t, err, "one leg more than bends")
	_, err = FlatLength([]float64{50, 11.9, 50}, []Bend{b, b}, Outside, KFactor(0.4))
	assert.ErrorContains(t, err, "leg 2 has no straight part left")
	_, err = FlatLength([]float64{50, 50}, []Bend{{3, 3, deg(180)}}, Apex, KFactor(0.4))
	assert.ErrorContains(t, err, "leg 1 has no straight part left")
	_, err = FlatLength([]float64{50, 50}, []Bend{b}, Outside, KFactor(1.2))
	assert.ErrorContains(t, err, "bend 1: a K-factor of 1.2 puts")
}

func TestTypedValues(t *testing.T) {
	b := Bend{3, 3, deg(90)}
	a, err := GivenAllowance(6.7858).Allowance(b)
	require.NoError(t, err)
	assert.InDelta(t, 0.44, a.K, 1e-4)
	assert.Equal(t, "bend allowance 6.7858 mm (0.2672 in)", a.By)
	assert.Equal(t, Typed, a.Source.Prov)
	a, err = GivenDeduction{5.2142, Outside}.Allowance(b)
	require.NoError(t, err)
	assert.InDelta(t, 6.7858, a.Length, 1e-12)
	assert.Equal(t, "bend deduction 5.2142 mm (0.2053 in) from legs measured outside", a.By)
	_, err = GivenDeduction{8, Outside}.Allowance(b)
	assert.ErrorContains(t, err, "does not fit a bend of 90 degrees with inside radius 3 mm in 3 mm plate")
	_, err = GivenDeduction{5, Apex}.Allowance(Bend{3, 0, deg(180)})
	assert.ErrorContains(t, err, "the faces of a hem meet nowhere")
	_, err = GivenAllowance(100).Allowance(b)
	assert.ErrorContains(t, err, "puts the neutral line outside the plate")
}

func TestFactorTables(t *testing.T) {
	for _, r := range []struct {
		table string
		rOver float64
		want  float64
	}{
		{"steel", 0, 0.33}, {"steel", 0.99, 0.33}, {"steel", 1, 0.42}, {"steel", 2.9, 0.42}, {"steel", 3, 0.5}, {"steel", 50, 0.5},
		{"stainless steel", 1, 0.45}, {"aluminium", 1, 0.40},
		{"workshop", 1.9, 0.33}, {"workshop", 2, 0.40}, {"workshop", 4, 0.40}, {"workshop", 4.1, 0.5},
	} {
		f, err := Factors(r.table)
		require.NoError(t, err)
		const s = 4.7625
		k, err := f.Factor(r.rOver*s, s)
		require.NoError(t, err)
		assert.Equal(t, r.want, k, "%s R = %v T", r.table, r.rOver)
	}
	k, err := For(Steel).Factor(3.0/16*25.4, 25.4*3/16)
	require.NoError(t, err)
	assert.Equal(t, 0.42, k, "a radius equal to the thickness whichever way it was rounded")
	_, err = Factors("cheese")
	assert.ErrorContains(t, err, "no table of K-factors")
	assert.Equal(t, "steel", For("cheese").Name)
	_, err = FactorTable{Name: "empty"}.Factor(1, 1)
	assert.ErrorContains(t, err, "has no rows")
	a, err := For(Steel).Allowance(Bend{3, 3, deg(90)})
	require.NoError(t, err)
	assert.Equal(t, "K-factor 0.42 of the table for steel", a.By)
}

// Every table of factors covers all radii once, and names its source.
func TestFactorTablesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range FactorTables() {
		assert.False(t, seen[f.Name])
		seen[f.Name] = true
		assert.NotEmpty(t, f.Source.Text)
		from := 0.0
		for _, b := range f.Bands {
			assert.Equal(t, from, b.From)
			assert.Greater(t, b.To, b.From)
			assert.Greater(t, b.K, 0.0)
			assert.Less(t, b.K, 1.0)
			from = b.To
		}
		assert.True(t, math.IsInf(from, 1))
	}
	FactorTables()[0].Bands[0].K = 9
	assert.Equal(t, 0.33, FactorTables()[0].Bands[0].K, "the tables cannot be changed from outside")
}

func TestTrial(t *testing.T) {
	// 124.7858 mm flat gives 50 and 80 outside: K 0.44.
	tr := Trial{Name: "3 mm", T: 3, R: 3, A: deg(90), Flat: 124.7858, LegA: 50, LegB: 80}
	k, err := tr.Factor()
	require.NoError(t, err)
	assert.InDelta(t, 0.44, k, 2e-5)
	assert.Empty(t, tr.Unusual())
	assert.InDelta(t, 0.3/(math.Pi/2*3), tr.Doubt(0.1), 1e-12)
	a, err := tr.Allowance(Bend{3, 3, deg(45)})
	require.NoError(t, err)
	assert.InDelta(t, k, a.K, 1e-12)
	assert.Equal(t, "test bend 3 mm: 124.7858 mm flat gave legs of 50 and 80 mm outside at 90 degrees, K-factor 0.44", a.By)
	_, err = tr.Allowance(Bend{3, 4, deg(45)})
	assert.ErrorContains(t, err, "was made in 3 mm plate with inside radius 3 mm, wanted 3 mm with radius 4 mm")

	for want, bad := range map[string]Trial{
		"measure again":                     {T: 3, R: 3, A: deg(90), Flat: 135, LegA: 50, LegB: 80},
		"both legs are needed":              {T: 3, R: 3, A: deg(90), Flat: 0, LegA: 50, LegB: 80},
		"no straight part":                  {T: 3, R: 3, A: deg(90), Flat: 80, LegA: 5, LegB: 80},
		"the faces of a hem meet nowhere":   {T: 3, R: 3, A: deg(180), Flat: 80, LegA: 50, LegB: 80, To: Apex},
		"inside radius is -1 mm, wanted 0 ": {T: 3, R: -1, A: deg(90), Flat: 80, LegA: 50, LegB: 80},
	} {
		_, err := bad.Factor()
		assert.ErrorContains(t, err, want)
	}
	odd := Trial{T: 3, R: 3, A: deg(90), Flat: 123.5, LegA: 50, LegB: 80}
	assert.Contains(t, odd.Unusual(), "is unusual")
}

func TestTrialsTakeTheNearestAngle(t *testing.T) {
	right := Trial{T: 3, R: 3, A: deg(90), Flat: 124.7858, LegA: 50, LegB: 80}
	flatBend := Bend{3, 3, deg(30)}
	sum := 2*(50-flatBend.Setback(Outside)) + flatBend.Arc(0.4)
	thirty := Trial{T: 3, R: 3, A: deg(30), Flat: sum, LegA: 50, LegB: 50}
	ts := Trials{right, thirty}
	a, err := ts.Allowance(Bend{3, 3, deg(45)})
	require.NoError(t, err)
	assert.InDelta(t, 0.4, a.K, 1e-9)
	a, err = ts.Allowance(Bend{3, 3, deg(100)})
	require.NoError(t, err)
	assert.InDelta(t, 0.44, a.K, 2e-5)
	_, err = ts.Allowance(Bend{4, 3, deg(45)})
	assert.ErrorContains(t, err, "no test bend in 4 mm plate with inside radius 3 mm")
}

// A strip bent by any K-factor and measured any way gives that factor back.
func TestTrialGivesTheFactorBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := Bend{rapid.Float64Range(0.5, 20).Draw(r, "t"), rapid.Float64Range(0, 60).Draw(r, "r"), rapid.Float64Range(deg(1), deg(179)).Draw(r, "a")}
		k := rapid.Float64Range(0.2, 0.6).Draw(r, "k")
		to := Reference(rapid.IntRange(0, 3).Draw(r, "to"))
		legs := []float64{b.Setback(to) + rapid.Float64Range(1, 100).Draw(r, "legA"), b.Setback(to) + 20}
		flat, err := FlatLength(legs, []Bend{b}, to, KFactor(k))
		require.NoError(r, err)
		got, err := Trial{T: b.T, R: b.R, A: b.A, Flat: flat, LegA: legs[0], LegB: legs[1], To: to}.Factor()
		require.NoError(r, err)
		// What is lost is lost in the lengths: a rounding of them over A T.
		assert.InDelta(r, k, got, 1e-13*(flat+2*b.Setback(to))/(b.A*b.T)+1e-12)
	})
}

func TestDies(t *testing.T) {
	for _, r := range [][2]float64{{1, 8}, {4.7625, 40}, {5, 40}, {6, 50}, {12, 100}, {12.5, 125}, {20, 200}} {
		v, err := DieFor(r[0])
		require.NoError(t, err)
		assert.Equal(t, Die(r[1]), v, "%v mm", r[0])
	}
	for _, bad := range []float64{0, -1, 26} {
		_, err := DieFor(bad)
		assert.ErrorContains(t, err, "no usual V-die")
	}
	assert.Less(t, Die(40).LeastFlange(deg(30)), Die(40).LeastFlange(deg(90)))
	assert.Less(t, Die(40).LeastFlange(deg(90)), Die(40).LeastFlange(deg(130)))
	assert.Equal(t, Die(40).LeastFlange(deg(150)), Die(40).LeastFlange(deg(180)))
	assert.InDelta(t, 28, Die(40).LeastFlange(deg(90)), 1e-12)
	ds := Dies()
	ds[0] = 99
	assert.Equal(t, Die(4), Dies()[0])
}

func TestLoad(t *testing.T) {
	// 1 m of 5 mm plate, 450 MPa, V 40: 1.5 x 450 x 1000 x 25 / 40.
	l := Die(40).Load(450, 5, 1000)
	assert.InDelta(t, 421_875, l.Force, 1e-6)
	assert.InDelta(t, 43.0, l.Tonnes, 0.1)
	assert.Contains(t, l.Source.Text, "estimate")
	assert.Equal(t, CommonPractice, l.Source.Prov)
}

func TestLeastRadiiTables(t *testing.T) {
	over := en10025[0].over
	for i, row := range en10025 {
		assert.Equal(t, over, row.over, "no gap at row %d", i)
		over = row.to
		for s := range 3 {
			assert.LessOrEqual(t, row.across[s], row.along[s])
			if i > 0 {
				assert.LessOrEqual(t, en10025[i-1].across[s], row.across[s])
				assert.LessOrEqual(t, en10025[i-1].along[s], row.along[s])
			}
		}
	}
	l, err := LeastRadius("S235", 0.8, Across)
	require.NoError(t, err)
	assert.Equal(t, 1.6, l.R, "thinner than the table takes its first row")
	_, err = LeastRadius("S355", 25, Across)
	assert.ErrorContains(t, err, "no row for 25 mm")
	for _, m := range multiples {
		for _, name := range m.materials {
			assert.Equal(t, strings.ToLower(name), name)
		}
		assert.NotEmpty(t, m.source.Text)
	}
}

func TestCommonRadius(t *testing.T) {
	for _, r := range []struct {
		f        Family
		fy, t, k float64
	}{
		{Steel, 235, 5, 1}, {Steel, 235, 12, 1.5}, {Steel, 355, 5, 1.5}, {Steel, 690, 5, 2},
		{StainlessSteel, 205, 5, 1}, {Aluminium, 80, 3, 1}, {Aluminium, 240, 3, 3},
	} {
		l := CommonRadius(r.f, r.fy, r.t)
		assert.InDelta(t, r.k*r.t, l.R, 1e-12)
		assert.Equal(t, CommonPractice, l.Source.Prov)
	}
}

// What Springback asks for springs back to what was wanted.
func TestSpringbackInverse(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := Bend{rapid.Float64Range(0.5, 20).Draw(r, "t"), 0, rapid.Float64Range(deg(5), deg(150)).Draw(r, "a")}
		b.R = b.T * rapid.Float64Range(0.1, 20).Draw(r, "r")
		fy, e := rapid.Float64Range(100, 900).Draw(r, "fy"), ElasticModulus(Steel)
		made, err := Springback(b, fy, e)
		require.NoError(r, err)
		x := made.R * fy / (e * made.T)
		assert.InDelta(r, b.R, made.R/(4*x*x*x-3*x+1), 1e-9)
		assert.LessOrEqual(r, made.R, b.R)
		assert.GreaterOrEqual(r, made.A, b.A)
	})
	_, err := Springback(Bend{1, 5000, 1}, 350, 205_000)
	assert.ErrorContains(t, err, "mostly elastic")
	_, err = Springback(Bend{1, 1, 1}, 0, 205_000)
	assert.ErrorContains(t, err, "wanted both above nothing")
	_, err = Springback(Bend{1, -1, 1}, 350, 205_000)
	assert.Error(t, err)
	assert.Greater(t, ElasticModulus(Steel), ElasticModulus(StainlessSteel))
	assert.Greater(t, ElasticModulus(StainlessSteel), ElasticModulus(Aluminium))
}

func BenchmarkAllowance(b *testing.B) {
	bend := Bend{4.7625, 4.7625, deg(90)}
	k := KFactor(0.42)
	for b.Loop() {
		if _, err := k.Allowance(bend); err != nil {
			b.Fatal(err)
		}
	}
}

func TestTablesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, table := range Tables() {
		assert.False(t, seen[table.Name])
		seen[table.Name] = true
		assert.NotEmpty(t, table.Title)
		assert.NotEmpty(t, table.Source.Text)
		assert.NotEmpty(t, table.Source.Prov)
		assert.NotEmpty(t, table.Rows)
		for _, row := range table.Rows {
			assert.Len(t, row, len(table.Columns), "%s: %v", table.Name, row)
			assert.NotContains(t, row, "")
			assert.NotContains(t, strings.Join(row, " "), "Inf")
		}
	}
	assert.Equal(t, []string{"3", "4", "5 (6)", "5 (6)", "6 (8)"}, Tables()[1].Rows[3])
	assert.Equal(t, []string{"40", "6.7", "28"}, Tables()[3].Rows[9])
}
