package check

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
	"blankwright/profiles"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func partOf(t testing.TB, text string) *blank.Blank {
	t.Helper()
	p, err := describe.Parse("part.yaml", []byte(text))
	require.NoError(t, err)
	bs, err := blank.Make(p)
	require.NoError(t, err)
	return bs[0]
}

func taken(t testing.TB, b *blank.Blank, rule, place string) Utilisation {
	t.Helper()
	for _, u := range Utilisations(b) {
		if u.Rule == rule && u.Place == place {
			return u
		}
	}
	t.Fatalf("%s at %s was not weighed", rule, place)
	return Utilisation{}
}

// loadedPlate is a thick plate with up to five bolts under up to two cases.
func loadedPlate(t *rapid.T) *blank.Blank {
	m, err := profiles.FindMaterial(rapid.SampledFrom([]string{"A36", "S355"}).Draw(t, "material"))
	if err != nil {
		t.Fatal(err)
	}
	b := &blank.Blank{Part: &describe.Part{}, Material: m, Thickness: rapid.Float64Range(3, 20).Draw(t, "thickness")}
	b.Part.Rules.Text = rapid.SampledFrom([]string{"aisc 360 lrfd", "aisc 360 asd", "en 1993-1-8"}).Draw(t, "rules")
	w, h := rapid.Float64Range(150, 300).Draw(t, "w"), rapid.Float64Range(150, 300).Draw(t, "h")
	b.Outline = rectangle(w, h)
	bolt, err := profiles.FindBolt("M16 8.8")
	if err != nil {
		t.Fatal(err)
	}
	n := rapid.IntRange(1, 5).Draw(t, "bolts")
	for i := range n {
		b.Holes = append(b.Holes, boltHole("h"+strconv.Itoa(i+1), geom.Point{
			X: 30 + (w-60)/2.4*(float64(i%3)+rapid.Float64Range(0, 0.4).Draw(t, "x")), Y: 30 + (h-60)/2.4*(float64(i/3)+rapid.Float64Range(0, 0.4).Draw(t, "y"))}, &bolt, 18))
	}
	for k := range rapid.IntRange(1, 2).Draw(t, "cases") {
		a := rapid.OneOf(rapid.Float64Range(0, 2*math.Pi), rapid.Map(rapid.IntRange(0, 3), func(n int) float64 { return float64(n) * math.Pi / 2 })).Draw(t, "direction")
		f := rapid.Float64Range(1e3, 80e3).Draw(t, "force")
		l := blank.Load{Name: "load " + strconv.Itoa(k+1), Case: strconv.Itoa(k), Planes: 1, Threads: true, Factor: 1,
			Force: geom.Point{X: f * math.Cos(a), Y: f * math.Sin(a)}}
		var mid geom.Point
		for i := range n {
			l.Holes = append(l.Holes, b.Holes[i].Name)
			mid = mid.Add(b.Holes[i].Centre.Mul(1 / float64(n)))
		}
		l.At = mid
		if n > 1 && rapid.Bool().Draw(t, "beside") {
			l.Placed = true
			l.At = mid.Add(geom.Point{X: rapid.Float64Range(-100, 100).Draw(t, "off"), Y: 40})
		}
		b.Loads = append(b.Loads, l)
	}
	drawMore(t, b, w, h)
	if rapid.Bool().Draw(t, "welded") {
		s := b.Outline[3]
		b.Welds = []blank.Weld{{Name: "w", Line: []geom.Seg{s}, Segs: []geom.Seg{s}, Leg: 6, Sides: 2, FEXX: 482.6, Ends: 0}}
	}
	return b
}

// drawMore makes slots of some of the holes, pulls at some, puts a pin under a load of
// its own, a plain hole and a cutout beside them, and loads single holes as well.
func drawMore(t *rapid.T, b *blank.Blank, w, h float64) {
	for i := range b.Holes {
		if rapid.IntRange(0, 3).Draw(t, "slotted") == 0 {
			b.Holes[i].Length = 18 + rapid.Float64Range(1, 30).Draw(t, "longer")
			b.Holes[i].Angle = rapid.Float64Range(0, math.Pi).Draw(t, "along")
		}
	}
	load := func(name string, pin bool) {
		a, f := rapid.Float64Range(0, 2*math.Pi).Draw(t, "way"), rapid.Float64Range(1e3, 60e3).Draw(t, "single")
		at := b.Holes[0].Centre
		for i := range b.Holes {
			if b.Holes[i].Name == name {
				at = b.Holes[i].Centre
			}
		}
		l := blank.Load{Name: "load of " + name, Case: "0", Holes: []string{name}, At: at, Planes: 1, Threads: true, Factor: 1, Pin: pin,
			Force: geom.Point{X: f * math.Cos(a), Y: f * math.Sin(a)}}
		if !pin && rapid.Bool().Draw(t, "pulled") {
			l.Tension = f / 3
		}
		b.Loads = append(b.Loads, l)
	}
	if rapid.Bool().Draw(t, "one more load") {
		load("h1", false)
	}
	if rapid.Bool().Draw(t, "pinned") {
		b.Holes = append(b.Holes, blank.Hole{Name: "pin", Set: "pin", Purpose: blank.Bore, Centre: geom.Point{X: w - 35, Y: h - 28}, Dia: 20.5, CutDia: 20.5, Nominal: 20})
		load("pin", true)
	}
	if rapid.Bool().Draw(t, "plain") {
		b.Holes = append(b.Holes, blank.Hole{Name: "plain", Set: "plain", Centre: geom.Point{X: rapid.Float64Range(20, w-20).Draw(t, "px"), Y: rapid.Float64Range(20, h-20).Draw(t, "py")}, Dia: 12, CutDia: 12})
	}
	if rapid.Bool().Draw(t, "cut out") {
		m := geom.Rotate(rapid.Float64Range(0, 3).Draw(t, "turned")).Then(geom.Translate(rapid.Float64Range(30, w-30).Draw(t, "cx"), rapid.Float64Range(30, h-30).Draw(t, "cy")))
		b.Cutouts = append(b.Cutouts, blank.Cutout{Name: "window", Purpose: blank.CutoutOpening, Loop: geom.Polygon(geom.Point{X: -12, Y: -7},
			geom.Point{X: 12, Y: -7}, geom.Point{X: 12, Y: 7}, geom.Point{X: -12, Y: 7}).Transform(m)})
	}
}

func values(b *blank.Blank) map[string]float64 {
	out := map[string]float64{}
	for _, u := range Utilisations(b) {
		k := u.Rule + " " + u.Place
		out[k] = max(out[k], u.Value)
	}
	return out
}

// Thicker plate never raises what a load takes.
func TestThickerPlateTakesNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := loadedPlate(t)
		b.Welds = nil // a thicker plate asks for a larger least leg
		before := values(b)
		c := *b
		c.Thickness *= rapid.Float64Range(1, 3).Draw(t, "more")
		for k, v := range values(&c) {
			if strings.HasPrefix(k, materialRange.ID) {
				continue // bounds the thickness itself
			}
			if v > before[k]*(1+1e-9) {
				t.Fatalf("%s: %g, thicker %g", k, before[k], v)
			}
		}
	})
}

// More plate ahead of and beside the holes never raises what a load takes at them.
func TestMorePlateTakesNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := loadedPlate(t)
		b.Welds = nil
		before := values(b)
		c := *b
		box := b.Outline.Bounds()
		d := rapid.Float64Range(1, 80).Draw(t, "more")
		c.Outline = geom.Polygon(geom.Point{X: box.Min.X - d, Y: box.Min.Y - d}, geom.Point{X: box.Max.X + d, Y: box.Min.Y - d},
			geom.Point{X: box.Max.X + d, Y: box.Max.Y + d}, geom.Point{X: box.Min.X - d, Y: box.Max.Y + d})
		askew := false
		seen := map[string]bool{}
		for _, l := range b.Loads {
			// Two loads of one case make one that runs askew, and more of them cross
			// one section in a larger plate.
			askew = askew || seen[l.Case] || min(math.Abs(l.Force.X), math.Abs(l.Force.Y)) > 1
			seen[l.Case] = true
		}
		for k, v := range values(&c) {
			if askew && strings.HasPrefix(k, "net-section") {
				continue // a cut across a corner meets more holes in a larger plate
			}
			if strings.HasPrefix(k, "section-bending") {
				continue // the middle of a cut across a corner moves away from the load
			}
			if v > before[k]*(1+1e-9) {
				t.Fatalf("%s: %g, in more plate %g", k, before[k], v)
			}
		}
	})
}

// The units that people read change no utilisation but where a standard prints two
// lengths that are not the same; without those rules none.
func TestUnitsChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := loadedPlate(t)
		b.Welds = nil
		c := *b
		p := *b.Part
		p.Units = unit.Inch
		c.Part = &p
		before := values(b)
		for k, v := range values(&c) {
			if strings.HasPrefix(k, "net-section") || strings.HasPrefix(k, "block-shear") {
				continue // holes count 1/16 in or 2 mm wider
			}
			if math.Abs(v-before[k]) > 1e-9*max(1, v) {
				t.Fatalf("%s: %g in mm, %g in inches", k, before[k], v)
			}
		}
	})
}

// Part and loads turned together: the same to 1e-8.
func TestTurnedWithItsLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := loadedPlate(t)
		m := geom.Rotate(rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")).Then(geom.Translate(31, -17))
		c := *b
		c.Outline = b.Outline.Transform(m)
		c.Holes = append([]blank.Hole{}, b.Holes...)
		for i := range c.Holes {
			d := m.Dir(geom.Point{X: math.Cos(c.Holes[i].Angle), Y: math.Sin(c.Holes[i].Angle)})
			c.Holes[i].Centre, c.Holes[i].Angle = m.Apply(c.Holes[i].Centre), math.Atan2(d.Y, d.X)
		}
		c.Cutouts = append([]blank.Cutout{}, b.Cutouts...)
		for i := range c.Cutouts {
			c.Cutouts[i].Loop = c.Cutouts[i].Loop.Transform(m)
		}
		c.Loads = append([]blank.Load{}, b.Loads...)
		for i := range c.Loads {
			c.Loads[i].Force, c.Loads[i].At = m.Dir(c.Loads[i].Force), m.Apply(c.Loads[i].At)
		}
		c.Welds = append([]blank.Weld{}, b.Welds...)
		for i := range c.Welds {
			s := b.Welds[i].Line[0].Transform(m)
			c.Welds[i].Line, c.Welds[i].Segs = []geom.Seg{s}, []geom.Seg{s}
		}
		before, after := values(b), values(&c)
		if len(before) != len(after) {
			t.Fatalf("%v, turned %v", before, after)
		}
		for k, v := range after {
			// A direction counts as along an edge within num.Angular, which moves the
			// place where a force leaves the plate by some 1e-8 mm.
			if math.Abs(v-before[k]) > 1e-8*max(1, v) {
				t.Fatalf("%s: %.15g, turned %.15g", k, before[k], v)
			}
		}
	})
}

const head = "part: tab\nunits: mm\nplate: {thickness: 6.35, material: A36}\nprocess: air plasma\n"

// The tab of the orchard cart "Medlar": the metal ahead of the bolt holds 27.8 kN
// by its shear, three times the link's 8.5 kN, where the shop's 1.5 d is not kept.
func TestTearOutOfAShortNose(t *testing.T) {
	b := partOf(t, head+`rules: shop 1.5d
holes: {pivot: {at: [0, -95], bolt: 1/2-13 grade 8, fit: close}}
outline:
  tangent:
    - {hole: pivot, radius: 5/8 in}
    - {at: [-38, -20], radius: 6}
    - {at: [38, -20], radius: 6}
axle: {motor: 95 N.m, ratio: 11.2, efficiency: 0.9, tyre: 300, load: 540 kg, grip: 0.8, link: {arm: 150}}
loads:
  - {at: pivot, from: traction, direction: -90 deg, shear: double, factor: 1, case: traction}
  - {at: pivot, from: drive, direction: -90 deg, shear: double, factor: 1, case: drive}
  - {at: pivot, from: braking, direction: -90 deg, shear: double, factor: 1, case: braking}
`)
	assert.InEpsilon(t, 8500, b.Loads[0].Force.Len(), 0.01, "traction")
	assert.InEpsilon(t, 6400, b.Loads[1].Force.Len(), 0.01, "drive")
	assert.InEpsilon(t, 8500, b.Loads[2].Force.Len(), 0.01, "braking")
	c := newContext(b)
	require.Len(t, c.demands, 3)
	assert.InEpsilon(t, 9.13, c.demands[0].clear, 0.01)
	c.rule = tearOut
	tearOut.Run(c)
	require.Len(t, c.held, 1)
	assert.InEpsilon(t, 27800, c.held[0].result.Nominal, 0.01)
	assert.InEpsilon(t, 8474/(0.75*27810), c.held[0].v, 0.01)
	rules := map[string]bool{}
	for _, f := range Run(b) {
		rules[f.Rule] = true
	}
	assert.Equal(t, map[string]bool{"edge-distance": true}, rules)
}

// Two links hold the axle: Fx (r + hu)/S and Fx (r - hl)/S.
func TestTwoLinks(t *testing.T) {
	b := partOf(t, head+`holes: {pivot: {at: [0, 0], bolt: 1/2-13 grade 8}}
outline: {disc: {diameter: 120}}
axle: {tyre: 300, load: 540 kg, grip: 0.8, link: {above: 100, below: 80}}
loads:
  - {at: pivot, from: braking, link: lower, direction: 0 deg, case: a}
  - {at: pivot, from: braking, link: upper, direction: 0 deg, case: b}
`)
	fx := 0.8 * 540 * 9.80665
	assert.InDelta(t, fx*400/180, b.Loads[0].Force.X, 1e-6)
	assert.InDelta(t, fx*220/180, b.Loads[1].Force.X, 1e-6)
	assert.NotEmpty(t, Assumptions(b))
}

// The mirrored hand has its loads and welds mirrored, and takes the same.
func TestMirroredHandTakesTheSame(t *testing.T) {
	p, err := describe.Parse("part.yaml", []byte(head+`hand: pair
holes: {pivot: {at: [90, 30], bolt: 1/2-13 grade 8}, more: {at: [60, 60], bolt: 1/2-13 grade 5}}
outline: {corners: [[0, 0], [120, 10], [120, 60], [80, 90], [0, 80]]}
welds: [{from: [0, 0], to: [0, 80], leg: 5}]
loads: [{at: [90, 10], on: [pivot, more], force: 3 kN, direction: 20 deg, moment: 40 N.m}]
`))
	require.NoError(t, err)
	bs, err := blank.Make(p)
	require.NoError(t, err)
	require.Len(t, bs, 2)
	assert.InDelta(t, -bs[0].Loads[0].Force.X, bs[1].Loads[0].Force.X, 1e-12)
	assert.InDelta(t, -40e3, bs[1].Loads[0].Moment, 1e-9)
	before, after := values(bs[0]), values(bs[1])
	require.Equal(t, len(before), len(after))
	for k, v := range before {
		assert.InDelta(t, v, after[k], 1e-9, k)
	}
}

// What is given is no longer told as not looked at.
func TestUncheckedFollowsWhatIsGiven(t *testing.T) {
	const holes = "holes: {pivot: {at: [90, 40], bolt: 1/2-13 grade 8}}\noutline: {corners: [[0, 0], [120, 0], [120, 80], [0, 80]]}\n"
	bare := strings.Join(Unchecked(partOf(t, head+holes)), "\n")
	full := strings.Join(Unchecked(partOf(t, head+holes+
		"welds: [{from: [0, 0], to: [0, 80], leg: 5}]\nloads: [{at: pivot, force: 3 kN, direction: 0 deg}]\n")), "\n")
	for _, text := range []string{"the file gives no loads", "the file describes none", "shear, tension, grade"} {
		assert.Contains(t, bare, text)
		assert.NotContains(t, full, text)
	}
	soft := strings.Join(Unchecked(partOf(t, strings.Replace(head, "A36", "6061-T6", 1)+holes+"loads: [{at: pivot, force: 3 kN, direction: 0 deg}]\n")), "\n")
	assert.Contains(t, soft, "is for carbon steel")
}

// Utilisations are told where nothing is too much, in plain words.
func TestUtilisationsAreTold(t *testing.T) {
	b := partOf(t, head+"holes: {pivot: {at: [90, 40], bolt: 1/2-13 grade 8}}\noutline: {corners: [[0, 0], [120, 0], [120, 80], [0, 80]]}\n"+
		"loads: [{at: pivot, force: 3 kN, direction: 0 deg, case: pull}]\n")
	assert.False(t, Failed(Run(b)))
	u := taken(t, b, "bearing", "pivot")
	assert.Equal(t, "pull", u.Case)
	assert.InDelta(t, 3e3/(0.75*2.4*12.7*6.35*58*6.894757), u.Value, 1e-4)
	for _, u := range Utilisations(b) {
		assert.NotEmpty(t, u.Formula)
		assert.NotEmpty(t, u.Source)
		assert.NotRegexp(t, `(?i)\b(safe|pass|ok)\b`, u.Mode+u.Formula)
	}
}

func threeCases(b *blank.Blank) {
	var names []string
	for i := range b.Holes {
		if b.Holes[i].Bolt != nil {
			names = append(names, b.Holes[i].Name)
		}
	}
	m, _ := profiles.FindMaterial("S355")
	b.Material = m
	for k, f := range []geom.Point{{X: 100 * float64(len(names))}, {Y: 100 * float64(len(names))}, {X: 20 * float64(len(names)), Y: -20 * float64(len(names))}} {
		at := b.Outline.Centroid()
		b.Loads = append(b.Loads, blank.Load{Name: "load", Case: strconv.Itoa(k), Holes: names, At: at, Force: f, Planes: 1, Threads: true, Factor: 1, Placed: k == 2})
	}
}

func BenchmarkThousandHolesLoaded(b *testing.B) {
	part := perforated(b, 1000, 60)
	for i := range part.Holes {
		h := &part.Holes[i]
		bolt, _ := profiles.FindBolt("M12 8.8")
		*h = boltHole(h.Name, h.Centre, &bolt, 13.5)
		h.Set = "h"
	}
	bolt := part.Holes[0].Bolt
	for i := range part.Holes {
		part.Holes[i].Bolt = bolt
	}
	threeCases(part)
	if Failed(Run(part)) {
		b.Fatalf("%s", AppendText(nil, Run(part)))
	}
	b.ReportAllocs()
	for b.Loop() {
		Run(part)
	}
}

func BenchmarkBracketLoaded(b *testing.B) {
	part := ordinaryBracket(b)
	threeCases(part)
	s := part.Outline[0]
	for _, q := range part.Outline {
		if !q.IsArc() && q.Length() > s.Length() {
			s = q
		}
	}
	part.Welds = []blank.Weld{{Name: "w", Line: []geom.Seg{s}, Segs: []geom.Seg{s}, Leg: 5, Sides: 2, FEXX: 482.6}}
	if Failed(Run(part)) {
		b.Fatalf("%s", AppendText(nil, Run(part)))
	}
	b.ReportAllocs()
	for b.Loop() {
		Run(part)
	}
}
