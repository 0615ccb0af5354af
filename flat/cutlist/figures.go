package cutlist

import (
	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/profiles"
)

// Figures are what a quote asks of one piece.
type Figures struct {
	Width, Height float64 // of the outline as drawn, mm
	Area          float64 // of the finished plate, mm²
	Mass          float64 // of the finished plate, kg; 0 where the material is not known
	CutLength     float64 // of all that is cut, without lead-ins, mm
	Pierces       int
	// Seconds is the time for cutting and piercing, without marking, moving and
	// handling; 0 where there are no rates for the process and thickness.
	Seconds float64
	Source  profiles.Source // of the rates
	// Cost is what the rows of a shop's own profile ask for cutting and plate, in
	// Currency, which may be ""; Priced says that there is one: prices are given,
	// and all that they are asked for is known.
	Cost     float64
	Currency string
	Priced   bool
}

const (
	minute      = 60.0 // s
	hour        = 60 * minute
	mm3InCubicM = 1000 * 1000 * 1000
)

// Measure gives the figures of one piece of b.
func Measure(b *blank.Blank) Figures {
	box := b.Outline.Bounds()
	f := Figures{Width: box.Width(), Height: box.Height(), Area: b.Outline.Area(), CutLength: b.Outline.Perimeter(), Pierces: 1}
	opening := func(finished, cut geom.Loop) {
		f.Area -= finished.Area()
		if cut != nil {
			f.CutLength += cut.Perimeter()
			f.Pierces++
		}
	}
	for i := range b.Holes {
		opening(b.Holes[i].Finished(), b.Holes[i].AsCut())
	}
	for i := range b.Cutouts {
		opening(b.Cutouts[i].Loop, b.Cutouts[i].Loop)
	}
	f.Mass = f.Area * b.Thickness * b.Material.Density / mm3InCubicM
	row := b.Profile.Cutting(b.Process.Name)
	if r, ok := row.Rate(b.Thickness); ok {
		f.Seconds = f.CutLength/r.Feed*minute + float64(f.Pierces)*r.Pierce
		f.Source = row.Source
	}
	p := row.Price
	f.Priced = row.Priced && (p.Hour == 0 || f.Seconds > 0) && (p.Kilo == 0 || f.Mass > 0)
	if f.Priced {
		f.Cost = f.Seconds/hour*p.Hour + float64(f.Pierces)*p.Pierce + f.Mass*p.Kilo
		f.Currency = b.Profile.Currency()
	}
	return f
}

// Tight are the cuts whose waste side has less room at the start than the lead-in
// that the process needs, which is given too; none for a process without one.
func Tight(b *blank.Blank, cuts []Cut) (tight []*Cut, leadIn float64) {
	leadIn = b.Profile.Cutting(b.Process.Name).LeadIn
	if leadIn == 0 {
		return nil, 0
	}
	for i := range cuts {
		if !num.AtLeast(cuts[i].Room, leadIn) {
			tight = append(tight, &cuts[i])
		}
	}
	return tight, leadIn
}
