package cope

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The length of the line in space, against chords, and known ones.
func TestLength(t *testing.T) {
	square := must(t, Tube{38.1, 3}, Plate{Angle: deg(90)})
	require.InDelta(t, math.Pi*38.1, square.Curve(OD).Length(), 1e-6)
	require.InDelta(t, math.Pi*32.1, square.Curve(ID).Length(), 1e-6)
	// A plate at 30 degrees cuts an ellipse of half axes r and 2r: the perimeter of
	// the ellipse 2:1 is 9.688448220547675 (complete elliptic integral, E(3/4)).
	slant := must(t, Tube{2, 0.1}, Plate{Angle: deg(30)})
	require.InDelta(t, 9.688448220547675, slant.Curve(OD).Length(), 1e-7)
	// Equal tubes square: four quarter ellipses of half axes R and √2 R.
	equal := must(t, Tube{2, 0.1}, Main{OD: 2, Angle: deg(90)})
	require.InDelta(t, 7.640395578055424, equal.Curve(OD).Length(), 1e-7)

	rapid.Check(t, func(t *rapid.T) {
		c := drawEnd(t)
		for k := OD; k <= ID; k++ {
			u := c.Curve(k)
			sum := 0.0
			for i := range u.pieces {
				p := &u.pieces[i]
				const n = 4000
				before := u.at3(p, 0)
				for j := 1; j <= n; j++ {
					next := u.at3(p, float64(j)/n)
					sum += next.Sub(before).Len()
					before = next
				}
			}
			require.InEpsilon(t, sum, u.Length(), 1e-4)
		}
	})
}

func TestDihedral(t *testing.T) {
	for _, a := range []float64{20, 60, 90} {
		c := must(t, Tube{38.1, 3}, Main{OD: 50, Angle: deg(a)})
		toe, ok := c.Dihedral(math.Pi)
		require.True(t, ok)
		require.InDelta(t, deg(a), toe, 1e-12, "the toe's angle is the angle between the axes")
		heel, _ := c.Dihedral(0)
		require.InDelta(t, math.Pi-deg(a), heel, 1e-12)
		plate, _ := must(t, Tube{38.1, 3}, Plate{Angle: deg(a)}).Dihedral(math.Pi)
		require.InDelta(t, deg(a), plate, 1e-12)
	}
	side, _ := must(t, Tube{38.1, 3}, Main{OD: 38.1, Angle: deg(90)}).Dihedral(quarterTurn)
	require.InDelta(t, math.Pi, side, 1e-6, "equal tubes run into each other at the side")
}

func TestBands(t *testing.T) {
	b := must(t, Tube{38.1, 3}, Plate{Angle: deg(90)}).Bands()
	require.InDelta(t, math.Pi*38.1, b.Fillet, 1e-6)
	require.Zero(t, b.Acute+b.Obtuse+b.Free)

	// A plate at 45 degrees: cos ψ = -cos q cos 45, so the band from 60 to 120
	// degrees is |cos q| < 1/√2 exactly, half of the turn.
	c := must(t, Tube{40, 3}, Plate{Angle: deg(45)})
	b = c.Bands()
	require.InDelta(t, c.Curve(OD).Length(), b.Total(), 1e-9)
	require.InDelta(t, b.Acute, b.Obtuse, 1e-3*b.Acute)
	ellipse := func(a, z float64) float64 {
		return integrate(func(q float64) float64 { return 20 * math.Hypot(1, math.Sin(q)) }, a, z)
	}
	require.InEpsilon(t, ellipse(-math.Pi/4, math.Pi/4), b.Obtuse, 1e-3)
	require.InEpsilon(t, 2*ellipse(math.Pi/4, 3*math.Pi/4), b.Fillet, 1e-3)

	partial := must(t, Tube{40, 3}, Main{OD: 30, Angle: deg(90), Partial: true}).Bands()
	// Free where |40/2 sin q| > 15.
	require.InDelta(t, 40*(math.Pi-2*math.Asin(0.75)), partial.Free, 0.01)
}

// Closed form: a solid bar on an equal main, square: the saddle takes half of
// the body common to two equal cylinders, 16 R³/3 (Archimedes).
func TestVolumeClosedForm(t *testing.T) {
	const R = 20.0
	c := must(t, Tube{2 * R, R}, Main{OD: 2 * R, Angle: deg(90)})
	v, err := c.Volume(100)
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi*R*R*100-8*R*R*R/3, v, 1e-5)
}

// Against an independent count: sections square to the branch, each divided in
// small squares, each square asked whether it is in the wall and outside every
// main.
func TestVolumeBySections(t *testing.T) {
	cases := []struct {
		name  string
		tube  Tube
		mains []Main
	}{
		{"slanting", Tube{38.1, 4.78}, []Main{{OD: 44.45, Angle: deg(40), Turn: deg(25)}}},
		{"offset", Tube{30, 6}, []Main{{OD: 60, Angle: deg(70), Offset: 12}}},
		{"equal", Tube{40, 5}, []Main{{OD: 40, Angle: deg(90)}}},
		{"two mains", Tube{38.1, 4}, []Main{{OD: 44, Angle: deg(60)}, {OD: 60, Angle: deg(45), Turn: deg(130), Station: 4}}},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			var ks []Cutter
			for _, m := range tc.mains {
				ks = append(ks, m)
			}
			c := must(t, tc.tube, ks...)
			lo, hi := c.Curve(OD).Ear().S-1, max(c.Curve(OD).Throat().S, c.Curve(ID).Throat().S)+1
			v, err := c.Volume(hi)
			require.NoError(t, err)

			const cells, layers = 140, 80
			side, step := tc.tube.OD/cells, (hi-lo)/layers
			count := 0
			for i := range layers {
				s := lo + (float64(i)+0.5)*step
				for j := range cells {
					for k := range cells {
						x, y := (float64(j)+0.5)*side-c.ro, (float64(k)+0.5)*side-c.ro
						if r := math.Hypot(x, y); r > c.ro || r < c.ri {
							continue
						}
						if keptAt(tc.mains, Vec{x, y, -s}) {
							count++
						}
					}
				}
			}
			require.InEpsilon(t, float64(count)*side*side*step, v, 5e-3)
		})
	}
}

// keptAt reports whether the tube's metal at p is left by all mains: outside
// each, and on the tube's side of it (going out of the end from p, no main comes
// before).
func keptAt(mains []Main, p Vec) bool {
	for _, m := range mains {
		foot, dir := m.Axis()
		d := p.Sub(foot)
		// Out of the end is +z. The main is passed where the line meets it at z > 0.
		n := Vec{0, 0, 1}.Sub(dir.Mul(dir.Z))
		o := d.Sub(dir.Mul(d.Dot(dir)))
		a, b, c := n.Dot(n), n.Dot(o), o.Dot(o)-m.OD*m.OD/4
		disc := b*b - a*c
		if disc < 0 {
			continue
		}
		if (-b-math.Sqrt(disc))/a < 0 { // the main is entered behind p, or p is in it
			return false
		}
	}
	return true
}

func TestMean(t *testing.T) {
	c := must(t, Tube{40, 4}, Plate{Angle: deg(35), Turn: 1, Station: 7})
	eachKind(t, func(t *testing.T, k Kind) {
		if k != DropOn {
			require.InDelta(t, 7, c.Curve(k).Mean(), 1e-9)
			return
		}
		// Of the drop-on line half the turn is at the outside, half at the inside.
		require.InDelta(t, 7+4/math.Pi/math.Tan(deg(35)), c.Curve(k).Mean(), 1e-7)
	})
}
