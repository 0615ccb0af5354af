package unit

import "fmt"

// add gives a + b or a - b; they must measure the same. Beside a length a plain
// number takes the system's unit.
func (p *parser) add(a, b Quantity, op byte, atA, atOp, atB int) Quantity {
	if a.Dim == Plain && b.Dim == LengthDim {
		a = p.toLength(a, atA)
	} else if a.Dim == LengthDim && b.Dim == Plain {
		b = p.toLength(b, atB)
	}
	if p.err != nil {
		return Quantity{}
	}
	if a.Dim != b.Dim {
		p.mismatch(a, b, op, atOp)
		return Quantity{}
	}
	if op == '-' {
		b.V = -b.V
	}
	return p.keep(Quantity{a.V + b.V, a.Dim}, atA)
}

// toLength gives a plain number the system's unit.
func (p *parser) toLength(q Quantity, at int) Quantity {
	mm, err := plainLength(q.V, p.sys)
	if err != nil {
		p.fail(at, "a number without a unit beside a length, and the file sets none", err.Hint)
		return Quantity{}
	}
	return p.keep(Quantity{mm, LengthDim}, at)
}

// mismatch says that two values cannot be added or subtracted.
func (p *parser) mismatch(a, b Quantity, op byte, at int) {
	verb := "added to"
	if op == '-' {
		verb = "subtracted from"
	}
	hint := "both must measure the same"
	switch {
	case a.Dim == Plain:
		hint = "give the first number its unit, such as " + dims[b.Dim].example
	case b.Dim == Plain:
		hint = "give the second number its unit, such as " + dims[a.Dim].example
	}
	p.fail(at, fmt.Sprintf("%s cannot be %s %s", b.Dim, verb, a.Dim), hint)
}

// products are the pairs of dimensions whose product has a dimension.
var products = [...]struct{ a, b, ab Dim }{
	{LengthDim, LengthDim, AreaDim},
	{ForceDim, LengthDim, TorqueDim},
	{StressDim, AreaDim, ForceDim},
}

func (p *parser) multiply(a, b Quantity, at int) Quantity {
	v := a.V * b.V
	switch {
	case a.Dim == Plain:
		return p.keep(Quantity{v, b.Dim}, at)
	case b.Dim == Plain:
		return p.keep(Quantity{v, a.Dim}, at)
	}
	for _, r := range products {
		if r.a == a.Dim && r.b == b.Dim || r.a == b.Dim && r.b == a.Dim {
			return p.keep(Quantity{v, r.ab}, at)
		}
	}
	p.fail(at, fmt.Sprintf("%s times %s makes nothing that is used here", a.Dim, b.Dim), "one of them is usually a plain number")
	return Quantity{}
}

func (p *parser) divide(a, b Quantity, at int) Quantity {
	if b.V == 0 {
		p.fail(at, "a division by zero", "the value after / must not be nothing")
		return Quantity{}
	}
	v := a.V / b.V
	switch {
	case b.Dim == Plain:
		return p.keep(Quantity{v, a.Dim}, at)
	case a.Dim == b.Dim:
		return p.keep(Quantity{v, Plain}, at)
	}
	for _, r := range products {
		switch {
		case r.ab == a.Dim && r.a == b.Dim:
			return p.keep(Quantity{v, r.b}, at)
		case r.ab == a.Dim && r.b == b.Dim:
			return p.keep(Quantity{v, r.a}, at)
		}
	}
	hint := "one of them is usually a plain number"
	if a.Dim == Plain && b.Dim == LengthDim {
		hint = "write a fraction without spaces: 1/2 in, or put it in parentheses: (a/2) in"
	}
	p.fail(at, fmt.Sprintf("%s divided by %s makes nothing that is used here", a.Dim, b.Dim), hint)
	return Quantity{}
}
