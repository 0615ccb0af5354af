package profiles

import (
	"errors"
	"math"
)

// shortestEdge is the shortest edge (mm) that any table is asked to follow.
// Controllers and drawing readers join ends that lie about this far apart, so a
// shorter edge may be swallowed, or upset the side compensation for the kerf.
const shortestEdge = 0.05

// processRow is a process with the other names that people call it by.
type processRow struct {
	p       Process
	aliases []string
}

// processes are starting values. Where shops' figures span a range, holes and
// webs are at its cautious end, the kerf in its middle, the tolerance at its
// wide end.
var processes = []processRow{
	{Process{"air plasma", 1.5, 1.5, 5, 1, 3, shortestEdge, 1.0, 2, 4,
		Source{"common practice: 45 A kerf 1.2 to 1.8 mm, 85 to 105 A 2 to 2.5 mm; hole 1.5 t and 5 mm; web t and 3 mm; 0.5 to 1 mm", CommonPractice}},
		[]string{"hand plasma", "conventional plasma"}},
	{Process{"tuned plasma", 2.0, 1.2, 4, 1, 3, shortestEdge, 0.5, 2, 3,
		Source{"common practice: kerf 1.5 to 2.5 mm; hole 1.0 to 1.2 t and two kerfs; web t and 3 mm; 0.3 to 0.5 mm", CommonPractice}},
		[]string{"high definition plasma", "hd plasma", "fine plasma"}},
	{Process{"fibre laser", 0.3, 1, 1, 0.7, 0.7, shortestEdge, 0.2, 1, 2,
		Source{"common practice: kerf 0.15 to 0.4 mm; hole t (0.5 t in thin sheet) and 1 mm; web 0.7 t; 0.1 to 0.2 mm", CommonPractice}},
		[]string{"laser", "fiber laser"}},
	{Process{"waterjet", 1.0, 0.5, 3, 0.5, 1.5, shortestEdge, 0.2, 0, 2,
		Source{"common practice: kerf 0.8 to 1.2 mm; hole 2 to 3 mm; web 0.5 t and one and a half kerfs; 0.1 to 0.2 mm", CommonPractice}},
		[]string{"abrasive waterjet", "abrasive water jet"}},
	{Process{"oxy-fuel", 2.5, 2, 6, 1.5, 5, shortestEdge, 1.0, 2, 3,
		Source{"common practice: kerf 2 to 3 mm; hole 2 t and 6 mm; web 1.5 t and two kerfs; 1 mm", CommonPractice}},
		[]string{"oxy", "oxyacetylene", "oxy-propane", "gas", "flame", "flame cut"}},
	{Process{"saw and drill", 2.5, 0, 1.5, 0.5, 2, shortestEdge, 0.5, 0, 0,
		Source{"common practice: by hand from a paper template, saw 2 to 3 mm, drilled to a punch mark", CommonPractice}},
		[]string{"saw", "drill", "hand", "by hand"}},
}

// Processes gives all cutting processes.
func Processes() []Process { return Default().Processes() }

// Processes gives all cutting processes of the set.
func (s *Set) Processes() []Process {
	rows := s.orDefault().processes
	out := make([]Process, len(rows))
	for i, r := range rows {
		out[i] = r.p
	}
	return out
}

// FindProcess gives a cutting process by its name: `air plasma`,
// `tuned plasma`, `fibre laser`, `waterjet`, `oxy-fuel`, `saw and drill`.
func FindProcess(name string) (Process, error) { return Default().FindProcess(name) }

// FindProcess gives a cutting process of the set by its name.
func (s *Set) FindProcess(name string) (Process, error) {
	if len(name) > longestName {
		return Process{}, errTooLong
	}
	want := squeeze(name)
	if want == "plasma" {
		return Process{}, errors.New(`"plasma" may be either kind; write air plasma (45 to 105 A, ordinary table) or tuned plasma (fine tip, hole settings)`)
	}
	var known []string
	for _, r := range s.orDefault().processes {
		if squeeze(r.p.Name) == want {
			return r.p, nil
		}
		for _, a := range r.aliases {
			if squeeze(a) == want {
				return r.p, nil
			}
		}
		known = append(known, r.p.Name)
	}
	return Process{}, unknown("process", name, known)
}

// LeastHole is the smallest hole (mm) that the process cuts well in a plate of
// thickness t (mm); smaller ones are marked and drilled.
func (p Process) LeastHole(t float64) float64 { return math.Max(p.MinHoleT*t, p.MinHole) }

// LeastWeb is the least width (mm) of metal between two cuts, and of a slot, in
// a plate of thickness t (mm).
func (p Process) LeastWeb(t float64) float64 { return math.Max(p.MinWebT*t, p.MinWeb) }

// KerfRow is the kerf at one plate thickness.
type KerfRow struct{ T, Kerf float64 } // mm

var oxyKerf = [...]KerfRow{
	{0.125 * inch, 0.04 * inch},
	{0.25 * inch, 0.05 * inch},
	{0.5 * inch, 0.06 * inch},
	{1 * inch, 0.09 * inch},
	{2 * inch, 0.09 * inch},
}

var oxyKerfSource = Source{"tip charts for general-purpose acetylene cutting tips; the real kerf varies with tip and speed", FromMemory}

// OxyFuelKerf is the kerf (mm) by plate thickness t (mm) of acetylene cutting
// tips: the row of the next thicker plate, the last row beyond it.
func OxyFuelKerf(t float64) (kerf float64, src Source) {
	for _, r := range oxyKerf {
		if nano(t) <= nano(r.T) {
			return r.Kerf, oxyKerfSource
		}
	}
	return oxyKerf[len(oxyKerf)-1].Kerf, oxyKerfSource
}
