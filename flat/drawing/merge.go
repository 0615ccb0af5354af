package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// merged is the loop with segments that follow one line or one circle, within
// num.Flush, made one; dropped are the corners that are gone. The loop still
// begins with its first segment, longer perhaps at both ends.
func merged(l geom.Loop) (out geom.Loop, dropped []geom.Point) {
	if len(l) < 3 {
		return l, nil
	}
	begin := firstCorner(l)
	all := append(append(make(geom.Loop, 0, len(l)), l[begin:]...), l[:begin]...)
	for i := 0; i < len(all); {
		s, n := run(all[i:])
		for k := 1; k < n; k++ {
			dropped = append(dropped, all[i+k].A)
		}
		out = append(out, s)
		i += n
	}
	if len(dropped) == 0 || len(out) < 2 {
		return l, nil
	}
	return startingNear(out, l[0].Mid()), dropped
}

// firstCorner is the first segment that does not go on from the one before it.
func firstCorner(l geom.Loop) int {
	for i := range l {
		before := &l[(i+len(l)-1)%len(l)]
		if _, n := run(geom.Loop{*before, l[i]}); n == 1 {
			return i
		}
	}
	return 0
}

// startingNear is the loop begun with the segment nearest to p.
func startingNear(l geom.Loop, p geom.Point) geom.Loop {
	at, best := 0, math.Inf(1)
	for i := range l {
		if d := geom.PointSeg(p, l[i]).D; d < best {
			at, best = i, d
		}
	}
	return append(append(make(geom.Loop, 0, len(l)), l[at:]...), l[:at]...)
}

// run makes one segment of as many as follow one line or circle from the first
// on, and tells how many.
func run(l geom.Loop) (geom.Seg, int) {
	if l[0].IsArc() {
		return arcRun(l)
	}
	return lineRun(l)
}

// lineRun joins straight segments as long as every corner on the way stays
// within num.Flush of the joined line and goes on along it. Each corner narrows
// the wedge of directions that pass it closely enough (K. Reumann and A. P. M.
// Witkam, 1974; H. Imai and M. Iri, 1988), so that a run costs its length.
func lineRun(l geom.Loop) (geom.Seg, int) {
	a := l[0].A
	base := l[0].B.Sub(a)
	lo, hi := -math.Pi/4, math.Pi/4 // directions from a, against base
	n, far := 0, 0.0
	for n < len(l) && !l[n].IsArc() {
		v := l[n].B.Sub(a)
		turn, d := math.Atan2(base.Cross(v), base.Dot(v)), v.Len()
		if !(turn >= lo && turn <= hi && d > far) {
			break
		}
		if w := num.Flush / d; w < 1 {
			lo, hi = max(lo, turn-math.Asin(w)), min(hi, turn+math.Asin(w))
		}
		far = d
		n++
	}
	n = max(n, 1)
	if n == 1 {
		return l[0], 1
	}
	return geom.Line(a, l[n-1].B), n
}

// mostInRun is how many arcs at most become one: each is measured again with
// every one that is added.
const mostInRun = 200

// arcRun joins arcs as long as all lie within num.Flush of the joined arc, up to
// half a turn.
func arcRun(l geom.Loop) (geom.Seg, int) {
	s := l[0]
	n := 1
	for n < min(len(l), mostInRun) {
		m, ok := joinedArc(&s, &l[n])
		if !ok || !flush(l[:n+1], m) {
			break
		}
		s = m
		n++
	}
	return s, n
}

// joinedArc is one arc for two that follow each other: on their circle where
// they share it, else through their outer ends with their sweep.
func joinedArc(s, t *geom.Seg) (geom.Seg, bool) {
	if m, ok := oneArc(s, t, num.Coincident); ok {
		return m, true
	}
	sweep := math.Abs(s.Sweep()) + math.Abs(t.Sweep())
	if !t.IsArc() || s.Bulge > 0 != (t.Bulge > 0) || sweep > math.Pi {
		return geom.Seg{}, false
	}
	m := arcOrLine(geom.BulgeSeg(s.A, t.B, math.Copysign(math.Tan(sweep/4), s.Bulge)))
	return m, m.IsArc()
}

// flush reports whether the corners and middles of segments lie within num.Flush
// of m.
func flush(l geom.Loop, m geom.Seg) bool {
	for i := range l {
		if geom.PointSeg(l[i].A, m).D > num.Flush || geom.PointSeg(l[i].Mid(), m).D > num.Flush {
			return false
		}
	}
	return true
}
