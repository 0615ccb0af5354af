package fold

import (
	"math"

	"blankwright/flat/geom"
)

// rect is an upright box of the picture, lean for long lists.
type rect struct{ x0, y0, x1, y1 float64 }

// noRect holds nothing and takes anything.
var noRect = rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

func rectOf(p, q geom.Point, room float64) rect {
	return rect{min(p.X, q.X) - room, min(p.Y, q.Y) - room, max(p.X, q.X) + room, max(p.Y, q.Y) + room}
}

func (r *rect) extend(p geom.Point) {
	r.x0, r.y0, r.x1, r.y1 = min(r.x0, p.X), min(r.y0, p.Y), max(r.x1, p.X), max(r.y1, p.Y)
}

func (r *rect) meets(s *rect) bool {
	return r.x0 <= s.x1 && s.x0 <= r.x1 && r.y0 <= s.y1 && s.y0 <= r.y1
}

func (r *rect) holds(p geom.Point) bool {
	return r.x0 <= p.X && p.X <= r.x1 && r.y0 <= p.Y && p.Y <= r.y1
}

// columnCount is how many upright strips a picture is sorted into.
const columnCount = 64

// columns find boxes by place: each box is listed in every strip that it reaches
// into.
type columns struct {
	left, width float64
	strips      [columnCount][]int32
	boxes       []rect
	asked       []int32 // the last question that each box was looked at for
	question    int32
}

func newColumns(whole rect) *columns {
	return &columns{left: whole.x0, width: (whole.x1 - whole.x0) / columnCount}
}

func (c *columns) strip(x float64) int {
	if !(c.width > 0) {
		return 0
	}
	return int(min(max((x-c.left)/c.width, 0), columnCount-1))
}

// add gives the next number to a box.
func (c *columns) add(r rect) {
	i := int32(len(c.boxes))
	c.boxes = append(c.boxes, r)
	c.asked = append(c.asked, 0)
	for s := c.strip(r.x0); s <= c.strip(r.x1); s++ {
		c.strips[s] = append(c.strips[s], i)
	}
}

// find appends the numbers of all boxes that meet r, each once.
func (c *columns) find(out []int32, r *rect) []int32 {
	c.question++
	for s, last := c.strip(r.x0), c.strip(r.x1); s <= last; s++ {
		for _, i := range c.strips[s] {
			if c.boxes[i].meets(r) && c.asked[i] != c.question {
				c.asked[i] = c.question
				out = append(out, i)
			}
		}
	}
	return out
}
