package paper_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/paper"
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/unit"
)

// bent makes the hands of a bent part.
func bent(t testing.TB, text string) []*blank.Blank {
	t.Helper()
	p, err := describe.Parse("bent.yaml", []byte("plate: {thickness: 3 mm, material: S355MC}\nprocess: fibre laser\n"+text))
	require.NoError(t, err)
	bs, err := blank.Make(p)
	require.NoError(t, err)
	return bs
}

// bentParts are from two bends to eight, on both hands, with and without edges to
// hook a tape on, and with names longer than their room.
func bentParts(t testing.TB) []*blank.Blank {
	long := strings.Repeat("very long name of a bracket ", 6)
	eight := "part: eight bends\nunits: mm\noutline: {rectangle: {width: 300, height: 240}}\nbends: {radius: 3}\nflanges:\n"
	for _, e := range []string{"left", "right", "front", "back"} {
		eight += fmt.Sprintf("  %s: {edge: %s, height: 50, offset: [20, 20]}\n  %s-lip-with-a-name-of-its-own: {on: %s, edge: end, height: 25, turn: down, angle: 60 deg, offset: [4, 4]}\n", e, e, e, e)
	}
	var all []*blank.Blank
	for _, text := range []string{
		"part: channel\nunits: mm\nformed: {u: {width: 60, legs: [50, 40], length: 80}}\nbends: {radius: 3, rule: k 0.42}\n" +
			"flanges: {left: {holes: {a: {at: [40, 30], diameter: 9}}}, right: {holes: {b: {at: [40, 30], diameter: 9}}}}\nin line: [[a, b]]\n",
		"part: " + long + "\nunits: in\nhand: pair\noutline: {rectangle: {width: 6, height: 4}}\nbends: {radius: 1/8}\n" +
			"flanges:\n  a: {edge: left, height: 2, angle: 60 deg, turn: down, offset: [1/2, 1/2], taper: 4 deg, corners: {radius: 1/4}}\n",
		"part: small\nunits: mm\nformed: {z: {feet: 12, web: 16, length: 8}}\nbends: {radius: 3}\n",
		eight,
	} {
		all = append(all, bent(t, text)...)
	}
	return all
}

// Whatever the part and the paper asked for, everything on the bending sheet lies
// inside its margin, and no words cover others.
func TestFoldedSheetHasRoom(t *testing.T) {
	for _, b := range bentParts(t) {
		for _, o := range []paper.Options{{}, {Unit: unit.Inch, Note: "a note"}, {Page: "A3"}, {Page: "roll 610 mm"}, {Page: "A5"}} {
			s := paper.Folded(b, o)
			require.NotNil(t, s)
			assert.Greater(t, s.Page.Width, s.Page.Height, "it lies on its side")
			inside := paper.Rect{X0: 9.9, Y0: 9.9, X1: s.Width - 9.9, Y1: s.Height - 9.9}
			for i := range s.Layers {
				for _, g := range s.Layers[i].Segs {
					box := g.Bounds()
					assert.True(t, inside.X0 <= box.Min.X && inside.Y0 <= box.Min.Y && box.Max.X <= inside.X1 && box.Max.Y <= inside.Y1,
						"%s: a line of %s leaves the page", b.Name, paper.LayerID(i).Spec().Name)
				}
			}
			texts := s.Texts()
			for i, x := range texts {
				r := x.Box()
				assert.True(t, r.X0 >= inside.X0-0.1 && r.X1 <= inside.X1+0.1 && r.Y0 >= 9 && r.Y1 <= inside.Y1+0.1, "%s: %q leaves the page", b.Name, x.S)
				for _, y := range texts[:i] {
					q := y.Box()
					apart := r.X1 <= q.X0 || q.X1 <= r.X0 || r.Y1 <= q.Y0+0.05 || q.Y1 <= r.Y0+0.05
					assert.True(t, apart, "%s: %q covers %q", b.Name, x.S, y.S)
				}
			}
			s.Release()
		}
	}
}

// The sheet says what a fabricator needs at the press: the bends in their order,
// the edge to hook a tape on and three distances from it, and what came back.
func TestFoldedSheetTells(t *testing.T) {
	b := bentParts(t)[0]
	s := paper.Folded(b, paper.Options{})
	defer s.Release()
	var said []string
	for _, x := range s.Texts() {
		said = append(said, x.S)
	}
	all := strings.Join(said, "\n")
	// Straight 44 from the left end, a bend of pi/2 (3 + 0.42 x 3) = 6.69, 48 between
	// the tangents.
	for _, want := range []string{"channel, folded", "left edge, of flange left", "\n44\n", "\n47.35\n", "\n50.69\n", "\n98.69\n", "\n102.04\n", "\n105.38\n",
		"up 90 deg", "50 outside", "40 outside", "leaves room for a straight blade", "a and b are in line", "isometric", "\n60\n", "\n80\n", "\n50\n", "do not measure from it"} {
		assert.Contains(t, all, want)
	}
	first := slices.Index(said, "1")
	require.GreaterOrEqual(t, first, 0)
	assert.Equal(t, b.Plan().Steps[0].Bend.Name, said[slices.Index(said, "up 90 deg")-1])
	assert.NotEmpty(t, s.Layers[paper.FoldedEdges].Segs)
	assert.NotEmpty(t, s.Layers[paper.FoldedHidden].Segs, "the holes behind the leg are dashed")
	small := bentParts(t)[3]
	z := paper.Folded(small, paper.Options{})
	defer z.Release()
	text := ""
	for _, x := range z.Texts() {
		text += x.S + "\n"
	}
	assert.Contains(t, text, "no edge along it: line ")
	flat := *b
	flat.Formed = nil
	assert.Nil(t, paper.Folded(&flat, paper.Options{}))
}

// bendsOf are the bend lines for the drawing, as the command gives them.
func bendsOf(b *blank.Blank) (list []paper.Bend) {
	for _, s := range b.Plan().Steps {
		list = append(list, paper.Bend{No: s.No, Name: s.Bend.Name, Line: s.Bend.Line, Angle: s.Bend.Bend.A, Down: s.Bend.Down, Radius: s.Bend.Bend.R})
	}
	return list
}

// The flat has a figure for every upright and level bend line, right under it or
// beside it, and its callout has the number of the bend.
func TestBendLinesHaveFigures(t *testing.T) {
	b := bentParts(t)[0]
	s := compose(t, b, nil, paper.Options{Bends: bendsOf(b)})
	origin := b.Outline.Bounds().Min
	for _, st := range b.Plan().Steps {
		at := st.Bend.Line.A.X - origin.X
		i := slices.IndexFunc(s.Layers[paper.Figures].Texts, func(x paper.Text) bool { return x.S == fmt.Sprintf("%.2f", at) })
		require.GreaterOrEqual(t, i, 0, "no figure for %s at %v", st.Bend.Name, at)
		x := s.Layers[paper.Figures].Texts[i].Box()
		assert.InDelta(t, s.Offset.X+st.Bend.Line.A.X, (x.X0+x.X1)/2, 1, "the figure stands under its line")
		said := ""
		for _, c := range s.Layers[paper.Callouts].Texts {
			said += c.S + " "
		}
		assert.Contains(t, strings.ReplaceAll(said, ", ", " "), fmt.Sprintf("bend %d %s: up 90 deg", st.No, st.Bend.Name))
	}
}

// The map of several pages shows where the part is bent.
func TestPageMapShowsBends(t *testing.T) {
	b := bentParts(t)[4]
	require.Equal(t, "eight bends", b.Name)
	set, err := paper.Print(b, nil, paper.Options{Page: "A4", Bends: bendsOf(b)})
	require.NoError(t, err)
	defer set.Release()
	require.Greater(t, len(set.Pages), 2)
	assert.Len(t, set.Pages[0].Layers[paper.Extensions].Segs, 8, "one line for each bend on the cover")
}
