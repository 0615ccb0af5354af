package dxf

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestAppendNumber(t *testing.T) {
	for _, r := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{0, 9, "0.0"},
		{math.Copysign(0, -1), 9, "0.0"},
		{-1e-12, 9, "0.0"},
		{-4e-10, 9, "0.0"},
		{6e-10, 9, "0.000000001"},
		{-6e-10, 9, "-0.000000001"},
		{1, 9, "1.0"},
		{-1.5, 9, "-1.5"},
		{12.7, 9, "12.7"},
		{1.0 / 3, 9, "0.333333333"},
		{2.0 / 3, 15, "0.666666666666667"},
		{0.9999999999, 9, "1.0"},
		{1234567.000000001, 9, "1234567.000000001"},
		{100, 0, "100.0"},
		{10.06, 1, "10.1"},
		{0.25, 1, "0.2"},
		{359.9999999999999, 13, "359.9999999999999"},
		{1e22, 9, "10000000000000000000000.0"},
		{-1e17, 0, "-100000000000000000.0"},
		{123456789012.25, 9, "123456789012.25"},
		{9007199.254740993, 9, "9007199.254740993"},
	} {
		assert.Equal(t, r.want, string(appendNumber([]byte("x"), r.v, r.decimals))[1:], "%v at %d", r.v, r.decimals)
	}
}

// TestAppendNumberNear: what is written is within half a unit of the last
// decimal, and its form never changes.
func TestAppendNumberNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64().Draw(t, "v")
		if rapid.Bool().Draw(t, "usual") {
			v = rapid.Float64Range(-5000, 5000).Draw(t, "size")
		}
		decimals := rapid.IntRange(0, 15).Draw(t, "decimals")
		s := string(appendNumber(nil, v, decimals))
		got, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		unit := math.Pow(10, -float64(decimals))
		ulp := math.Nextafter(math.Abs(v), math.Inf(1)) - math.Abs(v)
		if math.Abs(got-v) > unit/2+ulp {
			t.Fatalf("%v at %d decimals is %s", v, decimals, s)
		}
		whole, frac, ok := strings.Cut(s, ".")
		if !ok || frac == "" || len(frac) > max(decimals, 1) || len(frac) > 1 && frac[len(frac)-1] == '0' || whole == "" || whole == "-" {
			t.Fatalf("form of %s", s)
		}
		if s[0] == '-' && strings.Trim(s, "-0.") == "" {
			t.Fatalf("%s", s)
		}
	})
}
