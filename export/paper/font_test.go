package paper

import (
	"bytes"
	"fmt"
	"image/png"
	"math"
	"os"
	"os/exec"
	"strings"
	"testing"
	"unicode/utf8"
)

// needs skips the test where a program that it measures with is missing; on CI
// that is a failure.
func needs(t *testing.T, program string) {
	t.Helper()
	if _, err := exec.LookPath(program); err == nil {
		return
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed", program)
	}
	t.Skipf("%s is not installed", program)
}

// Whatever face a viewer takes for the family that sheets ask for, texts are
// not wider than they were taken to be.
func TestWidthIsNotBelowWhatIsDrawn(t *testing.T) {
	needs(t, "rsvg-convert")
	const pxPerMM = 10.0
	var ascii strings.Builder
	for r := '!'; r <= '~'; r++ {
		ascii.WriteRune(r)
	}
	all := ascii.String()
	for _, st := range []Style{TitleText, CalloutText, TagText, ValueText, StrongText, LabelText} {
		for _, s := range []string{
			all[:32], all[32:64], all[64:], "17/32 in (13.49 mm) for 1/2-13 grade 8", "0123456789 0123456789",
			"mmmmmmmmmmmmWWWWWWWWWWWW", "Fräsplatte, Öse, Çà et là, Ærø",
		} {
			weight := ""
			if st.Font().Bold {
				weight = ` font-weight="bold"`
			}
			doc := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="20mm" viewBox="0 0 300 20">`+
				`<text x="5" y="12" font-family="Helvetica, Arial, 'Liberation Sans', sans-serif" font-size="%v"%s>%s</text></svg>`,
				st.Font().Size, weight, strings.NewReplacer("&", "&amp;", "<", "&lt;").Replace(s))
			cmd := exec.Command("rsvg-convert", "-d", "254", "-p", "254", "-b", "white")
			cmd.Stdin = strings.NewReader(doc)
			out, err := cmd.Output()
			if err != nil {
				t.Fatal(err)
			}
			img, err := png.Decode(bytes.NewReader(out))
			if err != nil {
				t.Fatal(err)
			}
			lo, hi := math.MaxInt, -1
			for y := range img.Bounds().Dy() {
				for x := range img.Bounds().Dx() {
					if r, _, _, _ := img.At(x, y).RGBA(); r < 0x8000 {
						lo, hi = min(lo, x), max(hi, x+1)
					}
				}
			}
			drawn, taken := float64(hi)/pxPerMM-5, Width(s, st)
			if drawn > taken {
				t.Errorf("style %d: %q is drawn %.2f mm wide, taken to be %.2f", st, s, drawn, taken)
			}
			if drawn < 0.75*taken {
				t.Errorf("style %d: %q is drawn %.2f mm wide, taken to be %.2f: is a font installed", st, s, drawn, taken)
			}
		}
	}
}

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"plain":                     "plain",
		"  two\nlines\t\r":          "two lines",
		"a\x00b\x1bc":               "a b c",
		"right\u202eleft\u200b":     "right left",
		"bad\xff\xfe":               "bad\ufffd",
		"\u2028x\u2029":             "x",
		"Öse ½ ⌀12":                 "Öse ½ ⌀12",
		"\n":                        "",
		"no character \U0010ffff !": "no character   !",
	} {
		if got := clean(in); got != want {
			t.Errorf("clean(%q) = %q, want %q", in, got, want)
		}
	}
	long := clean(strings.Repeat("ü", 5000))
	if len(long) > longest+10 || !utf8.ValidString(long) {
		t.Errorf("a long text became %d bytes, valid %v", len(long), utf8.ValidString(long))
	}
}

func TestWrapKeepsToWidth(t *testing.T) {
	words := "hole pivot centre is 14.0 mm from the edge, needs 16.2 mm: " + strings.Repeat("W", 60) + " and so on"
	for _, w := range []float64{5, 20, 45, 80, 400} {
		lines := wrap(words, ValueText, w, 100)
		for _, l := range lines {
			if Width(l, ValueText) > w {
				t.Errorf("width %v: line %q is %v wide", w, l, Width(l, ValueText))
			}
		}
		if strings.ReplaceAll(strings.Join(lines, ""), " ", "") != strings.ReplaceAll(words, " ", "") {
			t.Errorf("width %v: letters were lost: %q", w, lines)
		}
	}
	short := wrap(words, ValueText, 40, 2)
	if len(short) != 2 || !strings.HasSuffix(short[1], "...") || Width(short[1], ValueText) > 40 {
		t.Errorf("two lines of 40 mm: %q", short)
	}
	if got := wrap("", ValueText, 10, 3); len(got) != 1 || got[0] != "" {
		t.Errorf("wrap of nothing = %q", got)
	}
	if got := fit("abc", ValueText, 0); got != "..." {
		t.Errorf("fit into nothing = %q", got)
	}
}

func TestCalloutLines(t *testing.T) {
	for in, want := range map[string]string{
		"13.5 mm":                                                        "13.5 mm",
		"17/32 in (13.49 mm) for 1/2-13 grade 8":                         "17/32 in (13.49 mm)|for 1/2-13 grade 8",
		"slot 13.5 x 40 mm at 30 deg for M12 10.9":                       "slot 13.5 x 40 mm|at 30 deg for M12 10.9",
		"drill 0.197 in (5 mm), nearest drill #9 (4.98 mm)":              "drill 0.197 in (5 mm),|nearest drill #9 (4.98 mm)",
		"slot 9/16 x 11/16 in (14.29 x 17.46 mm) for 1/2-13 grade 5":     "slot 9/16 x 11/16 in|(14.29 x 17.46 mm)|for 1/2-13 grade 5",
		"a, b, c, d, e, f":                                               "a, b, c, d, e, f",
		", , ,":                                                          ", , ,",
		"ream 1.371 in (34.82 mm), cut 1.312 in (33.33 mm), then fit":    "ream 1.371 in (34.82 mm),|cut 1.312 in (33.33 mm),|then fit",
		"one that goes on and on without any place to break it sensibly": "one that goes on and on|without any place to break it|sensibly",
	} {
		if got := strings.Join(calloutLines(in), "|"); got != want {
			t.Errorf("calloutLines(%q) = %q, want %q", in, got, want)
		}
	}
	for _, l := range calloutLines(strings.Repeat("for every hole, ", 100)) {
		if Width(l, CalloutText) > calloutMost {
			t.Errorf("line %q is too wide", l)
		}
	}
	if n := len(calloutLines(strings.Repeat("for every hole, ", 100))); n > 4 {
		t.Errorf("a callout took %d lines", n)
	}
}

func TestLetters(t *testing.T) {
	for n, want := range map[int]string{0: "A", 7: "H", 8: "J", 23: "Z", 24: "AA", 25: "AB", 47: "AZ", 48: "BA", 24 + 24*24: "AAA"} {
		if got := letters(n); got != want {
			t.Errorf("letters(%d) = %q, want %q", n, got, want)
		}
	}
}
