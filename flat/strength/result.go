package strength

import (
	"math"
	"strings"

	"blankwright/flat/num"
)

// Result is a resistance with what a report needs to say about it. It holds no
// text of its own making; Formula writes that when it is wanted.
type Result struct {
	Nominal float64 // characteristic resistance before the standard's factor, in the unit of Kind
	Design  float64 // what the load is held against: phi Rn, Rn/omega or Rd
	Kind    Kind
	Mode    string // what gives way, in words
	Clause  Clause
	Factor  Factor
	formula formula
}

// Factor is what stands between the nominal and the design resistance.
type Factor struct {
	Symbol string  // "phi" multiplies; "omega", "gM0", "gM2", "gM6,ser" and "n" divide
	V      float64 //
}

// Clause is where a formula stands. Read tells whether it was read, in the
// standard or inside a published worked example; what was not read is from
// memory and wants a look in the standard before it is relied on.
type Clause struct {
	Text string
	Read bool
}

// String gives the clause and, where that is so, says that it is from memory.
func (c Clause) String() string {
	if c.Read || c.Text == "" {
		return c.Text
	}
	return c.Text + " (from memory, verify)"
}

// Utilisation is the share of the design resistance that a load takes: 1 is all
// of it. The load is that of the load combination that the method asks for
// (factored for LRFD and EN 1993, service for ASD), in the unit of Kind; its
// sign does not matter. Without resistance any load is infinitely too much.
func (r Result) Utilisation(load float64) float64 { return share(load, r.Design) }

func share(load, resistance float64) float64 {
	load = math.Abs(load)
	switch {
	case resistance > 0:
		return load / resistance
	case load == 0:
		return 0
	}
	return math.Inf(1)
}

// Formula is the formula with the numbers put in, in the units asked for:
//
//	Rn = Fnv Ab n = 372 MPa x 285 mm2 x 1 = 106 kN; phi Rn = 0.75 x 106 kN = 79.5 kN
func (r Result) Formula(u Units) string { return string(r.AppendFormula(nil, u)) }

// AppendFormula appends what Formula gives.
func (r Result) AppendFormula(b []byte, u Units) []byte {
	b = r.formula.append(b, u)
	b = append(b, " = "...)
	symbol, _, _ := strings.Cut(r.formula.text, " = ")
	switch r.Factor.Symbol {
	case "phi":
		b = r.Kind.Append(b, r.Nominal, u)
		b = append(b, "; phi "+symbol+" = "...)
		b = Number.Append(b, r.Factor.V, u)
		b = append(b, " x "...)
		b = r.Kind.Append(b, r.Nominal, u)
		b = append(b, " = "...)
	case "omega":
		b = r.Kind.Append(b, r.Nominal, u)
		b = append(b, "; "+symbol+"/omega = "...)
		b = r.Kind.Append(b, r.Nominal, u)
		b = append(b, " / "...)
		b = Number.Append(b, r.Factor.V, u)
		b = append(b, " = "...)
	}
	return r.Kind.Append(b, r.Design, u)
}

// Reduced is the result with so much of it left, 0 to 1, by a rule of the standard;
// mode and clause say which, and the factor stands at the end of the formula.
func (r Result) Reduced(share float64, mode string, c Clause) Result {
	r.Nominal *= share
	r.Design *= share
	r.Mode += ", " + mode
	r.Clause = Clause{r.Clause.Text + "; " + c.Text, r.Clause.Read && c.Read}
	if n := strings.Count(r.formula.text, "{"); n < len(r.formula.v) {
		r.formula.text += " x {n}"
		r.formula.v[n] = share
	}
	return r
}

// Least is the result with the smallest design resistance, the first of equals.
func Least(first Result, more ...Result) Result {
	at := -1
	design := first.Design
	for i := range more {
		if more[i].Design < design {
			at, design = i, more[i].Design
		}
	}
	if at < 0 {
		return first
	}
	return more[at]
}

// Ratio is a check that a standard states as a sum of shares instead of a
// resistance: 1 is the limit.
type Ratio struct {
	V       float64
	Mode    string
	Clause  Clause
	formula formula
}

// Met reports whether the ratio is at most 1.
func (r Ratio) Met() bool { return num.AtMost(r.V, 1) }

// Formula is the formula with the numbers put in.
func (r Ratio) Formula(u Units) string {
	b := r.formula.append(nil, u)
	b = append(b, " = "...)
	b = Number.Append(b, r.V, u)
	return string(append(b, ", at most 1"...))
}

// Limit is a rule about a dimension: what was measured, the bound and where it
// comes from.
type Limit struct {
	What    string // what is measured, in words
	Clause  Clause
	Got     float64 // in the unit of Kind
	Bound   float64
	Most    bool // the bound is an upper one
	Kind    Kind
	formula formula // of the bound
}

// Met reports whether the dimension keeps the bound. One that lies on it does.
func (l Limit) Met() bool {
	if l.Most {
		return num.AtMost(l.Got, l.Bound)
	}
	return num.AtLeast(l.Got, l.Bound)
}

// Formula is the bound with the numbers put in.
func (l Limit) Formula(u Units) string {
	b := l.formula.append(nil, u)
	b = append(b, " = "...)
	return string(l.Kind.Append(b, l.Bound, u))
}

// Text tells what was measured and what is wanted.
func (l Limit) Text(u Units) string {
	b := append([]byte(l.What), " is "...)
	b = l.Kind.Append(b, l.Got, u)
	if l.Most {
		b = append(b, ", wanted at most "...)
	} else {
		b = append(b, ", wanted at least "...)
	}
	return string(append(b, l.Formula(u)...))
}

// pos is v, and 0 where v is negative or not a number: a resistance that cannot
// be worked out is none.
func pos(v float64) float64 {
	if v > 0 {
		return v
	}
	return 0
}

func sq(v float64) float64 { return v * v }

// Disc is the area of a circle of diameter d: of a shank, of a pin. d mm, area
// mm2.
func Disc(d float64) float64 { return math.Pi / 4 * d * d }
