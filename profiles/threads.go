package profiles

// thread is one nominal size with its threads, coarse first. Inch threads are
// given in threads per inch, metric ones by their pitch in mm.
type thread struct {
	size    string
	d       float64   // mm
	pitches []float64 // mm
	area    float64   // published tensile stress area of the coarse thread, mm2; 0 where not given
	seen    bool      // area was read, not remembered
}

var (
	unifiedThreads = Source{"ASME B1.1, UNC and UNF series", FromMemory}
	metricThreads  = Source{"ISO 261 and ISO 262, coarse and fine pitches", FromMemory}
)

var inchThreads = []thread{
	{size: "#4", d: 0.112 * inch, pitches: []float64{inch / 40, inch / 48}},
	{size: "#5", d: 0.125 * inch, pitches: []float64{inch / 40, inch / 44}},
	{size: "#6", d: 0.138 * inch, pitches: []float64{inch / 32, inch / 40}},
	{size: "#8", d: 0.164 * inch, pitches: []float64{inch / 32, inch / 36}},
	{size: "#10", d: 0.190 * inch, pitches: []float64{inch / 24, inch / 32}},
	{size: "#12", d: 0.216 * inch, pitches: []float64{inch / 24, inch / 28}},
	{size: "1/4", d: 1.0 / 4 * inch, pitches: []float64{inch / 20, inch / 28}},
	{size: "5/16", d: 5.0 / 16 * inch, pitches: []float64{inch / 18, inch / 24}},
	{size: "3/8", d: 3.0 / 8 * inch, pitches: []float64{inch / 16, inch / 24}},
	{size: "7/16", d: 7.0 / 16 * inch, pitches: []float64{inch / 14, inch / 20}},
	{size: "1/2", d: 1.0 / 2 * inch, pitches: []float64{inch / 13, inch / 20}},
	{size: "9/16", d: 9.0 / 16 * inch, pitches: []float64{inch / 12, inch / 18}},
	{size: "5/8", d: 5.0 / 8 * inch, pitches: []float64{inch / 11, inch / 18}},
	{size: "3/4", d: 3.0 / 4 * inch, pitches: []float64{inch / 10, inch / 16}},
	{size: "7/8", d: 7.0 / 8 * inch, pitches: []float64{inch / 9, inch / 14}},
	{size: "1", d: 1 * inch, pitches: []float64{inch / 8, inch / 12, inch / 14}}, // 1-14 is UNS, yet the usual fine one
	{size: "1-1/8", d: 9.0 / 8 * inch, pitches: []float64{inch / 7, inch / 12}},
	{size: "1-1/4", d: 5.0 / 4 * inch, pitches: []float64{inch / 7, inch / 12}},
	{size: "1-3/8", d: 11.0 / 8 * inch, pitches: []float64{inch / 6, inch / 12}},
	{size: "1-1/2", d: 3.0 / 2 * inch, pitches: []float64{inch / 6, inch / 12}},
}

var metricSizes = []thread{
	{"M3", 3, []float64{0.5, 0.35}, 5.03, true},
	{"M3.5", 3.5, []float64{0.6, 0.35}, 6.78, false},
	{"M4", 4, []float64{0.7, 0.5}, 8.78, true},
	{"M5", 5, []float64{0.8, 0.5}, 14.2, false},
	{"M6", 6, []float64{1, 0.75}, 20.1, true},
	{"M7", 7, []float64{1, 0.75}, 28.9, false},
	{"M8", 8, []float64{1.25, 1, 0.75}, 36.6, true},
	{"M10", 10, []float64{1.5, 1.25, 1, 0.75}, 58, true},
	{"M12", 12, []float64{1.75, 1.25, 1.5, 1}, 84.3, true},
	{"M14", 14, []float64{2, 1.5, 1.25, 1}, 115, false},
	{"M16", 16, []float64{2, 1.5, 1}, 157, true},
	{"M18", 18, []float64{2.5, 1.5, 2, 1}, 192, false},
	{"M20", 20, []float64{2.5, 1.5, 2, 1}, 245, true},
	{"M22", 22, []float64{2.5, 1.5, 2, 1}, 303, false},
	{"M24", 24, []float64{3, 2, 1.5, 1}, 353, true},
	{"M27", 27, []float64{3, 2, 1.5, 1}, 459, false},
	{"M30", 30, []float64{3.5, 2, 3, 1.5, 1}, 561, true},
	{"M33", 33, []float64{3.5, 2, 3, 1.5}, 694, false},
	{"M36", 36, []float64{4, 3, 2, 1.5}, 817, true},
}

// threadOf is the row of a bolt, nil if its size is not one of ours.
func threadOf(b Bolt) *thread {
	rows := inchThreads
	if b.Metric {
		rows = metricSizes
	}
	for i := range rows {
		if rows[i].size == b.Size {
			return &rows[i]
		}
	}
	return nil
}

// BoltSizes gives the names of the sizes known, smallest first.
func BoltSizes(metric bool) []string {
	rows := inchThreads
	if metric {
		rows = metricSizes
	}
	out := make([]string, len(rows))
	for i, r := range rows {
		out[i] = r.size
	}
	return out
}

// StressArea gives the tensile stress area (mm2) of a bolt's thread; of the
// coarse thread where the bolt names none. ISO 898-1, 9.1.6.2:
// pi/4 (d - 0.9382 P)^2, published to three figures for coarse metric threads;
// ASME B1.1: pi/4 (D - 0.9743 P)^2. Zero for a bolt whose size is in none of
// our tables.
func StressArea(b Bolt) (mm2 float64, src Source) {
	t := threadOf(b)
	if t == nil {
		return 0, Source{"no thread known for " + b.Size, CommonPractice}
	}
	p := b.Pitch
	if p == 0 {
		p = t.pitches[0]
	}
	if !b.Metric {
		return quarterPi * sq(t.d-float64(0.9743*p)), Source{"ASME B1.1, tensile stress area", FromMemory}
	}
	if p == t.pitches[0] {
		src := Source{"ISO 898-1, tensile stress areas, coarse thread", FromMemory}
		if t.seen {
			src.Prov = Standard
		}
		return t.area, src
	}
	return quarterPi * sq(t.d-float64(0.9382*p)), Source{"ISO 898-1, 9.1.6.2, tensile stress area", FromMemory}
}

// ShankArea is the area (mm2) of a bolt's plain shank.
func ShankArea(b Bolt) float64 { return quarterPi * sq(b.D) }

const quarterPi = 0.785398163397448309615660845819875721

func sq(v float64) float64 { return v * v }
