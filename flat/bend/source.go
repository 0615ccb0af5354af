package bend

import "blankwright/flat/num"

// Prov says how well a value is founded; it is printed beside it.
type Prov string

// How well a value is founded.
const (
	Published      Prov = "published"           // read in the source or in a reprint
	FromMemory     Prov = "from memory, verify" // believed to be the source's, not read
	CommonPractice Prov = "common practice"     // shops differ
	Typed          Prov = "typed"               // the person's own figure
	Measured       Prov = "measured"            // the shop's own test bend
)

// Source names where a value comes from.
type Source struct {
	Text string // standard, year, clause or table
	Prov Prov
}

// Family is a family of materials.
type Family string

// The families of materials.
const (
	Steel          Family = "steel"
	StainlessSteel Family = "stainless steel"
	Aluminium      Family = "aluminium"
)

// short writes a length or a factor for people.
func short(v float64) string { return num.Short(v, 4) }
