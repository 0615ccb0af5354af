package check

import (
	"blankwright/flat/num"
	"blankwright/profiles"
)

// shop is a workshop's rule of thumb by bolt diameter: so many d from a bolt's
// centre to an edge and so many between centres. 1.5 d is what fabricators
// treat as the floor and 2 d what they like to have along the load; 2.5 d and
// 3 d between centres are the habits that go with them. Common practice, from
// memory: shops differ.
func shop(edge, pitch float64) *ruleSet {
	word := "shop " + num.Short(edge, 1) + "d"
	src := profiles.Source{Text: "shop rule " + num.Short(edge, 1) + " d to an edge, " + num.Short(pitch, 1) + " d between centres",
		Prov: profiles.CommonPractice}
	return &ruleSet{
		word: word,
		edge: func(_ *Context, o *opening) edgeAsk {
			a := edgeAsk{want: edge * o.hole.Bolt.D, source: [2]profiles.Source{src}}
			if o.half > 0 {
				a.half = max(0, (o.hole.Length-o.hole.Bolt.D)/2)
			}
			return a
		},
		edgeWords: func(c *Context, o *opening) string {
			text := num.Short(edge, 1) + " d, d " + c.len(o.hole.Bolt.D)
			if o.half > 0 {
				text += ", from where the bolt sits at an end of the slot"
			}
			return text
		},
		spacing: func(a, b *opening) spacingAsk {
			d := wider(a, b)
			return spacingAsk{
				centres: pitch * d, axes: true,
				basis: "d", of: d, factor: [2]float64{pitch}, source: src,
			}
		},
	}
}
