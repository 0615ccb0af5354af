package strength

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTensionBesideShear(t *testing.T) {
	s := BoltStress{Tension: 620, ShearThread: 372}
	alone := AISC{}.BoltTension(20, s)
	for _, a := range []AISC{{}, {Method: ASD}} {
		full := 372 / onRupture.raise(a.Method, 1) // required stress that takes all the shear strength
		require.InEpsilon(t, alone.Nominal, a.BoltTensionShear(20, s, 372, 0).Nominal, 1e-12)
		// Up to 30 % of the shear nothing is lost.
		r := a.BoltTensionShear(20, s, 372, 0.3*full)
		require.InEpsilon(t, alone.Nominal, r.Nominal, 1e-12)
		r = a.BoltTensionShear(20, s, 372, full)
		require.InEpsilon(t, 0.3*alone.Nominal, r.Nominal, 1e-12)
		require.Equal(t, "tension of the bolt beside its shear", r.Mode)
		require.Zero(t, a.BoltTensionShear(20, s, 372, 2*full).Nominal)
		require.Zero(t, a.BoltTensionShear(20, s, 0, 1).Nominal, "no shear strength leaves no tension either")
	}
}

func TestEditionsDifferInWhereAndInOneCap(t *testing.T) {
	y22, y16 := AISC{}, AISC{Edition: AISC2016}
	s := BoltStress{620, 372, 457}
	for _, c := range [][3]any{
		{y22.BoltTension(20, s), y16.BoltTension(20, s), [2]string{"J3.7", "J3.6"}},
		{y22.BoltTensionShear(20, s, 372, 0), y16.BoltTensionShear(20, s, 372, 0), [2]string{"J3.8", "J3.7"}},
		{y22.Slip(SlipJoint{Planes: 1, Mu: 0.3, Tension: 1}), y16.Slip(SlipJoint{Planes: 1, Mu: 0.3, Tension: 1}), [2]string{"J3.9", "J3.8"}},
		{y22.Bearing(HoleBearing{D: 1, T: 1, Fu: 1}), y16.Bearing(HoleBearing{D: 1, T: 1, Fu: 1}), [2]string{"J3.11", "J3.10"}},
	} {
		a, b, where := c[0].(Result), c[1].(Result), c[2].([2]string)
		require.Contains(t, a.Clause.Text, "360-22 "+where[0])
		require.Contains(t, b.Clause.Text, "360-16 "+where[1])
		require.Equal(t, a.Design, b.Design)
	}
	// A section that is more than half as strong again in plastic bending.
	require.InEpsilon(t, 1500, y22.FlexureYield(1, 1550, 1000).Nominal, 1e-12)
	require.InEpsilon(t, 1550, y16.FlexureYield(1, 1550, 1000).Nominal, 1e-12)
	require.InEpsilon(t, 1600, y16.FlexureYield(1, 1700, 1000).Nominal, 1e-12)
}

// The three ranges of F11 meet, as near as the standard's rounded coefficients let
// them: 1.52 - 0.274 x 0.08 is 1.498 beside 1.5, 1.52 - 0.274 x 1.9 is 0.9994
// beside 1.
func TestBarBendingRanges(t *testing.T) {
	b := Bar{Depth: 200, T: 6, Fy: 250}
	at := func(ratio float64) Result {
		b.Unbraced = ratio * SteelE / b.Fy * b.T * b.T / b.Depth
		return AISC{}.BarBending(b)
	}
	my := b.Fy * b.T * b.Depth * b.Depth / 6
	require.InEpsilon(t, 1.5*my, at(0.0799).Nominal, 1e-12)
	require.InEpsilon(t, (1.52-0.274*0.0801)*my, at(0.0801).Nominal, 1e-9)
	require.InEpsilon(t, (1.52-0.274*1.0)*my, at(1).Nominal, 1e-9)
	require.InEpsilon(t, at(1.8999).Nominal, at(1.9001).Nominal, 0.001)
	require.InEpsilon(t, 0.5*my, at(3.8).Nominal, 1e-9)
	require.Contains(t, at(0.05).Mode, "yielding")
	require.Contains(t, at(1).Mode, "inelastic")
	require.Contains(t, at(3).Mode, "elastic")
	require.Contains(t, at(1).Clause.Text, "F11-3")
	require.Contains(t, AISC{Edition: AISC2016}.BarBending(b).Clause.Text, "F11-2")
	// Cb raises it up to the plastic moment and no further.
	b.Cb = 3
	require.InEpsilon(t, 1.5*my, at(1).Nominal, 1e-12)
	require.InEpsilon(t, 1.5*my, at(3.8).Nominal, 1e-12)
}

// A plate as a column: E3 starts 4 % under J4.4, and its own two ranges join.
func TestPlateCompression(t *testing.T) {
	a := AISC{}
	require.InEpsilon(t, 250*1000, a.PlateCompression(250, SteelE, 1000, 25).Nominal, 1e-12)
	require.InEpsilon(t, 250*1000, a.PlateCompression(250, SteelE, 1000, 25.01).Nominal, 0.04)
	limit := 4.71 * math.Sqrt(SteelE/250.0)
	require.InEpsilon(t, a.PlateCompression(250, SteelE, 1000, limit*0.999).Nominal, a.PlateCompression(250, SteelE, 1000, limit*1.001).Nominal, 0.005)
	require.InEpsilon(t, 0.877*math.Pi*math.Pi*SteelE/40000*1000, a.PlateCompression(250, SteelE, 1000, 200).Nominal, 1e-12)
}

func TestShearGRanges(t *testing.T) {
	a := AISC{}
	edge := math.Sqrt(KvOneFreeEdge * SteelE / 250)
	at := func(ratio float64) Result { return a.ShearG(250, SteelE, ratio*6, 6, KvOneFreeEdge) }
	require.InEpsilon(t, 0.6*250*edge*36, at(edge).Nominal, 1e-12)
	require.Contains(t, at(edge).Mode, "yielding")
	require.InEpsilon(t, at(1.0999*edge).Nominal, at(1.1001*edge).Nominal, 0.001)
	require.InEpsilon(t, at(1.3699*edge).Nominal, at(1.3701*edge).Nominal, 0.01)
	require.Contains(t, at(1.2*edge).Mode, "inelastic")
	require.Contains(t, at(2*edge).Mode, "buckling of the plate in shear, elastic")
}

func TestCombined(t *testing.T) {
	a := AISC{}
	m, n, v := Result{Design: 10}, Result{Design: 20}, Result{Design: 30}
	require.InDelta(t, 0.5+0.25+0.0625, a.Combined(Acting{5, -10, 15}, m, n, v).V, 1e-12)
	require.True(t, a.Combined(Acting{10, 0, 0}, m, n, v).Met())
	require.False(t, a.Combined(Acting{9, 9, 15}, m, n, v).Met())
	require.Equal(t, "M/Mc + (N/Nc)^2 + (V/Vc)^4 = 0.5 + 0.5^2 + 0.5^4 = 0.8125, at most 1", a.Combined(Acting{5, 10, 15}, m, n, v).Formula(Metric))
}

func TestPinPlateLimits(t *testing.T) {
	good := PinPlate{T: 12, Width: 110, Pin: 25, Hole: 26, End: 55, Side1: 42, Side2: 42, Corner: 55, Fy: 250, Fu: 400, Turns: true}
	met := func(p PinPlate) (no []string) {
		r := AISC{}.PinPlate(p)
		for _, l := range r.AppendLimits(nil) {
			if !l.Met() {
				no = append(no, l.What)
			}
		}
		return no
	}
	require.Empty(t, met(good))
	for what, spoil := range map[string]func(*PinPlate){
		"the hole's distance from the middle between the edges": func(p *PinPlate) { p.Side1, p.Side2 = 43, 41 },
		"the play of the pin in its hole":                       func(p *PinPlate) { p.Hole = 26.5 },
		"the metal beyond the pin hole, along the force":        func(p *PinPlate) { p.End, p.Corner = 53, 53 },
		"the width at the pin hole":                             func(p *PinPlate) { p.Width = 104 },
		"the metal between the pin hole and the cut corner":     func(p *PinPlate) { p.Corner = 54 },
	} {
		p := good
		spoil(&p)
		require.Equal(t, []string{what}, met(p))
	}
	// A weaker pin governs its bearing.
	p := good
	p.PinFy = 200
	require.InEpsilon(t, 1.8*200*25*12, AISC{}.PinPlate(p).Bearing.Nominal, 1e-12)
}

func TestFilletWeldShortAndLong(t *testing.T) {
	w := Fillet{Leg: 6, Length: 20, FEXX: 480}
	r := AISC{}.FilletWeld(w)
	require.InEpsilon(t, 0.6*480*5/math.Sqrt2*20, r.Nominal, 1e-12)
	require.Contains(t, r.Mode, "too short")
	require.False(t, AISC{}.FilletLimits(w, 6, 6).Length.Met())
	w.Length = 1200 // 200 legs
	even := AISC{}.FilletWeld(w)
	w.EndLoaded = true
	require.InEpsilon(t, 0.8*even.Nominal, AISC{}.FilletWeld(w).Nominal, 1e-12)
	// Leg against a 1/4 in edge: 3/16 at most, 1/8 at least.
	l := AISC{Units: Inch}.FilletLimits(Fillet{Leg: inch / 4, Length: 50}, inch/4, inch/4)
	require.False(t, l.Most.Met())
	require.True(t, l.Least.Met())
	require.InDelta(t, 38, WeldRun(50, 6, 2), 1e-12)
	require.Zero(t, WeldRun(10, 6, 2))
	require.True(t, AISC{}.FilletLimits(w, 6, math.Inf(1)).Most.Met(), "a weld on a face has no edge to keep to")
}

func TestWhitmore(t *testing.T) {
	require.InEpsilon(t, 60+2*100*math.Tan(deg(30)), WhitmoreWidth(60, 100), 1e-12)
}

func TestSlipFactors(t *testing.T) {
	j := SlipJoint{Mu: 0.3, Tension: 142000, Planes: 2}
	for _, c := range []struct {
		hole       HoleKind
		phi, omega float64
	}{
		{RoundHole, 1.00, 1.50}, {ShortSlotAcross, 1.00, 1.50}, {OversizedHole, 0.85, 1.76}, {ShortSlotAlong, 0.85, 1.76},
		{LongSlotAlong, 0.70, 2.14}, {LongSlotAcross, 0.70, 2.14},
	} {
		j.Hole = c.hole
		n := 0.3 * 1.13 * 142000 * 2
		require.InEpsilon(t, c.phi*n, AISC{}.Slip(j).Design, 1e-12)
		require.InEpsilon(t, n/c.omega, AISC{Method: ASD}.Slip(j).Design, 1e-12)
	}
	require.Equal(t, "LRFD ASD", LRFD.String()+" "+ASD.String())
}

// The rows of Table J2.4, a part on a border still in the thinner row.
func TestLeastFilletRows(t *testing.T) {
	for _, c := range [][2]float64{{6, 3}, {6.1, 5}, {13, 5}, {13.1, 6}, {19, 6}, {19.1, 8}, {50, 8}} {
		require.Equal(t, c[1], AISC{}.LeastFillet(c[0]))
	}
	for _, c := range [][2]float64{{4, 2}, {4.1, 3}, {8, 3}, {8.1, 4}, {12, 4}, {12.1, 5}} {
		require.InDelta(t, c[1]*inch/16, AISC{Units: Inch}.LeastFillet(c[0]*inch/16), 1e-12)
	}
}

func TestNetSectionInBending(t *testing.T) {
	s := SectionOf([]Piece{{0, 20}, {40, 60}}, 8)
	require.InEpsilon(t, 0.75*400*s.Z, AISC{}.FlexureRupture(400, s.Z).Design, 1e-12)
	require.InEpsilon(t, 0.9*min(250*s.Z, 1.5*250*s.S()), AISC{}.FlexureYield(250, s.Z, s.S()).Design, 1e-12)
}
