package check

import "slices"

// uncheckedStrength lists what was not computed of loads, bolts and welds, and why.
func (c *Context) uncheckedStrength(bolted []*opening, add func(string)) {
	loads, welds := c.Blank.Loads, c.Blank.Welds
	switch {
	case len(loads) == 0:
		add("strength under load (bearing, tear-out, net section, block shear, bending, buckling): the file gives no loads")
	case !c.steel():
		add("strength of the plate under load: " + c.method.String() + " is for carbon steel of known strength, and " + material(c.Blank) + " is none")
	default:
		add("side loads, and buckling of the plate other than by bending between load and weld: loads are taken in the plane of the plate")
		add("loads that the file does not give, and what the parts on the other side of bolts and welds hold")
	}
	if len(loads) > 0 && c.steel() {
		if len(welds) == 0 {
			add("bending and shear where the plate is held: the file describes no weld that holds it")
		} else if _, _, ok := c.heldAt(); !ok {
			add("bending and shear at the welds and between them: the plate is not held along one straight line")
		}
	}
	for i := range loads {
		if loads[i].Tension > 0 {
			add("prying, and bending of the plate by bolts that pull it: not worked out; it adds to the tension")
			break
		}
	}
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
