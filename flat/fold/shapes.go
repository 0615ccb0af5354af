package fold

import (
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

// Section is what all bends of a simple bracket have in common.
type Section struct {
	T, R   float64 // thickness and inside radius, mm
	Rule   bend.Rule
	Length float64 // along the bends, mm
}

// Size is a length and what it is measured to: outside or inside dimensions.
type Size struct {
	V  float64
	By bend.Reference
}

// The edges of a rectangular base, seen with y up.
const (
	Front = "front" // lowest y
	Back  = "back"
	Left  = "left" // lowest x
	Right = "right"
)

// Rectangle is a base round the origin: width along x, depth along y, mm, with
// edges `front`, `right`, `back` and `left`.
func Rectangle(width, depth float64) Base {
	w, d := width/2, depth/2
	p := [4]geom.Point{{X: -w, Y: -d}, {X: w, Y: -d}, {X: w, Y: d}, {X: -w, Y: d}}
	return Base{
		Region: geom.Region{Outer: geom.Polygon(p[:]...)},
		Edges:  []Edge{{Front, p[0], p[1]}, {Right, p[1], p[2]}, {Back, p[2], p[3]}, {Left, p[3], p[0]}},
	}
}

// square is a flange of a square bend over a whole edge.
func (s Section) square(name, on, edge string, height Size, at bend.Reference, down bool) Flange {
	return Flange{Name: name, On: on, Edge: edge, At: at, Height: height.V, From: height.By, Angle: math.Pi / 2, Radius: s.R, Down: down}
}

func (s Section) part(width float64, flanges ...Flange) *Part {
	return &Part{T: s.T, Rule: s.Rule, Base: Rectangle(width, s.Length), Flanges: flanges}
}

// L is an angle: a flat leg and one upright at its right, `leg`. Both are
// measured as they say.
func L(s Section, flat, leg Size) *Part {
	return s.part(flat.V, s.square("leg", "", Right, leg, flat.By, false))
}

// U is a channel, open upwards: a base of a width, and legs `left` and `right`.
func U(s Section, width, left, right Size) *Part {
	return s.part(width.V,
		s.square("left", "", Left, left, width.By, false),
		s.square("right", "", Right, right, width.By, false))
}

// Z is a flat foot, a web upright at its right, `web`, and a `top` that goes on
// to the right.
func Z(s Section, foot, web, top Size) *Part {
	return s.part(foot.V,
		s.square("web", "", Right, web, foot.By, false),
		s.square("top", "web", EndEdge, top, web.By, true))
}

// Hat is a crown on top, webs `left` and `right` down from it and feet `left
// foot` and `right foot` out from them. The webs' height counts from the top of
// the crown to the bottom of the feet where it is measured outside.
func Hat(s Section, crown, web, foot Size) *Part {
	return s.part(crown.V,
		s.square("left", "", Left, web, crown.By, true),
		s.square("right", "", Right, web, crown.By, true),
		s.square("left foot", "left", EndEdge, foot, web.By, false),
		s.square("right foot", "right", EndEdge, foot, web.By, false))
}

// Joint is how the walls of a box meet in its corners.
type Joint int8

const (
	// Lapped walls: those at left and right reach over the ends of those at front
	// and back.
	Lapped Joint = iota
	// CornerToCorner leaves the corner open: the walls' inner edges meet.
	CornerToCorner
)

// Box is an open box: a base and four walls of one height, named after their
// edges. Gap, mm, is what stays open between the walls, for the cut and the
// weld. Where two bends meet the corner is relieved as the part says.
func Box(s Section, width, depth, height Size, joint Joint, gap float64) *Part {
	p := &Part{T: s.T, Rule: s.Rule, Base: Rectangle(width.V, depth.V)}
	for _, side := range [4]struct {
		edge  string
		by    bend.Reference // what its own edge is
		ends  bend.Reference // what its neighbours' edges are
		short bool
	}{
		{Front, depth.By, width.By, true}, {Right, width.By, depth.By, joint == CornerToCorner},
		{Back, depth.By, width.By, true}, {Left, width.By, depth.By, joint == CornerToCorner},
	} {
		f := s.square(side.edge, "", side.edge, height, side.by, false)
		// From the end of the edge to the inner face of the wall there.
		in := bend.Bend{T: s.T, R: s.R, A: math.Pi / 2}.Convert(0, bend.Inside, side.ends)
		if side.short {
			f.Left = in + gap
		} else {
			f.Left = in - s.T
		}
		f.Right = f.Left
		p.Flanges = append(p.Flanges, f)
	}
	return p
}
