package geom

import (
	"encoding/hex"
	"errors"
	"flag"
	"math/rand/v2"
	"testing"
)

// Long runs: go test ./flat/geom -run TestKernelCases -kernel.count 10000000 -timeout 0
var (
	kernelCount = flag.Int("kernel.count", 4000, "number of random cases that TestKernelCases runs")
	kernelSeed  = flag.Uint64("kernel.seed", 1, "seed of the random cases")
)

// TestKernelCases runs random cases through the laws that FuzzBoolean and
// FuzzOffset check, without the cost of coverage: half booleans, half offsets;
// every eighth in depth. A violated law fails; a refused case is counted, and
// more than one in 100,000 fails.
func TestKernelCases(t *testing.T) {
	rng := rand.New(rand.NewPCG(*kernelSeed, 7))
	data := make([]byte, 96)
	refusals, shown := 0, 0
	for i := range *kernelCount {
		for k := range data {
			data[k] = byte(rng.Uint32())
		}
		name, f := "boolean", booleanCase
		if i&1 == 1 {
			name, f = "offset", offsetCase
		}
		err := f(data, i/2%8 == 0)
		switch {
		case err == nil:
		case errors.Is(err, errRefused):
			if refusals++; shown < 3 {
				shown++
				t.Logf("%s case %s: %v", name, hex.EncodeToString(data), err)
			}
		default:
			t.Errorf("%s case %s: %v", name, hex.EncodeToString(data), err)
			if shown++; shown > 20 {
				t.FailNow()
			}
		}
	}
	t.Logf("%d cases, %d refused", *kernelCount, refusals)
	if refusals > 1+*kernelCount/100000 {
		t.Errorf("%d of %d cases refused", refusals, *kernelCount)
	}
}

func FuzzBoolean(f *testing.F) { fuzzCases(f, booleanCase) }

func FuzzOffset(f *testing.F) { fuzzCases(f, offsetCase) }

func fuzzCases(f *testing.F, check func([]byte, bool) error) {
	rng := rand.New(rand.NewPCG(3, 9))
	for range 64 {
		data := make([]byte, 64)
		for k := range data {
			data[k] = byte(rng.Uint32())
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := check(data, true); err != nil && !errors.Is(err, errRefused) {
			t.Error(err)
		}
	})
}
