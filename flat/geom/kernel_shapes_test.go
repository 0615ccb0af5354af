package geom

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// shapeNames are the shapes in testdata/shapes, one file each.
var shapeNames = []string{"bracket", "link-plate", "flange-12", "scallop-40", "perforated-1000", "comb-500", "star-10k"}

// loadShape reads a shape file: the first loop is the outer one.
func loadShape(tb testing.TB, name string) Region {
	tb.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "shapes", name+".txt"))
	if err != nil {
		tb.Fatal(err)
	}
	var r Region
	for i, block := range strings.Split(strings.TrimSpace(string(text)), "\n\n") {
		l, err := ParseLoop(block)
		if err != nil {
			tb.Fatal(err)
		}
		if i == 0 {
			r.Outer = l
		} else {
			r.Holes = append(r.Holes, l)
		}
	}
	return r
}

// shapeAnswer is what answers.json says of a shape, with the keys used here.
type shapeAnswer map[string]json.RawMessage

type areaAnswer struct {
	Area      float64 `json:"area"`
	Perimeter float64 `json:"perimeter"`
	Regions   int     `json:"regions"`
	Flattened float64 `json:"flattened library area"`
}

func loadAnswers(tb testing.TB) map[string]shapeAnswer {
	tb.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "shapes", "answers.json"))
	if err != nil {
		tb.Fatal(err)
	}
	var all map[string]json.RawMessage
	if err := json.Unmarshal(text, &all); err != nil {
		tb.Fatal(err)
	}
	out := map[string]shapeAnswer{}
	for _, name := range shapeNames {
		var s shapeAnswer
		if err := json.Unmarshal(all[name], &s); err != nil {
			tb.Fatal(name, err)
		}
		out[name] = s
	}
	return out
}

func (s shapeAnswer) area(tb testing.TB, key string) (areaAnswer, bool) {
	tb.Helper()
	raw, ok := s[key]
	if !ok {
		return areaAnswer{}, false
	}
	var a areaAnswer
	if err := json.Unmarshal(raw, &a); err != nil {
		tb.Fatal(err)
	}
	return a, true
}

func areaOf(rs []Region) float64 {
	sum := 0.0
	for _, r := range rs {
		sum += r.Area()
	}
	return sum
}

func perimeterOf(rs []Region) float64 {
	sum := 0.0
	for _, r := range rs {
		sum += r.Perimeter()
	}
	return sum
}

func near(tb testing.TB, what string, got, want, rel float64) {
	tb.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		tb.Errorf("%s: got %.15g, want %.15g (relative error %.2g, allowed %.2g)", what, got, want, math.Abs(got-want)/math.Abs(want), rel)
	}
}

// validate holds every region of a result to the rules of Region.Validate.
func validate(tb testing.TB, what string, rs []Region) {
	tb.Helper()
	for i, r := range rs {
		if err := r.Validate(); err != nil {
			e := err.(*InvalidError)
			tb.Errorf("%s: region %d: rule %q broken at %v: %s", what, i, e.Rule, e.At, e.Reason)
		}
	}
}

var booleanOps = map[string]func(a, b []Region) ([]Region, error){
	"union": Union, "difference": Difference, "intersection": Intersection,
}

// shifted is the copy that the booleans of the shape files are taken with.
func shifted(r Region) Region { return r.Transform(Translate(7.3, 3.1)) }

func TestShapesBoolean(t *testing.T) {
	answers := loadAnswers(t)
	for _, name := range shapeNames {
		r := loadShape(t, name)
		for op, f := range booleanOps {
			want, ok := answers[name].area(t, op)
			if !ok {
				t.Fatalf("%s: no answer for %s", name, op)
			}
			got, err := f([]Region{r}, []Region{shifted(r)})
			if err != nil {
				t.Errorf("%s %s: %v", name, op, err.(*OpError).Reason)
				continue
			}
			near(t, name+" "+op+" area", areaOf(got), want.Area, 1e-9)
			validate(t, name+" "+op, got)
		}
	}
}

var offsetAnswers = []struct {
	key string
	d   float64
}{{"offset +0.75", 0.75}, {"offset -0.75", -0.75}, {"offset +6.35", 6.35}}

// starGrown is how far answers.json is out (relative) for the two outward
// offsets of star-10k, in area and perimeter alike, although it states 1e-10;
// all its other answers hold to 1e-9. Ours is taken to be right for these
// reasons. The union of the shape with a slot along every segment, found by
// winding numbers instead of by distance, has the same area to the last bits
// (TestStarOffsetAnotherWay). And the offset lies between two shapes of straight
// lines only: the shape, a strip along every side, and at every corner that
// opens a fan of triangles, once inscribed in the corner's arc and once
// circumscribed about it. GEOS 3.11 unites those (a union, which unlike its
// buffer does not simplify) to the areas in least and most, by steps of 0.003 and
// 0.0015 rad: ours lies between them, two thirds of the way up, as the areas of
// inscribed and circumscribed fans have it; the answer lies above both. The
// flattened area beside the answer is out by 5e-8 itself and cannot decide.
var starGrown = map[string]struct{ rel, least, most float64 }{
	"offset +0.75": {6e-9, 792150.785424, 792150.786276},
	"offset +6.35": {5e-8, 813130.030490, 813130.036265},
}

func TestShapesOffset(t *testing.T) {
	answers := loadAnswers(t)
	for _, name := range shapeNames {
		r := loadShape(t, name)
		for _, o := range offsetAnswers {
			want, ok := answers[name].area(t, o.key)
			if !ok {
				t.Fatalf("%s: no answer for %s", name, o.key)
			}
			got, err := Offset([]Region{r}, o.d, Round)
			if err != nil {
				t.Errorf("%s %s: %v", name, o.key, err.(*OpError).Reason)
				continue
			}
			rel := 1e-9
			if grown, ok := starGrown[o.key]; ok && name == "star-10k" {
				rel = grown.rel
				if a := areaOf(got); a < grown.least || a > grown.most || want.Area <= grown.most {
					t.Errorf("%s %s: got area %.12g, answer %.12g, want the one between %.12g and %.12g, the other above", name, o.key, a, want.Area, grown.least, grown.most)
				}
			}
			near(t, name+" "+o.key+" area", areaOf(got), want.Area, rel)
			validate(t, name+" "+o.key, got)
			near(t, name+" "+o.key+" perimeter", perimeterOf(got), want.Perimeter, rel)
			if want.Flattened != 0 {
				near(t, name+" "+o.key+" area by flattening", areaOf(got), want.Flattened, 3e-5)
			}
			if want.Regions != 0 && len(got) != want.Regions {
				t.Errorf("%s %s: got %d regions, want %d", name, o.key, len(got), want.Regions)
			}
		}
	}
}

// TestStarOffsetAnotherWay grows star-10k as the union of the shape with a slot
// along every segment: what the offset is by definition, found by winding
// numbers instead of by distance.
func TestStarOffsetAnotherWay(t *testing.T) {
	r := loadShape(t, "star-10k")
	const d = 0.75
	parts := []Region{r}
	for _, s := range r.Outer {
		parts = append(parts, Region{Outer: Slot(s.A, s.B, 2*d)})
	}
	want, err := Union(parts, nil)
	if err != nil {
		t.Fatal(err.(*OpError).Reason)
	}
	got, err := Offset([]Region{r}, d, Round)
	if err != nil {
		t.Fatal(err.(*OpError).Reason)
	}
	near(t, "area", areaOf(got), areaOf(want), 1e-12)
	near(t, "perimeter", perimeterOf(got), perimeterOf(want), 1e-10)
}
