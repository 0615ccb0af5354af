package describe

import (
	"math"
	"strings"
	"testing"
)

const bentHead = "part: a\nunits: in\nplate: {thickness: 1/8, material: A36}\nprocess: fibre laser\nlet: {h: 2, k1: 0.4}\n"

// Bent parts of every form and with every key print and read back.
func TestBentPartsPrintBack(t *testing.T) {
	for _, text := range []string{
		"formed:\n  u: {inside width: 67.5 mm, legs: [3, 2-3/4], length: 80 mm, measured: tangent}\nbends: {radius: 3/16, rule: k 0.42, grain: 30.3 deg}\n" +
			"flanges:\n  left: {taper: [1/3 * 10 deg, 0 deg], corners: {radius: 1/3}, holes: {a: {at: [h/3, 1], bolt: 1/2}}}\n  right: {holes: {b: {row: {from: [1, 1], to: [2, 1], count: 2}, diameter: 1/3}}}\n" +
			"in line: [[a, b.1]]\nwaive: [{rule: flange-length, hole: left, reason: folded}]\n",
		"formed: {l: {legs: 3, length: 2}}\nbends: {radius: 0, rule: din 6935}\n",
		"formed: {z: {feet: [1, 2], web: h, length: 2}}\nbends: {radius: 1/8, rule: Aircraft}\n",
		"formed: {hat: {width: 4, web: 2, feet: 1, length: 3, measured: inside}}\nbends: {radius: 1/8, rule: deduction 8.427 mm}\n",
		"formed: {box: {inside width: 4, depth: 3, height: 2, joint: Corner to corner, gap: 1/32}}\nbends: {radius: 1/8, rule: allowance 1/3}\ncorner relief: {shape: round, depth: 1/10}\n",
		"outline: {rectangle: {width: 4, height: 3}}\nbends: {radius: 1/8, rule: test bend hanger 3/16}\nrelief: {shape: round, width: 1/3, depth: 1/7}\n" +
			"flanges:\n  a: {edge: left, edge is: inside, height: 3, measured: apex, angle: 77.7 deg, radius: 1/3, rule: k 0.4, turn: down, offset: [1/3, -1/3], taper: 5 deg, corners: [{radius: 1/3}, {chamfer: 1/4}], relief: {shape: none}}\n" +
			"  b: {on: a, edge: end, height: 1, holes: {x: {at: [1, 1/2], bolt: 1/2}, y: {at: [2, 1/2], drill: \"#7\"}}}\nadd:\n  - {disc: {at: [0, 1], diameter: 1}}\n",
		"outline: {corners: [[0, 0], [3, 0], [3, 3]]}\nbends: {rule: k 1/3}\nflanges:\n  a: {edge: 1-2, height: 1, radius: 1/8, rule: table}\n",
	} {
		p, err := Parse("bent.yaml", []byte(bentHead+text))
		if err != nil {
			t.Errorf("%v\n%s", err, text)
			continue
		}
		reprints(t, p)
	}
}

// A rule is a word, or a word and its figure.
func TestBendRules(t *testing.T) {
	rule := func(text string) (BendRule, error) {
		p, err := Parse("r", []byte(bentHead+"formed: {l: {legs: 3, length: 2}}\nbends: {radius: 0, rule: "+text+"}\n"))
		if err != nil {
			return BendRule{}, err
		}
		return p.Bends.Rule, nil
	}
	for text, want := range map[string]BendRule{
		"table": {Kind: Word{Text: "table"}}, "K 0.42": {Kind: Word{Text: "k"}, K: 0.42}, "DIN 6935": {Kind: Word{Text: "din 6935"}},
		"deduction 1": {Kind: Word{Text: "deduction"}, Length: Length{MM: 25.4}}, "allowance 10.6 mm": {Kind: Word{Text: "allowance"}, Length: Length{MM: 10.6}},
		"test bend Old Press": {Kind: Word{Text: "test bend"}, Name: "Old Press"},
	} {
		got, err := rule(text)
		if err != nil || got.Kind.Text != want.Kind.Text || got.K != want.K || math.Abs(got.Length.MM-want.Length.MM) > 1e-12 || got.Name != want.Name {
			t.Errorf("%s: %+v, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{
		"k": "rule", "k 1.2": "outside the plate", "k 0": "outside the plate", "k 1 in": "no K-factor", "deduction": "rule", "deduction 3 deg": "no length",
		"allowance -1": "out of reach", "magic": "wanted a rule", "tables": "wanted a rule", "din 6936": "wanted a rule",
	} {
		if _, err := rule(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, wanted %q", text, err, want)
		}
	}
}
