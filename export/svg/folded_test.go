package svg_test

import (
	"bytes"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/unit"
)

func bentParts(t *testing.T) []*blank.Blank {
	t.Helper()
	var all []*blank.Blank
	for _, text := range []string{
		"units: mm\nformed: {u: {width: 60, legs: [50, 40], length: 80}}\nbends: {radius: 3}\n",
		"units: in\nhand: pair\noutline: {rectangle: {width: 60, height: 40}}\nbends: {radius: 1/8}\nflanges:\n  a: {edge: left, height: 12, angle: 60 deg, turn: down, corners: {radius: 2}}\n",
		"units: mm\nformed: {hat: {width: 6, web: 9, feet: 8, length: 5}}\nbends: {radius: 0.5}\n",
	} {
		p, err := describe.Parse("bent.yaml", []byte("part: a <b> & c\nplate: {thickness: 1 mm, material: S355MC}\nprocess: fibre laser\n"+text))
		if err != nil {
			t.Fatal(err)
		}
		bs, err := blank.Make(p)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, bs...)
	}
	return all
}

// The picture has four views, is the same each time, and flat parts have none.
func TestFoldedPicture(t *testing.T) {
	for _, b := range bentParts(t) {
		one := svg.Folded(b, svg.Options{})
		if !bytes.Equal(one, svg.Folded(b, svg.Options{})) {
			t.Error("two pictures of one part differ")
		}
		for _, want := range []string{">isometric<", ">from above<", ">from the front<", ">from the right<", `id="folded-edges"`, "do not measure from it", "a &lt;b&gt; &amp; c", "Overall ", "hook the tape"} {
			if !strings.Contains(string(one), want) {
				t.Errorf("no %q in the picture of %q", want, b.Name)
			}
		}
		flat := *b
		flat.Formed = nil
		if svg.Folded(&flat, svg.Options{}) != nil {
			t.Error("a flat part has a picture")
		}
	}
}

// The picture is valid and is drawn by a renderer that we did not write, with ink
// in all four quarters, and none on the very edge of the page.
func TestFoldedPictureIsDrawn(t *testing.T) {
	needs(t, "rsvg-convert")
	needs(t, "xmllint")
	for _, b := range bentParts(t) {
		for _, sys := range []unit.System{unit.Millimetre, unit.Inch} {
			file := filepath.Join(t.TempDir(), "folded.svg")
			if err := os.WriteFile(file, svg.Folded(b, svg.Options{Unit: sys, Note: "a note"}), 0o600); err != nil {
				t.Fatal(err)
			}
			if out, err := exec.Command("xmllint", "--noout", "--nonet", file).CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			out, err := exec.Command("rsvg-convert", "-b", "white", file).Output()
			if err != nil {
				t.Fatal(err)
			}
			img, err := png.Decode(bytes.NewReader(out))
			if err != nil {
				t.Fatal(err)
			}
			r := img.Bounds()
			var quarter [4]int
			for y := r.Min.Y; y < r.Max.Y; y++ {
				for x := r.Min.X; x < r.Max.X; x++ {
					if c, _, _, _ := img.At(x, y).RGBA(); c > 0x8000 {
						continue
					}
					if x < 10 || y < 10 || x >= r.Max.X-10 || y >= r.Max.Y-10 {
						t.Fatalf("ink at the edge of the page: %d, %d", x, y)
					}
					k := 0
					if x > r.Dx()/2 {
						k++
					}
					if y > r.Dy()/2 {
						k += 2
					}
					quarter[k]++
				}
			}
			for k, n := range quarter {
				if n < 30 {
					t.Errorf("quarter %d of the picture of %q has %d dark points", k, b.Name, n)
				}
			}
		}
	}
}
