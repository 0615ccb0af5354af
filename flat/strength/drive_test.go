package strength

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Both links and the ground balance: forces along the ground, moments about the axle.
func TestTwoLinksBalance(t *testing.T) {
	const fx, r, above, below = 3192.0, 300.0, 90.0, 60.0
	lower, upper := TwoLinks(fx, r, above, below)
	require.InDelta(t, fx, lower.V-upper.V, 1e-9)
	require.InDelta(t, fx*r, lower.V*below+upper.V*above, 1e-6)
	require.InDelta(t, fx*390/150, lower.V, 1e-9)
	require.InDelta(t, fx*240/150, upper.V, 1e-9)
}

// One link of a pair drawn together is the couple of the other.
func TestOneLink(t *testing.T) {
	f := OneLink(957.6e3, 150)
	require.InDelta(t, 6384, f.V, 1e-9)
	require.Equal(t, "F = T/h = 957.6 N m / 150 mm = 6.384 kN", f.Formula(Metric))
}

func TestSidePull(t *testing.T) {
	require.InDelta(t, 5000, SidePull(-10000, deg(30)).V, 1e-9)
	require.InDelta(t, 5000, SidePull(10000, deg(-30)).V, 1e-9)
	require.Zero(t, SidePull(10000, 0).V)
}

func TestAssumptionsAreSaid(t *testing.T) {
	lower, upper := TwoLinks(1, 1, 1, 1)
	for _, d := range []Derived{
		MotorTorque(1, 1, 1), TractionTorque(1, 1, 1), BrakeForce(1, 1), BrakeTorque(1, 1, 1), TyreForce(1, 1), OneLink(1, 1),
		lower, upper, SidePull(1, 1), Shock(OneLink(1, 1), 2), Shock(MotorTorque(1, 1, 1), 2),
	} {
		a := d.Assumptions()
		require.NotEmpty(t, a, d.What)
		for _, s := range a {
			require.NotEmpty(t, s)
			require.NotContains(t, s, "safe")
		}
		a[0] = "spoiled"
		require.NotEqual(t, "spoiled", d.Assumptions()[0], "the caller's copy")
		require.NotEmpty(t, d.What)
		require.NotContains(t, d.Formula(Metric), "{")
	}
	require.Len(t, TyreForce(1, 1).Assumptions(), 1)
	require.Len(t, lower.Assumptions(), 4)
	require.Empty(t, Derived{}.Assumptions())
	require.InEpsilon(t, 540*9.80665, Weight(540), 1e-12)
	require.True(t, math.IsInf(TyreForce(1, 0).V, 1))
}
