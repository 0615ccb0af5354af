package samples_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/samples"
)

// blanks makes the blanks of a sample.
func blanks(t *testing.T, s samples.Sample) []*blank.Blank {
	t.Helper()
	p, err := describe.Parse(s.Path, s.Text)
	if err != nil {
		t.Fatal(err)
	}
	bs, err := blank.Make(p)
	if err != nil {
		t.Fatal(err)
	}
	return bs
}

// Every part comes as a trap and mended, or is a starter; there is nothing else.
func TestEachPartHasBothVariants(t *testing.T) {
	variants := map[string][]string{}
	for _, s := range samples.List() {
		variants[s.Name] = append(variants[s.Name], s.Variant)
		if s.Path != s.Name+"/"+s.Variant+".yaml" {
			t.Errorf("path of %s %s is %q", s.Name, s.Variant, s.Path)
		}
	}
	if len(variants) < 5 {
		t.Errorf("%d parts, want 5 or more", len(variants))
	}
	for name, v := range variants {
		if !slices.Equal(v, []string{samples.Mended, samples.Trap}) && !slices.Equal(v, []string{samples.Starter}) {
			t.Errorf("%s has the variants %v", name, v)
		}
	}
}

// Every job comes as a trap and mended, its own file first.
func TestEachJobHasBothVariants(t *testing.T) {
	variants := map[string][]string{}
	for _, j := range samples.Jobs() {
		variants[j.Name] = append(variants[j.Name], j.Variant)
		if len(j.Files) < 2 || j.Files[0].Path != j.Folder+"/job.yaml" {
			t.Errorf("the files of %s are %v", j.Folder, j.Files)
		}
		for _, f := range j.Files {
			text, err := os.ReadFile(filepath.FromSlash(f.Path))
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(text, f.Text) {
				t.Errorf("%s differs from its file", f.Path)
			}
		}
		if trap := j.Variant == samples.Trap; trap != (len(j.Files[0].Rules()) > 0) {
			t.Errorf("%s names the rules %v", j.Files[0].Path, j.Files[0].Rules())
		}
	}
	if len(variants) == 0 {
		t.Error("no job")
	}
	for name, v := range variants {
		if !slices.Equal(v, []string{samples.Mended, samples.Trap}) {
			t.Errorf("%s has the variants %v", name, v)
		}
	}
}

// What is embedded is what lies in the folders.
func TestEmbeddedAsOnDisk(t *testing.T) {
	onDisk, err := filepath.Glob("*/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	list := samples.List()
	if len(list) != len(onDisk) {
		t.Errorf("%d samples are embedded, %d lie on disk", len(list), len(onDisk))
	}
	for _, s := range list {
		text, err := os.ReadFile(filepath.FromSlash(s.Path))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(text, s.Text) {
			t.Errorf("%s differs from its file", s.Path)
		}
	}
}

// A trap fails by exactly the rules named in its first line, on every hand; a
// mended part fails by none and draws no warning either.
func TestTrapsFailAndMendedPass(t *testing.T) {
	for _, s := range samples.List() {
		t.Run(s.Path, func(t *testing.T) {
			want := s.Rules()
			slices.Sort(want)
			if trap := s.Variant == samples.Trap; trap != (len(want) > 0) {
				t.Fatalf("the first line names the rules %v", want)
			}
			for _, id := range want {
				if _, ok := check.Find(id); !ok {
					t.Errorf("there is no rule %q", id)
				}
			}
			for _, b := range blanks(t, s) {
				var failed []string
				for _, f := range check.Run(b) {
					switch {
					case f.Fails():
						failed = append(failed, f.Rule)
					case s.Variant == samples.Mended && f.Severity > diag.Note:
						t.Errorf("%s: %s: %s", b.Hand, f.Rule, f.Message)
					}
					if f.Waived != "" && s.Variant != samples.Starter {
						t.Errorf("%s is waived: %s", f.Rule, f.Waived)
					}
				}
				slices.Sort(failed)
				if got := slices.Compact(failed); !slices.Equal(got, want) {
					t.Errorf("%s fails by %v, want %v", b.Hand, got, want)
				}
			}
		})
	}
}

// A trap and its mended twin are the same part in different revisions.
func TestTwinsAreOnePart(t *testing.T) {
	byName := map[string][]*blank.Blank{}
	for _, s := range samples.List() {
		bs := blanks(t, s)
		byName[s.Name] = append(byName[s.Name], bs[0])
	}
	for name, twins := range byName {
		if len(twins) == 1 {
			continue // a starter
		}
		a, b := twins[0], twins[1]
		if a.Name != b.Name || a.Thickness != b.Thickness || a.Material.Name != b.Material.Name {
			t.Errorf("%s: %q and %q are not one part", name, a.Name, b.Name)
		}
		if a.Revision == b.Revision {
			t.Errorf("%s: both variants are revision %q", name, a.Revision)
		}
		if got := blank.SafeName(a.Name, 60); got != name {
			t.Errorf("folder %s holds a part named %q", name, a.Name)
		}
	}
}

func TestTextIsACopy(t *testing.T) {
	a := samples.List()[0]
	a.Text[0] = 'X'
	if samples.List()[0].Text[0] == 'X' {
		t.Error("a change to a sample's text reaches the next caller")
	}
}
