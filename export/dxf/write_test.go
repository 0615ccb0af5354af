package dxf_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

func TestReadBack(t *testing.T) {
	for name, o := range flavours() {
		for _, b := range parts(t) {
			t.Run(fmt.Sprintf("%s/%.10q", name, b.Name), func(t *testing.T) {
				data, err := dxf.Write(b, o)
				require.NoError(t, err)
				require.NoError(t, compare(b, o, data))
			})
		}
	}
}

func TestComments(t *testing.T) {
	b := parts(t)[3]
	b.Revision, b.Marks = "B", []blank.MarkText{{Text: "T1"}}
	b.Holes = append(b.Holes, drilled("keeper", 20, 30, 4), blank.Hole{Name: "long", Centre: pt(20, 40), Dia: 4, Length: 10})
	data, err := dxf.Write(b, dxf.Options{Unit: unit.Inch, Note: "one\r\n\ntwo " + strings.Repeat("long ", 60)})
	require.NoError(t, err)
	d, err := read(data, false)
	require.NoError(t, err)
	require.Equal(t, []string{
		"blankwright",
		"part: crossmember plate",
		"revision: B",
		"hand: as drawn",
		"quantity: 2",
		"material: A36",
		"thickness: 6.35 mm (0.25 in)",
		"coordinates in inches: table must show 3.5433 x 1.9685 in",
		"nominal edges: no kerf compensation",
		"layers in cutting order: MARKS, HOLES, SLOTS, CUTOUTS, OUTLINE",
		"start: small at 270 deg", "start: bore at 0 deg", "start: bolt at 270 deg",
		"ream after cutting: bore from 0.4528 to 0.4724 at 2.3622, 0.4724 in",
		"drill by hand: keeper diameter 0.1575 at 0.7874, 1.1811 in: drill",
		"punch mark there: open cross, 0.1575 in across",
		"drill by hand: long slot 0.1575 x 0.3937, both ends marked, at 0.7874, 1.5748 in",
		"punch mark there: open cross, 0.1575 in across",
		"layer MARKS: with a marker, a scribe or a pulse, never at cutting power",
		"mark by hand: T1",
		"note: one",
		"note: two " + strings.TrimRight(strings.Repeat("long ", 39), " "),
		"note: " + strings.Repeat("long ", 21),
	}, d.comments)
}

// TestKerfIsSaid: a compensated drawing says so instead of what a nominal one
// says, in its own unit, together with the blank's notes.
func TestKerfIsSaid(t *testing.T) {
	b := parts(t)[3]
	b.Kerf = 1.5
	b.Notes = []string{"saddle \"axle\": radius 30.95 mm"}
	for sys, want := range map[unit.System]string{
		unit.Millimetre: "edges compensated for a kerf of 1.500 mm: outline 0.750 outside, openings 0.750 inside",
		unit.Inch:       "edges compensated for a kerf of 0.0591 in: outline 0.0295 outside, openings 0.0295 inside",
	} {
		data, err := dxf.Write(b, dxf.Options{Unit: sys})
		require.NoError(t, err)
		d, err := read(data, false)
		require.NoError(t, err)
		require.Contains(t, d.comments, want)
		require.Contains(t, d.comments, "switch the table's own kerf compensation off")
		require.Contains(t, d.comments, "note: saddle \"axle\": radius 30.95 mm")
		require.NotContains(t, string(data), "nominal edges")
	}
}

// TestHostileText writes texts that try to add to the drawing: the entities must
// be those of the same part with plain names.
func TestHostileText(t *testing.T) {
	texts := []string{
		"", " ", "\n", "\r", "\r\n", "a\n  0\nLINE", "a\r  0\rLINE", "a\v0\fLINE", "\x00", "\x1a", "\x7f",
		"\u0085  0\u0085LINE", "\u2028LINE\u2029", "\ufeff", "\u202egnp", "\xff\xfe\x00", "é ½ Ø 漢字", "😀", `\U+000A`, `\U+0`, `\u000a`,
		"^J^M", "%%c%%d%%p%%010", `"quoted" 'too'`, "EOF", "  0", "ENDSEC", "<&>`$(id)", strings.Repeat("x", 5000),
		strings.Repeat("\U0001F600", 300), strings.Repeat("é ", 500), strings.Repeat("\n0\nEOF", 100),
	}
	plain := parts(t)[3]
	for name, o := range flavours() {
		o.Note = ""
		clean, err := dxf.Write(plain, o)
		require.NoError(t, err)
		base, err := read(clean, o.Version == dxf.R12)
		require.NoError(t, err)
		for _, text := range texts {
			b := *plain
			b.Name, b.Revision, b.Material.Name = text, text, text
			b.Holes = append([]blank.Hole{}, plain.Holes...)
			for i := range b.Holes {
				b.Holes[i].Name, b.Holes[i].Callout = text, text
			}
			b.Marks = []blank.MarkText{{Text: text}}
			b.Notes = []string{text}
			o.Note = text
			data, err := dxf.Write(&b, o)
			require.NoError(t, err, "%s %q", name, text)
			d, err := read(data, o.Version == dxf.R12)
			require.NoError(t, err, "%s %q", name, text)
			require.Equal(t, base.entities, d.entities, "%s %q", name, text)
			require.NotContains(t, string(data), `\U+000A`, "%s %q", name, text)
			for _, c := range d.comments {
				require.Regexp(t, `^(blankwright$|[a-z ]+: |nominal |coordinates |layers )`, c)
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := func() *blank.Blank {
		return plate("gusset", saddle(), cut("a", 12, 38, 13.5), slot("s", 30, 20, 9, 24, 0.5), drilled("d", 82, 40, 4))
	}
	mm := dxf.Options{Unit: unit.Millimetre}
	rows := []struct {
		name    string
		options dxf.Options
		spoil   func(*blank.Blank)
		want    string
	}{
		{"no unit", dxf.Options{}, func(*blank.Blank) {}, "no unit is chosen"},
		{"unit of another world", dxf.Options{Unit: 7}, func(*blank.Blank) {}, "no unit is chosen"},
		{"version", dxf.Options{Unit: unit.Inch, Version: 2}, func(*blank.Blank) {}, "version 2 is not known"},
		{"negative version", dxf.Options{Unit: unit.Inch, Version: -1}, func(*blank.Blank) {}, "version -1 is not known"},
		{"no outline", mm, func(b *blank.Blank) { b.Outline = nil }, "outline: it has 0 segments"},
		{"nan in outline", mm, func(b *blank.Blank) { b.Outline[2].A.X = nan }, "outline: segment 3, from NaN"},
		{"infinite bulge", mm, func(b *blank.Blank) { b.Outline[1].Bulge = inf }, "not all of it is a finite number"},
		{"open outline", mm, func(b *blank.Blank) { b.Outline[0].B.X += 1e-3; b.Outline[1].A.X += 2e-3 }, "misses the circle"},
		{"gap", mm, func(b *blank.Blank) { b.Outline[2].B.Y += 1e-3 }, "open at 90, 50.001"},
		{"missing segment", mm, func(b *blank.Blank) { b.Outline = b.Outline[:8] }, "open at 0, 10"},
		{"no length", mm, func(b *blank.Blank) {
			b.Outline = append(geom.Loop{geom.Line(pt(10, 0), pt(10, 0))}, b.Outline...)
		}, "segment 1, from 10, 0: it has no length"},
		{"bulge over half a turn", mm, func(b *blank.Blank) {
			b.Outline = geom.Loop{{A: pt(0, 0), B: pt(9, 0), Bulge: 1.5}, {A: pt(9, 0), B: pt(0, 0), Bulge: 0.1}}
		}, "over half a turn"},
		{"arc off its circle", mm, func(b *blank.Blank) { b.Outline[1].Bulge = -b.Outline[1].Bulge }, "misses the circle it carries"},
		{"open cutout", mm, func(b *blank.Blank) {
			b.Cutouts = []blank.Cutout{{Name: "window", Loop: geom.Polygon(pt(40, 20), pt(50, 20), pt(50, 30))[:2]}}
		}, `cutout "window": open at`},
		{"no cutout", mm, func(b *blank.Blank) { b.Cutouts = []blank.Cutout{{Name: "nothing"}} }, `cutout "nothing": it has 0 segments`},
		{"nan hole", mm, func(b *blank.Blank) { b.Holes[0].Centre.Y = nan }, `hole "a": its place or size is not a finite number`},
		{"infinite hole", mm, func(b *blank.Blank) { b.Holes[0].CutDia = inf }, `hole "a": its place or size`},
		{"negative hole", mm, func(b *blank.Blank) { b.Holes[0].CutDia = -3 }, `hole "a": its diameter as cut is -3 mm`},
		{"no diameter", mm, func(b *blank.Blank) { b.Holes[2].Dia = 0 }, `hole "d": its diameter is 0 mm`},
		{"short slot", mm, func(b *blank.Blank) { b.Holes[1].Length = 8 }, `hole "s": it is 8 mm long and 9 mm wide`},
		{"too large a number", mm, func(b *blank.Blank) {
			b.Outline = geom.Loop{geom.Line(pt(-1e308, 0), pt(1e308, 0)), geom.Line(pt(1e308, 0), pt(0, 1)), geom.Line(pt(0, 1), pt(-1e308, 0))}
		}, "it measures +Inf x "},
		{"too large a plate", mm, func(b *blank.Blank) { b.Holes[0].Centre.X = 2e7 }, "it measures 2.0000006"},
		{"too large a radius", mm, func(b *blank.Blank) {
			b.Outline = geom.Loop{geom.Line(pt(0, 0), pt(99, 0)), geom.Line(pt(99, 0), pt(0, 50)), geom.BulgeSeg(pt(0, 50), pt(0, 0), 1e-7)}
		}, "its radius is 1.25"},
	}
	for _, r := range rows {
		for _, joined := range []bool{false, true} {
			b := good()
			r.spoil(b)
			o := r.options
			o.Joined = joined
			data, err := dxf.Write(b, o)
			require.Error(t, err, r.name)
			require.Nil(t, data, r.name)
			require.ErrorContains(t, err, r.want, r.name)
		}
	}
	_, err := dxf.Write(nil, mm)
	require.Error(t, err)
}

// TestSameBytes asks for the same bytes from run to run, whatever was written
// before, and from many goroutines at once.
func TestSameBytes(t *testing.T) {
	type job struct {
		b    *blank.Blank
		o    dxf.Options
		want []byte
	}
	var jobs []job
	for _, o := range flavours() {
		for _, b := range parts(t) {
			data, err := dxf.Write(b, o)
			require.NoError(t, err)
			jobs = append(jobs, job{b, o, data})
		}
	}
	var wg sync.WaitGroup
	for w := range 8 {
		wg.Go(func() {
			for i := range jobs {
				j := jobs[(i*(2*w+1)+w)%len(jobs)]
				data, err := dxf.Write(j.b, j.o)
				if err != nil || !bytes.Equal(data, j.want) {
					t.Errorf("%q: another drawing than before, error %v", j.b.Name, err)
				}
			}
		})
	}
	wg.Wait()
}

// TestBytesAreTheCallers: a later drawing must not change an earlier one.
func TestBytesAreTheCallers(t *testing.T) {
	ps := parts(t)
	o := dxf.Options{Unit: unit.Millimetre}
	first, err := dxf.Write(ps[0], o)
	require.NoError(t, err)
	kept := bytes.Clone(first)
	for _, b := range ps {
		_, err := dxf.Write(b, o)
		require.NoError(t, err)
	}
	require.Equal(t, kept, first)
}

// TestAfterAnError: a refused drawing leaves nothing behind for the next.
func TestAfterAnError(t *testing.T) {
	b := parts(t)[0]
	o := dxf.Options{Unit: unit.Inch, Joined: true}
	want, err := dxf.Write(b, o)
	require.NoError(t, err)
	bad := *b
	bad.Outline = geom.Loop{geom.Line(pt(-1e308, 0), pt(1e308, 0)), geom.Line(pt(1e308, 0), pt(0, 1)), geom.Line(pt(0, 1), pt(-1e308, 0))}
	_, err = dxf.Write(&bad, dxf.Options{Unit: unit.Millimetre})
	require.Error(t, err)
	got, err := dxf.Write(b, o)
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))
}

// TestHoleOverTheEdge: where failed checks were accepted a hole may reach beyond
// the outline; the extents say so and 0,0 stays at the outline.
func TestHoleOverTheEdge(t *testing.T) {
	b := plate("plate", saddle(), cut("out", -3, 20, 10))
	o := dxf.Options{Unit: unit.Millimetre}
	data, err := dxf.Write(b, o)
	require.NoError(t, err)
	require.NoError(t, compare(b, o, data))
	d, err := read(data, false)
	require.NoError(t, err)
	require.Equal(t, -8.0, d.header["$EXTMIN"].point(10).X)
}

// TestRoundSlot: a slot as long as it is wide is a round hole.
func TestRoundSlot(t *testing.T) {
	data, err := dxf.Write(plate("plate", saddle(), slot("s", 30, 20, 9, 9, 1)), dxf.Options{Unit: unit.Millimetre})
	require.NoError(t, err)
	d, err := read(data, false)
	require.NoError(t, err)
	require.Equal(t, "CIRCLE", d.entities[0].kind)
	require.Equal(t, "HOLES", d.entities[0].text(8))
}

// TestInputUntouched: writing does not reorder the holes or move the outline.
func TestInputUntouched(t *testing.T) {
	b, again := parts(t)[3], parts(t)[3]
	_, err := dxf.Write(b, dxf.Options{Unit: unit.Inch})
	require.NoError(t, err)
	require.Equal(t, again.Outline, b.Outline)
	for i := range b.Holes {
		require.Equal(t, again.Holes[i].Name, b.Holes[i].Name)
	}
}

// TestManyEntities goes over what a kept sheet may hold.
func TestManyEntities(t *testing.T) {
	b := plate("sieve", geom.Loop{
		geom.Line(pt(0, 0), pt(1000, 0)), geom.Line(pt(1000, 0), pt(1000, 1000)),
		geom.Line(pt(1000, 1000), pt(0, 1000)), geom.Line(pt(0, 1000), pt(0, 0)),
	})
	for i := range 5000 {
		b.Holes = append(b.Holes, cut("h", 10+float64(i%70)*14, 10+float64(i/70)*13, 4+float64(i%7)/4))
	}
	for _, o := range flavours() {
		data, err := dxf.Write(b, o)
		require.NoError(t, err)
		require.NoError(t, compare(b, o, data))
	}
}
