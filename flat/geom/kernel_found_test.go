package geom

import (
	"encoding/hex"
	"testing"
)

// foundBooleans are pairs of shapes that went wrong or were refused once, named
// by what was missed.
var foundBooleans = []struct{ kind, a, b string }{
	{"a label counted at a point on the chord of two half arcs", "5 1; 6 1; 6 3; 5 3", "7.5 2 1; 4.5 2 1"},
	{"a walk that comes back to its first node half way round", "1 1 -1; 4 3; 0 5 1; 1 0; 1 4 0.25", ""},
	{"a spike by one unit in the last place", "8 6; 2 0 -0.41421356237309503; 5.000000000000001 3", ""},
	{"a spike cut by a third edge", "2 4 0.25; 7 1 0.1; 1 7 -1", "0 4 0.999999; 6 3; 5e-324 3 0.999999"},
	{"two arcs of one turn that run back along each other", "5 2 -0.41421356237309503; 2.0000001 4 0.1; 0 7 -0.2; 6 1e-07 -0.41421356237309503; 6.999999999999999 1 -0.3333333333333333; 3 4", "7 6 1; 5 6 1"},
	{"an arc of 5e-8 radius with a tangent, not a chord, for direction", "3 3 -0.41421356237309503; 8 4 0.1; 2 2; 5 0 -0.2; 4 2; 6 1 -0.2\n6.5 6 1; 3.5 6 1\n8 1.0000000000000002; 7 1; 0 1; 4.999999999999999 0 -1; 5 1e-07 0.41421356237309503; 2 0 -1; 1 2", ""},
	{"a tiny circle met by a large one, reckoned from the large one", "3 5 -0.41421356237309503; 0 8 0.999999; 0 1 0.25; 8 6 -0.2; 2.9999999 5 -0.5", "3 0; 7 0; 7 3; 3 3"},
	{"a computed node within reach of a third edge", "4 4 -0.3333333333333333; 0 7 0.41421356237309503; 4 2; 1 3; 0 1e-07 -0.41421356237309503", "5 8; 2 8; 2 4; 5 4"},
	{"collinear segments apart, their signs noise", "4.571428571428571 7; 4 8; 0 8; 0 7", "8 1; 5 6.249999999999999; 4 1"},
	{"an opening that reaches the outer loop's own extreme", "5.431864414809505 5.243288450546527; 6.027212152335711 1.6712020253892856 1 7.999999999999999 2 2; 9.972787847664287 2.3287979746107146; 8.972787847664287 8.328797974610714 0.7084330079799576; 5.2554791617945655 8.978083352821738 0.6921025822360665 2.9999999999999996 7 3; -4.440892098500626e-16 7 0.7275876672237632 2.9999999999999996 7 3\n3 1 1; 1 1 1", "0 0.5 0.41421356237309503 0.5 0.5 0.5; 0.5 5e-324; 4.5 5e-324 0.41421356237309503 4.5 0.5 0.5; 5 0.5; 5 4.5 0.41421356237309503 4.5 4.5 0.5; 4.5 5; 0 5\n5 6 0.41421356237309503 6 6 1; 6 5; 8 5 1; 8 7; 5 7"},
	{"a ring thinner than num.Coincident", "1.0000000000000002 3 1; -1.0000000000000002 3 1", "1.00000005 3 1; -1.00000005 3 1"},
}

func TestFoundBooleans(t *testing.T) {
	for _, c := range foundBooleans {
		a, err := Union(parseShape(t, c.a), nil)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		b, err := Union(parseShape(t, c.b), nil)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		var area [4]float64
		for i, f := range []func(a, b []Region) ([]Region, error){Union, Intersection, Difference, SymmetricDifference} {
			got, err := f(a, b)
			if err != nil {
				t.Errorf("%s: %v", c.kind, err)
			} else if err := auditShape(got); err != nil {
				t.Errorf("%s: %v", c.kind, err)
			}
			area[i] = areaOf(got)
		}
		x, y, tol := areaOf(a), areaOf(b), areaSlack(a, b)
		for _, law := range [][2]float64{{x + y, area[0] + area[1]}, {x - area[1], area[2]}, {area[0] - area[1], area[3]}} {
			if d := law[0] - law[1]; d > tol || d < -tol {
				t.Errorf("%s: areas %v of %g and %g do not add up", c.kind, area, x, y)
			}
		}
	}
}

// foundOffsets are offsets that went wrong or were refused once.
var foundOffsets = []struct {
	kind, shape string
	d           float64
}{
	{"a cusp that is no spike", "2 4 0.3333333333333333; 3 6; 1 4 -0.41421356237309503", -1.5},
	{"a joint smooth but for 1e-8 before a half turn", "-4 4 0.41421356237309503; -7 3; -4 2.9999999 1", -0.3},
	{"edges of 1e-7", "5.75 1.2499999000000002; 5.75 3.75; 5.25 3.75; 5.25 1.2499999000000002\n6.25 1 -7.499999998827772e-08 6 0.9999999 0.25; 6.25 0.999999925 0.9999999500000037 7 1 0.75; 7.75 1 1", 0.25},
	{"a sample on a place of symmetry", "4 1; 4 0; 5 0; 5 3; 4 3\n4.000004000002001 5; 3 5 1; 4 1 -0.7807764064044151", 0.3},
	{"a sample of a half turn on its end", "5 4; 5 5; 4 5; 4 4; 1 4; 1 2; 8 2; 8 4\n5 0 1; 3 0 1", 2},
	{"the normal of an arc of 7e-8 radius", "6 2.9999999 0.3333333333333333; 8 4; 5.999999999999999 3 -0.41421356237309503", 0.5},
	{"an opening that touches the outer loop: its offset on the wrong side", "7 2 0.16227766016837933 6.5 0.5 1.5811388300841898; 6 2; 1 2 0.5 | 6.875000000000004 2 -0.013155617496424372 6.9375 -0.375 2.3758222260935264; 7 2\n5 5; 5 7; 1 7; 1 5", -1.5},
	{"sides that part by curvature before they do by angle", "4.00000002 4; 1e-07 0 -0.41421356237309503; 0 0 0.999999; 6 6 0.25473365682065136 5 6 1; 5.5422232062824675 6.840234487847743 -0.02017552878936855 7.75 1.2499999999999991 6.0104076400856545; 6.000000000000001 7 0.23606797749979 5.375 5.75 1.3975424859373689; 4.749999999999999 7; 0 7; 0 5 0.41421356237309503 1 5 1; 1 4; 1.6666666666666665 4; 2 2.9999999999999996 -0.04497665658042462 7.75 1.2499999999999991 6.0104076400856545; 2.405610418392012 4", 1},
}

func TestFoundOffsets(t *testing.T) {
	for _, c := range foundOffsets {
		a, err := Union(parseShape(t, c.shape), nil)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		got, err := Offset(a, c.d, Round)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		if err := auditShape(got); err != nil {
			t.Errorf("%s: %v", c.kind, err)
		}
		// By definition: what lies within the distance of the shape, or of its
		// outside.
		for i := range 400 {
			p := Point{float64(i%20)*0.61 - 2.117, float64(i/20)*0.61 - 2.093}
			in, ok := inside(a, p)
			is, ok2 := inside(got, p)
			d := distanceTo(a, p)
			if !ok || !ok2 || d > c.d-1e-6 && d < c.d+1e-6 || -d > c.d-1e-6 && -d < c.d+1e-6 {
				continue
			}
			want := in && (c.d > 0 || d > -c.d) || !in && c.d > 0 && d < c.d
			if is != want {
				t.Errorf("%s: point %v in the offset is %v, want %v", c.kind, p, is, want)
			}
		}
	}
}

// foundCases are byte strings of TestKernelCases that went wrong once.
var foundCases = []struct {
	kind, data string
	check      func([]byte, bool) error
}{
	{"an order at a node wrong at both ends", "d7bc7b6533086d0a5ca7c1e384555ca20d02e102ca1c518b9afd83349902a0cad46284786219e04823c14cc7861848bba10a84a17ff5b9075e00ca49ec67968b6d59df214c3f22f866d6ca1ab316bcf834d33ae6309d364d6a6b1fb7d4e2a82f", booleanCase},
	{"a loop thinner than num.Coincident beside another", "6557bb0bf3a6e86f9acdb22e33a33a9435723437ffa01c7cd2391ded48098781ec6be100b7fe810f945fae64e5c7d926a71812d0dd248f6e4f9d5da06dd81f313bc8633ee3f2d56a1b19d0f74ebe93bd70379b921c0110826180092feb27fcc3", booleanCase},
	{"a chord of 8e-9 off its circle", "14f6707a3df9dd1a9bc74aa5d36be90d68ac136889136d46fff8b372f5aacc80aa0482e055ed86a61efa06a5ba87e23a15fad736a1b04122bf76903d05f70bca9a8897fe5b057ad65fb58f8cad961112d9cadf1ba8cf12421a0e38fd4fd9419d", booleanCase},
	{"near tangents of large circles", "11c4930a3ed0abc01c85dfc12241a38f78b8eb018b2aa12bb7232a211e12b28502f3efa56ca8503fc168f4d6fa2236805a87466a459ca0f237732a18e92edc6807056b66ce9e41b16211f444e7071f869c682880511d8c5d34c9477852a9a36d", booleanCase},
	{"a covered loop that nothing branches from", "fd13477a613ff1a3fb47e86ac09a79cee553a257464ffb03c7fea4344de040e673cdf67934fe7535833035612e3d255f15534b030196b3c302434e87a42f45ddc5eea468e7d989f0c0b30f0646d0e99e3fd51824a4b5f9c7d499dc0731ae8224", offsetCase},
	{"a speck just wide enough to be kept, turned", "4c194d71179e26d5a926d0e0bab407a93ffc2efca14346b260d1ac6d622224d343b35c1268feea8b6acff9ae65d3bf18f61f247331eecdcfef5274e3972c48435aa2065c40a33672fc309a9e476bf5859fecbb2ae99208424631a3aab3264d51", offsetCase},
	{"a corner wound twice", "bcf1849b1efc1342f6a287dd9949bb20dfbf87ba058f2f8c17a4d487d17fdae852a7d44fa03803eeab66f06bdd36269e9d1d273ff66a3523c8c9d3d4d123697902ceb9cda0d9d3baf7cbc883ea9210616611fe4d7a7c9364934b9108ada8665c", offsetCase},
}

func TestFoundCases(t *testing.T) {
	for _, c := range foundCases {
		data, err := hex.DecodeString(c.data)
		if err != nil {
			t.Fatal(err)
		}
		if err := c.check(data, true); err != nil {
			t.Errorf("%s: %v", c.kind, err)
		}
	}
}

// The area between arc and chord, by series and by formula, is what the loop's
// own area says.
func TestCapArea(t *testing.T) {
	for _, b := range []float64{1, -1, 0.5, 0.11, 0.1, 0.099, -0.03, 0.01, 0.0033, 0.00316, 0.0031, -0.001, 1e-5, -1e-8} {
		s := BulgeSeg(Point{1, 2}, Point{4, 6}, b)
		want := (Loop{s, Line(s.B, s.A)}).Area()
		if got := capArea(b, 25); got-want > 1e-14 || want-got > 1e-14 {
			t.Errorf("bulge %g: got %.17g, want %.17g", b, got, want)
		}
	}
}
