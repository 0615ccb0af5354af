package main

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"

	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// layoutReport is what layout prints with --json. Lengths are mm in the sheet's
// coordinates, angles degrees, utilisations shares of 1.
type layoutReport struct {
	Errors []problemReport `json:"errors,omitempty"` // then nothing was written
	Held   []heldReport    `json:"held_back"`        // parts that fail a check
	Groups []groupReport   `json:"groups"`
	List   string          `json:"list,omitempty"` // the CSV
}

// heldReport is a part that is not laid out.
type heldReport struct {
	File  string   `json:"file"`
	Part  string   `json:"part"`
	Hand  string   `json:"hand"`
	Rules []string `json:"rules"`
}

// groupReport is the parts of one plate and process.
type groupReport struct {
	Name        string           `json:"name"`
	Material    string           `json:"material"`
	Thickness   float64          `json:"thickness_mm"`
	Process     string           `json:"process"`
	Gap         float64          `json:"gap_mm"`
	GapFrom     string           `json:"gap_from"`
	Margin      float64          `json:"margin_mm"`
	Turns       string           `json:"turns"`
	Placed      int              `json:"placed"`
	Utilisation float64          `json:"utilisation"`
	Sheets      []sheetReport    `json:"sheets"`
	Unplaced    []unplacedReport `json:"not_placed"`
	Picture     string           `json:"picture,omitempty"`
}

// sheetReport is one sheet, its pieces in cutting order.
type sheetReport struct {
	Number      int           `json:"sheet"`
	Stock       string        `json:"stock"`
	Remnant     bool          `json:"remnant"`
	Width       float64       `json:"width_mm"`
	Height      float64       `json:"height_mm"`
	Utilisation float64       `json:"utilisation"`
	Net         float64       `json:"utilisation_net"` // of the sheet less what is left for the rack
	CutLength   float64       `json:"cut_length_mm"`
	Pierces     int           `json:"pierces"`
	Seconds     float64       `json:"time_s,omitempty"`
	Pieces      []pieceReport `json:"pieces"`
	Left        []leftReport  `json:"left"`
	Files       []string      `json:"files"`
}

// pieceReport is one piece on a sheet.
type pieceReport struct {
	Order    int     `json:"order"`
	Label    string  `json:"label"` // number of the part on the picture, and of the copy
	Part     string  `json:"part"`
	Revision string  `json:"revision,omitempty"`
	Hand     string  `json:"hand"`
	File     string  `json:"file"`
	X        float64 `json:"left_mm"`
	Y        float64 `json:"low_mm"`
	Turn     float64 `json:"turn_deg"`
}

// leftReport is a piece of plate that goes back to the rack.
type leftReport struct {
	Width  float64 `json:"width_mm"`
	Height float64 `json:"height_mm"`
	Area   float64 `json:"area_mm2"`
}

// unplacedReport is what found no place.
type unplacedReport struct {
	Part     string `json:"part"`
	Revision string `json:"revision,omitempty"`
	Hand     string `json:"hand"`
	File     string `json:"file"`
	Count    int    `json:"count"`
	Why      string `json:"why"`
}

// turnDegrees is the angle, 0 to 360, that a motion turns by.
func turnDegrees(m geom.Motion) float64 {
	x := m.Dir(geom.Point{X: 1})
	d := math.Atan2(x.Y, x.X) * 180 / math.Pi
	if d < 0 {
		d += 360
	}
	return d
}

var layoutHead = []string{"group", "sheet", "stock", "order", "piece", "part", "revision", "hand", "file", "material", "thickness_mm", "process",
	"left_mm", "low_mm", "turn_deg", "not_placed"}

// csv is the list of all pieces, sheet by sheet in cutting order, with what was not
// placed, and why, at the end of each group.
func (l *layouter) csv() ([]byte, error) {
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	put := func(row ...string) {
		w.Write(row) // a buffer takes all it is given; Error tells the rest
	}
	put(layoutHead...)
	for i := range l.report.Groups {
		r, g := &l.report.Groups[i], l.groups[i]
		plate := []string{cell(g.material), num.Short(g.thickness, 3), g.process.Name}
		for k := range r.Sheets {
			s := &r.Sheets[k]
			for _, p := range s.Pieces {
				row := []string{r.Name, strconv.Itoa(s.Number), cell(s.Stock), strconv.Itoa(p.Order), p.Label, cell(p.Part), cell(p.Revision), p.Hand, cell(p.File)}
				put(append(append(row, plate...), num.Rounded(p.X, 3), num.Rounded(p.Y, 3), num.Rounded(p.Turn, 4), "")...)
			}
		}
		for _, u := range r.Unplaced {
			for range u.Count {
				row := []string{r.Name, "", "", "", "", cell(u.Part), cell(u.Revision), u.Hand, cell(u.File)}
				put(append(append(row, plate...), "", "", "", cell(u.Why))...)
			}
		}
	}
	w.Flush()
	return text.Bytes(), w.Error()
}

// newSheetReport sums up what lies on a sheet.
func (l *layouter) newSheetReport(g *group, s *laid) sheetReport {
	box := s.stock.Region.Bounds()
	r := sheetReport{
		Number: s.number, Stock: s.stock.Name, Remnant: s.stock.remnant, Width: box.Width(), Height: box.Height(),
		Utilisation: g.result.Sheets[s.number-1].Utilisation, Left: []leftReport{},
	}
	for n, q := range s.places {
		k := &g.kinds[q.Piece]
		f := cutlist.Measure(k.blank)
		r.CutLength += f.CutLength
		r.Pierces += f.Pierces
		r.Seconds += f.Seconds
		at := g.pieces[q.Piece].Region.Transform(q.Motion).Bounds().Min
		r.Pieces = append(r.Pieces, pieceReport{Order: n + 1, Label: label(q), Part: k.blank.Name, Revision: k.blank.Revision, Hand: k.blank.Hand.String(),
			File: k.file, X: at.X, Y: at.Y, Turn: turnDegrees(q.Motion)})
	}
	whole := s.stock.Region.Area()
	rest := whole
	for _, left := range s.left {
		b := left.Bounds()
		rest -= left.Area()
		r.Left = append(r.Left, leftReport{b.Width(), b.Height(), left.Area()})
	}
	r.Net = r.Utilisation * whole / rest
	return r
}

// newGroupReport begins the report of a group.
func (l *layouter) newGroupReport(g *group, base string) groupReport {
	r := groupReport{
		Name: base, Material: g.material, Thickness: g.thickness, Process: g.process.Name, Gap: g.gap, GapFrom: g.gapFrom,
		Margin: g.margin, Turns: l.turnsTold(g), Placed: len(g.result.Placements), Utilisation: g.result.Utilisation,
		Sheets: []sheetReport{}, Unplaced: []unplacedReport{},
	}
	for _, u := range g.result.Unplaced {
		b := g.kinds[u.Piece].blank
		r.Unplaced = append(r.Unplaced, unplacedReport{Part: b.Name, Revision: b.Revision, Hand: b.Hand.String(), File: g.kinds[u.Piece].file, Count: u.Count, Why: u.Why})
	}
	return r
}
