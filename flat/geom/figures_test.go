package geom

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// readFigures reads a file of published or closed-form values; its sources are
// named beside them.
func readFigures(t *testing.T, file string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", file))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, into))
}

// figureRows are the rows of one table, by column name.
func figureRows(t *testing.T, table string) []map[string]any {
	t.Helper()
	var all map[string]json.RawMessage
	readFigures(t, "figures.json", &all)
	var tab struct {
		Source  string
		Columns []string
		Rows    [][]any
	}
	require.NoError(t, json.Unmarshal(all[table], &tab))
	require.NotEmpty(t, tab.Source)
	require.NotEmpty(t, tab.Rows)
	var rows []map[string]any
	for _, r := range tab.Rows {
		row := map[string]any{}
		for i, v := range r {
			row[tab.Columns[i]] = v
		}
		rows = append(rows, row)
	}
	return rows
}

func number(row map[string]any, key string) float64 { return row[key].(float64) }

func pair(row map[string]any, key string) Point {
	p := row[key].([]any)
	return Point{p[0].(float64), p[1].(float64)}
}

// printed is half a step of the last of n printed decimals.
func printed(n int) float64 { return 0.51 * math.Pow(10, float64(-n)) }

func TestFigureStadium(t *testing.T) {
	for _, row := range figureRows(t, "stadium") {
		w, c := number(row, "width"), number(row, "centres")
		l := Slot(Point{}, Point{c, 0}, w)
		require.NoError(t, l.Validate())
		require.InDelta(t, number(row, "area"), l.Area(), printed(4))
		require.InDelta(t, number(row, "perimeter"), l.Perimeter(), printed(4))
		require.InDelta(t, number(row, "overall"), l.Bounds().Width(), 1e-12)
		require.InEpsilon(t, w*c+math.Pi*w*w/4, l.Area(), 1e-14)
	}
}

func TestFigureTwoCircleHull(t *testing.T) {
	for _, row := range figureRows(t, "two-circle hull") {
		a := Circle{Point{}, number(row, "R1")}
		b := Circle{Point{number(row, "L"), 0}, number(row, "R2")}
		l, err := Hull([]Circle{a, b})
		require.NoError(t, err)
		require.InDelta(t, number(row, "area"), l.Area(), printed(4))
		require.InDelta(t, number(row, "perimeter"), l.Perimeter(), printed(4))
		require.InDelta(t, number(row, "xbar_from_R1_centre"), l.Centroid().X, printed(5))
		require.InDelta(t, 0, l.Centroid().Y, 1e-12)
		var upper *Seg
		for i, s := range l {
			if !s.IsArc() {
				require.InDelta(t, number(row, "tangent_len"), s.Length(), printed(5))
				if s.A.Y > 0 {
					upper = &l[i]
				}
			} else {
				require.Contains(t, []Circle{a, b}, s.Circle())
			}
		}
		require.NotNil(t, upper)
		for _, e := range []struct {
			got  Point
			want Point
		}{{upper.B, pair(row, "tangent_point_R1")}, {upper.A, pair(row, "tangent_point_R2")}} {
			require.InDelta(t, e.want.X, e.got.X, printed(5))
			require.InDelta(t, e.want.Y, e.got.Y, printed(5))
		}
		beta := math.Atan2(upper.B.X, upper.B.Y) * 180 / math.Pi
		require.InDelta(t, number(row, "beta_deg"), beta, printed(5))
	}
}

func TestFigureLinkPlateWithHoles(t *testing.T) {
	var all map[string]json.RawMessage
	readFigures(t, "figures.json", &all)
	var f struct {
		Holes     [][3]float64
		Thickness float64 `json:"t_mm"`
		Density   float64
		Area      float64 `json:"net_area"`
		X         float64 `json:"xbar"`
		Mass      float64 `json:"mass_kg"`
		Cut       float64 `json:"cut_length"`
	}
	require.NoError(t, json.Unmarshal(all["link plate with holes"], &f))
	outer, err := Hull([]Circle{{Point{}, 30}, {Point{80, 0}, 15}})
	require.NoError(t, err)
	r := Region{Outer: outer}
	for _, h := range f.Holes {
		r.Holes = append(r.Holes, CircleLoop(Circle{Point{h[0], h[1]}, h[2] / 2}).Reverse())
	}
	require.NoError(t, r.Validate())
	require.InDelta(t, f.Area, r.Area(), printed(4))
	require.InDelta(t, f.X, r.Centroid().X, printed(5))
	require.InDelta(t, f.Cut, r.Perimeter(), printed(4))
	require.InDelta(t, f.Mass, r.Area()*f.Thickness*f.Density/1e9, printed(5))
}

func TestFigureSegment(t *testing.T) {
	for _, row := range figureRows(t, "circular segment") {
		r, th := number(row, "R"), number(row, "angle_deg")*math.Pi/180
		c := Circle{Point{}, r}
		arc := Arc(c, c.C.Polar(r, math.Pi/2-th/2), c.C.Polar(r, math.Pi/2+th/2), true)
		l := Loop{arc, Line(arc.B, arc.A)}
		require.NoError(t, l.Validate())
		require.InDelta(t, number(row, "area"), l.Area(), printed(5))
		require.InDelta(t, number(row, "ybar_from_centre"), l.Centroid().Y, printed(5))
		require.InDelta(t, number(row, "chord"), l[1].Length(), printed(5))
		require.InDelta(t, number(row, "height"), l.Bounds().Height(), printed(5))
		require.InDelta(t, number(row, "arc"), arc.Length(), printed(4))
	}
}

func TestFigureLug(t *testing.T) {
	for _, row := range figureRows(t, "lug") {
		r, h := number(row, "R"), number(row, "H_base_to_hole")
		top := Circle{Point{0, h}, r}
		outer := Loop{
			Line(Point{-r, 0}, Point{r, 0}), Line(Point{r, 0}, Point{r, h}),
			Arc(top, Point{r, h}, Point{-r, h}, true), Line(Point{-r, h}, Point{-r, 0}),
		}
		require.InDelta(t, number(row, "outline_area"), outer.Area(), printed(4))
		require.InDelta(t, number(row, "outline_perimeter"), outer.Perimeter(), printed(4))
		require.InDelta(t, number(row, "outline_ybar"), outer.Centroid().Y, printed(5))
		lug := Region{outer, []Loop{CircleLoop(Circle{Point{0, h}, number(row, "hole_d") / 2}).Reverse()}}
		require.NoError(t, lug.Validate())
		require.InDelta(t, number(row, "net_area"), lug.Area(), printed(4))
		require.InDelta(t, number(row, "net_ybar"), lug.Centroid().Y, printed(5))

		// the same outline by its corners: a full-round top
		by, err := Corners([]Corner{{P: Point{-r, 0}}, {P: Point{r, 0}}, {P: Point{r, h + r}, Radius: r}, {P: Point{-r, h + r}, Radius: r}})
		require.NoError(t, err)
		require.Len(t, by, 4)
		require.InEpsilon(t, outer.Area(), by.Area(), 1e-14)
	}
}

func TestFigureRoundedRectangle(t *testing.T) {
	for _, row := range figureRows(t, "rounded rectangle") {
		a, b, r := number(row, "a"), number(row, "b"), number(row, "r")
		l, err := Corners([]Corner{{P: Point{0, 0}, Radius: r}, {P: Point{a, 0}, Radius: r}, {P: Point{a, b}, Radius: r}, {P: Point{0, b}, Radius: r}})
		require.NoError(t, err)
		require.InDelta(t, number(row, "area"), l.Area(), printed(4))
		require.InDelta(t, number(row, "perimeter"), l.Perimeter(), printed(4))
		requirePoint(t, Point{a / 2, b / 2}, l.Centroid())
	}
}

func TestFigureGusset(t *testing.T) {
	for _, row := range figureRows(t, "gusset with snipe") {
		a, b, s := number(row, "leg_a"), number(row, "leg_b"), number(row, "snipe")
		var l Loop
		if row["kind"] == "straight" {
			l = Polygon(Point{s, 0}, Point{a, 0}, Point{0, b}, Point{0, s})
			byCorners, err := Corners([]Corner{{P: Point{}, Chamfer: s}, {P: Point{a, 0}}, {P: Point{0, b}}})
			require.NoError(t, err)
			require.InEpsilon(t, l.Area(), byCorners.Area(), 1e-14)
		} else {
			l = Loop{
				Line(Point{s, 0}, Point{a, 0}), Line(Point{a, 0}, Point{0, b}), Line(Point{0, b}, Point{0, s}),
				Arc(Circle{Point{}, s}, Point{0, s}, Point{s, 0}, false),
			}
		}
		require.NoError(t, l.Validate())
		require.InDelta(t, number(row, "area"), l.Area(), printed(4))
		require.InDelta(t, number(row, "perimeter"), l.Perimeter(), printed(4))
		require.InDelta(t, pair(row, "centroid").X, l.Centroid().X, printed(5))
		require.InDelta(t, pair(row, "centroid").Y, l.Centroid().Y, printed(5))
	}
}

func TestFigureThreeCircleHull(t *testing.T) {
	var all map[string]json.RawMessage
	readFigures(t, "figures.json", &all)
	var f struct {
		Centres            [][2]float64
		R, Area, Perimeter float64
		Centroid           [2]float64
	}
	require.NoError(t, json.Unmarshal(all["three-circle hull"], &f))
	var cs []Circle
	for _, c := range f.Centres {
		cs = append(cs, Circle{Point{c[0], c[1]}, f.R})
	}
	l, err := Hull(cs)
	require.NoError(t, err)
	require.Len(t, l, 6)
	require.InDelta(t, f.Area, l.Area(), printed(4))
	require.InDelta(t, f.Perimeter, l.Perimeter(), printed(4))
	require.InDelta(t, f.Centroid[0], l.Centroid().X, printed(4))
	require.InDelta(t, f.Centroid[1], l.Centroid().Y, printed(4))
}

// A corner fillet takes off (1 - π/4) r² whose centroid lies 0.22337 r from
// both edges.
func TestFigureSpandrel(t *testing.T) {
	var all map[string]json.RawMessage
	readFigures(t, "figures.json", &all)
	var f struct {
		K float64 `json:"centroid over r"`
	}
	require.NoError(t, json.Unmarshal(all["spandrel"], &f))
	const r = 8.0
	l := Loop{Line(Point{}, Point{r, 0}), Arc(Circle{Point{r, r}, r}, Point{r, 0}, Point{0, r}, false), Line(Point{0, r}, Point{})}
	require.NoError(t, l.Validate())
	require.InEpsilon(t, (1-math.Pi/4)*r*r, l.Area(), 1e-14)
	require.InDelta(t, f.K*r, l.Centroid().X, printed(5)*r)
	require.InDelta(t, f.K*r, l.Centroid().Y, printed(5)*r)
}

// Bolt circles by Polar.
func TestBoltCircles(t *testing.T) {
	type layout struct {
		Source string
		Holes  map[string][][2]float64
	}
	var f struct {
		Top    layout `json:"hole at the top"`
		Pair   layout `json:"pair at the top"`
		Chord  struct{ Rows [][2]float64 }
		Across struct{ Rows [][2]float64 } `json:"across corners over across flats"`
	}
	readFigures(t, "bolt-circles.json", &f)
	check := func(l layout, first func(n int) float64) {
		require.NotEmpty(t, l.Source)
		require.NotEmpty(t, l.Holes)
		for key, holes := range l.Holes {
			n, err := strconv.Atoi(key)
			require.NoError(t, err)
			require.Len(t, holes, n)
			for k, h := range holes {
				p := Point{}.Polar(0.5, first(n)+fullTurn*float64(k)/float64(n))
				require.InDelta(t, h[0], p.X, printed(5))
				require.InDelta(t, h[1], p.Y, printed(5))
			}
		}
	}
	check(f.Top, func(int) float64 { return math.Pi / 2 })
	check(f.Pair, func(n int) float64 { return math.Pi/2 + math.Pi/float64(n) })
	for _, row := range f.Chord.Rows {
		a, b := Point{}.Polar(0.5, 0), Point{}.Polar(0.5, fullTurn/row[0])
		require.InDelta(t, row[1], a.Dist(b), printed(6))
	}
	for _, row := range f.Across.Rows {
		n := int(row[0])
		pts := make([]Point, n)
		for k := range pts {
			pts[k] = Point{}.Polar(row[1]/2, fullTurn*float64(k)/row[0])
		}
		l := Polygon(pts...)
		require.InDelta(t, 0.5, PointLoop(Point{}, l).D, printed(6))
	}
}

// The shapes' areas, perimeters, centroids and least webs.
func TestShapesMeasured(t *testing.T) {
	answers := loadAnswers(t)
	value := func(name, key string) (float64, bool) {
		raw, ok := answers[name][key]
		if !ok {
			return 0, false
		}
		var v float64
		require.NoError(t, json.Unmarshal(raw, &v))
		return v, true
	}
	for _, name := range shapeNames {
		r := loadShape(t, name)
		require.NoError(t, r.Validate(), name)
		area, _ := value(name, "area")
		perimeter, _ := value(name, "perimeter")
		require.InEpsilon(t, area, r.Area(), 1e-12, name)
		require.InEpsilon(t, perimeter, r.Perimeter(), 1e-12, name)
		var c [2]float64
		require.NoError(t, json.Unmarshal(answers[name]["centroid"], &c))
		requirePoint(t, Point{c[0], c[1]}, r.Centroid())
		requirePoint(t, Point{c[0], c[1]}, r.Moments().Centroid)
		segments, _ := value(name, "segments")
		count := len(r.Outer)
		for _, h := range r.Holes {
			count += len(h)
		}
		require.Equal(t, int(segments), count, name)

		if want, ok := value(name, "least web hole to outline"); ok {
			least := math.Inf(1)
			for _, h := range r.Holes {
				least = min(least, LoopLoop(h, r.Outer).D)
			}
			require.InDelta(t, want, least, 1e-11, name)
		}
		if want, ok := value(name, "least web hole to hole"); ok {
			p, ok := NewIndex(r.Holes...).Closest()
			require.True(t, ok)
			require.InDelta(t, want, p.D, 1e-11, name)
		}
	}
}
