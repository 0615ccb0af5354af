package cope

import (
	"fmt"
	"math"
)

// Station is one line of a table for marking a tube without a printer.
type Station struct {
	Index      int
	Q          float64 // generator, rad
	Around     float64 // mm round the tube's outside from the datum generator, by a tape
	S          [3]float64
	AboveLeast [3]float64 // s above the curve's least
	FromEdge   [3]float64 // mm along the tube from a square line at EdgeAt to the mark
}

// Stations is the table for n equal steps round the tube (12, 24 and 36 are
// usual; a multiple of 4, so that the quarters are among them), each curve by its
// Kind. edgeAt is the s of the square line that distances are measured from, as
// a template's EdgeAt.
func (c *Cope) Stations(n int, edgeAt float64) ([]Station, error) {
	if n < 4 || n%4 != 0 || n > 3600 {
		return nil, fmt.Errorf("table of %d lines, wanted a multiple of 4 from 4 to 3600", n)
	}
	out := make([]Station, n)
	for i := range out {
		q := float64(i) * (fullTurn / float64(n))
		t := Station{Index: i, Q: q, Around: math.Pi * c.Tube.OD * float64(i) / float64(n)}
		for k, u := range c.curves {
			s := u.At(q)
			t.S[k], t.AboveLeast[k], t.FromEdge[k] = s, s-u.ear.S, edgeAt-s
		}
		out[i] = t
	}
	return out, nil
}
