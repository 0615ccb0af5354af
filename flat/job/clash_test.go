package job

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/flat/cope"
	"blankwright/flat/diag"
	"blankwright/flat/link"
)

// fan is a job of two tubes from one sleeve at the pivot hub, and its files.
type fan struct {
	hubAxis, aAt, bAt, aAxis, bAxis link.Vec
	odA, odB                        float64
	hand                            string // of tube b's file
	also                            string // what tube b meets at the hub beside its sleeve
}

const hubOD = 44.45

func (f *fan) write(v link.Vec) string { return fmt.Sprintf("[%.9f, %.9f, %.9f]", v.X, v.Y, v.Z) }

// tubeFile is a tube from the hub that fits its pivots.
func (f *fan) tubeFile(name string, od float64, at, axis link.Vec, hand, also string) string {
	p, err := link.TubeBetween(cope.Tube{OD: od, Wall: 2.6}, link.Vec{}, at, link.Sleeve{OD: hubOD, Axis: f.hubAxis}, link.Sleeve{OD: hubOD, Axis: axis})
	if err != nil {
		panic(err)
	}
	turn := p.Turn / degree
	if hand == "mirrored" {
		turn = -turn
	}
	s := fmt.Sprintf("tube: %s\nunits: mm\nhand: %s\nsection: {outside: %g, wall: 2.6, material: S355}\ncentres: %.9f\nturn: %.9f deg\n", name, hand, od, at.Len(), turn)
	for i, k := range [2]cope.Cutter{p.First[0], p.Second[0]} {
		s += fmt.Sprintf("%s:\n  - {main: %g, angle: %.9f deg}\n", endWords[i], hubOD, k.(cope.Main).Angle/degree)
		if i == 0 && also != "" {
			s += "  - " + also + "\n"
		}
	}
	return s
}

func (f *fan) findings(t *testing.T) []diag.Finding {
	sleeve := fmt.Sprintf("sleeve: {outside: %g, bore: 31.75, length: 400}", hubOD)
	text := "job: fan\nunits: mm\npivots:\n" +
		"  hub: {at: [0, 0, 0], axis: " + f.write(f.hubAxis) + ", " + sleeve + "}\n" +
		"  a: {at: " + f.write(f.aAt) + ", axis: " + f.write(f.aAxis) + ", " + sleeve + "}\n" +
		"  b: {at: " + f.write(f.bAt) + ", axis: " + f.write(f.bAxis) + ", " + sleeve + "}\n" +
		"tubes:\n  a: {file: a.yaml, from: hub, to: a}\n  b: {file: b.yaml, from: hub, to: b}\n"
	hand := f.hand
	if hand == "" {
		hand = "as drawn"
	}
	j, err := make1(t, text, func(path string) ([]byte, error) {
		if path == "a.yaml" {
			return []byte(f.tubeFile("a", f.odA, f.aAt, f.aAxis, "as drawn", "")), nil
		}
		return []byte(f.tubeFile("b", f.odB, f.bAt, f.bAxis, hand, f.also)), nil
	})
	require.NoError(t, err)
	return Run(j)
}

func up() link.Vec { return link.Vec{Z: 1} }

func flatFan(angle float64) *fan {
	sin, cos := math.Sincos(angle * degree)
	return &fan{hubAxis: up(), aAxis: up(), bAxis: up(), aAt: link.Vec{X: 600}, bAt: link.Vec{X: 600 * cos, Y: 600 * sin}, odA: 25.4, odB: 25.4}
}

// Two alike tubes square to their sleeve have their inner edges meet at r/sin(half
// the angle) from the pivot: inside the sleeve, nothing is in the way.
func TestClashInThePlane(t *testing.T) {
	least := 2 * math.Asin(25.4/hubOD) / degree // 69.7 degrees
	require.Empty(t, flatFan(least+1).findings(t))
	require.Empty(t, flatFan(180).findings(t))
	last := 0.0
	for _, angle := range []float64{least - 5, 55, 40, 25} {
		fs := flatFan(angle).findings(t)
		require.Len(t, fs, 1, "%g", angle)
		require.Equal(t, "job-clash", fs[0].Rule)
		require.Greater(t, fs[0].Got, last)
		require.Less(t, fs[0].Got, 25.4)
		last = fs[0].Got
	}
}

var listed = regexp.MustCompile(`\{name: a, .*\}`)

// Whatever the pivots: what the finding says to write takes the clash away, and
// turned the other way it does not.
func TestClashMends(t *testing.T) {
	clashes, wrong := 0, 0
	for seed := range uint64(240) {
		r := rand.New(rand.NewPCG(seed, 8))
		v := func() link.Vec {
			return link.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}.Unit()
		}
		f := &fan{hubAxis: v(), aAxis: v(), bAxis: v(), odA: 25.4, odB: []float64{20, 25.4, 30}[seed%3], hand: []string{"as drawn", "mirrored"}[seed%2]}
		if seed%5 == 0 { // square to the hub's sleeve, which has two heels
			f.aAt, f.bAt = f.hubAxis.Cross(v()).Unit().Mul(700), f.hubAxis.Cross(v()).Unit().Mul(700)
		} else {
			f.aAt, f.bAt = v().Mul(700), v().Mul(700)
		}
		angle := math.Acos(f.aAt.Unit().Dot(f.bAt.Unit())) / degree
		steep := true
		for _, p := range [][2]link.Vec{{f.aAt, f.hubAxis}, {f.bAt, f.hubAxis}, {f.aAt, f.aAxis}, {f.bAt, f.bAxis}} {
			steep = steep && math.Abs(p[0].Unit().Dot(p[1])) < math.Cos(25*degree)
		}
		if !steep || angle < 15 {
			continue
		}
		fs := f.findings(t)
		if len(fs) == 0 {
			continue
		}
		clashes++
		require.Len(t, fs, 1, "%d", seed)
		require.Equal(t, "job-clash", fs[0].Rule)
		f.also = listed.FindString(fs[0].Fix)
		require.NotEmpty(t, f.also, fs[0].Fix)
		require.Empty(t, f.findings(t), "%d: %s", seed, f.also)
		f.also = strings.Replace(strings.Replace(f.also, "turn: ", "turn: -", 1), "--", "", 1)
		if len(f.findings(t)) > 0 {
			wrong++
		}
	}
	require.Greater(t, clashes, 10)
	require.Greater(t, wrong, clashes/2)
}
