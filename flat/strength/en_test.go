package strength

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestENBoltFactors(t *testing.T) {
	require.Equal(t, 1.0, LongJoint(15*20, 20))
	require.InDelta(t, 0.9, LongJoint(35*20, 20), 1e-12)
	require.Equal(t, 0.75, LongJoint(500*20, 20))
	require.Equal(t, 1.0, Packing(6, 20))
	require.InDelta(t, 9*20/(8.0*20+3*20), Packing(20, 20), 1e-12)
	require.Equal(t, 1.0, LongLap(150*4, 4))
	require.InDelta(t, 0.8, LongLap(300*4, 4), 1e-12)
	e := EN1993{}
	b := ENBolt{D: 20, As: 245, Fub: 800, AlphaV: 0.6}
	ft := e.BoltTension(b)
	b.Countersunk = true
	require.InEpsilon(t, 0.7*ft.Design, e.BoltTension(b).Design, 1e-12)
	fv := e.BoltShear(b, Planes{Thread: 1})
	require.InDelta(t, 1, e.BoltShearTension(fv.Design, 0, fv, ft).V, 1e-12)
	require.InDelta(t, 1/1.4, e.BoltShearTension(0, ft.Design, fv, ft).V, 1e-12)
	for _, c := range []struct {
		grade string
		w     float64
	}{{"S235", 0.8}, {"S275", 0.85}, {"S355", 0.9}, {"S420", 1}, {"S460", 1}} {
		w, ok := BetaW(c.grade)
		require.True(t, ok)
		require.Equal(t, c.w, w)
	}
	_, ok := BetaW("A36")
	require.False(t, ok)
	_, ok = NominalFub("12.9")
	require.False(t, ok)
}

func TestENSingleLap(t *testing.T) {
	b := ENBearing{D: 20, D0: 22, T: 8, Fu: 360, Fub: 800, E1: 66, E2: 40, SingleLap: true}
	require.InEpsilon(t, 1.5*360*20*8/1.25, EN1993{}.Bearing(b).Design, 1e-12)
	require.Contains(t, EN1993{}.Bearing(b).Mode, "single lap")
	b.E1 = 30 // the end distance is worse
	require.InEpsilon(t, 2.5*30/66*360*20*8/1.25, EN1993{}.Bearing(b).Design, 1e-12)
	b.Fub, b.Fu = 300, 800 // the bolt's own strength caps alpha_b
	alpha, from := b.AlphaB()
	require.InDelta(t, 300.0/800, alpha, 1e-12)
	require.Contains(t, from, "bolt's strength")
}

func TestENWeld(t *testing.T) {
	e := EN1993{}
	simple := e.WeldSimple(4, 360, 0.8)
	require.InEpsilon(t, 360/math.Sqrt(3)/(0.8*1.25)*4, simple.Design, 1e-12)
	// Along the weld both methods agree.
	along := e.WeldPoint(OnThroat(simple.Design, 0, 0, 4), 360, 0.8)
	require.InDelta(t, 1, along.V, 1e-12)
	// Square to it the directional one gives sqrt(3/2) more.
	across := e.WeldPoint(OnThroat(0, simple.Design, 0, 4), 360, 0.8)
	require.InDelta(t, math.Sqrt(2.0/3), across.V, 1e-12)
	require.InDelta(t, across.V, e.WeldPoint(OnThroat(0, 0, -simple.Design, 4), 360, 0.8).V, 1e-12)
	throat, long := e.WeldLimits(3, 29)
	require.True(t, throat.Met())
	require.False(t, long.Met())
	_, long = e.WeldLimits(6, 36)
	require.True(t, long.Met())
	require.InDelta(t, 3.5355, Throat(5), 0.0001)
	// A normal stress alone is capped by 0.9 fu.
	r := e.WeldPoint(WeldStress{Normal: 0.9 * 360 / 1.25}, 360, 0.8)
	require.InDelta(t, 1, r.V, 1e-12)
	require.Contains(t, r.Mode, "normal")
}

// The simplified method is never less strict than the directional one.
func TestSimpleWeldIsStricter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SliceOfN(rapid.IntRange(-500, 500), 3, 3).Draw(t, "force")
		f := []float64{float64(n[0]), float64(n[1]), float64(n[2])}
		w := rapid.SampledFrom([]float64{0.8, 0.85, 0.9, 1}).Draw(t, "beta w")
		e := EN1993{}
		size := math.Sqrt(f[0]*f[0] + f[1]*f[1] + f[2]*f[2])
		simple := e.WeldSimple(5, 400, w).Utilisation(size)
		require.LessOrEqual(t, e.WeldPoint(OnThroat(f[0], f[1], f[2], 5), 400, w).V, simple*(1+1e-12))
	})
}

func TestENBending(t *testing.T) {
	e := EN1993{}
	area, wpl := 100*6.0, 6*100*100/4.0
	alone := e.BendingPlastic(235, wpl)
	require.InEpsilon(t, 235*wpl, alone.Design, 1e-12)
	require.InEpsilon(t, alone.Design, e.Bending(235, 100, 6, Acting{}).Design, 1e-12)
	require.InEpsilon(t, alone.Design/1.5, e.BendingElastic(235, wpl/1.5).Design, 1e-12)
	require.InEpsilon(t, 0.75*alone.Design, e.Bending(235, 100, 6, Acting{N: -area * 235 / 2}).Design, 1e-12)
	vpl := e.Shear(235, area).Design
	require.InEpsilon(t, alone.Design, e.Bending(235, 100, 6, Acting{V: vpl / 2}).Design, 1e-12)
	require.InEpsilon(t, 0.75*alone.Design, e.Bending(235, 100, 6, Acting{V: 0.75 * vpl}).Design, 1e-12)
	require.Zero(t, e.Bending(235, 100, 6, Acting{N: area * 235}).Design)
	require.Contains(t, e.Bending(235, 100, 6, Acting{N: 1e9}).Formula(Metric), "(1 - 1^2)")
	require.InDelta(t, 1, e.Mises(235, 235, 0, 0).V, 1e-12)
	require.InDelta(t, 1, e.Mises(235, 0, 0, 235/math.Sqrt(3)).V, 1e-12)
	require.True(t, math.IsInf(e.Mises(0, 1, 0, 0).V, 1))
	require.InDelta(t, 235*600/(0.9*500*360/1.25), e.HolesCount(235, 360, 600, 500).V, 1e-12)
	require.InEpsilon(t, 235*600, e.Compression(235, 600).Design, 1e-12)
	require.InEpsilon(t, 235*600/1.1, EN1993{M0: 1.1}.Compression(235, 600).Design, 1e-12)
}

func TestPinLimits(t *testing.T) {
	require.True(t, PinAsBolt(60, 20).Met())
	require.False(t, PinAsBolt(61, 20).Met())
	p := EN1993{}.Pin(PinJoint{Pin: 20, Hole: 21, Middle: 10, Outer: 6, PinFy: 200, PinFu: 400, Fy: 250})
	require.InEpsilon(t, 1.5*6*20*200, p.BearingOuter.Design, 1e-12, "the weaker of pin and plate")
	require.Zero(t, p.ContactService.Design, "asked of replaceable pins only")
}
