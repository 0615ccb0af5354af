package check

import (
	"strings"

	"blankwright/flat/describe"
	"blankwright/profiles"
)

// ruleSet holds the distances that one book asks for round bolt holes.
type ruleSet struct {
	word string // as chosen in the file

	// edge is what a bolt hole needs to the nearest edge; edgeWords tells the
	// formula with its numbers.
	edge      func(c *Context, o *opening) edgeAsk
	edgeWords func(c *Context, o *opening) string

	// spacing is what two bolt holes need between them; the larger one governs.
	spacing func(a, b *opening) spacingAsk
}

// edgeAsk is the distance needed between the places a bolt may take in its hole
// and the nearest edge.
type edgeAsk struct {
	want   float64 // mm
	half   float64 // how far the bolt may sit from the hole's centre, along a slot, mm
	source [2]profiles.Source
}

// cite names the sources of what is asked.
func (a *edgeAsk) cite() string {
	if a.source[1].Text == "" {
		return cite(a.source[0])
	}
	return cite(a.source[0]) + " and " + cite(a.source[1])
}

// cite names a source together with how well it is founded, where that is less
// than a text that was read.
func cite(s profiles.Source) string {
	if s.Prov == profiles.Standard || s.Prov == "" || strings.HasPrefix(s.Text, string(s.Prov)) {
		return s.Text
	}
	return s.Text + " (" + string(s.Prov) + ")"
}

// spacingAsk is what two bolt holes need between them, mm.
type spacingAsk struct {
	centres float64 // between centres
	axes    bool    // of slots: between their axes where these are nearest, not their middles
	clear   float64 // metal between the holes; 0 where nothing is asked
	prefer  float64 // between centres, better kept; 0 where nothing is said
	basis   string  // `d`, `d0`
	of      float64 // what basis stands for, mm
	factor  [2]float64
	source  profiles.Source
	why     string // a word on the choice, "" if none is needed
}

// ruleSets in the order in which they are told; the first holds where the file
// chooses none.
var ruleSets = []*ruleSet{&aisc, aisc.as("aisc 360 lrfd"), aisc.as("aisc 360 asd"), &en1993, shop(1.5, 2.5), shop(2, 3), ownShop(nil)}

// as is the set under another word: with a design method of its own.
func (s ruleSet) as(word string) *ruleSet {
	s.word = word
	return &s
}

// aisc reports whether the distances are those of AISC 360.
func (s *ruleSet) aisc() bool { return strings.HasPrefix(s.word, "aisc ") }

// RuleSets gives the words that a file may choose its bolt hole rules by.
func RuleSets() []string {
	words := make([]string, len(ruleSets))
	for i, s := range ruleSets {
		words[i] = s.word
	}
	return words
}

// chosen is the rule set of a part; the first where it asks for none, and, with
// ok false, where there is none of that name.
func chosen(p *describe.Part) (set *ruleSet, ok bool) {
	if p.Rules.Text == "" {
		return ruleSets[0], true
	}
	for _, s := range ruleSets {
		if s.word == p.Rules.Text {
			return s, true
		}
	}
	return ruleSets[0], false
}

// wider is the larger of two bolts' diameters, mm.
func wider(a, b *opening) float64 { return max(a.hole.Bolt.D, b.hole.Bolt.D) }
