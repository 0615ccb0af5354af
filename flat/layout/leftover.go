package layout

import (
	"sort"

	"blankwright/flat/geom"
)

// Leftover is what goes back to the rack from one used sheet: what two straight
// cuts part off the used corner, each gap mm clear of the pieces and square to
// the sheet's axes. The first is the one that leaves most, the second that of
// what it left beside the pieces. Regions come largest first. A sheet without
// pieces comes back whole.
func Leftover(pieces []Piece, sheet Sheet, placements []Placement, gap float64) ([]geom.Region, error) {
	if len(placements) == 0 {
		return []geom.Region{sheet.Region}, nil
	}
	var used geom.Box
	for _, p := range placements {
		used = used.Union(pieces[p.Piece].Region.Transform(p.Motion).Bounds())
	}
	used = used.Grow(gap)
	var out []geom.Region
	rest := []geom.Region{sheet.Region}
	taken := [4]bool{}
	for range 2 {
		best, side := []geom.Region(nil), -1
		area := 0.0
		box := bounds(rest)
		for k, half := range beyond(box, used) {
			if taken[k] || half.Empty() {
				continue
			}
			got, err := geom.Intersection(rest, []geom.Region{rectangle(half)})
			if err != nil {
				return nil, err
			}
			if a := total(got); a > area {
				best, side, area = got, k, a
			}
		}
		if side < 0 {
			break
		}
		taken[side] = true
		out = append(out, best...)
		var err error
		if rest, err = geom.Difference(rest, []geom.Region{rectangle(beyond(box, used)[side])}); err != nil {
			return nil, err
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Area() > out[j].Area() })
	return out, nil
}

// beyond are the four boxes that straight cuts along the sides of used part off
// a sheet.
func beyond(sheet, used geom.Box) [4]geom.Box {
	r, t, l, b := sheet, sheet, sheet, sheet
	r.Min.X, t.Min.Y, l.Max.X, b.Max.Y = used.Max.X, used.Max.Y, used.Min.X, used.Min.Y
	boxes := [4]geom.Box{r, t, l, b}
	for i, x := range boxes {
		if x.Max.X <= x.Min.X || x.Max.Y <= x.Min.Y {
			boxes[i] = geom.Box{}
		}
	}
	return boxes
}

func rectangle(b geom.Box) geom.Region {
	return geom.Region{Outer: geom.Polygon(b.Min, geom.Point{X: b.Max.X, Y: b.Min.Y}, b.Max, geom.Point{X: b.Min.X, Y: b.Max.Y})}
}

func bounds(rs []geom.Region) geom.Box {
	var b geom.Box
	for _, r := range rs {
		b = b.Union(r.Bounds())
	}
	return b
}

func total(rs []geom.Region) float64 {
	a := 0.0
	for _, r := range rs {
		a += r.Area()
	}
	return a
}
