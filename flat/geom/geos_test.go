package geom

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// geosScript reads pairs of shapes as flattened rings and prints the areas of
// the symmetric difference between GEOS's result and ours, per operation.
const geosScript = `
import sys
from shapely.geometry import Polygon, MultiPolygon
from shapely.ops import unary_union

def shape(text):
    out = []
    for region in text.split("@"):
        rings = []
        for ring in region.split("|"):
            v = [float(x) for x in ring.split()]
            if v:
                rings.append(list(zip(v[0::2], v[1::2])))
        if rings:
            out.append(Polygon(rings[0], rings[1:]).buffer(0))
    return unary_union(out) if out else MultiPolygon()

for line in sys.stdin:
    a, b, d, u, i, m, x, o = line.rstrip("\n").split("#")
    a, b = shape(a), shape(b)
    want = [a.union(b), a.intersection(b), a.difference(b), a.symmetric_difference(b), a.buffer(float(d), 64)]
    print(*["%.12g" % w.symmetric_difference(shape(g)).area for w, g in zip(want, [u, i, m, x, o])], flush=True)
`

// flattenShape writes a shape as rings of points, arcs cut so that chords stay
// within tol of them.
func flattenShape(rs []Region, tol float64) string {
	var b strings.Builder
	for i, r := range rs {
		if i > 0 {
			b.WriteByte('@')
		}
		for k, l := range append([]Loop{r.Outer}, r.Holes...) {
			if k > 0 {
				b.WriteByte('|')
			}
			for _, s := range l {
				n := 1
				if s.IsArc() {
					n = 1 + int(math.Abs(s.Sweep())/(2*math.Acos(max(0, 1-tol/s.Circle().R))))
				}
				for j := range n {
					p := s.At(float64(j) / float64(n))
					fmt.Fprintf(&b, "%.17g %.17g ", p.X, p.Y)
				}
			}
		}
	}
	return b.String()
}

// TestAgainstGEOS compares hundreds of random shapes with arcs, and their
// offsets, with GEOS on finely flattened arcs: the symmetric difference may be
// no larger than flattening makes it.
func TestAgainstGEOS(t *testing.T) {
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import shapely").Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("python3 with shapely is missing: ", err)
		}
		t.Skip("needs python3 with shapely as the oracle: ", err)
	}
	cmd := exec.Command(python, "-W", "ignore", "-c", geosScript)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	answers := bufio.NewScanner(out)
	const tol = 1e-4
	rng := rand.New(rand.NewPCG(41, 5))
	for i := range 300 {
		data := make([]byte, 96)
		for k := range data {
			data[k] = byte(rng.Uint32())
		}
		c := &caseBytes{data}
		d := []float64{0.3, -0.3, 0.7, -0.15}[i%4]
		a, err1 := Union(c.shape(), nil)
		b, err2 := Union(c.shape(), nil)
		u, err3 := Union(a, b)
		n, err4 := Intersection(a, b)
		m, err5 := Difference(a, b)
		x, err6 := SymmetricDifference(a, b)
		o, err7 := Offset(a, d, Round)
		for _, err := range []error{err1, err2, err3, err4, err5, err6, err7} {
			if err != nil {
				t.Fatalf("case %d: %v", i, err)
			}
		}
		length := 0.0
		fmt.Fprintf(in, "%s#%s#%g", flattenShape(a, tol), flattenShape(b, tol), d)
		for _, r := range [][]Region{u, n, m, x, o} {
			fmt.Fprintf(in, "#%s", flattenShape(r, tol))
		}
		fmt.Fprintln(in)
		for _, r := range [][]Region{a, b} {
			length += perimeterOf(r)
		}
		if !answers.Scan() {
			t.Fatalf("case %d: no answer from GEOS", i)
		}
		var diff [5]float64
		if _, err := fmt.Sscan(answers.Text(), &diff[0], &diff[1], &diff[2], &diff[3], &diff[4]); err != nil {
			t.Fatalf("case %d: %q: %v", i, answers.Text(), err)
		}
		for k, op := range []string{"union", "intersection", "difference", "symmetric difference", fmt.Sprintf("offset %g", d)} {
			allow := 2 * tol * length
			if k == 4 {
				// GEOS first drops vertices that a hundredth of the distance hides, and
				// rounds corners in 64 steps a quarter.
				allow = 0.012*math.Abs(d)*length + tol*length
			}
			if diff[k] > allow {
				t.Errorf("case %d, %s: symmetric difference %g, flattening explains %g", i, op, diff[k], allow)
			}
		}
	}
	in.Close()
	if err := cmd.Wait(); err != nil {
		t.Fatal(err)
	}
}
