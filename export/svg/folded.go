package svg

import (
	"blankwright/export/paper"
	"blankwright/flat/blank"
)

// Folded draws the bending sheet of a part with bends, see paper.Folded: how it
// looks folded, and its bends in order. nil for a flat part. The bytes depend on
// the arguments alone.
func Folded(b *blank.Blank, o Options) []byte {
	s := paper.Folded(b, o)
	if s == nil {
		return nil
	}
	defer s.Release()
	return Render(s)
}
