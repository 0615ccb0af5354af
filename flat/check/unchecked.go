package check

import (
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/blank"
)

// Unchecked lists what was not looked at on this blank, and why: one line each,
// what before why. It is printed in every report, whether or not there are
// findings.
func Unchecked(b *blank.Blank) []string {
	c := prepare(b)
	bolted, loose, bores := c.byPurpose()
	var out []string
	add := func(text string) { out = append(out, text) }

	if !c.whole() {
		add("distances to the outline: the outline is broken, so there is nothing to measure to")
	}
	if c.leastWeb() == 0 {
		add("smallest hole, smallest slot, least web and shortest edge: the file names no process with such limits")
	}
	c.uncheckedStrength(bolted, add)
	add("material: no certificate was seen; thickness and strength of " + material(b) + " are taken as written")
	if len(bolted) > 0 {
		add("largest edge distance and spacing of bolts (AISC 360-16 J3.5, EN 1993-1-8:2005 Table 3.3): they keep water out between plates in contact, and the file does not say what touches")
		if c.set == &en1993 && len(b.Loads) == 0 {
			add("distances along and across the load (EN 1993-1-8:2005 Table 3.3): the direction is not known, so the larger of both was asked")
		}
		if c.set == &en1993 && len(b.Loads) > 0 {
			add("end and edge distances apart (EN 1993-1-8:2005 Table 3.3): the larger of both was asked all round, whatever the direction of the loads")
		}
		if c.shearedEdges() && !c.set.aisc() {
			add("sheared edges: the rules of " + c.set.word + " have no distances of their own for them")
		}
	}
	if len(loose) > 0 {
		add("edge distance of openings without a bolt (" + list(loose) + "): only the web that the process needs was asked")
	}
	if len(bores) > 0 {
		add("metal round bores (" + list(bores) + "): only the web that the process needs was asked; what a press fit or a pin puts on it was not")
	}
	c.uncheckedFit(add)
	if c.kerf() == 0 {
		add("inside corners: the file names no process with a kerf")
	}
	add("tongues of the outline that are narrow to their end")
	if c.hasTabSlot() {
		add("tabs in their slots: whether tab and slot are of one place and thickness is for the other part to say")
	}
	add("quality of the cut edge, warping by heat")
	if b.Formed != nil {
		add("bending: the tools, stops and travel of the press, and the spread of the batch; whether the sides of a bend that lie under it are wide enough for the die")
	}
	return out
}

// uncheckedFit tells what is not known of the parts beside this one.
func (c *Context) uncheckedFit(add func(string)) {
	if len(c.Blank.Joints) == 0 {
		add("fit with other parts, gaps to sleeves, length of bolts: the file describes no joints")
	} else {
		add("fit with other parts: what the file says of its joints was taken as written")
	}
	for i := range c.Blank.Edges {
		if s := c.Blank.Edges[i].Saddle; s != nil && s.Wall == 0 {
			add("wall of the tube at saddle " + quoted(c.Blank.Edges[i].Name) + ": the file does not give it, so that the plate was not held against it")
		}
	}
	if c.Blank.Coat == nil {
		add("coating: the file names none, so that holes and gaps were not narrowed by one")
	} else {
		add("coating in bores and in slots for tabs: keep it out, or ream and file it out")
	}
}

// byPurpose names the openings that take a bolt, those that take nothing, and
// bores.
func (c *Context) byPurpose() (bolted, loose, bores []*opening) {
	for i := range c.openings {
		switch o := &c.openings[i]; {
		case o.bolted():
			bolted = append(bolted, o)
		case o.hole.Purpose == blank.Bore:
			bores = append(bores, o)
		default:
			loose = append(loose, o)
		}
	}
	return bolted, loose, bores
}

// material names what the plate is taken to be.
func material(b *blank.Blank) string {
	if b.Material.Name == "" {
		return "the plate"
	}
	return b.Material.Name
}

// mostNamed is how many entries are named in one line; the rest is counted.
const mostNamed = 6

// list names openings by their entries in the file, each once.
func list(os []*opening) string {
	var names []string
	seen := map[string]bool{}
	for _, o := range os {
		n := o.hole.Set
		if n == "" {
			n = o.hole.Name
		}
		if isRing(o) {
			n = name(o.hole)
		} else {
			n = quoted(n)
		}
		if !seen[n] {
			seen[n] = true
			names = append(names, n)
		}
	}
	if more := len(names) - mostNamed; more > 0 {
		names = append(names[:mostNamed], strconv.Itoa(more)+" more")
	}
	return strings.Join(names, ", ")
}

// Cautions are what every report says, whatever was found.
func Cautions() []string {
	return []string{
		"these are workshop checks, not a certificate: they say where a part falls short of the rules named, and no finding does not mean that the part will hold",
		"where a code, an inspector or a licensed engineer has a say about the part, theirs goes first: suspension, steering, lifting and whatever carries people belong there",
		"standards are quoted in part and some values from memory, as marked: compare with the text in force where you are",
		"process limits are starting values: cut one trial piece on your own table and measure it",
		"measure the finished part, look at every weld and edge, and inspect again after first use",
		"whoever makes and fits the part stays responsible for it",
	}
}

// hasTabSlot reports whether a tab of another plate goes into this one, or one of
// this plate's into another.
func (c *Context) hasTabSlot() bool {
	return slices.ContainsFunc(c.Blank.Cutouts, func(k blank.Cutout) bool { return k.Slot != nil }) ||
		slices.ContainsFunc(c.Blank.Edges, func(e blank.Edge) bool { return e.Role == blank.TabEdge })
}
