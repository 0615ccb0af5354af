package blank

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"blankwright/flat/describe"
)

// python is the interpreter that has the system's Shapely.
const python = "/usr/bin/python3"

// step is one shape of a plate: what is done with it, its kind and its numbers.
type step struct {
	do, kind string
	v        []float64
}

func (s step) yaml() string {
	switch s.kind {
	case "disc":
		return fmt.Sprintf("disc: {at: [%g, %g], diameter: %g}", s.v[0], s.v[1], s.v[2])
	case "slot":
		return fmt.Sprintf("{at: [%g, %g], tab: %g, thickness: %g, allowance: 0, relief radius: %g, angle: %g deg}", s.v[0], s.v[1], s.v[2], s.v[3], s.v[4], s.v[5])
	}
	return fmt.Sprintf("rectangle: {at: [%g, %g], width: %g, height: %g, radius: %g}", s.v[0], s.v[1], s.v[2], s.v[3], s.v[4])
}

func (s step) json() []any {
	out := []any{s.do, s.kind}
	for _, v := range s.v {
		out = append(out, v)
	}
	return out
}

// drawSteps is a plate of random shapes on a grid of 5 mm, so that edges fall on
// edges and discs touch them.
func drawSteps(r *rand.Rand) []step {
	grid := func(n int) float64 { return 5 * float64(r.IntN(2*n+1)-n) }
	size := func(least, n int) float64 { return 5 * float64(least+r.IntN(n)) }
	shape := func(do string, reach int) step {
		if r.IntN(2) == 0 {
			return step{do, "disc", []float64{grid(reach), grid(reach * 3 / 5), size(1, 12)}}
		}
		w, h := size(2, 12), size(2, 12)
		return step{do, "rectangle", []float64{grid(reach), grid(reach * 3 / 5), w, h, []float64{0, 2.5, 4}[r.IntN(3)]}}
	}
	steps := []step{{"add", "rectangle", []float64{0, 0, 200, 120, []float64{0, 10}[r.IntN(2)]}}}
	for range r.IntN(4) {
		steps = append(steps, shape("add", 20))
	}
	for range r.IntN(5) {
		steps = append(steps, shape("cut", 20))
	}
	for range r.IntN(2) {
		steps = append(steps, step{"cut", "slot", []float64{grid(18), grid(10), 30, 7.15, 1.5, float64(15 * r.IntN(13))}})
	}
	return steps
}

func text(steps []step) string {
	b := strings.Builder{}
	b.WriteString(head + "outline: {" + steps[0].yaml() + "}\n")
	for _, list := range []string{"add", "cut"} {
		name := map[string]string{"add": "add", "cut": "cutouts"}[list]
		var lines []string
		for _, s := range steps[1:] {
			if s.do == list && s.kind != "slot" {
				lines = append(lines, "  - "+s.yaml()+"\n")
			}
		}
		if len(lines) > 0 {
			b.WriteString(name + ":\n" + strings.Join(lines, ""))
		}
	}
	for _, s := range steps {
		if s.kind == "slot" {
			b.WriteString("tab slots:\n  - " + s.yaml() + "\n")
		}
	}
	return b.String()
}

// Areas, edge lengths and numbers of openings of plates put together at random,
// against Shapely.
func TestAgainstShapely(t *testing.T) {
	if err := exec.Command(python, "-c", "import shapely").Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s cannot import shapely: %v", python, err)
		}
		t.Skipf("%s cannot import shapely: %v", python, err)
	}
	r := rand.New(rand.NewPCG(60, 3))
	var in bytes.Buffer
	var blanks []*Blank
	var texts []string
	refused := 0
	for range 400 {
		steps := drawSteps(r)
		p, err := describe.Parse("part.yaml", []byte(text(steps)))
		if err != nil {
			t.Fatal(err)
		}
		bs, err := Make(p)
		if err != nil {
			refused++
			if strings.Contains(err.Error(), "cannot be") {
				t.Errorf("%v\n%s", err, text(steps))
			}
			continue
		}
		if bs[0].Region().Validate() != nil {
			continue // openings that touch or cross, which is for the checks to tell
		}
		var list [][]any
		for _, s := range steps {
			list = append(list, s.json())
		}
		line, err := json.Marshal(list)
		if err != nil {
			t.Fatal(err)
		}
		in.Write(append(line, '\n'))
		blanks, texts = append(blanks, bs[0]), append(texts, text(steps))
	}
	if len(blanks) < 100 {
		t.Fatalf("only %d plates were made, %d refused", len(blanks), refused)
	}
	cmd := exec.Command(python, "testdata/compose.py")
	cmd.Stdin, cmd.Stderr = &in, os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	answers := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(answers) != len(blanks) {
		t.Fatalf("%d answers for %d plates", len(answers), len(blanks))
	}
	for i, b := range blanks {
		var want struct {
			area, length float64
			openings     int
			kind         string
		}
		if err := json.Unmarshal([]byte(answers[i]), &[]any{&want.area, &want.length, &want.openings, &want.kind}); err != nil {
			t.Fatal(err)
		}
		g := b.Region()
		// A disc's polygon of 2048 corners lacks 1.6e-6 of its area.
		if got := g.Area(); math.Abs(got-want.area) > 4e-6*want.area || math.Abs(g.Perimeter()-want.length) > 2e-6*want.length {
			t.Errorf("area %.6f and edge %.6f, Shapely says %.6f and %.6f\n%s", got, g.Perimeter(), want.area, want.length, texts[i])
		}
		if len(g.Holes) != want.openings || want.kind != "Polygon" {
			t.Errorf("%d openings, Shapely says %d in a %s\n%s", len(g.Holes), want.openings, want.kind, texts[i])
		}
	}
	if refused > len(blanks) {
		t.Errorf("%d plates compared, %d refused", len(blanks), refused)
	}
}
