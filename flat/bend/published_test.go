package bend

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func deg(a float64) float64 { return a * math.Pi / 180 }

// Sheet Metal Workbook, 6th ed., "90 Degree Bends": three bends by the
// empirical rule, inch; legs converted to outside ones. Printed to 0.001 in,
// chained through rounded figures.
func TestSheetMetalWorkbook(t *testing.T) {
	b := Bend{0.05, 0.032, deg(90)}
	a, err := Aircraft{}.Allowance(b)
	require.NoError(t, err)
	assert.InDelta(t, 0.085, a.Length, 0.001)
	assert.InDelta(t, 0.085298, a.Length, 1e-6)
	bd := b.Deduction(Outside, a.Length)
	assert.InDelta(t, 0.079, bd, 0.001)
	assert.InDelta(t, 0.078702, bd, 1e-6)
	flat, err := FlatLength([]float64{0.74, 0.42, 1.05, 1.0}, []Bend{b, b, b}, Outside, Aircraft{})
	require.NoError(t, err)
	assert.InDelta(t, 2.973, flat, 0.001)
	assert.InDelta(t, 2.97389, flat, 6e-6)
	assert.InDelta(t, 0.4469, Bend{1, 0, deg(90)}.Factor(aircraftT*90), 1e-4, "the rule is a K-factor of 0.4469")
}

// German vocational teaching notes, "gestreckte Laenge", example 2: a handle
// with four square bends, neutral line in the middle. Published 285.37 mm.
func TestHandleWithFourBends(t *testing.T) {
	b := Bend{5, 20, deg(90)}
	assert.InDelta(t, 35.3429, b.Arc(0.5), 5e-5)
	// One half: 25 + 12 + 35 straight and two bends; straight parts are legs
	// measured from the tangent.
	half, err := FlatLength([]float64{25, 12, 35}, []Bend{b, b}, Tangent, KFactor(0.5))
	require.NoError(t, err)
	assert.InDelta(t, 285.37, 2*half, 0.01)
	assert.InDelta(t, 285.3717, 2*half, 5e-5)
}

// FAA-H-8083-31, Aviation Maintenance Technician Handbook, Airframe, volume 1:
// U-channel layout in 0.040 in 2024-T3, radius 0.16 in, mold lines 1, 2 and 1 in.
// Seen there: setback 0.2, flats 0.8, 1.6, 0.8. The total is by its formula.
func TestAirframeChannel(t *testing.T) {
	b := Bend{0.04, 0.16, deg(90)}
	assert.InDelta(t, 0.2, b.Setback(Outside), 1e-12)
	for _, row := range [][3]float64{{1, 1, 0.8}, {2, 2, 1.6}} {
		assert.InDelta(t, row[2], row[0]-row[1]*b.Setback(Outside), 1e-12)
	}
	a, err := Aircraft{}.Allowance(b)
	require.NoError(t, err)
	assert.InDelta(t, 0.27907, a.Length, 5e-6)
	flat, err := FlatLength([]float64{1, 2, 1}, []Bend{b, b}, Outside, Aircraft{})
	require.NoError(t, err)
	assert.InDelta(t, 3.75814, flat, 5e-6)
}

// Single bends by the closed forms, with legs to the outside apex.
func TestSingleBends(t *testing.T) {
	for _, r := range []struct{ t, r, k, a, legA, legB, ba, set, bd, flat, straightA, straightB float64 }{
		{3, 3, 0.44, 90, 50, 80, 6.7858, 6.0, 5.2142, 124.7858, 44.0, 74.0},
		{6, 9, 0.42, 90, 75, 120, 18.0956, 15.0, 11.9044, 183.0956, 60.0, 105.0},
		{0.125, 0.125, 0.44, 90, 2, 3, 0.2827, 0.25, 0.2173, 4.7827, 1.75, 2.75},
		{4, 6, 0.4, 45, 60, 60, 5.969, 4.1421, 2.3152, 117.6848, 55.8579, 55.8579},
		{5, 5, 0.44, 120, 70, 70, 15.0796, 17.3205, 19.5614, 120.4386, 52.6795, 52.6795},
		{2, 2, 0.33, 30, 40, 25, 1.3928, 1.0718, 0.7508, 64.2492, 38.9282, 23.9282},
	} {
		b := Bend{r.t, r.r, deg(r.a)}
		a, err := KFactor(r.k).Allowance(b)
		require.NoError(t, err)
		assert.InDelta(t, r.ba, a.Length, 6e-5)
		assert.InDelta(t, r.set, b.Setback(Apex), 6e-5)
		assert.InDelta(t, r.bd, b.Deduction(Apex, a.Length), 6e-5)
		assert.InDelta(t, r.straightA, r.legA-b.Setback(Apex), 6e-5)
		assert.InDelta(t, r.straightB, r.legB-b.Setback(Apex), 6e-5)
		flat, err := FlatLength([]float64{r.legA, r.legB}, []Bend{b}, Apex, KFactor(r.k))
		require.NoError(t, err)
		assert.InDelta(t, r.flat, flat, 1.1e-4)
	}
}

// DIN 6935, compensation value v of square bends: trade table-book values
// printed to 0.1 mm, and the same by the formula.
func TestDIN6935Square(t *testing.T) {
	for _, r := range []struct{ r, s, table, v, k float64 }{
		{1, 1, 1.9, 1.919, 0.65},
		{1.6, 1.5, 2.9, 2.904, 0.664},
		{2.5, 2, 4.0, 3.976, 0.6985},
		{4, 2, 4.5, 4.459, 0.8005},
		{4, 3, 6.0, 6.038, 0.7125},
		{6, 3, 6.7, 6.689, 0.8005},
		{6, 4, 8.3, 8.257, 0.738},
		{6, 5, 9.9, 9.867, 0.6896},
		{10, 3, 8.1, 8.145, 0.9114},
		{10, 6, 12.7, 12.706, 0.7609},
	} {
		b := Bend{r.s, r.r, deg(90)}
		k, err := DIN6935{}.K(b)
		require.NoError(t, err)
		assert.InDelta(t, r.k, k, 6e-5)
		v, err := DIN6935{}.Compensation(b)
		require.NoError(t, err)
		assert.InDelta(t, r.table, -v, 0.0501, "the table's 0.1 mm")
		assert.InDelta(t, r.v, -v, 6e-4)
		a, err := DIN6935{}.Allowance(b)
		require.NoError(t, err)
		assert.InDelta(t, k/2, a.K, 1e-12)
		assert.InDelta(t, v, a.Length-2*b.Setback(Outside), 1e-12, "L = a + b + v")
	}
}

// DIN 6935 at other opening angles, by its formula.
func TestDIN6935OtherAngles(t *testing.T) {
	for _, r := range []struct{ s, r, open, k, v float64 }{
		{3, 3, 60, 0.65, -3.675},
		{3, 3, 120, 0.65, -2.766},
		{5, 8, 135, 0.7521, -3.01},
	} {
		b := Bend{r.s, r.r, deg(180 - r.open)}
		k, err := DIN6935{}.K(b)
		require.NoError(t, err)
		assert.InDelta(t, r.k, k, 6e-5)
		v, err := DIN6935{}.Compensation(b)
		require.NoError(t, err)
		assert.InDelta(t, r.v, v, 6e-4)
	}
	v, err := DIN6935{}.Compensation(Bend{3, 3, deg(15)})
	require.NoError(t, err)
	assert.NotZero(t, v, "165 degrees open still counts")
	for _, bendAngle := range []float64{14.99, 5, 1} {
		b := Bend{3, 3, deg(bendAngle)}
		v, err := DIN6935{}.Compensation(b)
		require.NoError(t, err)
		assert.Zero(t, v)
		a, err := DIN6935{}.Allowance(b)
		require.NoError(t, err)
		assert.InDelta(t, 0, b.Deduction(Outside, a.Length), 1e-12, "the legs add up to the flat")
	}
	k, err := DIN6935{}.K(Bend{2, 10, deg(90)})
	require.NoError(t, err)
	assert.Equal(t, 1.0, k, "from r = 5 s")
	_, err = DIN6935{}.K(Bend{2, 0, deg(90)})
	assert.ErrorContains(t, err, "no factor for inside radius 0 mm")
}

// The formed U hanger of Brackenholt Farm: 3/16 in plate, inside radius 3/16 in,
// K 0.42, 67.5 mm inside, legs 3 in outside. Deduction 8.427 each, blank 212.57;
// adding the outside or the inside dimensions instead is wrong.
func TestUHanger(t *testing.T) {
	const s = 4.7625
	b := Bend{s, s, deg(90)}
	a, err := KFactor(0.42).Allowance(b)
	require.NoError(t, err)
	assert.InDelta(t, 8.427, b.Deduction(Outside, a.Length), 5e-4)
	legs := []float64{76.2, 67.5 + 2*s, 76.2}
	flat, err := FlatLength(legs, []Bend{b, b}, Outside, KFactor(0.42))
	require.NoError(t, err)
	assert.InDelta(t, 212.57, flat, 0.005)
	assert.InDelta(t, 229.4, legs[0]+legs[1]+legs[2], 0.05)
	assert.InDelta(t, 210.4, 2*(legs[0]-s)+67.5, 0.05)
	// Hole 17/32 in at 20 mm over the outside of the base: 3.7 mm to the tangent.
	assert.InDelta(t, 3.7, 20-17.0/64*25.4-b.Setback(Outside), 0.05)
}

// Press-brake charts (common practice): opening, inside radius, least flange.
func TestVDieChart(t *testing.T) {
	for _, r := range [][3]float64{{8, 1.3, 5.5}, {12, 2, 8.5}, {16, 2.6, 11}, {25, 4, 17.5}, {40, 6.5, 28}} {
		v := Die(r[0])
		assert.InDelta(t, r[1], v.Radius(), 0.2)
		assert.InDelta(t, r[2], v.LeastFlange(deg(90)), 0.21)
	}
}

// Recommended least radii of EN 10025-2 (grades with C), rows from memory that
// another list has too: across the grain, along it.
func TestLeastRadiiEN(t *testing.T) {
	for _, r := range []struct {
		t             float64
		across, along [3]float64
	}{
		{4, [3]float64{5, 5, 6}, [3]float64{6, 6, 8}},
		{3.5, [3]float64{5, 5, 6}, [3]float64{6, 6, 8}},
		{6, [3]float64{8, 10, 10}, [3]float64{10, 12, 12}},
		{10, [3]float64{16, 20, 20}, [3]float64{20, 25, 25}},
		{14, [3]float64{25, 28, 32}, [3]float64{28, 36, 36}},
	} {
		for i, steel := range []string{"S235", "S275", "S355"} {
			l, err := LeastRadius(steel, r.t, Across)
			require.NoError(t, err)
			assert.Equal(t, r.across[i], l.R)
			for _, g := range []Grain{Along, Unknown} {
				l, err = LeastRadius(steel, r.t, g)
				require.NoError(t, err)
				assert.Equal(t, r.along[i], l.R)
			}
		}
	}
}

// ASTM A6 Appendix X4 groups as in AISC Manual Table 10-13, and the aluminium
// sheet guide: both from memory, as multiples of the thickness.
func TestLeastRadiiMultiples(t *testing.T) {
	for _, r := range []struct {
		material string
		tIn, k   float64
	}{
		{"A36", 0.25, 1.5}, {"A36", 0.75, 1.5}, {"A36", 1, 1.5}, {"A36", 2, 1.5}, {"A36", 2.5, 2},
		{"A572-50", 0.75, 1.5}, {"A572-50", 1, 1.5}, {"A572-50", 1.5, 2}, {"A572-50", 3, 2.5},
		{"6061-T6", 1.0 / 16, 1.5}, {"6061-T6", 0.125, 2.5}, {"6061-T6", 0.25, 3.5}, {"6061-T6", 0.1, 2.5},
	} {
		l, err := LeastRadius(r.material, r.tIn*25.4, Across)
		require.NoError(t, err)
		assert.InDelta(t, r.k*r.tIn*25.4, l.R, 1e-9, "%s %v", r.material, r.tIn)
		assert.Equal(t, FromMemory, l.Source.Prov)
	}
	along, err := LeastRadius("A36", 6.35, Unknown)
	require.NoError(t, err)
	assert.InDelta(t, 1.5*1.5*6.35, along.R, 1e-9)
	_, err = LeastRadius("6061-T6", 12.7, Across)
	assert.ErrorContains(t, err, "no row for 12.7 mm")
	_, err = LeastRadius("butter", 5, Across)
	assert.ErrorContains(t, err, "no table")
}

// Kalpakjian and Schmid, example on springback, from memory: 0.0359 in sheet
// bent to 0.5 in with a yield strength of 40 000 psi and E = 29 000 000 psi
// comes back to 0.531 in.
func TestSpringbackExample(t *testing.T) {
	b, err := Springback(Bend{0.0359, 0.531, deg(90)}, 40_000, 29e6)
	require.NoError(t, err)
	assert.InDelta(t, 0.5, b.R, 0.001)
	assert.Greater(t, b.A, deg(90))
}
