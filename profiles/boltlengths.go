package profiles

import "fmt"

// NutKind is a kind of nut.
type NutKind int

// The kinds of nuts.
const (
	PlainNut NutKind = iota
	LockNut          // with a nylon ring
	ThinNut
)

// NutKinds are their names, in order.
func NutKinds() []string { return []string{"plain", "lock", "thin"} }

// nutRow holds what goes under and behind a bolt of one size, mm: greatest
// heights of nuts (0 where the standard has none) and thickness of a washer.
type nutRow struct {
	size   string
	height [3]float64 // plain, lock, thin
	washer float64
}

var (
	metricNuts = Source{"ISO 4032, ISO 7040 and ISO 4035, greatest heights; ISO 7089, nominal washers", FromMemory}
	inchNuts   = Source{"ASME B18.2.2 and B18.16.6, greatest heights; ASME B18.21.1 type A washers, greatest thickness", FromMemory}
)

var metricNutRows = []nutRow{
	{"M3", [3]float64{2.4, 4.5, 1.8}, 0.5}, {"M4", [3]float64{3.2, 6, 2.2}, 0.8}, {"M5", [3]float64{4.7, 6.8, 2.7}, 1},
	{"M6", [3]float64{5.2, 8, 3.2}, 1.6}, {"M8", [3]float64{6.8, 9.5, 4}, 1.6}, {"M10", [3]float64{8.4, 11.9, 5}, 2},
	{"M12", [3]float64{10.8, 14.9, 6}, 2.5}, {"M14", [3]float64{12.8, 17, 7}, 2.5}, {"M16", [3]float64{14.8, 19.1, 8}, 3},
	{"M18", [3]float64{15.8, 0, 9}, 3}, {"M20", [3]float64{18, 22.8, 10}, 3}, {"M22", [3]float64{19.4, 0, 11}, 3},
	{"M24", [3]float64{21.5, 27.1, 12}, 4}, {"M27", [3]float64{23.8, 0, 13.5}, 4}, {"M30", [3]float64{25.6, 32.6, 15}, 4},
	{"M33", [3]float64{28.7, 0, 16.5}, 5}, {"M36", [3]float64{31, 38.9, 18}, 5},
}

var inchNutRows = []nutRow{
	inchNut("1/4", 0.226, 0.328, 0.163, 0.080), inchNut("5/16", 0.273, 0.359, 0.195, 0.104), inchNut("3/8", 0.337, 0.468, 0.227, 0.104),
	inchNut("7/16", 0.385, 0.468, 0.260, 0.104), inchNut("1/2", 0.448, 0.609, 0.323, 0.132), inchNut("9/16", 0.496, 0.656, 0.324, 0.132),
	inchNut("5/8", 0.559, 0.765, 0.387, 0.160), inchNut("3/4", 0.665, 0.890, 0.446, 0.177), inchNut("7/8", 0.776, 0.999, 0.510, 0.192),
	inchNut("1", 0.887, 1.078, 0.575, 0.192), inchNut("1-1/8", 0.999, 0, 0.639, 0.192), inchNut("1-1/4", 1.094, 0, 0.751, 0.192),
	inchNut("1-3/8", 1.206, 0, 0.815, 0.213), inchNut("1-1/2", 1.317, 0, 0.880, 0.213),
}

func inchNut(size string, plain, lock, thin, washer float64) nutRow {
	return nutRow{size, [3]float64{plain * inch, lock * inch, thin * inch}, washer * inch}
}

var (
	metricLengths = []float64{12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160,
		180, 200, 220, 240, 260, 280, 300}
	metricLengthSource = Source{"ISO 888 and ISO 4014: lengths; thread 2 d + 6 mm, over 125 mm 2 d + 12, over 200 mm 2 d + 25", FromMemory}
	inchLengthSource   = Source{"ASME B18.2.1: lengths usually stocked; thread 2 d + 1/4 in, over 6 in 2 d + 1/2 in", FromMemory}
)

// inchLengths go by 1/8 in to 1, by 1/4 to 6, by 1/2 to 12.
var inchLengths = func() (ls []float64) {
	for n := 4; n <= 96; { // eighths
		ls = append(ls, float64(n)/8*inch)
		switch {
		case n < 8:
			n++
		case n < 48:
			n += 2
		default:
			n += 4
		}
	}
	return ls
}()

// BoltLengths are the usual lengths (mm) of hexagon bolts under the head,
// shortest first.
func BoltLengths(metric bool) ([]float64, Source) {
	if metric {
		return append([]float64(nil), metricLengths...), metricLengthSource
	}
	return append([]float64(nil), inchLengths...), inchLengthSource
}

// ThreadLength is the nominal length of thread (mm) of a hexagon bolt; no more
// than its length.
func ThreadLength(b Bolt, length float64) float64 {
	v, step, mid := 2*b.D+6, 6.0, 125.0
	if !b.Metric {
		v, step, mid = 2*b.D+inch/4, inch/4, 6*inch
	}
	if nano(length) > nano(mid) {
		v += step
	}
	if b.Metric && nano(length) > nano(200) {
		v += 13
	}
	return min(v, length)
}

// runOut is how much of the shank beside the thread the run-out takes, in
// pitches: ISO 3508, from memory.
const runOut = 2.5

// Shank is the length (mm) under the head that has the full diameter, the thread's
// run-out taken off.
func Shank(b Bolt, length float64) float64 {
	return max(0, length-ThreadLength(b, length)-runOut*coarsePitch(b))
}

func coarsePitch(b Bolt) float64 {
	if b.Pitch > 0 {
		return b.Pitch
	}
	rows := inchThreads
	if b.Metric {
		rows = metricSizes
	}
	for i := range rows {
		if rows[i].size == b.Size {
			return rows[i].pitches[0]
		}
	}
	return 0
}

// Stack is what a bolt goes through, mm.
type Stack struct {
	Bolt    Bolt
	Grip    float64 // all plies together
	Last    float64 // thickness of the ply under the nut
	Washers int     // one goes under the nut first, the next under the head
	Nut     NutKind
	Threads float64 // pitches that have to show past the nut
	Out     bool    // no thread in a shear plane
}

// Hardware gives the thickness of a washer and the height of the nut (mm).
func (k Stack) Hardware() (washer, nut float64, src Source, err error) {
	rows, src := inchNutRows, inchNuts
	if k.Bolt.Metric {
		rows, src = metricNutRows, metricNuts
	}
	for _, r := range rows {
		if r.size != k.Bolt.Size {
			continue
		}
		if r.height[k.Nut] == 0 {
			return 0, 0, src, fmt.Errorf("no %s nut of %s in the table of nuts", NutKinds()[k.Nut], k.Bolt.Size)
		}
		return r.washer, r.height[k.Nut], src, nil
	}
	return 0, 0, src, fmt.Errorf("no nuts of %s in the table of nuts", k.Bolt.Size)
}

// BoltFit is how a bolt of one length sits in its stack, mm. What is negative is
// lacking.
type BoltFit struct {
	Length float64
	Past   float64 // how much longer it is than needed for nut and threads past it
	Thread float64 // how far the nut, when tight, stays away from the end of the thread towards the head
	Shank  float64 // how far the full shank reaches past the last shear plane
}

// Fit measures a bolt of a length in its stack.
func (k Stack) Fit(length float64) (BoltFit, error) {
	washer, nut, _, err := k.Hardware()
	if err != nil {
		return BoltFit{}, err
	}
	under := float64(k.Washers) * washer
	head := under / 2 // half of them, the smaller half where they are odd
	if k.Washers%2 == 1 {
		head = float64(k.Washers-1) / 2 * washer
	}
	seat := k.Grip + under // where the nut bears
	return BoltFit{
		Length: length,
		Past:   length - seat - nut - k.Threads*coarsePitch(k.Bolt),
		Thread: seat - (length - ThreadLength(k.Bolt, length)),
		Shank:  Shank(k.Bolt, length) - (head + k.Grip - k.Last),
	}, nil
}

// Good reports whether the bolt does in its stack.
func (k Stack) Good(f BoltFit) bool {
	return nano(f.Past) >= 0 && nano(f.Thread) >= 0 && (!k.Out || nano(f.Shank) >= 0)
}

// mostWashers is how many washers one bolt gets before another way is looked for
// (common practice).
const mostWashers = 4

// Choose gives the shortest usual length that does, with the washers of the stack
// or, where none does, with more of them; false where that does not help either.
func (k Stack) Choose() (f BoltFit, washers int, ok bool, err error) {
	lengths, _ := BoltLengths(k.Bolt.Metric)
	for ; k.Washers <= mostWashers; k.Washers++ {
		for _, l := range lengths {
			if f, err = k.Fit(l); err != nil {
				return f, 0, false, err
			}
			if k.Good(f) {
				return f, k.Washers, true, nil
			}
		}
	}
	return BoltFit{}, 0, false, nil
}

func boltLengthTable(metric bool) Table {
	t := Table{Name: "bolt-lengths-inch", Title: "usual lengths of hexagon bolts, inch", Columns: []string{"length in", "length mm"}, Source: inchLengthSource}
	if metric {
		t = Table{Name: "bolt-lengths-metric", Title: "usual lengths of hexagon bolts, metric", Columns: []string{"length mm"}, Source: metricLengthSource}
	}
	ls, _ := BoltLengths(metric)
	for _, l := range ls {
		row := []string{mm(l)}
		if !metric {
			row = []string{sizeIn(l, false), mm(l)}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func nutTable(metric bool) Table {
	t := Table{Name: "nuts-inch", Title: "heights of nuts and thickness of washers, inch bolts",
		Columns: []string{"bolt", "plain mm", "lock mm", "thin mm", "washer mm"}, Source: inchNuts}
	rows := inchNutRows
	if metric {
		t.Name, t.Title, t.Source, rows = "nuts-metric", "heights of nuts and thickness of washers, metric bolts", metricNuts, metricNutRows
	}
	for _, r := range rows {
		row := []string{r.size}
		for _, h := range r.height {
			if h == 0 {
				row = append(row, "-")
			} else {
				row = append(row, mm(h))
			}
		}
		t.Rows = append(t.Rows, append(row, mm(r.washer)))
	}
	return t
}
