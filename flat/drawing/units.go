package drawing

import (
	"bytes"
	"fmt"
	"math"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// Unit is the unit of a drawing's coordinates.
type Unit struct {
	Name string  // mm, in, ft, ...
	MM   float64 // one unit in mm
	From UnitFrom
}

// UnitFrom tells how the unit is known.
type UnitFrom int8

const (
	// Assumed is a drawing that does not say: read as mm.
	Assumed UnitFrom = iota
	// ByCaller is the person's word.
	ByCaller
	// ByTag is the drawing's $INSUNITS.
	ByTag
	// ByMeasurement is $MEASUREMENT alone: inch or metric, taken as mm.
	ByMeasurement
	// ByComment is a comment at the head of the file: `coordinates in inches`.
	ByComment
)

func (f UnitFrom) String() string {
	return [...]string{"assumed", "by the person's word", "$INSUNITS", "$MEASUREMENT", "a comment in the file"}[f]
}

// inches reports whether the unit is of the inch family.
func (u Unit) inches() bool {
	switch u.Name {
	case "in", "ft", "mi", "yd", "mil", "microinch", "survey ft":
		return true
	}
	return false
}

// unitTags are the values of $INSUNITS that a part may be drawn in. DXF
// Reference, header variables.
var unitTags = map[int]Unit{
	1:  {Name: "in", MM: unit.MM},
	2:  {Name: "ft", MM: 12 * unit.MM},
	4:  {Name: "mm", MM: 1},
	5:  {Name: "cm", MM: 10},
	6:  {Name: "m", MM: 1000},
	8:  {Name: "microinch", MM: unit.MM / 1_000_000},
	9:  {Name: "mil", MM: unit.MM / 1000},
	10: {Name: "yd", MM: 36 * unit.MM},
	12: {Name: "nm", MM: 1.0 / 1_000_000},
	13: {Name: "micron", MM: 1.0 / 1000},
	14: {Name: "dm", MM: 100},
	21: {Name: "survey ft", MM: 1_200_000.0 / 3937},
}

// Values of $MEASUREMENT.
const (
	english = 0
	metric  = 1
)

// unitWords notes what comments say of the unit.
type unitWords struct{ inch, mm bool }

func (w *unitWords) note(comment []byte) {
	w.inch = w.inch || bytes.HasPrefix(comment, []byte("coordinates in inches"))
	w.mm = w.mm || bytes.HasPrefix(comment, []byte("coordinates in millimetres"))
}

func (d *document) unit() Unit {
	u, known := unitTags[d.insUnits]
	switch {
	case d.o.Unit == unit.Inch:
		u = unitTags[1]
		u.From = ByCaller
	case d.o.Unit == unit.Millimetre:
		u = unitTags[4]
		u.From = ByCaller
	case known:
		u.From = ByTag
	case d.comments.inch != d.comments.mm:
		u = unitTags[4]
		if d.comments.inch {
			u = unitTags[1]
		}
		u.From = ByComment
	case d.measurement == english:
		u = unitTags[1]
		u.From = ByMeasurement
	case d.measurement == metric:
		u = unitTags[4]
		u.From = ByMeasurement
	default:
		u = unitTags[4]
	}
	return u
}

// What sizes a cut part may have (common practice): smaller ones fall through
// the slats of a table, larger ones do not fit on a plate of 6 m; no table
// pierces a hole under half a millimetre, and the smallest opening of a part is
// hardly ever over 100 mm where the part is over a metre.
const (
	leastPart    = 12.0
	largestPart  = 6500.0
	leastHole    = 0.6
	smallestWide = 100.0
	wideFrom     = 1000.0
)

// sizes are what tells a likely mistake in the unit, mm.
type sizes struct {
	part          float64 // the longer side of everything
	least, median float64 // diameter of whole circles, 0 without any
}

// doubt tells in words why sizes look wrong when taken as they are, and the size
// that stands for %s in them; "" if they do not.
func (s sizes) doubt() (why string, size float64) {
	switch {
	case s.part <= 0:
		return "", 0
	case s.part < leastPart:
		return "everything fits into %s", s.part
	case s.part > largestPart:
		return "it is %s long", s.part
	case s.median > 0 && s.median < leastHole:
		return "most of its holes are %s or less", s.median
	case s.part > wideFrom && s.least > smallestWide:
		return "its smallest hole is %s", s.least
	}
	return "", 0
}

func (s sizes) scaled(k float64) sizes { return sizes{s.part * k, s.least * k, s.median * k} }

// likelyUnits are tried, in this order, where a drawing's unit is in doubt.
var likelyUnits = []int{4, 1, 5, 6, 2}

// doubtUnit reports a unit that is not known, tags that disagree, and sizes that
// would make sense in another unit only.
func (d *Drawing) doubtUnit() {
	if len(d.Shapes) == 0 {
		return
	}
	at := d.Bounds().Min
	fault := func(message, fix string) {
		f := newFault(UnitDoubt, diag.Warning, at)
		f.Message, f.Fix = message, fix
		d.faults.add(f)
	}
	s := d.sizes()
	better := Unit{}
	why, size := s.doubt()
	if why != "" {
		for _, tag := range likelyUnits {
			u := unitTags[tag]
			if other, _ := s.scaled(u.MM / d.Unit.MM).doubt(); u.Name != d.Unit.Name && other == "" {
				better = u
				break
			}
		}
		why = fmt.Sprintf(why, d.Unit.Length(size))
	}
	switch {
	case better.Name != "":
		fault(fmt.Sprintf("likely unit mistake: read in %s (%s) %s; in %s that would be %s", d.Unit.Name, d.Unit.From, why,
			better.Name, better.Length(s.part*better.MM/d.Unit.MM)),
			fmt.Sprintf("ask what the drawing is in; if it is %s, say so or scale it by %s", better.Name, factor(better.MM/d.Unit.MM)))
	case why != "":
		fault(fmt.Sprintf("size in doubt: read in %s (%s) %s", d.Unit.Name, d.Unit.From, why), "ask for one dimension and compare")
	case d.Unit.From == Assumed:
		fault("the drawing does not say its unit: read in mm", "ask what it is in, and say so")
	case d.Unit.From == ByMeasurement:
		fault(fmt.Sprintf("the drawing has no unit ($INSUNITS), only a measuring system ($MEASUREMENT): read in %s", d.Unit.Name),
			"ask what it is in, and say so")
	}
}

// disagree reports header tags that speak of different units.
func (d *Drawing) disagree(doc *document) {
	tag, known := unitTags[doc.insUnits]
	other := ""
	switch {
	case d.Unit.From == ByCaller:
	case doc.insUnits > 0 && !known:
		d.doubtTags(fmt.Sprintf("$INSUNITS is %d, which is no unit of a part", doc.insUnits))
	case !known:
	case doc.comments.inch && tag.Name != "in":
		other = "a comment says inches"
	case doc.comments.mm && tag.Name != "mm":
		other = "a comment says millimetres"
	case doc.measurement == english && !tag.inches():
		other = "$MEASUREMENT says inches"
	case doc.measurement == metric && tag.inches():
		other = "$MEASUREMENT says metric"
	}
	if other != "" {
		d.doubtTags(fmt.Sprintf("the drawing's units disagree: $INSUNITS says %s, %s", tag.Name, other))
	}
}

func (d *Drawing) doubtTags(message string) {
	f := newFault(UnitDoubt, diag.Warning, geom.Point{})
	f.Message = message + "; read in " + d.Unit.Name
	f.Fix = "ask for one dimension and compare"
	d.faults.add(f)
}

// sizes measures the drawing.
func (d *Drawing) sizes() sizes {
	var dias []float64
	for i := range d.Shapes {
		if s := &d.Shapes[i]; s.whole() {
			dias = append(dias, 2*s.Segs[0].Circle().R)
		}
	}
	b := d.Bounds()
	s := sizes{part: math.Max(b.Width(), b.Height())}
	if len(dias) > 0 {
		s.least, s.median = leastAndMedian(dias)
	}
	return s
}
