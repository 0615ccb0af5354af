package dxf_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/flat/cutlist"
	"blankwright/flat/unit"
)

// TestVerifyOwn: every part in every flavour is found to be itself, and no other.
func TestVerifyOwn(t *testing.T) {
	for name, o := range flavours() {
		all := parts(t)
		for i, b := range all {
			data, err := dxf.Write(b, o)
			require.NoError(t, err)
			assert.NoError(t, dxf.Verify(data, b, o), "%s %d", name, i)
			other := all[(i+1)%len(all)]
			assert.Error(t, dxf.Verify(data, other, o), "%s %d", name, i)
		}
	}
}

// TestVerifyDamage: each way in which a written file may go wrong is told.
func TestVerifyDamage(t *testing.T) {
	b := plate("gusset", saddle(), cut("a", 12, 38, 13.5), slot("s", 30, 20, 9, 24, 0.5), drilled("d", 82, 40, 4))
	o := dxf.Options{Unit: unit.Millimetre}
	good, err := dxf.Write(b, o)
	require.NoError(t, err)
	require.NoError(t, dxf.Verify(good, b, o))
	text := string(good)
	replace := func(from, to string) string {
		i := strings.LastIndex(text, from)
		require.Positive(t, i, from)
		return text[:i] + to + text[i+len(from):]
	}
	entity := func(kind string) string {
		i := strings.LastIndex(text, "  0\r\n"+kind+"\r\n")
		return text[i : i+5+strings.Index(text[i+5:], "  0\r\n")]
	}
	for name, r := range map[string]struct{ text, want string }{
		"empty":          {"", "no end of file"},
		"cut short":      {text[:len(text)/2], ""},
		"lost last line": {strings.TrimSuffix(text, "\r\n"), "no end"},
		"more behind":    {text + "  0\r\nLINE\r\n", "behind its end"},
		"no number":      {replace(" 40\r\n6.75", " 40\r\nabc"), "no number"},
		"other diameter": {replace(" 40\r\n6.75", " 40\r\n6.7501"), `hole "a": it is no circle`},
		"line lost":      {replace(entity("LINE"), ""), "does not close"},
		"arc lost":       {replace(entity("ARC"), ""), ""},
		"line twice":     {replace(entity("LINE"), entity("LINE")+entity("LINE")), ""},
		"circle lost":    {replace(entity("CIRCLE"), ""), "closed lines, wanted 3"},
		"circle twice":   {replace(entity("CIRCLE"), entity("CIRCLE")+entity("CIRCLE")), "closed lines, wanted 3"},
		"layer":          {replace("  8\r\nHOLES", "  8\r\nOTHER"), "layer OTHER"},
		"text":           {replace(entity("CIRCLE"), entity("CIRCLE")+"  0\r\nTEXT\r\n  8\r\nOUTLINE\r\n"), "a TEXT"},
		"unit":           {strings.Replace(text, "$INSUNITS\r\n 70\r\n4", "$INSUNITS\r\n 70\r\n1", 1), "with unit"},
		"mark lost":      {strings.Replace(text, entity("CIRCLE"), entity("CIRCLE")+"  0\r\nLINE\r\n  8\r\nMARKS\r\n 10\r\n1.0\r\n 20\r\n1.0\r\n 11\r\n2.0\r\n 21\r\n1.0\r\n", 1), "lines on MARKS"},
	} {
		t.Run(name, func(t *testing.T) {
			require.NotEqual(t, text, r.text)
			err := dxf.Verify([]byte(r.text), b, o)
			require.Error(t, err)
			assert.Contains(t, err.Error(), r.want)
		})
	}
	// A hole that the blank itself has twice, or nearly.
	for _, by := range []float64{0, 0.01} {
		double := plate("gusset", saddle(), cut("a", 12, 38, 13.5), cut("b", 12+by, 38, 13.5))
		data, err := dxf.Write(double, o)
		require.NoError(t, err)
		assert.ErrorContains(t, dxf.Verify(data, double, o), "along one line")
	}
	concentric := plate("gusset", saddle(), cut("a", 12, 38, 13.5), cut("b", 12, 38, 13.6))
	data, err := dxf.Write(concentric, o)
	require.NoError(t, err)
	assert.NoError(t, dxf.Verify(data, concentric, o))
}

// Single bytes changed anywhere in the entities never pass for the part, but in a
// handle, a mark or the last of nine decimals.
func TestVerifyChangedDigit(t *testing.T) {
	b := plate("gusset", saddle(), cut("a", 12, 38, 13.5))
	o := dxf.Options{Unit: unit.Millimetre, Joined: true, Version: dxf.R12}
	good, err := dxf.Write(b, o)
	require.NoError(t, err)
	from := bytes.Index(good, []byte("ENTITIES"))
	changed := 0
	for i := from; i < len(good); i++ {
		if good[i] != '.' {
			continue
		}
		bad := bytes.Clone(good)
		bad[i-1] ^= 1 // the last digit before the point
		if bad[i-1] < '0' || bad[i-1] > '9' {
			continue
		}
		changed++
		assert.Error(t, dxf.Verify(bad, b, o), "byte %d", i)
	}
	assert.Greater(t, changed, 20)
}

// Reading back what was written makes nothing but what the blank itself makes for
// slots: it runs for every drawing.
func TestVerifyAllocations(t *testing.T) {
	part := bracket()
	part.Trace()
	o := dxf.Options{Unit: unit.Millimetre, Cuts: cutlist.Order(part)}
	data, err := dxf.Write(part, o)
	require.NoError(t, err)
	require.NoError(t, dxf.Verify(data, part, o))
	n := testing.AllocsPerRun(200, func() { _ = dxf.Verify(data, part, o) })
	assert.LessOrEqual(t, n, 8.0)
}

func FuzzVerify(f *testing.F) {
	b := plate("gusset", saddle(), cut("a", 12, 38, 13.5), slot("s", 30, 20, 9, 24, 0.5))
	for _, o := range flavours() {
		data, err := dxf.Write(b, o)
		require.NoError(f, err)
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, o := range []dxf.Options{{Unit: unit.Millimetre}, {Unit: unit.Inch, Version: dxf.R12}} {
			_ = dxf.Verify(data, b, o) // an error or nil, never a panic
		}
	})
}

func BenchmarkVerify(b *testing.B) {
	part := bracket()
	for name, o := range map[string]dxf.Options{"loose": {Unit: unit.Millimetre}, "joined": {Unit: unit.Inch, Joined: true}} {
		data, err := dxf.Write(part, o)
		if err != nil {
			b.Fatal(err)
		}
		o.Cuts = cutlist.Order(part) // as the command has them
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := dxf.Verify(data, part, o); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
