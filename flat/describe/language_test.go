package describe

import (
	"os"
	"reflect"
	"strings"
	"testing"
)

// section is one mapping of the reference: its keys, and those that must be
// there.
type section struct {
	keys, musts []string
	text        string
}

func readReference(t *testing.T) (string, map[string]*section) {
	t.Helper()
	raw, err := os.ReadFile("LANGUAGE.md")
	if err != nil {
		t.Fatal(err)
	}
	sections := map[string]*section{}
	var s *section
	for _, line := range strings.Split(string(raw), "\n") {
		if name, ok := strings.CutPrefix(line, "### "); ok {
			s = &section{}
			sections[name] = s
			continue
		}
		if s == nil {
			continue
		}
		s.text += line + "\n"
		if !strings.HasPrefix(line, "| `") {
			continue
		}
		cells := strings.Split(strings.Trim(line, "|"), "|")
		key := strings.Trim(cells[0], " `")
		s.keys = append(s.keys, key)
		if len(cells) != 4 {
			t.Fatalf("row of %s has %d cells, wanted 4: %s", key, len(cells), line)
		}
		switch must := strings.TrimSpace(cells[2]); must {
		case "yes":
			s.musts = append(s.musts, key)
		case "":
		default:
			t.Errorf("row of %s: must is %q", key, must)
		}
	}
	return string(raw), sections
}

// The reference names every key that the parser knows, and no other, in the
// same order, and marks those that must be there.
func TestReferenceHoldsTheParsersKeys(t *testing.T) {
	_, sections := readReference(t)
	for _, v := range vocabularies {
		s := sections[v.name()]
		if s == nil {
			t.Errorf("the reference has no section %q", v.name())
			continue
		}
		if !reflect.DeepEqual(s.keys, v.keys()) {
			t.Errorf("%s: the reference has the keys %v, the parser %v", v.name(), s.keys, v.keys())
		}
		if !reflect.DeepEqual(s.musts, v.musts()) {
			t.Errorf("%s: the reference demands %v, the parser %v", v.name(), s.musts, v.musts())
		}
		delete(sections, v.name())
	}
	for name := range sections {
		t.Errorf("the reference has a section %q that the parser does not know", name)
	}
}

func TestReferenceHoldsTheWords(t *testing.T) {
	raw, _ := readReference(t)
	words := append([]string{"as drawn", "mirrored", "pair", "cut", "sheared", "x", "y", "both", "drill", "ream", "short", "long", "straight", "round", "auto", "lightening", "yes", "no", "true", "false"}, unitWords[:]...)
	words = append(append(append(append(words, ruleSets[:]...), fits[:]...), holeStandards[:]...), append(allowances[:], reliefs[:]...)...)
	words = append(append(append(append(words, reliefShapes[:]...), references[:]...), turns[:]...), boxJoints[:]...)
	for _, w := range words {
		if !strings.Contains(raw, "`"+w+"`") {
			t.Errorf("the reference does not name %q", w)
		}
	}
}

// Every example of the reference is read without a problem. An example that
// shows one part of a description is completed with the rest.
func TestReferenceExamples(t *testing.T) {
	raw, _ := readReference(t)
	examples := strings.Split(raw, "```yaml\n")[1:]
	if len(examples) < 5 {
		t.Fatalf("only %d examples found", len(examples))
	}
	for _, e := range examples {
		text, _, _ := strings.Cut(e, "```")
		if otherKind(t, text) {
			continue
		}
		for key, line := range map[string]string{
			"part": "part: example", "plate": "plate: {thickness: 6 mm, material: S355}", "process": "process: waterjet",
			"outline": "outline: {disc: {diameter: 300 mm}}", "units": "units: in",
		} {
			if key == "outline" && strings.Contains("\n"+text, "\nformed:") {
				continue
			}
			if !strings.Contains("\n"+text, "\n"+key+":") {
				text = line + "\n" + text
			}
		}
		p, err := Parse("example", []byte(text))
		if err != nil {
			t.Errorf("%v\n%s", err, text)
			continue
		}
		reprints(t, p)
	}
}

// A mapping has no more keys than a reading of it can hold.
func TestKeysFitTheirStore(t *testing.T) {
	for _, v := range vocabularies {
		if n := len(v.keys()); n > len(seen{}.key) {
			t.Errorf("%s has %d keys, seen holds %d", v.name(), n, len(seen{}.key))
		}
		known := map[string]bool{}
		for _, k := range v.keys() {
			if known[k] {
				t.Errorf("%s has the key %s twice", v.name(), k)
			}
			known[k] = true
		}
	}
}
