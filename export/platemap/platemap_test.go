package platemap

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/paper"
	"blankwright/export/pdf"
	"blankwright/export/svg"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

func rectangle(w, h float64) geom.Region {
	return geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: w}, geom.Point{X: w, Y: h}, geom.Point{Y: h})}
}

func letter(t *testing.T) paper.Page {
	t.Helper()
	p, err := paper.FindPage("letter")
	require.NoError(t, err)
	return p
}

// job is a sheet with rings in two sizes, and n more kinds that lie on others.
func job(more int) *Picture {
	ring := rectangle(100, 80)
	ring.Holes = []geom.Loop{geom.CircleLoop(geom.Circle{C: geom.Point{X: 30, Y: 40}, R: 20}).Reverse()}
	p := &Picture{
		Job: "layout, 1/4 in A36", Title: "sheet 1 of 2, 24x48in", Name: "1", Sheet: rectangle(609.6, 1219.2), Unit: unit.Inch,
		Kinds: []Kind{{"ring", "as drawn", ring, 3}, {"spacer", "mirrored", rectangle(6, 4), 9}},
		Parts: []Part{{0, geom.Translate(10, 10)}, {0, geom.Rotate(math.Pi / 2).Then(geom.Translate(300, 10))}, {1, geom.Translate(400, 400)}},
		Left:  []geom.Region{rectangle(609.6, 600).Transform(geom.Translate(0, 619.2))},
		Facts: []Fact{{"process", "air plasma"}, {"used", "33 %"}},
		Notes: []string{"not placed: 3 of ring (as drawn): no room"},
	}
	for i := range more {
		p.Kinds = append(p.Kinds, Kind{fmt.Sprintf("part number %d with a long name that has to be cut somewhere", i), "as drawn", rectangle(60, 50), 1})
		p.Parts = append(p.Parts, Part{2 + i, geom.Translate(70*float64(i%8), 100+60*float64(i/8%20))})
	}
	return p
}

func words(pages []*paper.Sheet) string {
	var all []string
	for _, s := range pages {
		for _, t := range s.Texts() {
			all = append(all, t.S)
		}
	}
	return strings.Join(all, "\n")
}

func TestDraw(t *testing.T) {
	p := job(0)
	pages, err := Draw(p, letter(t))
	require.NoError(t, err)
	require.Len(t, pages, 2, "the picture, and a close-up for the spacer")
	s := pages[0]
	assert.Equal(t, "Sheet at scale 1:7", s.Shows)
	assert.Equal(t, paper.NoBlock, s.CheckBlock)
	text := words(pages)
	for _, want := range []string{"layout, 1/4 in A36: sheet 1 of 2, 24x48in", "1:7, not to be measured", "24 in", "48 in", "0,0",
		"ring, as drawn", "spacer, mirrored", "left: 24 x 23.62 in", "not placed: 3 of ring (as drawn): no room",
		"1 part is too small here for a number: see the close-ups that follow"} {
		assert.Contains(t, text, want)
	}
	assert.NotContains(t, text, "Measure the bars", "a picture is not measured")
	// Parts are at the scale, and lie in the sheet.
	var sheet, parts geom.Box
	for _, g := range s.Layers[paper.PlateEdge].Segs {
		sheet = sheet.Union(g.Bounds())
	}
	for _, g := range s.Layers[paper.PlateParts].Segs {
		parts = parts.Union(g.Bounds())
	}
	assert.InDelta(t, 609.6/7, sheet.Width(), 1e-9)
	assert.InDelta(t, 10/7.0, parts.Min.X-sheet.Min.X, 1e-9)
	assert.InDelta(t, 404/7.0, parts.Max.Y-sheet.Min.Y, 1e-9)
	require.Len(t, s.Layers[paper.PlateInside].Circles, 2)
	assert.InDelta(t, 20/7.0, s.Layers[paper.PlateInside].Circles[0].R, 1e-9)
	assert.Len(t, s.Layers[paper.Tags].Texts, 2, "a number on each ring")
	assert.NotEmpty(t, svg.Render(s))
	data, lost := pdf.Render(pages)
	assert.Empty(t, lost)
	assert.NotContains(t, string(data), "/B0 ", "no check block")
}

// A part whose metal is too narrow for its number shows it instead of its
// openings, and the picture says so.
func TestDrawNumberInsteadOfOpenings(t *testing.T) {
	p := job(0)
	narrow := rectangle(60, 60)
	narrow.Holes = []geom.Loop{geom.CircleLoop(geom.Circle{C: geom.Point{X: 30, Y: 30}, R: 25}).Reverse()}
	p.Kinds = append(p.Kinds, Kind{"washer", "as drawn", narrow, 1})
	p.Parts = append(p.Parts, Part{2, geom.Translate(10, 300)})
	pages, err := Draw(p, letter(t))
	require.NoError(t, err)
	assert.Len(t, pages[0].Layers[paper.PlateInside].Circles, 2, "those of the rings")
	assert.Contains(t, words(pages), "openings are left out, for its number, of part 3")
	assert.Len(t, pages[0].Layers[paper.Tags].Texts, 3)
}

// Nothing leaves the page, however long the table is, and every kind has its row.
func TestDrawManyKinds(t *testing.T) {
	a4, err := paper.FindPage("A4")
	require.NoError(t, err)
	for _, n := range []int{0, 1, 7, 30, 150} {
		for _, page := range []paper.Page{letter(t), a4} {
			for _, grain := range []bool{false, true} {
				p := job(n)
				p.Grain = grain
				pages, err := Draw(p, page)
				require.NoError(t, err)
				rows := 0
				for _, s := range pages {
					rows += len(s.Layers[paper.Strong].Texts)
					for _, q := range s.Texts() {
						b := q.Box()
						assert.True(t, b.X0 > 4 && b.Y0 > 4 && b.X1 < s.Page.Width-4 && b.Y1 < s.Page.Height-4, "%d: %q at %v", n, q.S, b)
					}
				}
				assert.Equal(t, n+2, rows)
				if n == 150 {
					assert.Greater(t, len(pages), 1)
				}
			}
		}
	}
}

// Many notes and a long table leave room for the picture on any paper that is
// taken, and nothing is lost of them.
func TestDrawManyNotes(t *testing.T) {
	for _, name := range []string{"A5", "letter", "A3"} {
		page, err := paper.FindPage(name)
		require.NoError(t, err)
		require.True(t, Takes(page), name)
		for _, n := range []int{1, mostNotes, mostNotes + 1, 200} {
			p := job(20)
			p.Notes = nil
			for i := range n {
				p.Notes = append(p.Notes, fmt.Sprintf("not placed: %d of the part", 1000+i))
			}
			for range 8 {
				p.Facts = append(p.Facts, Fact{"fact", "words"})
			}
			pages, err := Draw(p, page)
			require.NoError(t, err, name)
			names := map[string]bool{}
			for i, s := range pages {
				assert.False(t, names[s.Name], s.Name)
				names[s.Name] = true
				for _, q := range s.Texts() {
					b := q.Box()
					assert.True(t, b.X0 > 4 && b.Y0 > 4 && b.X1 < s.Page.Width-4 && b.Y1 < s.Page.Height-4, "%s, page %d: %q at %v", name, i, q.S, b)
				}
			}
			for i := range n {
				assert.Contains(t, words(pages), fmt.Sprintf("%d of the part", 1000+i))
			}
		}
	}
	small, err := paper.FindPage("100 x 300 mm")
	require.NoError(t, err)
	assert.False(t, Takes(small))
}

// Names from elsewhere do no harm.
func TestDrawForeignNames(t *testing.T) {
	p := job(0)
	p.Job, p.Title, p.Kinds[0].Name = "a<b>&\x00\x1b", "sheet \u202e \xff", strings.Repeat("<script>", 5000)
	pages, err := Draw(p, letter(t))
	require.NoError(t, err)
	text := svg.Render(pages[0])
	d := xml.NewDecoder(bytes.NewReader(text))
	for {
		_, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
	}
	assert.NotContains(t, string(text), "<script>")
	assert.Less(t, len(text), 1<<16)
}

// A low sheet turns the page.
func TestDrawTurnsThePage(t *testing.T) {
	p := job(0)
	p.Sheet = rectangle(1219.2, 609.6)
	pages, err := Draw(p, letter(t))
	require.NoError(t, err)
	assert.Greater(t, pages[0].Page.Width, pages[0].Page.Height)
}

func TestDrawRefuses(t *testing.T) {
	p := job(0)
	p.Sheet = geom.Region{}
	_, err := Draw(p, letter(t))
	assert.ErrorContains(t, err, "no size")
	p.Sheet = rectangle(1e6, 10)
	_, err = Draw(p, letter(t))
	assert.ErrorContains(t, err, "larger than any scale")
}

// The largest disc of shapes whose largest disc is known.
func TestRoomiest(t *testing.T) {
	ring := geom.Region{Outer: geom.CircleLoop(geom.Circle{R: 50}), Holes: []geom.Loop{geom.CircleLoop(geom.Circle{R: 30}).Reverse()}}
	for name, r := range map[string]struct {
		region geom.Region
		want   float64
	}{
		"rectangle": {rectangle(300, 80), 40},
		"thin":      {rectangle(1000, 2), 1},
		"ring":      {ring, 10},
		"triangle":  {geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: 60}, geom.Point{Y: 80})}, 20},
	} {
		d := roomiest(r.region)
		assert.Equal(t, geom.Inside, r.region.Contains(d.c), name)
		assert.LessOrEqual(t, d.r, r.want+1e-9, name)
		assert.Greater(t, d.r, r.want*(1-2*near), name)
	}
	assert.Equal(t, disc{}, roomiest(geom.Region{}))
}
