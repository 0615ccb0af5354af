package diag

import (
	"strings"
	"testing"
)

func TestNearest(t *testing.T) {
	known := []string{"air plasma", "tuned plasma", "fibre laser", "waterjet", "oxy-fuel", "rectangle", "disc"}
	for _, c := range []struct{ word, want, why string }{
		{"air plasma", "air plasma", "the word itself"},
		{"Air-Plasma", "air plasma", "case and hyphen"},
		{"air plazma", "air plasma", "wrong letter"},
		{"air plsma", "air plasma", "missing letter"},
		{"air plassma", "air plasma", "doubled letter"},
		{"air palsma", "air plasma", "neighbours swapped"},
		{"fiber laser", "fibre laser", "neighbours swapped"},
		{"oxyfule", "oxy-fuel", "hyphen and swap"},
		{"disk", "disc", "wrong letter in a short word"},
		{"dsk", "", "two slips in a short word"},
		{"punch", "", "nothing near"},
		{"", "", "no word"},
		{" - ", "", "nothing that counts"},
		{strings.Repeat("x", 1<<20), "", "far too long"},
		{strings.Repeat("x", 41), "", "too long"},
	} {
		if got := Nearest(c.word, known); got != c.want {
			t.Errorf("%s: Nearest(%.20q) = %q, want %q", c.why, c.word, got, c.want)
		}
	}
}

func TestNearestFirstOfEquals(t *testing.T) {
	if got := Nearest("bar", []string{"far", "tar"}); got != "far" {
		t.Errorf("got %q, want the first of two equally near words", got)
	}
	if got := Nearest("tar", []string{"far", "tar"}); got != "tar" {
		t.Errorf("got %q, want the exact word before a near one", got)
	}
	if got := Nearest("word", nil); got != "" {
		t.Errorf("got %q from no known words", got)
	}
}

// The distance is symmetric and zero only for equal words.
func TestSlips(t *testing.T) {
	words := []string{"a", "ab", "ba", "abc", "acb", "xyz", "abcd", "bacd"}
	for _, a := range words {
		for _, b := range words {
			d, e := slips([]rune(a), []rune(b), 99), slips([]rune(b), []rune(a), 99)
			if d != e {
				t.Errorf("slips(%q, %q) = %d but %d the other way", a, b, d, e)
			}
			if (d == 0) != (a == b) {
				t.Errorf("slips(%q, %q) = %d", a, b, d)
			}
		}
	}
	if d := slips([]rune("abcd"), []rune("bacd"), 99); d != 1 {
		t.Errorf("a swap counts %d slips, want 1", d)
	}
}

func BenchmarkNearest(b *testing.B) {
	known := []string{"thickness", "material", "process", "quantity", "outline", "holes", "marks", "units", "hand"}
	for b.Loop() {
		Nearest("thicknes", known)
	}
}
