package check

import (
	"blankwright/flat/num"
	"blankwright/profiles"
)

// webSource, holeSource and edgeSource cite the one figure of the process that a
// rule asks for: `least web t and 3 mm, common practice`.
func (c *Context) webSource() string {
	p := &c.Blank.Process
	return figure("least web", p.MinWebT, p.MinWeb, p.Source.Prov)
}

func (c *Context) holeSource() string {
	p := &c.Blank.Process
	return figure("smallest hole", p.MinHoleT, p.MinHole, p.Source.Prov)
}

func (c *Context) edgeSource() string {
	p := &c.Blank.Process
	return figure("shortest edge", 0, p.MinSeg, p.Source.Prov)
}

func (c *Context) kerfSource() string {
	p := &c.Blank.Process
	return figure("kerf", 0, c.kerf(), p.Source.Prov)
}

// figure writes k t and mm, what there is of them.
func figure(what string, k, mm float64, prov profiles.Prov) string {
	text := what
	switch k {
	case 0:
	case 1:
		text += " t"
	default:
		text += " " + num.Short(k, 2) + " t"
	}
	if mm > 0 {
		if k > 0 {
			text += " and"
		}
		text += " " + num.Short(mm, 2) + " mm"
	}
	if prov != "" && prov != profiles.Standard {
		text += ", " + string(prov)
	}
	return text
}
