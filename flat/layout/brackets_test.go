package layout

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/samples"
)

var sheetTime = flag.Duration("sheet.time", time.Second, "how long to search for a layout on sheets")
var sheetSeed = flag.Uint64("sheet.seed", 1, "seed of the search on sheets")

// brackets are n blanks of the sample parts in all their kinds and hands.
func brackets(t testing.TB, n int) []Piece {
	t.Helper()
	var pieces []Piece
	for _, s := range samples.List() {
		if s.Variant == samples.Trap || s.Name == "calibration-coupon" {
			continue
		}
		part, problems := describe.Parse(s.Path, s.Text)
		require.Empty(t, problems)
		blanks, err := blank.Make(part)
		require.NoError(t, err)
		for _, b := range blanks {
			pieces = append(pieces, Piece{Name: b.Name + b.Hand.String(), Region: b.Region()})
		}
	}
	for i := range n {
		pieces[i%len(pieces)].Quantity++
	}
	return pieces
}

// plain is a rectangular sheet, mm.
func plain(name string, w, h float64, count int) Sheet {
	return Sheet{Name: name, Region: rectangle(geom.Box{Max: geom.Point{X: w, Y: h}}), Count: count}
}

const (
	foot = 304.8
	gap  = 6.0
	edge = 10.0
)

// Layouts of 20, 50 and 200 brackets with arcs and openings on 4x8 ft sheets.
// "length%" is what is used of the last sheet, "bound%" is what no layout can
// go below: area alone, by the polygons that hold half the gap round each piece.
func BenchmarkBrackets(b *testing.B) {
	for _, n := range []int{20, 50, 200} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			pieces := brackets(b, n)
			sheet := plain("4x8 ft", 8*foot, 4*foot, 0)
			for range b.N {
				o := Options{Gap: gap, Margin: edge, InsideOpenings: true, Seed: *sheetSeed, Time: *sheetTime}
				first := time.Duration(0)
				start := time.Now()
				o.Progress = func(p Progress) {
					if first == 0 && p.Placed == p.Total {
						first = p.Elapsed
					}
					fmt.Fprintf(os.Stderr, "%s sheets %d placed %d/%d %.2f%%\n", p.Elapsed.Round(time.Millisecond), p.Sheets, p.Placed, p.Total, 100*p.Utilisation)
				}
				r, err := Plan(context.Background(), pieces, []Sheet{sheet}, o)
				require.NoError(b, err)
				b.ReportMetric(time.Since(start).Seconds(), "total-s")
				b.ReportMetric(first.Seconds(), "first-s")
				b.ReportMetric(float64(len(r.Sheets)), "sheets")
				last := geom.Box{}
				for _, p := range r.Placements {
					if p.Sheet == len(r.Sheets)-1 {
						last = last.Union(pieces[p.Piece].Region.Transform(p.Motion).Bounds())
					}
				}
				b.ReportMetric(100*last.Max.X/(8*foot), "length%")
				m, err := newModel(pieces, o)
				require.NoError(b, err)
				area := 0.0
				for _, it := range m.items {
					area += m.kinds[it].area
				}
				free := (8*foot - 2*edge + gap) * (4*foot - 2*edge + gap)
				b.ReportMetric(100*area/free/1, "bound%")
				var ms runtime.MemStats
				runtime.ReadMemStats(&ms)
				b.ReportMetric(float64(ms.Sys)/1e6, "MB")
			}
		})
	}
}

// Two hundred pieces of as many kinds, at any angle: every pair of turns has a
// field of its own.
func BenchmarkDistinct(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 5))
	var pieces []Piece
	for range 200 {
		pieces = append(pieces, Piece{Name: "piece", Region: randomPiece(b, r), Quantity: 1})
	}
	for range b.N {
		first := time.Duration(0)
		o := Options{Gap: gap, Margin: edge, InsideOpenings: true, Seed: *sheetSeed, Time: *sheetTime}
		o.Progress = func(p Progress) {
			if first == 0 && p.Placed == p.Total {
				first = p.Elapsed
			}
		}
		start := time.Now()
		res, err := Plan(context.Background(), pieces, []Sheet{plain("4x8 ft", 8*foot, 4*foot, 0)}, o)
		require.NoError(b, err)
		b.ReportMetric(first.Seconds(), "first-s")
		b.ReportMetric(time.Since(start).Seconds(), "total-s")
		b.ReportMetric(float64(len(res.Sheets)), "sheets")
		b.ReportMetric(100*res.Utilisation, "used%")
		var ms runtime.MemStats
		runtime.ReadMemStats(&ms)
		b.ReportMetric(float64(ms.Sys)/1e6, "MB")
	}
}
