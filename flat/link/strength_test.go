package link

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/cope"
)

const ksi, kip, inch = 6.894757293168361, 4448.2216152605, 25.4

var mild = Steel{E: 205000, Fy: 235, Fu: 360}

// AISC Steel Construction Manual, available critical stress for columns (table
// 4-22 of the 14th edition, 4-14 of the 15th), ksi: Fy, Lc/r, ASD, LRFD; from
// memory.
func TestAISCCriticalStress(t *testing.T) {
	for _, row := range [][4]float64{
		{50, 40, 26.6, 40.0}, {50, 50, 24.9, 37.5}, {50, 60, 23.0, 34.6}, {50, 80, 18.8, 28.2}, {50, 100, 14.4, 21.7},
		{50, 120, 10.4, 15.7}, {50, 160, 5.87, 8.82}, {50, 200, 3.76, 5.65},
		{36, 100, 12.7, 19.1}, {36, 200, 3.76, 5.65},
	} {
		m := Steel{E: 29000 * ksi, Fy: row[0] * ksi}
		_, fcr, err := CriticalStress(m, row[1])
		require.NoError(t, err)
		digit := 0.05 // three figures printed
		if row[2] < 10 {
			digit = 0.005
		}
		require.InDelta(t, row[2], fcr/ksi/1.67, digit*1.001, "ASD at %v", row[1])
		if row[3] >= 10 {
			digit = 0.05
		}
		require.InDelta(t, row[3], fcr/ksi*0.90, digit*1.001, "LRFD at %v", row[1])
	}
	_, fcr, err := CriticalStress(Steel{E: 29000 * ksi, Fy: 50 * ksi}, 0)
	require.NoError(t, err)
	require.InDelta(t, 50*ksi, fcr, 1e-9)
}

// AISC Design Examples, E.1A (from memory): W14x132, Ag 38.8 in², ry 3.76 in,
// pinned, 30 ft, Fy 50 ksi: 893 kip LRFD, 594 kip ASD.
func TestAISCExampleE1A(t *testing.T) {
	s := Section{Area: 38.8 * inch * inch, Gyr: 3.76 * inch}
	c, err := AISCCompression(s, Steel{E: 29000 * ksi, Fy: 50 * ksi}, 1, 360*inch)
	require.NoError(t, err)
	require.InDelta(t, 95.7, c.Slenderness, 0.05)
	require.InEpsilon(t, 893*kip, c.LRFD, 1.5e-3)
	require.InEpsilon(t, 594*kip, c.ASD, 1.5e-3)
}

// Fcr is one curve: the two branches meet at Fy/Fe = 2.25, it never rises with
// slenderness and never passes Euler or yield.
func TestCriticalStressIsOneCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Steel{E: rapid.Float64Range(60000, 220000).Draw(t, "E"), Fy: rapid.Float64Range(150, 900).Draw(t, "Fy")}
		meet := math.Pi * math.Sqrt(m.E*2.25/m.Fy)
		_, below, err := CriticalStress(m, meet*(1-1e-9))
		require.NoError(t, err)
		_, above, err := CriticalStress(m, meet*(1+1e-9))
		require.NoError(t, err)
		require.InEpsilon(t, below, above, 1e-3, "0.658^2.25 is 0.39, and so is 0.877/2.25")
		x := rapid.Float64Range(1, 300).Draw(t, "slenderness")
		fe, a, err := CriticalStress(m, x)
		require.NoError(t, err)
		_, b, err := CriticalStress(m, x*1.01)
		require.NoError(t, err)
		require.LessOrEqual(t, b, a*1.001)
		require.Less(t, a, m.Fy)
		require.Less(t, a, fe)

		j, err := EulerJohnson(m, x)
		require.NoError(t, err)
		require.LessOrEqual(t, j.Stress, m.Fy)
		if !j.Johnson {
			require.LessOrEqual(t, j.Stress, m.Fy/2*(1+1e-12))
		} else {
			require.GreaterOrEqual(t, j.Stress, m.Fy/2*(1-1e-12))
		}
	})
}

// Shigley's Mechanical Engineering Design, 9th ed., Example 4-16 (from memory): a
// round column 1.5 m long with pins, E 207 GPa, carries 88 kN at d = 37.48 mm.
func TestShigleyExample416(t *testing.T) {
	m := Steel{E: 207000, Fy: 500}
	s := SectionOf(cope.Tube{OD: 37.48, Wall: 37.48 / 2})
	require.InEpsilon(t, 88000.0, Euler(m, s, 1, 1500), 1e-3)
	require.InDelta(t, 37.48/4, s.Gyr, 1e-9)
	b, err := EulerJohnson(m, Slenderness(s, 1, 1500))
	require.NoError(t, err)
	require.False(t, b.Johnson)
	require.InEpsilon(t, Euler(m, s, 1, 1500)/s.Area, b.Stress, 1e-12)
	// Johnson by hand: slenderness 40, Fy 500: 500 - (500·40/2π)²/207000.
	b, err = EulerJohnson(m, 40)
	require.NoError(t, err)
	require.True(t, b.Johnson)
	require.InDelta(t, 451.05, b.Stress, 0.01)
}

// AISC Manual table 1-13 (from memory): HSS 6.000 x 0.250 with its design wall
// 0.233 in: A 4.22 in², I 17.6 in⁴, r 2.04 in.
func TestSection(t *testing.T) {
	s := SectionOf(cope.Tube{OD: 6 * inch, Wall: 0.233 * inch})
	require.InDelta(t, 4.22, s.Area/inch/inch, 0.005)
	require.InDelta(t, 17.6, s.I/math.Pow(inch, 4), 0.05)
	require.InDelta(t, 2.04, s.Gyr/inch, 0.005)
	require.InEpsilon(t, s.I, s.Area*s.Gyr*s.Gyr, 1e-12)
	y, err := TensionYield(s, Steel{E: 1, Fy: 46 * ksi})
	require.NoError(t, err)
	require.InEpsilon(t, 0.9*46*4.2216*kip, y.LRFD, 1e-3)
}

// A thin wall loses area by E7: D/t 100, E/Fy 1000/... by hand.
func TestThinWall(t *testing.T) {
	m := Steel{E: 200000, Fy: 250} // E/Fy 800: slender over 88, outside over 360
	ratio := func(r float64) cope.Tube { return cope.Tube{OD: r, Wall: 1} }
	c, err := AISCCompression(SectionOf(ratio(88)), m, 1, 500)
	require.NoError(t, err)
	require.Equal(t, SectionOf(ratio(88)).Area, c.AreaUsed)
	c, err = AISCCompression(SectionOf(ratio(160)), m, 1, 500)
	require.NoError(t, err)
	require.InEpsilon(t, SectionOf(ratio(160)).Area*(0.038*800/160+2.0/3), c.AreaUsed, 1e-12)
	require.InEpsilon(t, c.Fcr*c.AreaUsed, c.Nominal, 1e-12)
	_, err = AISCCompression(SectionOf(ratio(361)), m, 1, 500)
	require.ErrorContains(t, err, "diameter over wall is 361, the standard ends at 360")
	c, err = AISCCompression(SectionOf(cope.Tube{OD: 20, Wall: 2}), m, 1, 1500)
	require.NoError(t, err)
	require.Contains(t, c.Advice, "over 200")
	for _, bad := range [][2]float64{{0, 500}, {1, 0}, {1, math.NaN()}} {
		_, err = AISCCompression(SectionOf(ratio(50)), m, bad[0], bad[1])
		require.ErrorContains(t, err, "column has length")
	}
}

// The anti-wrap link of the orchard cart "Medlar": Euler at about 350 kN, far
// over the 17 kN that it has to carry.
func TestAntiWrapLinkCapacity(t *testing.T) {
	truss := Truss{
		Pivots:   []Pivot{{"axle", v3(0, 0, 0)}, {"crossmember", v3(640, 0, 0)}},
		Members:  []Member{{Name: "link", From: "axle", To: "crossmember"}},
		Supports: []Support{{Pivot: "axle", Along: []Vec{{Y: 1}, {Z: 1}}}, {Pivot: "crossmember"}},
	}
	s := solve(t, truss,
		Case{"drive", []Load{{"axle", v3(6387, 0, 0)}}},
		Case{"brake", []Load{{"axle", v3(-17000, 0, 0)}}})
	require.InDelta(t, 17000, s.Worst[0].Tension, 1e-9)
	require.InDelta(t, 6387, s.Worst[0].Compression, 1e-9)
	c, err := CapacityOf(s.Worst[0], SectionOf(cope.Tube{OD: 38.1, Wall: 4.78}), mild, 1)
	require.NoError(t, err)
	require.InDelta(t, 350e3, c.Euler, 500)
	require.InDelta(t, 17000/c.Section.Area, c.TensionMPa, 1e-12)
	require.InDelta(t, 6387/c.Section.Area, c.CompressMPa, 1e-12)
	require.True(t, c.EulerJohnson.Johnson)
	require.Greater(t, c.AISC.ASD, c.Compression)
	require.InEpsilon(t, c.AISC.Nominal*0.9, c.AISC.LRFD, 1e-12)
	_, err = CapacityOf(s.Worst[0], c.Section, Steel{}, 1)
	require.ErrorContains(t, err, `member "link": material has E 0`)
}

// Fillet values of the trade: 70 ksi filler, 3/16 in 488 N/mm and 1/4 in 650 N/mm
// allowable; AISC Design Examples J.1: 5.57 kip for each inch of 3/16, nominal.
func TestWeld(t *testing.T) {
	c, err := cope.New(cope.Tube{OD: 38.1, Wall: 4.78}, cope.Plate{Angle: deg(90)})
	require.NoError(t, err)
	w, err := WeldOf(c, Weld{Leg: 3.0 / 16 * inch, FEXX: 70 * ksi})
	require.NoError(t, err)
	require.InDelta(t, 488, w.PerMM.ASD, 1)
	require.InDelta(t, 5.57, w.PerMM.Nominal*inch/kip, 0.005)
	require.InDelta(t, math.Pi*38.1, w.Length, 1e-6)
	require.InEpsilon(t, w.PerMM.LRFD*math.Pi*38.1, w.All.LRFD, 1e-9)
	require.InEpsilon(t, w.All.ASD, w.OfFillet.ASD, 1e-9, "square on a plate all of it is fillet")
	w, err = WeldOf(c, Weld{Leg: 0.25 * inch, FEXX: 70 * ksi})
	require.NoError(t, err)
	require.InDelta(t, 650, w.PerMM.ASD, 1)

	c, err = cope.New(cope.Tube{OD: 38.1, Wall: 4.78}, cope.Main{OD: 44.45, Angle: deg(45)})
	require.NoError(t, err)
	w, err = WeldOf(c, Weld{Leg: 5, FEXX: 480})
	require.NoError(t, err)
	require.InDelta(t, w.Length, w.Bands.Total(), 1e-9)
	require.Greater(t, w.Length, math.Pi*38.1)
	require.InDelta(t, w.Bands.Fillet*5/math.Sqrt2*0.6*480*0.75, w.OfFillet.LRFD, 1e-6)
	require.Less(t, w.OfFillet.ASD, w.All.ASD)

	_, err = WeldOf(c, Weld{Leg: 0, FEXX: 480})
	require.ErrorContains(t, err, "weld has leg 0 mm")
}

func TestSleeveWall(t *testing.T) {
	s := SleeveWall{OD: 44.45, Bore: 31.75, Length: 60, Branch: cope.Tube{OD: 38.1, Wall: 4.78}, Angle: deg(90), Force: -17000}
	got, err := SleeveWallOf(s, mild)
	require.NoError(t, err)
	// By hand: wall 6.35; 17000/(2·6.35·60) = 22.31; 17000/(31.75·60) = 8.924;
	// ring: M = 17000·19.05/π = 103083, on 38.1 of sleeve W = 38.1·6.35²/6 = 256.05.
	require.InDelta(t, 6.35, got.Wall, 1e-12)
	require.InDelta(t, 22.31, got.Hoop, 0.01)
	require.InDelta(t, 8.924, got.Bearing, 0.001)
	require.InDelta(t, 38.1, got.Spread, 1e-9)
	require.InDelta(t, 103083/256.05, got.RingBending, 0.1)
	require.Zero(t, got.Punch.Nominal, "38.1 cannot punch into a bore of 31.75")
	// 235·6.35²·(3.1+15.6·0.857²)·3.5^0.2
	beta := 38.1 / 44.45
	require.InEpsilon(t, 235*6.35*6.35*(3.1+15.6*beta*beta)*math.Pow(3.5, 0.2), got.Plastify.Nominal, 1e-12)
	require.Equal(t, []string{"the sleeve ends 10.9 mm beside the tube, the formulas ask for 36.5"}, got.Outside)

	s.Angle, s.Length, s.Branch.OD = deg(20), 60, 20
	got, err = SleeveWallOf(s, Steel{E: 205000, Fy: 400})
	require.NoError(t, err)
	sin := math.Sin(deg(20))
	require.InEpsilon(t, 0.6*400*6.35*math.Pi*20*(1+sin)/(2*sin*sin), got.Punch.Nominal, 1e-12)
	require.InDelta(t, 17000*sin/(2*6.35*60), got.Hoop, 1e-9, "only the part across the sleeve")
	require.Len(t, got.Outside, 3)

	for _, tc := range []struct {
		edit func(*SleeveWall)
		want string
	}{
		{func(s *SleeveWall) { s.Length = 0 }, "sleeve is 44.45 mm wide and 0 long"},
		{func(s *SleeveWall) { s.Bore = 44.45 }, "bore of 44.45 mm"},
		{func(s *SleeveWall) { s.Bore = 0 }, "bore of 0 mm"},
		{func(s *SleeveWall) { s.Angle = deg(2) }, "2 degrees to the sleeve"},
		{func(s *SleeveWall) { s.Branch.Wall = 0 }, "tube is 20 x 0 mm"},
	} {
		bad := s
		tc.edit(&bad)
		_, err = SleeveWallOf(bad, mild)
		require.ErrorContains(t, err, tc.want)
	}
	_, err = SleeveWallOf(s, Steel{})
	require.ErrorContains(t, err, "material has")
}

func TestSlendernessErrors(t *testing.T) {
	_, _, err := CriticalStress(mild, -1)
	require.ErrorContains(t, err, "slenderness is -1")
	_, err = EulerJohnson(Steel{E: 1}, 10)
	require.ErrorContains(t, err, "Fy 0 MPa")
	_, err = TensionYield(Section{}, Steel{})
	require.Error(t, err)
}
