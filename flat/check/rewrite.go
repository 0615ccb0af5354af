package check

import (
	"errors"
	"fmt"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/profiles"
)

// The keys that a change of kind Rewrite may give another value. Item is the entry
// of a list, from 0; of gussets and tangents 0 is the outline and what comes after
// are the added shapes.
const (
	keyThickness  = "thickness"      // of the plate: To
	keySnipe      = "snipe"          // of a gusset: To
	keyToes       = "toes"           // of a gusset, both: To
	keyBossRadius = "boss radius"    // boss Sub of a tangent: To
	keyBossOut    = "boss out"       // boss Sub of a tangent or a link plate goes
	keyGap        = "joint gap"      // To
	keySpacer     = "joint spacer"   // To
	keyLength     = "joint length"   // of the bolt: To; with Sub washers where that is over 0
	keyWashers    = "joint washers"  // To
	keySleeveBore = "sleeve bore"    // To
	keySleeveWide = "sleeve outside" // To
	keyHow        = "how"            // of the entry Hole under holes: Word
)

var errNoEntry = errors.New("the description has no such entry")

// rewrite changes the description and makes the blank again.
func (ch Change) rewrite(b *blank.Blank) (*blank.Blank, error) {
	if b.Part == nil {
		return nil, errNoEntry
	}
	p := *b.Part
	if err := ch.edit(&p); err != nil {
		return nil, err
	}
	bs, err := blank.MakeWith(&p, b.Profile)
	if err != nil {
		return nil, err
	}
	for _, t := range bs {
		if t.Hand == b.Hand {
			return t, nil
		}
	}
	return nil, errNoEntry
}

func written(mm float64) describe.Length { return describe.Length{MM: mm, Set: true} }

// edit gives a key of the description another value. p is a copy; what it points to
// is shared and copied before it is changed.
func (ch Change) edit(p *describe.Part) error {
	if done, err := ch.bentEdit(p); done {
		return err
	}
	switch ch.Key {
	case keyThickness:
		pos := p.Plate.Thickness.Pos
		p.Plate.Thickness = written(ch.To)
		p.Plate.Thickness.Pos = pos
		return nil
	case keyHow:
		i := slices.IndexFunc(p.Holes, func(h describe.HoleSet) bool { return h.Name.Text == ch.Hole })
		if i < 0 {
			return errNoEntry
		}
		p.Holes = slices.Clone(p.Holes)
		p.Holes[i].How = describe.Word{Text: ch.Word, Set: true}
		return nil
	case keySnipe, keyToes, keyBossRadius, keyBossOut:
		s := &p.Outline
		if ch.Item > 0 {
			if ch.Item > len(p.Add) {
				return errNoEntry
			}
			p.Add = slices.Clone(p.Add)
			s = &p.Add[ch.Item-1].Shape
		}
		return ch.shape(s)
	}
	if ch.Item < 0 || ch.Item >= len(p.Joints) {
		return errNoEntry
	}
	p.Joints = slices.Clone(p.Joints)
	return ch.joint(&p.Joints[ch.Item])
}

func (ch Change) shape(s *describe.Shape) error {
	switch ch.Key {
	case keySnipe, keyToes:
		if s.Gusset == nil {
			return errNoEntry
		}
		g := *s.Gusset
		if ch.Key == keySnipe {
			g.Snipe = written(ch.To)
		} else {
			for i := range g.Toes {
				if g.Toes[i].MM < ch.To {
					g.Toes[i] = written(ch.To)
				}
			}
		}
		s.Gusset = &g
		return nil
	}
	list := &s.Tangent
	if s.LinkPlate != nil {
		k := *s.LinkPlate
		s.LinkPlate = &k
		list = &k.Through
		if ch.Key == keyBossOut && len(k.Widths) > 1 && ch.Sub < len(k.Widths) {
			k.Widths = slices.Delete(slices.Clone(k.Widths), ch.Sub, ch.Sub+1)
		}
	}
	if ch.Sub < 0 || ch.Sub >= len(*list) {
		return errNoEntry
	}
	*list = slices.Clone(*list)
	if ch.Key == keyBossOut {
		*list = slices.Delete(*list, ch.Sub, ch.Sub+1)
		return nil
	}
	(*list)[ch.Sub].Radius = written(ch.To)
	return nil
}

func (ch Change) joint(j *describe.Joint) error {
	switch ch.Key {
	case keyGap:
		j.Gap = written(ch.To)
	case keySpacer:
		j.Spacer = written(ch.To)
	case keyLength:
		j.Length = written(ch.To)
		if ch.Sub > 0 {
			j.Washers = describe.Count{N: ch.Sub, Set: true}
		}
	case keyWashers:
		j.Washers = describe.Count{N: int(ch.To), Set: true}
	case keySleeveBore, keySleeveWide:
		if j.Sleeve == nil {
			return errNoEntry
		}
		s := *j.Sleeve
		if ch.Key == keySleeveBore {
			s.Bore = written(ch.To)
		} else {
			s.Outside = written(ch.To)
		}
		j.Sleeve = &s
	default:
		return fmt.Errorf("unknown key %q to rewrite", ch.Key)
	}
	return nil
}

// limit is one of the workshop's limits, by the profile of the run.
func (c *Context) limit(id profiles.LimitID) float64 { return c.Blank.Profile.Limit(id) }

// limitSource names where a limit comes from.
func (c *Context) limitSource(id profiles.LimitID) string {
	return cite(c.Blank.Profile.LimitRow(id).Source)
}

// firstThat gives the changes that can be made at all.
func (c *Context) firstThat(changes ...Change) []Change {
	return slices.DeleteFunc(changes, func(ch Change) bool {
		_, err := ch.Apply(c.Blank)
		return err != nil
	})
}
