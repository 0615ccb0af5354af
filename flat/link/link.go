// Package link is about links made of tubes: pivots in space, given or solved
// from measured distances, members between them, the forces in members and on
// brackets, the strength of a member, its sleeve and its weld, and the tube
// itself as a cope.Piece.
//
// Unit: mm, N, MPa (N/mm²); angles in radians. Axes of a vehicle: x forward, y
// left, z up. A member's force is positive in tension.
package link

import (
	"fmt"
	"math"
	"strings"

	"blankwright/flat/cope"
	"blankwright/flat/num"
)

// Vec is a place or a vector in space.
type Vec = cope.Vec

// Pivot is a pin joint: a bolt through a sleeve, a ball joint.
type Pivot struct {
	Name string
	At   Vec
}

// Member is a straight bar between two pivots; it carries force along itself
// only.
type Member struct {
	Name     string
	From, To string
	// EA is the section times the modulus of elasticity, N. Only a link with more
	// members than it needs asks for it.
	EA float64
}

// Support holds a pivot along some directions (of any length, independent of
// each other); none means all three.
type Support struct {
	Pivot string
	Along []Vec
}

// Load is an outside force on a pivot, N.
type Load struct {
	Pivot string
	Force Vec
}

// Case is a set of loads that act together.
type Case struct {
	Name  string
	Loads []Load
}

// Truss is a link to be solved.
type Truss struct {
	Pivots   []Pivot
	Members  []Member
	Supports []Support
}

// indexed is a truss with names looked up and directions worked out.
type indexed struct {
	*Truss
	ends   [][2]int // of members
	dirs   []Vec    // of members, unit, from the first end to the second
	length []float64
	held   []hold
}

// hold is one held direction of one pivot.
type hold struct {
	pivot int
	along Vec
}

// index looks names up and checks what can be said without solving.
func (t *Truss) index() (*indexed, error) {
	x := &indexed{Truss: t}
	if len(t.Pivots) == 0 {
		return nil, fmt.Errorf("link has no pivots; give at least two")
	}
	at := make(map[string]int, len(t.Pivots))
	for i, p := range t.Pivots {
		if _, twice := at[p.Name]; twice {
			return nil, fmt.Errorf("pivot %q is given twice; every pivot needs a name of its own", p.Name)
		}
		if !num.Finite(p.At.X, p.At.Y, p.At.Z) {
			return nil, fmt.Errorf("pivot %q is at no finite place", p.Name)
		}
		at[p.Name] = i
	}
	find := func(who, name string) (int, error) {
		i, ok := at[name]
		if !ok {
			return 0, fmt.Errorf("%s names pivot %q, which is not there; the pivots are %s", who, name, t.pivotNames())
		}
		return i, nil
	}
	members := make(map[string]bool, len(t.Members))
	for _, m := range t.Members {
		who := fmt.Sprintf("member %q", m.Name)
		if members[m.Name] {
			return nil, fmt.Errorf("%s is given twice; every member needs a name of its own", who)
		}
		members[m.Name] = true
		a, err := find(who, m.From)
		if err != nil {
			return nil, err
		}
		b, err := find(who, m.To)
		if err != nil {
			return nil, err
		}
		d := t.Pivots[b].At.Sub(t.Pivots[a].At)
		l := d.Len()
		if num.Zero(l) {
			return nil, fmt.Errorf("%s has no length: pivots %q and %q are one place", who, m.From, m.To)
		}
		if !num.Finite(m.EA) || m.EA < 0 {
			return nil, fmt.Errorf("%s has EA %s N, wanted more than 0, or 0 where it is not known", who, short(m.EA))
		}
		x.ends, x.dirs, x.length = append(x.ends, [2]int{a, b}), append(x.dirs, d.Mul(1/l)), append(x.length, l)
	}
	supported := make(map[int]bool)
	for _, s := range t.Supports {
		i, err := find("a support", s.Pivot)
		if err != nil {
			return nil, err
		}
		if supported[i] {
			return nil, fmt.Errorf("pivot %q is supported twice; give its directions in one support", s.Pivot)
		}
		supported[i] = true
		along := s.Along
		if len(along) == 0 {
			along = []Vec{{X: 1}, {Y: 1}, {Z: 1}}
		}
		if err := independent(s.Pivot, along); err != nil {
			return nil, err
		}
		for _, d := range along {
			x.held = append(x.held, hold{i, d.Unit()})
		}
	}
	return x, nil
}

// independent checks the directions of one support.
func independent(pivot string, along []Vec) error {
	var base []Vec
	for _, d := range along {
		u := d.Unit()
		if !num.Finite(u.X, u.Y, u.Z) || u.Len() == 0 {
			return fmt.Errorf("support of pivot %q has a direction of no length", pivot)
		}
		for _, b := range base {
			u = u.Sub(b.Mul(u.Dot(b)))
		}
		if u.Len() <= num.FreePivot {
			return fmt.Errorf("support of pivot %q holds one direction twice; give each direction once, three at most", pivot)
		}
		base = append(base, u.Unit())
	}
	return nil
}

func (t *Truss) pivotNames() string {
	names := make([]string, len(t.Pivots))
	for i, p := range t.Pivots {
		names[i] = p.Name
	}
	return strings.Join(names, ", ")
}

func short(v float64) string { return num.Short(v, 3) }

// way names a direction in words, both ways of it: "up and down", or by its
// parts.
func way(d Vec) string {
	d = d.Unit()
	for _, a := range [3]struct {
		v    float64
		name string
	}{{d.X, "forward and back"}, {d.Y, "left and right"}, {d.Z, "up and down"}} {
		if num.SameAngle(math.Abs(a.v), 1) {
			return a.name
		}
	}
	// The sign is free: the first part that is not small is positive.
	if d.X < -plainPart || math.Abs(d.X) <= plainPart && (d.Y < -plainPart || math.Abs(d.Y) <= plainPart && d.Z < 0) {
		d = d.Mul(-1)
	}
	return fmt.Sprintf("along (%s forward, %s left, %s up)", num.Short(d.X, 2), num.Short(d.Y, 2), num.Short(d.Z, 2))
}

// plainPart is the share of a direction that is printed as 0.
const plainPart = 0.005
