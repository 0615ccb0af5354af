package job

import (
	"cmp"
	"fmt"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/cope"
	"blankwright/flat/describe"
	"blankwright/flat/num"
	"blankwright/flat/stock"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// Stock is one kind of tube and how it is sawn.
type Stock struct {
	OD, Wall float64
	Material string
	Pieces   []stock.Piece
	Plan     *stock.Plan // nil where the job has no stock
}

func tubeOf(d *describe.Tube) cope.Tube {
	return cope.Tube{OD: d.Section.Outside.MM, Wall: d.Section.Wall.MM}
}

// stock puts tubes and sleeves of one section together and plans the sawing.
func (m *maker) stock() {
	put := func(od, wall float64, material string, p stock.Piece) {
		k := slices.IndexFunc(m.j.Stocks, func(s Stock) bool {
			return num.Same(s.OD, od) && num.Same(s.Wall, wall) && s.Material == material
		})
		if k < 0 {
			k = len(m.j.Stocks)
			m.j.Stocks = append(m.j.Stocks, Stock{OD: od, Wall: wall, Material: material})
		}
		m.j.Stocks[k].Pieces = append(m.j.Stocks[k].Pieces, p)
	}
	material := map[string]string{} // of the tube at a pivot
	for _, t := range m.j.Tubes {
		for _, h := range t.Hands {
			s := h.Cut.Piece.Tube
			name := h.Name
			if h.Hand == blank.Mirrored {
				name += ", mirrored"
			}
			put(s.OD, s.Wall, h.Material.Name, stock.Piece{Name: name, Length: h.Blank(), Count: h.Quantity * m.j.Sets})
			for _, p := range [2]string{t.Desc.From.Text, t.Desc.To.Text} {
				material[p] = cmp.Or(material[p], h.Material.Name)
			}
		}
	}
	for i := range m.d.Pivots {
		p := &m.d.Pivots[i]
		if s := p.Sleeve; s != nil {
			put(s.Outside.MM, (s.Outside.MM-s.Bore.MM)/2, cmp.Or(s.Material.Text, material[p.Name.Text]),
				stock.Piece{Name: "sleeve of " + p.Name.Text, Length: s.Length.MM, Count: m.j.Sets})
		}
	}
	d := m.d.Stock
	if d == nil {
		return
	}
	var bars []stock.Bar
	for _, l := range d.Bars {
		bars = append(bars, stock.Bar{Name: unit.Text(l.MM, m.d.Units) + " bar", Length: l.MM})
	}
	for i := range m.j.Stocks {
		s := &m.j.Stocks[i]
		plan, err := stock.Best(s.Pieces, bars, stock.Saw{Kerf: d.Kerf.MM, TrimStart: d.Trim.MM, Keep: d.Keep.MM})
		if err != nil {
			m.problems.Add(d.Pos, "tube %s: %s", s.Section(m.d.Units), m.words(err))
			continue
		}
		s.Plan = plan
	}
}

// Section writes a section in words.
func (s *Stock) Section(sys unit.System) string {
	words := unit.Text(s.OD, sys) + " x " + unit.Text(s.Wall, sys)
	if s.Material != "" {
		words += ", " + s.Material
	}
	return words
}

// PerBar is how many pieces of a length a bar gives when nothing else is sawn
// from it; 0 where the job has no stock.
func (j *Job) PerBar(length float64) int {
	d := j.Desc.Stock
	if d == nil || len(d.Bars) == 0 {
		return 0
	}
	longest := 0.0
	for _, b := range d.Bars {
		longest = max(longest, b.MM)
	}
	return int((longest-d.Trim.MM+d.Kerf.MM)/(length+d.Kerf.MM) + num.LimitSlack)
}

// Item is one line of the bill of materials.
type Item struct {
	Count int
	What  string
	Size  string
	For   string
}

// Bolts are what a joint of the job takes.
type Bolts struct {
	Part, Pivot string
	Joint       *blank.Joint
	Length      float64 // mm; 0 where no usual length does
	Count       int     // of bolts, for all sets; 0 where another part at the pivot brings them
	Gap, Grip   float64
	Sleeve      float64
}

// LengthText writes the length of a bolt as it is bought: `4-1/4 in (107.95 mm)`,
// `110 mm`.
func (b *Bolts) LengthText() string {
	if b.Length == 0 {
		return "no usual length does"
	}
	if b.Joint.Stack.Bolt.Metric {
		return num.Short(b.Length, 2) + " mm"
	}
	words, exact := unit.Fraction(b.Length)
	if !exact {
		return unit.Text(b.Length, unit.Inch)
	}
	return words + " in (" + unit.Text(b.Length, unit.Millimetre) + ")"
}

// Joints lists the joints of all parts: those that the job describes and those
// of the parts' own files. One bolt goes through two plates.
func (j *Job) Joints() []Bolts {
	var out []Bolts
	told := map[string]bool{}
	for i := range j.Parts {
		p := &j.Parts[i]
		b := p.Hands[0]
		for k := range b.Joints {
			q := &b.Joints[k]
			plates := p.quantity()
			if b.Part.Bent() {
				plates *= 2 // each piece has its own bolt
			}
			x := Bolts{Part: p.Name, Joint: q, Length: q.Length, Count: max(1, plates/2) * j.Sets, Gap: q.Gap, Grip: q.Stack.Grip}
			if q.Index >= p.own {
				x.Pivot = p.Desc.At.Text
				x.Count = max(1, j.platesAt(x.Pivot)/2) * j.Sets
				if told[x.Pivot] {
					x.Count = 0
				}
				told[x.Pivot] = true
			}
			if x.Length == 0 && q.Chosen {
				x.Length = q.Choice.Length
			}
			if q.Sleeve != nil {
				x.Sleeve = q.Sleeve.Width.MM
			}
			out = append(out, x)
		}
	}
	return out
}

// Bill is the bill of materials for all sets.
func (j *Job) Bill() []Item {
	sys := j.Desc.Units
	text := func(mm float64) string { return unit.Text(mm, sys) }
	var out []Item
	for _, p := range j.Plates() {
		out = append(out, Item{p.Count, "plate " + p.Name + ", " + p.Hand, p.Size(sys), "cut by its DXF"})
	}
	for _, s := range j.Stocks {
		for _, p := range s.Pieces {
			out = append(out, Item{p.Count, p.Name, s.Section(sys) + ", " + text(p.Length) + " long", "sawn"})
		}
		if s.Plan != nil && s.Plan.Bars > 0 {
			out = append(out, Item{s.Plan.Bars, "bar", s.Section(sys) + ", " + text(s.Plan.Length) + " in all", "to saw from"})
		}
	}
	for i := range j.Desc.Pivots {
		p := &j.Desc.Pivots[i]
		if b := p.Bush; b != nil {
			out = append(out, Item{j.Sets, "bush", text(b.Outside.MM) + " outside, " + text(b.Bore.MM) + " bore, " + text(b.Length.MM) + " long", "pivot " + p.Name.Text})
		}
	}
	for _, b := range j.Joints() {
		if b.Count == 0 {
			continue
		}
		where := "part " + b.Part
		if b.Pivot != "" {
			where = "pivot " + b.Pivot
		}
		length := b.LengthText()
		if b.Length > 0 {
			length += " long"
		}
		out = append(out, Item{b.Count, "bolt " + b.Joint.Stack.Bolt.Name, length, where},
			Item{b.Count, "nut, " + profiles.NutKinds()[b.Joint.Stack.Nut], b.Joint.Stack.Bolt.Size, where})
		washers := b.Joint.Stack.Washers
		if b.Joint.Chosen && b.Joint.Length == 0 {
			washers = b.Joint.Washers
		}
		if washers > 0 {
			out = append(out, Item{b.Count * washers, "washer", b.Joint.Stack.Bolt.Size, where})
		}
		if b.Joint.Spacer > 0 {
			out = append(out, Item{2 * b.Count, "spacer", text(b.Joint.Spacer) + " thick", where})
		}
	}
	return out
}

// Plate is one line of the plate list.
type Plate struct {
	Name, Hand    string
	File          string // its description, from the job's folder
	Count         int
	Material      string
	Thickness     float64
	Width, Height float64
	Area          float64 // mm², openings taken out
	Mass          float64 // kg, of one
}

// Size writes a plate's size in words.
func (p *Plate) Size(sys unit.System) string {
	return fmt.Sprintf("%s %s, %s x %s", p.Material, unit.Text(p.Thickness, sys), unit.Text(p.Width, sys), unit.Text(p.Height, sys))
}

// Plates lists all plates for all sets.
func (j *Job) Plates() []Plate {
	var out []Plate
	for i := range j.Parts {
		for _, h := range j.Parts[i].Hands {
			box := h.Outline.Bounds()
			area := h.Region().Area()
			out = append(out, Plate{Name: h.Name, File: j.Parts[i].Desc.File.Text, Hand: h.Hand.String(), Count: h.Quantity * j.Sets, Material: h.Material.Name, Thickness: h.Thickness,
				Width: box.Width(), Height: box.Height(), Area: area, Mass: area * h.Thickness * h.Material.Density * cubicMM})
		}
	}
	return out
}

// cubicMM is a mm³ in m³.
const cubicMM = 1.0 / (1000 * 1000 * 1000)
