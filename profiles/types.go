// Package profiles holds the tables that the rest computes with: materials,
// fasteners, clearance holes, edge distances, gauges, drills, cutting processes
// and papers. Each row names its source. Lengths are mm, stresses MPa.
package profiles

// Prov says how well a value is founded; it is printed beside it.
type Prov string

// How well a value is founded.
const (
	Standard       Prov = "standard"            // read in a copy of the standard or of a handbook that reprints it
	FromMemory     Prov = "from memory, verify" // believed to be the standard's, not read
	CommonPractice Prov = "common practice"     // shops differ
	ShopsOwn       Prov = "the shop's own"      // from a profile that a shop wrote
)

// Source names where a row comes from.
type Source struct {
	Text string // standard, year, clause or table
	Prov Prov
}

// Material is a plate material. Stresses MPa, density kg/m3.
type Material struct {
	Name    string
	Fy, Fu  float64 // least yield and tensile strength
	Density float64
	Group   Group
	MaxT    float64 // thickness up to which Fy and Fu hold, mm; 0 where no limit is given
	Source  Source
}

// Group is a family of materials.
type Group string

// The families of materials.
const (
	CarbonSteel    Group = "steel"
	StainlessSteel Group = "stainless steel"
	Aluminium      Group = "aluminium"
)

// Bolt is a bolt or screw by its name.
type Bolt struct {
	Name   string  // `1/2-13 grade 8`, `M14 10.9`, as normalised
	Size   string  // `1/2`, `M14`, `#10`
	D      float64 // nominal diameter, mm
	Metric bool
	Pitch  float64 // thread pitch, mm; 0 where not given
	Grade  string  // "" where not given
	Source Source
}

// Clearance is a clearance hole for a bolt.
type Clearance struct {
	Dia    float64 // mm
	Drill  string  // usual drill of an inch size: `17/32`; "" for metric
	Call   string  // what to write on the work: `17/32 in drill (13.5 mm)`, `13.5 mm drill`
	Source Source
}

// Process is a way of cutting plate, with its limits. All of them are starting
// values that a shop should calibrate.
type Process struct {
	Name      string
	Kerf      float64 // mm
	MinHoleT  float64 // smallest hole as a multiple of plate thickness
	MinHole   float64 // and never smaller than this, mm
	MinWebT   float64 // least web or slot as a multiple of plate thickness
	MinWeb    float64 // and never less than this, mm
	MinSeg    float64 // shortest edge that it can follow, mm
	Tolerance float64 // +/- mm
	Class     int     // tolerance class of ISO 9013 that its work is held to; 0 where none is
	Range     int     // range of ISO 9013 that its faces usually lie in; 0 where none is
	Source    Source
}
