package check

import (
	"slices"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
)

// uncheckedStrength lists what was not computed of loads, bolts and welds, and why.
func (c *Context) uncheckedStrength(bolted []*opening, add func(string)) {
	loads, welds := c.Blank.Loads, c.Blank.Welds
	switch {
	case c.Blank.Formed != nil:
		add("strength under load (bearing, tear-out, net section, block shear, bending, buckling) and the stiffness of its bends: nothing of that is computed for bent parts, and loads are refused; describe the panel that a load acts on as a flat part of its own to have that panel looked at")
	case len(loads) == 0:
		add("strength under load (bearing, tear-out, net section, block shear, bending, buckling): the file gives no loads")
	case !c.steel():
		add("strength of the plate under load: " + c.method.String() + " is for carbon steel of known strength, and " + material(c.Blank) + " is none")
	default:
		if c.method.eurocode {
			add("buckling of the plate, in bending too (EN 1993-1-1 6.3): no rule of this method computes it; a slender plate on edge gives way sideways long before it yields")
		} else {
			add("buckling of the plate other than by bending between its hold and the load")
		}
		add("side loads, and links that stand askew to the plate: loads are taken in its plane, where it is many times stiffer and stronger than out of it")
		add("loads that the file does not give, and what the parts on the other side of bolts and welds hold")
	}
	if len(loads) > 0 && c.steel() {
		switch _, _, ok := c.heldAt(); {
		case len(welds) == 0 && !c.bolted():
			add("bending and shear where the plate is held: the file describes no weld and no bolts that hold it against a load at a place")
		case len(welds) > 0 && !ok:
			add("bending and shear at the welds and between them: the plate is not held along one straight line")
		}
	}
	c.uncheckedLoads(add)
	c.uncheckedPins(add)
	add("fatigue, shock and wear: how often and how hard the part is loaded is not known; a part that carries a load once may crack when it comes back")
	switch {
	case len(welds) == 0:
		add("welds (size, access, heat, distance to holes): the file describes none")
	case len(loads) == 0:
		add("strength of welds: the file gives no loads; access, heat, distortion, penetration and quality")
	default:
		add("welds: access, heat, distortion, penetration and quality, and what they are welded to")
	}
	c.uncheckedBolts(bolted, add)
}

// uncheckedBolts says what was not looked at of bolts: more of those that no load
// names than of the others.
func (c *Context) uncheckedBolts(bolted []*opening, add func(string)) {
	var idle, loaded, unknown []*opening
	for _, o := range bolted {
		switch {
		case !c.takesLoad(o):
			idle = append(idle, o)
		case c.strengthOf(o).why != "":
			unknown = append(unknown, o)
		default:
			loaded = append(loaded, o)
		}
	}
	if len(idle) > 0 {
		add("bolts at " + list(idle) + ": shear, tension, grade, thread in the joint, grip length, washers, locking and tightening")
	}
	if len(unknown) > 0 {
		add("shear and tension of the bolts at " + list(unknown) + ": " + c.strengthOf(unknown[0]).why)
	}
	if more := append(loaded, unknown...); len(more) > 0 {
		add("bolts at " + list(more) + ": whether the threads lie as the loads say, washers, locking and tightening")
	}
}

// takesLoad reports whether a load names a hole.
func (c *Context) takesLoad(o *opening) bool {
	for i := range c.Blank.Loads {
		if slices.Contains(c.Blank.Loads[i].Holes, o.hole.Name) {
			return true
		}
	}
	return false
}

// bolted reports whether bolts hold the plate against a load at a place.
func (c *Context) bolted() bool {
	return slices.ContainsFunc(c.Blank.Loads, func(l blank.Load) bool { return l.Placed && len(l.Holes) > 1 })
}

// uncheckedLoads names what of the loads no rule weighed.
func (c *Context) uncheckedLoads(add func(string)) {
	if len(c.Blank.Loads) == 0 {
		return
	}
	n := newContext(c.Blank)
	n.quiet = true
	for _, k := range rules {
		if k.strength {
			n.rule = k
			k.Run(n)
		}
	}
	var none, pulls, turns []string
	for i := range n.cases {
		in := &n.cases[i]
		for _, l := range in.loads {
			seen := in.seen && (l.Force != (geom.Point{}) || l.Moment != 0)
			for j := range n.demands {
				d := &n.demands[j]
				seen = seen || d.seen && d.in == in && slices.Contains(l.Holes, d.o.hole.Name)
			}
			if !seen {
				none = append(none, l.Name)
			}
			if l.Tension != 0 {
				pulls = append(pulls, l.Name)
			}
			if l.Moment != 0 && len(l.Holes) > 1 && !l.Placed {
				turns = append(turns, l.Name)
			}
		}
	}
	if len(none) > 0 {
		add(strings.Join(none, ", ") + ": nothing was computed")
	}
	if len(pulls) > 0 {
		names := strings.Join(pulls, ", ")
		add("prying, and bending of the plate by bolts that pull it (" + names + "): not worked out; it adds to the tension")
		if c.method.eurocode {
			add("punching of the plate under heads and nuts (" + names + "; EN 1993-1-8 Table 3.4, Bp,Rd): how wide they are is not known here")
		} else {
			add("heads and nuts pulled through the plate (" + names + ")")
		}
		if len(c.Blank.Welds) > 0 {
			add("welds, and the plate beside them, under what pulls out of the plane (" + names + "): not worked out, and a plate is weakest that way")
		}
	}
	if len(turns) > 0 {
		add("bending of the plate by the moment of " + strings.Join(turns, ", ") + ": the file does not say where it comes in; write the force at its place (at: [x, y])")
	}
}

// uncheckedPins names the pins that were not looked at themselves.
func (c *Context) uncheckedPins(add func(string)) {
	var unknown, bent, filled, weak []*opening
	for i := range c.openings {
		o := &c.openings[i]
		if !slices.ContainsFunc(c.Blank.Loads, func(l blank.Load) bool { return l.Pin && slices.Contains(l.Holes, o.hole.Name) }) {
			continue
		}
		if _, ok := c.pinJoint(o); !o.bolted() {
			unknown = append(unknown, o)
			if o.hole.Nominal == 0 {
				filled = append(filled, o)
			}
		} else if !c.method.eurocode || !ok {
			bent = append(bent, o)
		}
		if o.bolted() && c.strengthOf(o).why != "" {
			weak = append(weak, o)
		}
	}
	if len(unknown) > 0 {
		add("pins in " + list(unknown) + ": their own shear and bending; the file does not say what they are of")
	}
	if len(filled) > 0 {
		add("play of the pins in " + list(filled) + ": the file gives the hole and not the pin, which is taken to fill it; write bore: for a pin of a size")
	}
	if len(bent) > 0 {
		why := "the file gives no joint with a sleeve that says what they go through"
		if !c.method.eurocode {
			why = "AISC 360 has no rule for it"
		}
		add("bending of the pins in " + list(bent) + ": " + why)
	}
	if len(weak) > 0 {
		add("shear of the pins in " + list(weak) + ": " + c.strengthOf(weak[0]).why)
	}
}
