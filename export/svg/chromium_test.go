package svg_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/export/svg"
	"blankwright/flat/unit"
)

// chromiumDPI is the resolution at which a browser's print is measured: a pixel
// is 0.042 mm.
const chromiumDPI = 600

// printByChromium lets Chromium print an SVG file to a PDF.
func printByChromium(t *testing.T, file []byte) (path string) {
	t.Helper()
	dir := t.TempDir()
	page, out := filepath.Join(dir, "page.svg"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(page, file, 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync",
		"--user-data-dir="+filepath.Join(dir, "profile"), "--no-pdf-header-footer", "--print-to-pdf="+out, "file://"+page)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("chromium: %v\n%s", err, said)
	}
	return out
}

// On Letter and A4, as Chromium prints them, bars, corners and holes are true
// within 0.1 mm; those of a sheet corrected for a printer are longer by what it
// is short of.
func TestChromiumPrintsTrue(t *testing.T) {
	papertest.Needs(t, "chromium", "pdftoppm")
	for _, c := range []struct {
		page string
		sys  unit.System
		r    paper.Reading
	}{{"letter", unit.Inch, paper.Reading{}}, {"A4", unit.Millimetre, paper.Reading{}}, {"letter", unit.Inch, paper.Reading{X: 99.4, Y: 101.2}}} {
		t.Run(fmt.Sprint(c.page, c.r), func(t *testing.T) {
			t.Parallel()
			b := papertest.Coupon(c.sys)
			s, err := paper.Compose(b, nil, paper.Options{Page: c.page, Measured: c.r})
			if err != nil {
				t.Fatal(err)
			}
			p, err := papertest.Draw(printByChromium(t, svg.Render(s)), 1, chromiumDPI)
			if err != nil {
				t.Fatal(err)
			}
			w, h := p.Size()
			p.CountFromTop(s.Page.Height)
			papertest.Within(t, c.page, []papertest.Measured{{What: "width", Got: w, Want: s.Page.Width}, {What: "height", Got: h, Want: s.Page.Height}}, 0.4)
			kx, ky := s.Scale()
			papertest.Within(t, c.page, papertest.MeasureBars(p, s, kx, ky), 0.1)
			if !c.r.Off() {
				papertest.Within(t, c.page, papertest.MeasureCoupon(p, s, b), 0.1)
			}
		})
	}
}

// A piece of a part on one of several pages prints true as well.
func TestChromiumPrintsPagesTrue(t *testing.T) {
	papertest.Needs(t, "chromium", "pdftoppm")
	set, err := paper.Print(papertest.BatteryTray(), nil, paper.Options{Page: "A4"})
	if err != nil {
		t.Fatal(err)
	}
	s := set.Pages[len(set.Pages)-1]
	p, err := papertest.Draw(printByChromium(t, svg.Render(s)), 1, chromiumDPI)
	if err != nil {
		t.Fatal(err)
	}
	p.CountFromTop(s.Page.Height)
	papertest.Within(t, s.Name, papertest.MeasureBars(p, s, 1, 1), 0.1)
}
