package strength

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
)

func TestFormulaText(t *testing.T) {
	s := BoltStress{Tension: 620, ShearThread: 372, ShearShank: 457}
	r := AISC{}.BoltShear(20, s, Planes{Thread: 2})
	require.Equal(t, "Rn = Ab (Fnv,N n + Fnv,X n) = 314.2 mm2 x (372 MPa x 2 + 457 MPa x 0) = 233.7 kN; phi Rn = 0.75 x 233.7 kN = 175.3 kN", r.Formula(Metric))
	require.Equal(t, "Rn = Ab (Fnv,N n + Fnv,X n) = 0.4869 in2 x (53.95 ksi x 2 + 66.28 ksi x 0) = 52.55 kip; phi Rn = 0.75 x 52.55 kip = 39.41 kip", r.Formula(Inch))
	require.Equal(t, "AISC 360-22 J3.7, eq. J3-1 and Table J3.2", r.Clause.String())
	r = AISC{Method: ASD, Edition: AISC2016}.TearOut(HoleBearing{D: 12, T: 6, Fu: 400, Clear: 20})
	require.Equal(t, "Rn = c lc t Fu = 1.2 x 20 mm x 6 mm x 400 MPa = 57.6 kN; Rn/omega = 57.6 kN / 2 = 28.8 kN", r.Formula(Metric))
	require.Equal(t, "AISC 360-16 J3.10, eqs. J3-6c, J3-6d, J3-6f (from memory, verify)", r.Clause.String())
	require.InEpsilon(t, 0.5, r.Utilisation(-14400), 1e-12)
	r = EN1993{}.BoltTension(ENBolt{As: 245, Fub: 800})
	require.Equal(t, "Ft,Rd = k2 fub As / gM2 = 0.9 x 800 MPa x 245 mm2 / 1.25 = 141.1 kN", r.Formula(Metric))
	require.InEpsilon(t, 0.9*800*245, r.Nominal, 1e-12)
	l := FreeEdge(300, 6, 250, SteelE, FreeEdgeFactor)
	require.Equal(t, "the free edge of the plate is 300 mm, wanted at most k sqrt(E/Fy) t = 2.06 x sqrt(200000 MPa/250 MPa) x 6 mm = 349.6 mm", l.Text(Metric))
	require.True(t, l.Met())
	require.False(t, FreeEdge(350, 6, 250, SteelE, FreeEdgeFactor).Met())
	// What lies on its bound keeps it.
	require.True(t, Outstand(84, 6, 235).Met())
	require.False(t, Outstand(84.01, 6, 235).Met())
	m := MotorTorque(95000, 11.2, 0.9)
	require.Equal(t, "T = Tm i eff = 95 N m x 11.2 x 0.9 = 957.6 N m", m.Formula(Metric))
	require.Equal(t, "T = Tm i eff = 70.07 lbf ft x 11.2 x 0.9 = 706.3 lbf ft", m.Formula(Inch))
}

func TestFigures(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 12345.6: "12346", 9999.6: "10000", 1234.5: "1234", 12.3456: "12.35", 0.0123456: "0.01235", -2.5: "-2.5",
		math.Inf(1): "+Inf", 1e-15: "0",
	} {
		require.Equal(t, want, figures(v))
	}
}

// Every formula has as many numbers as places for them, and no more than it holds.
func TestEveryFormulaIsFilled(t *testing.T) {
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	seen := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), f.Name(), nil, 0)
		require.NoError(t, err)
		ast.Inspect(tree, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			if name, ok := call.Fun.(*ast.Ident); !ok || name.Name != "put" {
				return true
			}
			lit, ok := call.Args[0].(*ast.BasicLit)
			if !ok {
				return true
			}
			text, err := strconv.Unquote(lit.Value)
			require.NoError(t, err)
			seen++
			places := strings.Count(text, "{")
			require.Equal(t, places, len(call.Args)-1, "%s: %s", f.Name(), text)
			require.LessOrEqual(t, places, len(formula{}.v), "%s: %s", f.Name(), text)
			require.NotContains(t, text, "safe")
			for i := range text {
				if text[i] == '{' {
					require.Equal(t, byte('}'), text[i+2], text)
					require.Contains(t, "nlawfmts", text[i+1:i+2], text)
				}
			}
			return true
		})
	}
	require.Greater(t, seen, 60)
}

// Nothing to compute with is no resistance, not a wrong one.
func TestNoResistanceFromNothing(t *testing.T) {
	nan := math.NaN()
	for _, r := range []Result{
		AISC{}.TearOut(HoleBearing{D: 12, T: 6, Fu: 400, Clear: -1}),
		AISC{}.TearOut(HoleBearing{D: 12, T: nan, Fu: 400, Clear: 10}),
		AISC{}.BlockShear(Block{T: 6, Shear: 10, ShearHoles: 20, Tension: 5, TensionHoles: 7, Fy: 250, Fu: 400}),
		AISC{}.PinPlate(PinPlate{T: 6, Side1: -1, Side2: 4, Fu: 400}).Rupture,
		AISC{}.BarBending(Bar{Depth: 100, T: 0, Unbraced: 100, Fy: 250}),
		AISC{}.FilletWeld(Fillet{Leg: nan, Length: 50, FEXX: 480}),
		EN1993{}.Bearing(ENBearing{D: 20, D0: 22, T: 8, Fu: 360, Fub: 800, E1: 40, P2: 20}), // k1 < 0
		EN1993{}.Bending(235, 100, 6, Acting{V: 1e9}),
	} {
		require.Zero(t, r.Nominal, r.Mode)
		require.Zero(t, r.Design, r.Mode)
		require.True(t, math.IsInf(r.Utilisation(1), 1))
		require.Zero(t, r.Utilisation(0))
	}
	// No edge in the direction of the force: bearing governs.
	b := AISC{}.BoltHole(HoleBearing{D: 12, T: 6, Fu: 400, Clear: math.Inf(1)})
	require.Contains(t, b.Mode, "bearing")
	require.InEpsilon(t, 2.4*12*6*400, b.Nominal, 1e-12)
}

func TestLeastTakesTheFirstOfEquals(t *testing.T) {
	a, b := Result{Design: 2, Mode: "a"}, Result{Design: 2, Mode: "b"}
	require.Equal(t, "a", Least(a, b).Mode)
	require.Equal(t, "b", Least(a, Result{Design: 1, Mode: "b"}, Result{Design: 3}).Mode)
	require.Equal(t, "a", Least(a).Mode)
}

// The hot path asks for no memory.
func TestNoAllocations(t *testing.T) {
	p := PinPlate{T: 12, Width: 110, Pin: 25, Hole: 26, End: 55, Side1: 42, Side2: 42, Fy: 250, Fu: 400}
	h := HoleBearing{D: 12, T: 6, Fu: 400, Clear: 20}
	bolts, forces := grid(3, 4, 76.2, 76.2), make([]geom.Point, 0, 12)
	holes, chain := someHoles(), make([]int, 0, 16)
	region, pieces := drilled(), make([]Piece, 0, 16)
	var sink Result
	require.Zero(t, testing.AllocsPerRun(100, func() {
		pp := AISC{}.PinPlate(p)
		sink = Least(pp.Governs(), AISC{}.BoltHole(h), EN1993{}.BoltTension(ENBolt{As: 245, Fub: 800}))
		_, _ = ElasticGroup(bolts, PlaneLoad{F: pt(0, -1), At: pt(300, 0)}, forces)
		_, _ = InstantCentre(bolts, PlaneLoad{F: pt(0, -1), At: pt(300, 0)}, forces)
		WeakestChain(pt(1, 0), 200, holes, chain)
		SectionOf(Cut(region, pt(0, 30), pt(1, 0), Through, pieces), 6)
	}))
	require.NotZero(t, sink.Design)
}
