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
	return shopRules("shop "+num.Short(edge, 1)+"d", edge, pitch, profiles.CommonPractice)
}

// ownWord is how a file asks for the factors of its profile.
const ownWord = "shop"

// ownShop is the rule set whose factors a profile gives.
func ownShop(s *profiles.Set) *ruleSet {
	e, p := s.LimitRow(profiles.ShopEdge), s.LimitRow(profiles.ShopPitch)
	prov := e.Source.Prov
	if p.Source.Prov == profiles.ShopsOwn {
		prov = p.Source.Prov
	}
	return shopRules(ownWord, e.Value, p.Value, prov)
}

func shopRules(word string, edge, pitch float64, prov profiles.Prov) *ruleSet {
	src := profiles.Source{Text: "shop rule " + num.Short(edge, 2) + " d to an edge, " + num.Short(pitch, 2) + " d between centres",
		Prov: prov}
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
			text := num.Short(edge, 2) + " d, d " + c.len(o.hole.Bolt.D)
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
