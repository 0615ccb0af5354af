package platemap

import (
	"math"
	"strconv"

	"blankwright/export/paper"
	"blankwright/flat/geom"
)

// spot is where the number of a kind stands, in its own coordinates.
type spot struct {
	c     geom.Point
	on    paper.LayerID
	style paper.Style // NoText where it has no room
	bare  bool        // its openings are left out for it
}

// spotFor finds the place for a kind's number: large or small on the metal, else
// on the outline as if it had no openings.
func (d *spread) spotFor(k int) spot {
	for _, bare := range d.bareness(k) {
		place := d.roomiest(k, bare)
		for _, on := range [...]paper.LayerID{paper.Tags, paper.PlateNumbers} {
			if numberRadius(k, on) <= place.r*d.scale {
				return spot{place.c, on, on.Spec().Style, bare}
			}
		}
	}
	return spot{}
}

// bareness says how a kind may be drawn for its number: with its openings, and
// without where it has some and nothing lies in them.
func (d *spread) bareness(k int) []bool {
	if len(d.p.Kinds[k].Region.Holes) == 0 || d.p.Nested {
		return []bool{false}
	}
	return []bool{false, true}
}

// roomiest is the roomiest place of a kind, sought once.
func (d *spread) roomiest(k int, bare bool) disc {
	key := look{k, bare}
	if place, ok := d.discs[key]; ok {
		return place
	}
	r := d.p.Kinds[k].Region
	if bare {
		r.Holes = nil
	}
	place := roomiest(r)
	d.discs[key] = place
	return place
}

// look is a kind as it is looked at: with its openings or bare.
type look struct {
	kind int
	bare bool
}

// numberRadius is half the diagonal, mm on paper, of a kind's number.
func numberRadius(k int, on paper.LayerID) float64 {
	b := paper.Text{Anchor: paper.Middle, Style: on.Spec().Style, S: strconv.Itoa(k + 1)}.Box()
	return math.Hypot(b.Width(), b.Height()) / 2
}

// number writes a kind's number about a place.
func (d *spread) number(k int, at geom.Point, s *spot) {
	t := paper.Text{Anchor: paper.Middle, Style: s.style, S: strconv.Itoa(k + 1)}
	b := t.Box()
	write(d.s, s.on, at.Sub(geom.Point{Y: (b.Y0 + b.Y1) / 2}), paper.Middle, t.S)
}
