package layout

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"blankwright/flat/geom"
)

var stripTime = flag.Duration("strip.time", time.Second, "how long to search for each strip")
var stripSeed = flag.Uint64("strip.seed", 1, "seed of the search for strips")
var stripPrint = flag.Bool("strip.print", false, "print better strips as they are found")

func readStrip(t testing.TB, name string) (pieces []Piece, height float64) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "strip", name+".json"))
	require.NoError(t, err)
	var set struct {
		Items []struct {
			Demand              int
			AllowedOrientations []float64
			Shape               struct{ Data [][2]float64 }
		}
		Strip struct{ Height float64 }
	}
	require.NoError(t, json.Unmarshal(text, &set))
	for _, it := range set.Items {
		var pts []geom.Point
		for _, p := range it.Shape.Data[:len(it.Shape.Data)-1] {
			pts = append(pts, geom.Point{X: p[0], Y: p[1]})
		}
		l := geom.Polygon(pts...)
		if l.Area() < 0 {
			l = l.Reverse()
		}
		turns := []float64{}
		for _, a := range it.AllowedOrientations {
			turns = append(turns, a*math.Pi/180)
		}
		pieces = append(pieces, Piece{Name: name, Region: geom.Region{Outer: l}, Quantity: it.Demand, Turns: turns})
	}
	return pieces, set.Strip.Height
}

var published = map[string]float64{"albano": 89.82, "dagli": 90.17, "mao": 86.87, "marques": 92.02, "shirts": 90.92}

// cpuClock runs with the processor time that the process has used, on two cores:
// what a clock on the wall shows on a machine with nothing else to do.
func cpuClock() time.Time {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return time.Now()
	}
	return time.Unix(0, (u.Utime.Nano()+u.Stime.Nano())/2)
}

func BenchmarkStrip(b *testing.B) {
	for _, name := range []string{"albano", "dagli", "mao", "marques", "shirts"} {
		b.Run(name, func(b *testing.B) {
			pieces, height := readStrip(b, name)
			for range b.N {
				o := Options{Seed: *stripSeed, Time: *stripTime, clock: cpuClock}
				if *stripPrint {
					o.Progress = func(p Progress) {
						fmt.Fprintf(os.Stderr, "%s %.2f\n", p.Elapsed.Round(time.Millisecond), 100*p.Utilisation)
					}
				}
				r, err := Strip(context.Background(), pieces, height, o)
				require.NoError(b, err)
				b.ReportMetric(100*r.Density, "density%")
				b.ReportMetric(published[name]-100*r.Density, "gap")
			}
		})
	}
}
