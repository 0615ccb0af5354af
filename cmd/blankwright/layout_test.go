package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
	"blankwright/flat/layout"
	"blankwright/flat/num"
)

// medlar are the parts of the orchard cart that are cut from 1/4 in plate.
var medlar = []string{"axle-link-tab", "clevis-cheek", "clevis-base", "hanger-plate", "crossmember-plate"}

// layoutSamples are the layouts beside the samples: all of the cart's 1/4 in parts
// on a drop from the rack, and those of two carts on a sheet.
var layoutSamples = map[string][]string{
	"on-drop":  {"--remnant", filepath.Join("samples", "medlar-layout", "drop.dxf")},
	"on-sheet": {"--sheet", "24x48in", "--times", "2"},
}

func medlarArgs(more ...string) []string {
	args := []string{"blankwright", "layout"}
	for _, name := range medlar {
		args = append(args, filepath.Join("samples", name, "mended.yaml"))
	}
	return append(args, more...)
}

// layOut runs the command and gives what it printed as JSON.
func layOut(t *testing.T, want int, args ...string) layoutReport {
	t.Helper()
	var out, talk bytes.Buffer
	require.Equal(t, want, run(append(args, "--json"), nil, &out, &talk), talk.String())
	var r layoutReport
	require.NoError(t, json.Unmarshal(out.Bytes(), &r))
	return r
}

// The layouts of the samples are those beside them. After a change meant to alter
// them: go test ./cmd/blankwright -update, then look at the pictures. The search
// decides by sums that processors with fused multiplication round otherwise, so
// that only the files' names are held to it there.
func TestLayoutGoldens(t *testing.T) {
	t.Chdir(root)
	for name, more := range layoutSamples {
		t.Run(name, func(t *testing.T) {
			to := t.TempDir()
			layOut(t, exitClean, medlarArgs(append(more, "--iterations", "100", "--seed", "1", "--name", "medlar", "--out", to)...)...)
			folder := filepath.Join("samples", "medlar-layout", name)
			if *update {
				require.NoError(t, os.RemoveAll(folder))
				require.NoError(t, os.CopyFS(folder, os.DirFS(to)))
			}
			assert.Equal(t, names(t, folder), names(t, to), "run go test ./cmd/blankwright -update and look at what it wrote")
			for _, f := range names(t, to) {
				have, err := os.ReadFile(filepath.Join(folder, f))
				require.NoError(t, err)
				got, err := os.ReadFile(filepath.Join(to, f))
				require.NoError(t, err)
				if runtime.GOARCH == "amd64" {
					assert.Equal(t, string(have), string(got), f)
				}
			}
		})
	}
}

func names(t *testing.T, folder string) (list []string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

// What the drawings hold, read by the reader for drawings from elsewhere, keeps
// its distance and lies on the sheet; every piece is there once, and the list has
// a row for it.
func TestLayoutDrawings(t *testing.T) {
	t.Chdir(root)
	to := t.TempDir()
	r := layOut(t, exitClean, medlarArgs("--sheet", "24x24in", "--times", "3", "--iterations", "3", "--gap", "9mm", "--margin", "12mm", "--out", to)...)
	require.Len(t, r.Groups, 1)
	placed := 0
	for _, s := range r.Groups[0].Sheets {
		placed += len(s.Pieces)
		d, err := readDrawing(s.Files[0])
		require.NoError(t, err)
		regions := d.Regions
		require.Len(t, regions, len(s.Pieces))
		for i := range regions {
			box := regions[i].Bounds()
			assert.True(t, num.AtLeast(box.Min.X, 12-1e-5) && num.AtLeast(box.Min.Y, 12-1e-5) && num.AtMost(box.Max.X, s.Width-12+1e-5) && num.AtMost(box.Max.Y, s.Height-12+1e-5),
				"sheet %d: %v", s.Number, box)
			for k := range regions[:i] {
				assert.GreaterOrEqual(t, geom.LoopLoop(regions[i].Outer, regions[k].Outer).D, 9-1e-5)
			}
		}
	}
	assert.Equal(t, 27, placed)
	text, err := os.ReadFile(r.List)
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+placed)
}

// readDrawing reads and mends a drawing; it is an error where there is anything
// to mend.
func readDrawing(path string) (*drawing.Mended, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	d, err := drawing.Read(path, text, drawing.Options{})
	if err != nil {
		return nil, err
	}
	joined := drawing.Assemble(d, 0)
	if len(joined.Faults) > 0 {
		return nil, fmt.Errorf("%s: %s", path, joined.Faults[0].Message)
	}
	return drawing.Mend(joined), nil
}

// Libraries that are not ours find no fault in the drawings of sheets and
// leftovers, and the parts as far apart, and as far inside, as they should be.
func TestLayoutOracle(t *testing.T) {
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import ezdxf, shapely").Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s cannot import ezdxf and shapely: %v", python, err)
		}
		t.Skipf("%s cannot import ezdxf and shapely: %v", python, err)
	}
	script, err := filepath.Abs(filepath.Join("testdata", "apart.py"))
	require.NoError(t, err)
	t.Chdir(root)
	to := t.TempDir()
	r := layOut(t, exitClean, medlarArgs("--remnant", filepath.Join("samples", "medlar-layout", "drop.dxf"), "--sheet", "20x20in", "--times", "3", "--iterations", "2", "--out", to)...)
	g := r.Groups[0]
	args := []string{script}
	for _, s := range g.Sheets {
		for _, f := range s.Files {
			if filepath.Ext(f) == ".dxf" {
				args = append(args, f)
			}
		}
	}
	cmd := exec.Command(python, args...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var answers map[string]struct {
		Audit, Parts int
		Apart        float64
		Box          [4]float64
		Valid        bool
	}
	require.NoError(t, json.Unmarshal(out, &answers))
	const sag = 0.003 // twice what chords stray, and what decimals of an inch round
	for _, s := range g.Sheets {
		a := answers[s.Files[0]]
		assert.Equal(t, len(s.Pieces), a.Parts)
		assert.True(t, a.Valid)
		if a.Parts > 1 {
			assert.Greater(t, a.Apart, g.Gap-sag)
		}
		assert.Greater(t, min(a.Box[0], a.Box[1]), g.Margin-sag)
		assert.Less(t, a.Box[2], s.Width-g.Margin+sag)
		assert.Less(t, a.Box[3], s.Height-g.Margin+sag)
	}
	for path, a := range answers {
		assert.Zero(t, a.Audit, path)
	}
	assert.Len(t, answers, len(args)-1)
}

func newTalk(out, err io.Writer) *talk { return &talk{out: out, err: err} }

func TestStock(t *testing.T) {
	var l layouter
	for _, r := range []struct {
		text      string
		w, h      float64
		count     int
		thickness float64
		material  string
	}{
		{"48x96in", 1219.2, 2438.4, 0, 0, ""},
		{"4x8ft", 1219.2, 2438.4, 0, 0, ""},
		{"4ft x 96in*2", 1219.2, 2438.4, 2, 0, ""},
		{"1250x2500mm@6mm", 1250, 2500, 0, 6, ""},
		{"1.25 x 2.5 m * 3 @ 1/4 in, A36", 1250, 2500, 3, 6.35, "A36"},
		{"20-1/2x30-1/4in@A36", 520.7, 768.35, 0, 0, "A36"},
		{"600mm×2ft", 600, 609.6, 0, 0, ""},
	} {
		s, err := l.stockOf(r.text, false)
		require.NoError(t, err, r.text)
		box := s.Region.Bounds()
		assert.InDelta(t, r.w, box.Width(), 1e-9, r.text)
		assert.InDelta(t, r.h, box.Height(), 1e-9, r.text)
		assert.Equal(t, geom.Point{}, box.Min)
		assert.NoError(t, s.Region.Validate())
		assert.Equal(t, r.count, s.Count, r.text)
		assert.InDelta(t, r.thickness, s.thickness, 1e-9, r.text)
		assert.Equal(t, r.material, s.material, r.text)
	}
	for _, text := range []string{"", "x", "48x", "x96in", "48x96", "-4x8ft", "4x-8ft", "0x8ft", "4x8ft*", "4x8ft*-1", "4x8ft*1.5", "4x8ft@", "4x8ft@x",
		"1e999x4ft", "4x8furlong", "4x8x2ft", "4x8ft*2*"} {
		_, err := l.stockOf(text, false)
		var u *usageError
		assert.ErrorAs(t, err, &u, text)
	}
}

// An interrupt before the search begins either leaves a layout that is whole, or
// nothing and exit code 3.
func TestLayoutInterruptedEarly(t *testing.T) {
	t.Chdir(root)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, file := range []string{"axle-link-tab", "shackle-plate"} {
		var out, talk bytes.Buffer
		l := layouter{talk: newTalk(&out, &talk), folder: filepath.Join(t.TempDir(), "out"), name: "layout", times: 3, gap: -1, margin: -1, time: time.Hour, turnWords: "any"}
		require.NoError(t, l.fillStock([]string{"24x48in"}, nil))
		require.NoError(t, l.run(ctx, []string{filepath.Join("samples", file, "mended.yaml"), filepath.Join("samples", "corner-gusset", "mended.yaml")}))
		_, err := os.Stat(filepath.Join(l.folder, "layout.csv"))
		if l.exit == exitCannot && len(l.files) == 0 {
			assert.Error(t, err)
			assert.Contains(t, talk.String(), "interrupted before there was a layout")
			continue
		}
		assert.NoError(t, err)
		assert.Contains(t, talk.String(), "best layout so far")
	}
}

// The line of progress is written over, and gone at the end; without a terminal
// there is none.
func TestProgress(t *testing.T) {
	var to bytes.Buffer
	p := &progress{to: &to, what: "1/4 in A36"}
	p.show(layout.Progress{Sheets: 1, Placed: 8, Total: 12, Utilisation: 0.5, Elapsed: 1500 * time.Millisecond})
	p.show(layout.Progress{Sheets: 2, Placed: 12, Total: 12, Utilisation: 0.4567})
	p.end()
	lines := strings.Split(to.String(), "\r")
	assert.Equal(t, "1/4 in A36: 8 of 12 on 1 sheet, 50.0 % used, 1.5 s", strings.TrimSpace(lines[1]))
	assert.Equal(t, "1/4 in A36: 12 of 12 on 2 sheets, 45.7 % used, 0.0 s", strings.TrimSpace(lines[2]))
	assert.Len(t, lines[3], p.wide)
	assert.Empty(t, strings.TrimSpace(lines[3]))
	silent := (&layouter{talk: &talk{err: &to}}).progress(&group{})
	assert.Nil(t, silent.to)
	to.Reset()
	silent.show(layout.Progress{})
	silent.end()
	assert.Empty(t, to.String())
}

// What --json prints is as its schema says, whether or not there is a layout.
func TestLayoutReportsFitTheSchema(t *testing.T) {
	t.Chdir(root)
	var schema map[string]any
	require.NoError(t, json.Unmarshal(layoutSchema, &schema))
	to := t.TempDir()
	tab := filepath.Join("samples", "axle-link-tab")
	for _, args := range [][]string{
		{filepath.Join(tab, "mended.yaml"), "--sheet", "24x48in"},
		{filepath.Join(tab, "mended.yaml") + "*30", "--sheet", "8x8in*2"},
		{filepath.Join(tab, "trap.yaml"), filepath.Join(tab, "mended.yaml"), "--sheet", "24x48in"},
		{filepath.Join(tab, "trap.yaml"), "--sheet", "24x48in"},
		{filepath.Join("flat", "describe", "testdata", "aliases.yaml"), "--sheet", "24x48in"},
		{filepath.Join(tab, "mended.yaml"), "--sheet", "1x1in"},
		{filepath.Join(tab, "nowhere.yaml"), "--sheet", "24x48in"},
	} {
		var out, talk bytes.Buffer
		run(append(append([]string{"blankwright", "layout"}, args...), "--iterations", "2", "--out", to, "--json"), nil, &out, &talk)
		var v any
		require.NoError(t, json.Unmarshal(out.Bytes(), &v), "%v: %s", args, talk.String())
		assert.NoError(t, fits(schema, schema, v, "layout"), args)
	}
}

// Each piece on a sheet is its part as it is drawn alone, in its own hand, turned
// and shifted to where the report says.
func TestLayoutPlacesEachHand(t *testing.T) {
	t.Chdir(root)
	to := t.TempDir()
	tab := filepath.Join("samples", "axle-link-tab", "mended.yaml")
	hanger := filepath.Join("samples", "hanger-plate", "mended.yaml")
	var out, talk bytes.Buffer
	require.Equal(t, exitClean, run([]string{"blankwright", "cut", tab, hanger, "--out", to}, nil, &out, &talk), talk.String())
	alone := map[string]geom.Loop{}
	for _, f := range names(t, to) {
		d, err := readDrawing(filepath.Join(to, f))
		require.NoError(t, err)
		require.Len(t, d.Regions, 1)
		hand := "as drawn"
		if strings.Contains(f, "mirrored") {
			hand = "mirrored"
		}
		alone[f[:strings.Index(f, "-rev-")]+", "+hand] = d.Regions[0].Outer
	}
	require.Len(t, alone, 4)
	r := layOut(t, exitClean, "blankwright", "layout", tab+"*3", hanger, "--sheet", "24x24in", "--iterations", "3", "--out", filepath.Join(to, "sheets"))
	count := map[string]int{}
	for _, s := range r.Groups[0].Sheets {
		d, err := readDrawing(s.Files[0])
		require.NoError(t, err)
		for _, p := range s.Pieces {
			name := strings.ReplaceAll(p.Part, " ", "-") + ", " + p.Hand
			count[name]++
			l := alone[name].Transform(geom.Rotate(p.Turn * math.Pi / 180))
			l = l.Transform(geom.Translate(p.X-l.Bounds().Min.X, p.Y-l.Bounds().Min.Y))
			least := math.Inf(1)
			for i := range d.Regions {
				least = min(least, strays(l, d.Regions[i].Outer))
			}
			assert.Less(t, least, 0.001, "%s %s", p.Label, name)
		}
	}
	assert.Equal(t, map[string]int{"axle-link-tab, as drawn": 3, "axle-link-tab, mirrored": 3, "hanger-plate, as drawn": 1, "hanger-plate, mirrored": 1}, count)
}

// strays is how far the ends and middles of the edges of l lie from m at most, mm.
func strays(l, m geom.Loop) (most float64) {
	index := geom.NewIndex(m)
	for _, g := range l {
		for _, q := range []geom.Point{g.A, g.At(0.5)} {
			if n, ok := index.NearestPoint(q, nil); ok {
				most = max(most, n.D)
			}
		}
	}
	return most
}
