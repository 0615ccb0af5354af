package papertest

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"

	"blankwright/flat/geom"
)

// Picture is a printed page as poppler draws it, for measuring on.
type Picture struct {
	perMM         float64 // pixels
	width, height int
	ink           []byte  // rows from the top, 0 is black
	top           float64 // height of the upper edge, mm
}

// Draw lets pdftoppm draw a page of a PDF (the first is 1) at so many dots per
// inch.
func Draw(pdf string, page, dpi int) (*Picture, error) {
	dir, err := os.MkdirTemp("", "picture")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	n := strconv.Itoa(page)
	out, err := exec.Command("pdftoppm", "-gray", "-singlefile", "-r", strconv.Itoa(dpi), "-f", n, "-l", n, pdf, filepath.Join(dir, "p")).CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("pdftoppm: %w: %s", err, out)
	}
	raw, err := os.ReadFile(filepath.Join(dir, "p.pgm"))
	if err != nil {
		return nil, err
	}
	p := &Picture{perMM: float64(dpi) / 25.4}
	var most int
	if _, err := fmt.Fscanf(bytes.NewReader(raw), "P5\n%d %d\n%d\n", &p.width, &p.height, &most); err != nil || most != 255 {
		return nil, fmt.Errorf("not a grey picture: %v", err)
	}
	p.ink = raw[len(raw)-p.width*p.height:]
	p.top = float64(p.height) / p.perMM
	return p, nil
}

// CountFromTop takes heights from the upper edge of a page that is so high: a
// browser makes pages of whole pixels, and what it leaves out is at the foot.
func (p *Picture) CountFromTop(height float64) { p.top = height }

// Size is the size of the page, mm.
func (p *Picture) Size() (w, h float64) {
	return float64(p.width) / p.perMM, float64(p.height) / p.perMM
}

// Dark is the weight of ink at a place of the page, 0 to 1; mm, y up.
func (p *Picture) Dark(at geom.Point) float64 {
	return p.dark(int(at.X*p.perMM), int((p.top-at.Y)*p.perMM))
}

func (p *Picture) dark(x, y int) float64 {
	if x < 0 || y < 0 || x >= p.width || y >= p.height {
		return 0
	}
	return 1 - float64(p.ink[y*p.width+x])/255
}

// Lines gives the middles, in mm of the page, of the lines that a level scan at
// height across meets between from and to; with up set an upright scan at x =
// across.
func (p *Picture) Lines(across, from, to float64, up bool) (mids []float64) {
	ink, moment := 0.0, 0.0
	for i := int(from * p.perMM); i <= int(to*p.perMM)+1; i++ {
		along := (float64(i) + 0.5) / p.perMM
		v := 0.0
		if along <= to {
			at := geom.Point{X: along, Y: across}
			if up {
				at = geom.Point{X: across, Y: along}
			}
			v = p.Dark(at)
		}
		if v > 0.1 {
			ink += v
			moment += v * along
			continue
		}
		if ink > 0.5 {
			mids = append(mids, moment/ink)
		}
		ink, moment = 0, 0
	}
	return mids
}

// mostStroke is the ink across the heaviest line of a sheet and half as much
// again, mm.
const mostStroke = 0.38

// Across finds the middle of the line that crosses near a place: how far from it
// along the unit vector u, within reach mm. It is false where there is no line,
// or more ink than one makes.
func (p *Picture) Across(at, u geom.Point, reach float64) (off float64, ok bool) {
	step := 0.25 / p.perMM
	ink, moment := 0.0, 0.0
	lines, inside := 0, false
	for t := -reach; t <= reach; t += step {
		v := p.Dark(at.Add(u.Mul(t)))
		if v > 0.3 != inside {
			if inside = !inside; inside {
				lines++
			}
		}
		ink += v
		moment += v * t
	}
	if lines != 1 || ink*step > mostStroke {
		return 0, false
	}
	return moment / ink, true
}
