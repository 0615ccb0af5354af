// Package stock plans how to saw pieces out of bars: the one-dimensional
// cutting-stock problem with saw kerf, end trim, several bar lengths and drops on
// hand. It buys as little as can be found, and says how little it could be at
// best; where both are one the plan is proven.
//
// Unit: mm. Inside, lengths are whole micrometres, pieces rounded up and bars
// down, so that every decision is exact and the same everywhere.
package stock

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"blankwright/flat/num"
)

// Piece is a length wanted so many times.
type Piece struct {
	Name   string
	Length float64 // mm
	Count  int
}

// Bar is a length to saw from.
type Bar struct {
	Name   string
	Length float64 // mm
	// Count is how many there are; 0 means as many as wanted, for bars to buy
	// only.
	Count int
	// OnHand is for drops and bars that are paid for already.
	OnHand bool
	// Price of one, in any money; where no bar has a price, a bar counts by its
	// length.
	Price float64
}

// Saw is what sawing takes.
type Saw struct {
	Kerf      float64 // width of each cut, mm
	TrimStart float64 // taken off each bar's first end before the first piece, its cut included, mm
	TrimEnd   float64 // unusable at each bar's last end, mm
	Keep      float64 // a leftover of at least this length is kept as a drop, mm; 0 keeps none
}

// Plan is how to saw.
type Plan struct {
	Layouts []Layout // the different ones, longest bars first
	// Bars is how many bars are bought, Length their length together, mm, Cost
	// their price (their length where bars have no price).
	Bars   int
	Length float64
	Cost   float64
	// Bound is the least cost that any plan could have; Proven says that this one
	// has it.
	Bound  float64
	Proven bool
	// Wanted is the length of all pieces, Kerfs what the saw takes, Trims what
	// comes off first ends, Kept the drops kept, Scrap the rest, mm; together they
	// make all bars used.
	Wanted, Kerfs, Trims, Kept, Scrap float64
}

// Layout is a way to saw one bar, and how many bars are sawn so.
type Layout struct {
	Bar    string
	Length float64 // of the bar, mm
	OnHand bool
	Count  int
	Cuts   []Cut
	Left   float64 // behind the last cut, the unusable end included, mm
	Kept   bool    // Left is long enough to keep
}

// Cut is one piece in a bar: from and to, mm from the bar's first end.
type Cut struct {
	Length   float64
	From, To float64
	// Names are the pieces sawn here, one for each bar of the layout.
	Names []string
}

const micron = 1000 // micrometres in a mm

// largest is the longest bar that is taken, mm: 1 km, so that sums stay exact.
const largest = 1e6

// most is the largest number of pieces and of bars on hand.
const most = 100000

// Best plans the sawing. Errors say in words which piece fits no bar, or that
// the bars do not suffice.
//
// Method: P. C. Gilmore and R. E. Gomory, "A linear programming approach to the
// cutting-stock problem", Operations Research 9 (1961), DOI
// 10.1287/opre.9.6.849, for the bound (with the prices brought down to whole
// numbers, as A. A. Farley, Operations Research 38 (1990), DOI
// 10.1287/opre.38.5.922, shows); plans by filling bars one after another with
// corrected prices, as G. Belov and G. Scheithauer, INFORMS Journal on Computing
// 19 (2007), and by a search of all plans within the
// bound, ended after a fixed number of steps.
func Best(pieces []Piece, bars []Bar, saw Saw) (*Plan, error) {
	p, err := newProblem(pieces, bars, saw)
	if err != nil {
		return nil, err
	}
	if len(p.items) == 0 {
		return &Plan{Proven: true}, nil
	}
	s, err := p.search()
	if err != nil {
		return nil, err
	}
	return p.plan(s), nil
}

// item is a length wanted, the pieces of all names of that length together.
type item struct {
	length int64 // µm
	width  int64 // length and kerf
	want   int
	names  []string
}

// kind is a kind of bar.
type kind struct {
	bar    Bar
	length int64
	room   int64 // for widths: the bar less trims, plus the kerf that the last piece does not need
	cost   int64
	count  int // -1 for as many as wanted
}

// problem is the input in whole numbers.
type problem struct {
	saw    Saw
	kerf   int64
	start  int64
	items  []item // longest first
	kinds  []kind // on hand first, then by room
	priced bool
}

func newProblem(pieces []Piece, bars []Bar, saw Saw) (*problem, error) {
	if !num.Finite(saw.Kerf, saw.TrimStart, saw.TrimEnd, saw.Keep) || saw.Kerf < 0 || saw.TrimStart < 0 || saw.TrimEnd < 0 || saw.Keep < 0 || saw.Kerf > largest || saw.TrimStart > largest || saw.TrimEnd > largest {
		return nil, fmt.Errorf("saw has kerf %s, trims %s and %s, keeps from %s mm; wanted 0 or more each", short(saw.Kerf), short(saw.TrimStart), short(saw.TrimEnd), short(saw.Keep))
	}
	p := &problem{saw: saw, kerf: up(saw.Kerf), start: up(saw.TrimStart)}
	if err := p.addKinds(bars); err != nil {
		return nil, err
	}
	if err := p.addItems(pieces); err != nil {
		return nil, err
	}
	return p, nil
}

func short(v float64) string { return num.Short(v, 3) }

// up and down are lengths in whole micrometres.
func up(mm float64) int64   { return int64(math.Ceil(mm*micron - num.LimitSlack)) }
func down(mm float64) int64 { return int64(math.Floor(mm*micron + num.LimitSlack)) }

func (p *problem) addKinds(bars []Bar) error {
	if len(bars) == 0 {
		return errors.New("there are no bars to saw from; give a bar length or drops on hand")
	}
	for _, b := range bars {
		p.priced = p.priced || b.Price != 0
	}
	onHand := 0
	for _, b := range bars {
		switch {
		case !num.Finite(b.Length, b.Price) || b.Length <= 0 || b.Length > largest:
			return fmt.Errorf("bar %q has length %s mm, wanted more than 0 and at most %s", b.Name, short(b.Length), short(largest))
		case b.Count < 0 || b.Count > most:
			return fmt.Errorf("bar %q is there %d times, wanted 0 (as many as wanted) to %d", b.Name, b.Count, most)
		case b.OnHand && b.Count == 0:
			return fmt.Errorf("bar %q is on hand, but not how many times; give a count", b.Name)
		case b.Price < 0 || b.Price > largest:
			return fmt.Errorf("bar %q has price %s, wanted 0 to %s", b.Name, short(b.Price), short(largest))
		case p.priced && !b.OnHand && b.Price == 0:
			return fmt.Errorf("bar %q has no price, others have one; give all bars to buy a price, or none", b.Name)
		}
		k := kind{bar: b, length: down(b.Length), count: b.Count}
		k.room = k.length - p.start - up(p.saw.TrimEnd) + p.kerf
		switch {
		case b.OnHand:
			onHand += b.Count
		case p.priced:
			k.cost = int64(math.Round(b.Price * micron))
		default:
			k.cost = k.length
		}
		if !b.OnHand && b.Count == 0 {
			k.count = -1
		}
		p.kinds = append(p.kinds, k)
	}
	if onHand > most {
		return fmt.Errorf("%d bars are on hand, wanted at most %d", onHand, most)
	}
	sort.SliceStable(p.kinds, func(i, j int) bool {
		a, b := &p.kinds[i], &p.kinds[j]
		if a.bar.OnHand != b.bar.OnHand {
			return a.bar.OnHand
		}
		return a.room > b.room
	})
	return nil
}

func (p *problem) addItems(pieces []Piece) error {
	room := int64(0)
	for _, k := range p.kinds {
		room = max(room, k.room)
	}
	at := map[int64]int{}
	all := 0
	for _, x := range pieces {
		switch {
		case !num.Finite(x.Length) || x.Length <= 0 || x.Length > largest:
			return fmt.Errorf("piece %q has length %s mm, wanted more than 0 and at most %s", x.Name, short(x.Length), short(largest))
		case x.Count < 0:
			return fmt.Errorf("piece %q is wanted %d times, wanted 0 or more", x.Name, x.Count)
		case x.Count == 0:
			continue
		}
		l := up(x.Length)
		if l+p.kerf > room {
			return fmt.Errorf("piece %q is %s mm long, the longest bar gives %s mm; take a longer bar or join two pieces", x.Name, short(x.Length), short(float64(max(0, room-p.kerf))/micron))
		}
		if all += x.Count; all > most {
			return fmt.Errorf("more than %d pieces are wanted; plan them in parts", most)
		}
		i, ok := at[l]
		if !ok {
			i = len(p.items)
			at[l] = i
			p.items = append(p.items, item{length: l, width: l + p.kerf})
		}
		p.items[i].want += x.Count
		for range x.Count {
			p.items[i].names = append(p.items[i].names, x.Name)
		}
	}
	sort.SliceStable(p.items, func(i, j int) bool { return p.items[i].length > p.items[j].length })
	return nil
}

// plan writes a solution out.
func (p *problem) plan(s *solution) *Plan {
	p.spareDrops(s)
	out := &Plan{Cost: s.costOf(p), Bound: s.bound, Proven: s.proven}
	next := make([]int, len(p.items)) // the next name of each item
	for _, u := range s.merged() {
		k := &p.kinds[u.kind]
		l := Layout{Bar: k.bar.Name, Length: k.bar.Length, OnHand: k.bar.OnHand, Count: u.times}
		at := p.start
		first := true
		for i, n := range u.pieces {
			for range n {
				if !first {
					at += p.kerf
				}
				first = false
				c := Cut{Length: float64(p.items[i].length) / micron, From: float64(at) / micron}
				at += p.items[i].length
				c.To = float64(at) / micron
				for range u.times {
					c.Names = append(c.Names, p.items[i].names[next[i]])
					next[i]++
				}
				l.Cuts = append(l.Cuts, c)
			}
		}
		p.account(out, &l, k, at)
		out.Layouts = append(out.Layouts, l)
	}
	return out
}

// account adds a layout, its last piece ending at, to the sums.
func (p *problem) account(out *Plan, l *Layout, k *kind, at int64) {
	times := float64(l.Count)
	left := k.length - at
	cut := min(left, p.kerf) // the last piece is cut off, unless it ends with the bar
	left -= cut
	l.Left = float64(left) / micron
	l.Kept = p.saw.Keep > 0 && num.AtLeast(l.Left, p.saw.Keep)
	if !k.bar.OnHand {
		out.Bars += l.Count
		out.Length += times * k.bar.Length
	}
	wanted := 0.0
	for _, c := range l.Cuts {
		wanted += c.Length
	}
	out.Wanted += times * wanted
	out.Trims += times * float64(p.start) / micron
	out.Kerfs += times * float64(int64(len(l.Cuts)-1)*p.kerf+cut) / micron
	if l.Kept {
		out.Kept += times * l.Left
	} else {
		out.Scrap += times * l.Left
	}
}
