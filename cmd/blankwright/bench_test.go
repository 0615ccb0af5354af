package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// bracket is a description of 24 segments (12 straight edges, 12 rounded
// corners) and 4 holes, marked with its name.
const bracket = `part: bench bracket
quantity: 4
units: in
plate: {thickness: 1/4, material: A36}
process: air plasma
let: {w: 8, h: 6, r: 3/8}
holes:
  a: {at: [1, 1], bolt: 1/2-13 grade 8}
  b: {at: [w - 1, 1], bolt: 1/2-13 grade 8}
  c: {at: [2, h - 1], bolt: 3/8}
  d: {at: [w/2, 2-1/2], diameter: 1-1/4}
outline:
  corners:
    - {at: [0, 0], radius: r}
    - {at: [w, 0], radius: r}
    - {at: [w, 2], radius: r}
    - {at: [7, 2], radius: r}
    - {at: [7, 4], radius: r}
    - {at: [w, 4], radius: r}
    - {at: [w, h], radius: r}
    - {at: [5, h], radius: r}
    - {at: [5, 5], radius: r}
    - {at: [3, 5], radius: r}
    - {at: [3, h], radius: r}
    - {at: [0, h], radius: r}
`

func checkBracket(b *testing.B, out outcome, files int) {
	b.Helper()
	if out.err != nil {
		b.Fatal(out.err)
	}
	c := out.blanks[0]
	if c.failed || len(c.blank.Outline) != 24 || len(c.blank.Holes) != 4 || len(c.files) != files {
		b.Fatalf("not the bracket meant: %d segments, %d holes, %d files, %v", len(c.blank.Outline), len(c.blank.Holes), len(c.files), c.findings)
	}
}

// From the text of a description to checked DXF and SVG bytes: the bracket alone,
// and with its name, whose strokes are three times its own segments and need a
// place.
func BenchmarkTextToDrawings(b *testing.B) {
	o := order{dxf: true, paperOrder: paperOrder{svg: true}}
	b.Run("plain", func(b *testing.B) { benchText(b, bracket+"marks: []\n", o, 2) })
	b.Run("marked", func(b *testing.B) { benchText(b, bracket, o, 2) })
}

// From the text of a description to all that make writes, the PDF included.
func BenchmarkTextToAll(b *testing.B) {
	benchText(b, bracket, everything, 3)
}

// everything is what make is asked for.
var everything = order{dxf: true, paperOrder: paperOrder{svg: true, pdf: true}}

// The whole sample job, from the text of its descriptions to all that make writes:
// plates, templates, figures, traveller and report.
func BenchmarkSampleJob(b *testing.B) {
	path := filepath.Join(root, "samples", "jobs", "anti-wrap-link", "mended", "job.yaml")
	text, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		out := workText(path, text, everything)
		if out.err != nil || len(out.products) != 1 || len(out.products[0].files) < 15 {
			b.Fatal("not the job meant", out.err)
		}
	}
}

func benchText(b *testing.B, text string, o order, files int) {
	checkBracket(b, workText("bench.yaml", []byte(text), o), files)
	b.ReportAllocs()
	for b.Loop() {
		workText("bench.yaml", []byte(text), o)
	}
}

// 10,000 descriptions on disk to 30,000 files on disk, on all processors.
func BenchmarkBatch10000(b *testing.B) {
	in, out := b.TempDir(), b.TempDir()
	for i := range 10_000 {
		text := strings.Replace(bracket, "bench bracket", fmt.Sprintf("bracket %05d", i), 1)
		if err := os.WriteFile(filepath.Join(in, fmt.Sprintf("b%05d.yaml", i)), []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		var quiet discard
		if code := run([]string{"blankwright", "make", in, "--out", out}, nil, quiet, quiet); code != exitClean {
			b.Fatalf("exit code %d", code)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/10_000, "µs/part")
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }
