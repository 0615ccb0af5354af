package main

import (
	"fmt"
	"math"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/num"
)

// cutReport is what --json prints of the cutting of one piece. Lengths are mm,
// angles degrees.
type cutReport struct {
	Width     float64      `json:"width_mm"`
	Height    float64      `json:"height_mm"`
	Area      float64      `json:"area_mm2"`
	Mass      float64      `json:"mass_kg,omitempty"`
	CutLength float64      `json:"cut_length_mm"`
	Pierces   int          `json:"pierces"`
	Seconds   float64      `json:"time_s,omitempty"`
	Rates     string       `json:"rates,omitempty"` // where the time comes from
	Cost      *float64     `json:"cost,omitempty"`  // where a profile gives prices
	Currency  string       `json:"currency,omitempty"`
	LeadIn    float64      `json:"lead_in_mm,omitempty"`
	Order     []stepReport `json:"order"`
}

// stepReport is one cut, in cutting order.
type stepReport struct {
	Kind  string   `json:"kind"`
	Name  string   `json:"name"`
	X     float64  `json:"start_x_mm"` // in the part's coordinates
	Y     float64  `json:"start_y_mm"`
	Angle *float64 `json:"start_angle_deg,omitempty"` // on a whole circle
	Room  *float64 `json:"room_mm,omitempty"`         // for a lead-in; none where it is open
}

// newCutReport tells how b is cut.
func newCutReport(b *blank.Blank, cuts []cutlist.Cut) cutReport {
	f := cutlist.Measure(b)
	lead := b.Profile.Cutting(b.Process.Name).LeadIn
	r := cutReport{
		Width: f.Width, Height: f.Height, Area: f.Area, Mass: f.Mass, CutLength: f.CutLength,
		Pierces: f.Pierces, Seconds: f.Seconds, LeadIn: lead, Order: make([]stepReport, 0, len(cuts)),
	}
	if f.Seconds > 0 {
		r.Rates = f.Source.Text
	}
	if f.Priced {
		r.Cost, r.Currency = &f.Cost, f.Currency
	}
	for i := range cuts {
		c := &cuts[i]
		s := stepReport{Kind: c.Kind.String(), Name: c.Name, X: c.Start.X, Y: c.Start.Y}
		if c.Round {
			deg := c.Angle * (180 / math.Pi)
			s.Angle = &deg
		}
		if !math.IsInf(c.Room, 1) {
			s.Room = &c.Room
		}
		r.Order = append(r.Order, s)
	}
	return r
}

// cutLine is the cut list's one line for people.
func cutLine(b *blank.Blank) string {
	f := cutlist.Measure(b)
	line := fmt.Sprintf("  to cut: %s mm, %d pierces", num.Rounded(f.CutLength, 1), f.Pierces)
	if f.Pierces == 1 {
		line = fmt.Sprintf("  to cut: %s mm, 1 pierce", num.Rounded(f.CutLength, 1))
	}
	if f.Mass > 0 {
		line += fmt.Sprintf("; mass %s kg", num.Rounded(f.Mass, 3))
	}
	if f.Seconds > 0 {
		line += fmt.Sprintf("; about %s s on the table (%s)", num.Rounded(f.Seconds, 0), f.Source.Text)
	}
	if f.Priced {
		line += "; " + strings.TrimSpace(num.Rounded(f.Cost, 2)+" "+f.Currency)
	}
	return line
}

// tightLines say where a lead-in has too little room.
func tightLines(b *blank.Blank, cuts []cutlist.Cut) (lines []string) {
	tight, lead := cutlist.Tight(b, cuts)
	for _, c := range tight {
		lines = append(lines, fmt.Sprintf("%s %s leaves %s mm for a lead-in where it starts; %s wants %s mm: use a shorter one there, or pierce elsewhere",
			c.Kind, c.Name, num.Rounded(c.Room, 2), b.Process.Name, num.Short(lead, 2)))
	}
	return lines
}
