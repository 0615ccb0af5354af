package unit

// scale is what a unit word stands for: V = number * mul / div.
type scale struct {
	dim      Dim
	mul, div float64
}

const (
	foot = 12 * MM
	// lbf is one pound-force in newtons: 0.45359237 kg times standard gravity,
	// both exact by definition.
	lbf = 4.4482216152605
	kgf = 9.80665
	// psi is one pound-force per square inch in MPa.
	psi = lbf / (MM * MM)
	pi  = 3.14159265358979323846
)

// unitWord looks a unit up.
func unitWord(w string) (scale, bool) {
	switch w {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return scale{LengthDim, 1, 1}, true
	case "in", "inch", "inches", `"`, "″", "”", "“", "''", "’’", "′′":
		return scale{LengthDim, MM, 1}, true
	case "ft", "foot", "feet", "'", "′", "’":
		return scale{LengthDim, foot, 1}, true
	case "cm":
		return scale{LengthDim, 10, 1}, true
	case "m", "metre", "metres", "meter", "meters":
		return scale{LengthDim, 1000, 1}, true
	case "thou":
		return scale{LengthDim, MM, 1000}, true
	case "µm", "μm", "um", "micron", "microns":
		return scale{LengthDim, 1, 1000}, true
	case "deg", "°", "degree", "degrees":
		return scale{AngleDim, pi, 180}, true
	case "rad", "radian", "radians":
		return scale{AngleDim, 1, 1}, true
	case "N", "newton", "newtons":
		return scale{ForceDim, 1, 1}, true
	case "kN":
		return scale{ForceDim, 1000, 1}, true
	case "daN":
		return scale{ForceDim, 10, 1}, true
	case "MN":
		return scale{ForceDim, 1e6, 1}, true
	case "lbf":
		return scale{ForceDim, lbf, 1}, true
	case "kip", "kips", "kipf":
		return scale{ForceDim, 1000 * lbf, 1}, true
	case "kgf":
		return scale{ForceDim, kgf, 1}, true
	}
	return longUnitWord(w)
}

// longUnitWord looks the rarer units up.
func longUnitWord(w string) (scale, bool) {
	switch w {
	case "N·m", "N⋅m", "N•m", "N.m", "N-m", "N*m", "Nm":
		return scale{TorqueDim, 1000, 1}, true
	case "N·mm", "N⋅mm", "N.mm", "N-mm", "N*mm", "Nmm":
		return scale{TorqueDim, 1, 1}, true
	case "kN·m", "kN⋅m", "kN•m", "kN.m", "kN-m", "kN*m", "kNm":
		return scale{TorqueDim, 1e6, 1}, true
	case "lbf·ft", "lbf⋅ft", "lbf.ft", "lbf-ft", "lbf*ft", "ft·lbf", "ft.lbf", "ft-lbf", "ft*lbf", "lb-ft", "lb·ft", "ft-lb", "ft·lb":
		return scale{TorqueDim, foot * lbf, 1}, true
	case "lbf·in", "lbf⋅in", "lbf.in", "lbf-in", "lbf*in", "in·lbf", "in.lbf", "in-lbf", "in*lbf", "lb-in", "lb·in", "in-lb", "in·lb":
		return scale{TorqueDim, MM * lbf, 1}, true
	case "kip-ft", "kip·ft", "ft-kip", "ft·kip":
		return scale{TorqueDim, 1000 * foot * lbf, 1}, true
	case "kip-in", "kip·in", "in-kip", "in·kip":
		return scale{TorqueDim, 1000 * MM * lbf, 1}, true
	case "kgf·m", "kgf.m", "kgf-m", "kgf*m":
		return scale{TorqueDim, 1000 * kgf, 1}, true
	case "kgf·cm", "kgf.cm", "kgf-cm", "kgf*cm":
		return scale{TorqueDim, 10 * kgf, 1}, true
	case "MPa", "N/mm2", "N/mm²":
		return scale{StressDim, 1, 1}, true
	case "GPa", "kN/mm2", "kN/mm²":
		return scale{StressDim, 1000, 1}, true
	case "psi":
		return scale{StressDim, psi, 1}, true
	case "ksi":
		return scale{StressDim, 1000 * psi, 1}, true
	case "mm2", "mm²":
		return scale{AreaDim, 1, 1}, true
	case "cm2", "cm²":
		return scale{AreaDim, 100, 1}, true
	case "m2", "m²":
		return scale{AreaDim, 1e6, 1}, true
	case "in2", "in²":
		return scale{AreaDim, MM * MM, 1}, true
	case "ft2", "ft²":
		return scale{AreaDim, foot * foot, 1}, true
	}
	return scale{}, false
}

// anyCase are the unit words that are read in capitals too, in lower case.
// Units where a capital changes the meaning (m and M, N and n) are not here.
func anyCase(lower string) (string, bool) {
	switch lower {
	case "mm", "cm", "in", "inch", "inches", "ft", "foot", "feet", "thou", "deg", "degrees", "rad",
		"lbf", "kip", "kips", "kgf", "psi", "ksi":
		return lower, true
	case "kn":
		return "kN", true
	case "mpa":
		return "MPa", true
	case "gpa":
		return "GPa", true
	case "knm", "kn.m", "kn·m", "kn-m":
		return "kN·m", true
	case "lbf-ft", "lbf·ft", "lbf.ft", "ft-lbf", "ft·lbf":
		return "lbf-ft", true
	case "lbf-in", "lbf·in", "lbf.in", "in-lbf", "in·lbf":
		return "lbf-in", true
	}
	return "", false
}

// doubtfulUnit says what to write instead of a word that may mean two things.
func doubtfulUnit(w string) string {
	switch w {
	case "mil", "mils":
		return "write thou for thousandths of an inch, or mm for millimetres"
	case "lb", "lbs", "pound", "pounds", "#":
		return "write lbf for a force"
	case "kg", "g", "kilo", "kilos":
		return "write kgf or N for a force"
	case "t", "ton", "tons", "tonne", "tonnes":
		return "write kN or kip"
	case "nm", "NM", "nM":
		return "write N.m for a torque"
	case "M", "Mm", "mM":
		return "write mm for millimetres or m for metres"
	case "n":
		return "write N for newtons"
	case "mN":
		return "write N or MN"
	case "grad", "grads", "gon", "gons":
		return "write deg"
	case "k":
		return "write kN"
	case "Pa", "kPa", "bar":
		return "write MPa, ksi or psi"
	case "ga", "gauge", "gage":
		return "write the gauge as a whole number, such as 11 ga steel sheet"
	}
	return ""
}

// functions are the words that take one value in parentheses.
var functions = [...]string{"sqrt", "sin", "cos", "tan"}

func isFunction(w string) bool {
	for _, f := range functions {
		if f == w {
			return true
		}
	}
	return false
}

// ValidName reports whether a name can be used in arithmetic: letters, digits
// and underscores, not starting with a digit, at most 40 of them, and neither a
// unit nor a function.
func ValidName(name string) bool {
	if len(name) == 0 || len(name) > 40 || !isLetter(name[0]) {
		return false
	}
	for i := range len(name) {
		if !isLetter(name[i]) && !isDigit(name[i]) {
			return false
		}
	}
	return !Reserved(name)
}

// Reserved reports whether a word already means something in arithmetic: a
// unit, a function, or a word that goes with a number.
func Reserved(name string) bool {
	_, ok := unitWord(name)
	return ok || isFunction(name) || name == "drill"
}

func isLetter(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '_'
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func lowerASCII(s string) string {
	for i := range len(s) {
		if c := s[i]; 'A' <= c && c <= 'Z' {
			b := []byte(s)
			for j, c := range b {
				if 'A' <= c && c <= 'Z' {
					b[j] = c + 'a' - 'A'
				}
			}
			return string(b)
		}
	}
	return s
}
