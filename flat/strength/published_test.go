package strength

import (
	"math"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
)

func TestAISCFormulas(t *testing.T) {
	r := load(t, "formulas.json", "aisc formulas")
	k := func(key string) float64 {
		v, ok := r.Coefficients[key]
		require.True(t, ok, key)
		return v
	}
	// Unit dimensions and stresses leave the coefficients standing.
	h := HoleBearing{D: 1, T: 1, Fu: 1, Clear: 1}
	with := func(kind HoleKind, elongates bool) HoleBearing {
		g := h
		g.Hole, g.Elongates = kind, elongates
		return g
	}
	pin := PinPlate{T: 1, Width: 10, Pin: 1, Hole: 1, End: 1, Side1: 100, Side2: 100, Fy: 1, Fu: 1, Turns: true}
	weld := Fillet{Leg: 1, Length: 10, FEXX: 1}
	for _, m := range []Method{LRFD, ASD} {
		a := AISC{Method: m}
		for _, c := range []struct {
			eq      string
			r       Result
			nominal float64
		}{
			{"J3-1", a.BoltShear(2/math.SqrtPi, BoltStress{1, 1, 3}, Planes{1, 1}), 4},
			{"J3-1", a.BoltTension(2/math.SqrtPi, BoltStress{5, 1, 3}), 5},
			{"J3-6", a.Bearing(h), k("bearing")},
			{"J3-6", a.Bearing(with(RoundHole, true)), k("bearing, hole may elongate")},
			{"J3-6", a.Bearing(with(LongSlotAcross, true)), k("bearing, long slot across")},
			{"J3-6", a.Bearing(with(LongSlotAlong, false)), k("bearing")},
			{"J3-6", a.TearOut(h), k("tear-out")},
			{"J3-6", a.TearOut(with(RoundHole, true)), k("tear-out, hole may elongate")},
			{"J3-6", a.TearOut(with(LongSlotAcross, true)), k("tear-out, long slot across")},
			{"J4-1", a.TensionYield(3, 7), 21},
			{"J4-2", a.TensionRupture(3, 7), 21},
			{"J4-3", a.ShearYield(1, 1), k("shear")},
			{"J4-4", a.ShearRupture(1, 1), k("shear")},
			{"J4-5", a.BlockShear(Block{T: 1, Shear: 1, Tension: 1, Fy: 1, Fu: 1}), k("shear") + 1},
			{"J4-5", a.BlockShear(Block{T: 1, Shear: 1, Tension: 1, Fy: 1, Fu: 1, Uneven: true}), k("shear") + k("Ubs uneven")},
			{"D5-1", a.PinPlate(pin).Rupture, 2 * (2 + k("be plus mm"))},
			{"D5-2", a.PinPlate(pin).Shear, k("pin shear") * 2 * 1.5},
			{"J7-1", a.PinPlate(pin).Bearing, k("pin bearing")},
			{"D2-1", a.PinPlate(pin).Yield, 10},
			{"J2-4", a.FilletWeld(weld), k("weld") * 10 / math.Sqrt2},
		} {
			require.InEpsilon(t, c.nominal, c.r.Nominal, 1e-12, c.eq)
			f := r.Factors[c.eq]
			if m == LRFD {
				require.Equal(t, Factor{"phi", f[0]}, c.r.Factor, c.eq)
				require.InEpsilon(t, f[0]*c.nominal, c.r.Design, 1e-12, c.eq)
			} else {
				require.Equal(t, Factor{"omega", f[1]}, c.r.Factor, c.eq)
				require.InEpsilon(t, c.nominal/f[1], c.r.Design, 1e-12, c.eq)
			}
		}
	}
	in, mm := AISC{Units: Inch}, AISC{}
	require.InDelta(t, k("hole allowance in")*inch, in.HoleWidth(0), 1e-12)
	require.InDelta(t, k("hole allowance mm"), mm.HoleWidth(0), 1e-12)
	require.InDelta(t, 2+k("be plus in")*inch, in.PinPlate(pin).EffectiveWidth, 1e-12)
	require.InDelta(t, k("pin play in")*inch, in.PinPlate(pin).Fit.Bound, 1e-12)
	require.InDelta(t, k("pin play mm"), mm.PinPlate(pin).Fit.Bound, 1e-12)
	require.InDelta(t, k("end over be")*18, mm.PinPlate(pin).End.Bound, 1e-12)
	weld.Directional, weld.Angle = true, math.Pi/2
	require.InEpsilon(t, k("directional at 90 degrees")*k("weld")*10/math.Sqrt2, mm.FilletWeld(weld).Nominal, 1e-12)
	require.InDelta(t, 25.4-k("most fillet less in")*inch, in.MostFillet(25.4), 1e-12)
	require.InDelta(t, 6, in.MostFillet(6), 1e-12) // under 1/4 in
	require.InDelta(t, k("least length legs")*5, mm.FilletLimits(Fillet{Leg: 5}, 6, 6).Length.Bound, 1e-12)
	require.InDelta(t, 100, LongWeld(1, k("long weld from legs")), 1e-12)
	require.InDelta(t, (k("long weld constant")-k("long weld slope")*200)*200, LongWeld(1, 200), 1e-12)
	require.InDelta(t, k("longest weld counts legs"), LongWeld(1, k("longest weld legs")), 1e-12)
	require.InDelta(t, k("longest weld counts legs"), LongWeld(1, 1000), 1e-12)
}

func TestLeastFilletTable(t *testing.T) {
	r := load(t, "formulas.json", "j2.4")
	for _, row := range r.Rows {
		require.InDelta(t, row[1].(float64)*inch, AISC{Units: Inch}.LeastFillet(row[0].(float64)*inch), 1e-9, r.Source)
		require.InDelta(t, row[3].(float64), AISC{}.LeastFillet(row[2].(float64)), 1e-9, r.Source)
	}
}

func TestBoltStresses(t *testing.T) {
	f := load(t, "formulas.json", "j3.2 threaded").Rows[0]
	s := ThreadedPart(1)
	require.Equal(t, BoltStress{f[0].(float64), f[1].(float64), f[2].(float64)}, s)
	// The table rounds what its own multiples give to a ksi.
	r := load(t, "formulas.json", "j3.2")
	for _, row := range r.Rows {
		s := ThreadedPart(row[1].(float64))
		for i, got := range []float64{s.Tension, s.ShearThread, s.ShearShank} {
			require.InDelta(t, row[2+i].(float64), got, 0.5, r.Source)
		}
	}
	// And the grades of SAE J429 and ISO 898-1 through those multiples.
	g := load(t, "formulas.json", "grades")
	for _, row := range g.Rows {
		fu, d := row[1].(float64), row[3].(float64)
		if row[2] == "ksi" {
			fu *= ksi
		}
		shear := AISC{}.BoltShear(d, ThreadedPart(fu), Planes{Thread: 2})
		require.InEpsilon(t, 2*0.450*fu*math.Pi/4*d*d, shear.Nominal, 1e-12, g.Source)
		if as := row[4].(float64); as > 0 {
			ft := EN1993{}.BoltTension(ENBolt{D: d, As: as, Fub: fu})
			require.InEpsilon(t, 0.9*fu*as/1.25, ft.Design, 1e-12, g.Source)
		}
	}
}

// A plate of every material of the table in tension: what yields and what ruptures.
func TestPlateMaterials(t *testing.T) {
	r := load(t, "formulas.json", "plates")
	for _, row := range r.Rows {
		fy, fu := row[1].(float64), row[2].(float64)
		if row[3] == "ksi" {
			fy, fu = fy*ksi, fu*ksi
		}
		require.InEpsilon(t, 0.90*fy*1000, AISC{}.TensionYield(fy, 1000).Design, 1e-12, row[0])
		require.InEpsilon(t, fu*800/2, AISC{Method: ASD}.TensionRupture(fu, 800).Design, 1e-12, row[0])
		require.InEpsilon(t, fy*1000, EN1993{}.TensionYield(fy, 1000).Design, 1e-12, row[0])
		require.InEpsilon(t, 0.9*fu*800/1.25, EN1993{}.TensionRupture(fu, 800).Design, 1e-12, row[0])
	}
}

func TestENFormulas(t *testing.T) {
	r := load(t, "formulas.json", "en formulas")
	k := func(key string) float64 {
		v, ok := r.Coefficients[key]
		require.True(t, ok, key)
		return v
	}
	for class, want := range r.AlphaV {
		got, ok := AlphaV(class)
		require.True(t, ok)
		require.Equal(t, want, got, class)
	}
	for class, want := range r.Fub {
		got, ok := NominalFub(class)
		require.True(t, ok)
		require.Equal(t, want, got, class)
	}
	_, ok := AlphaV("12.9")
	require.False(t, ok, "12.9 is not in EN 1993-1-8")
	var e EN1993
	require.Equal(t, EN1993{k("gM0"), k("gM2"), 1}, e.Recommended())
	one := EN1993{1, 1, 1}
	b := ENBolt{D: 2 / math.SqrtPi, As: 0.8, Fub: 1, AlphaV: 0.6}
	bear := ENBearing{D: 1, D0: 1, T: 1, Fu: 1, Fub: 1}
	hole := func(h HoleKind) ENBearing { x := bear; x.Hole = h; return x }
	pin := one.Pin(PinJoint{Pin: 1, Hole: 2, Middle: 1, Outer: 1, PinFy: 1, PinFu: 1, Fy: 1, E: 4, Replaceable: true})
	wel := math.Pi / 32
	for _, c := range []struct {
		what string
		r    Result
		want float64
	}{
		{"shank", one.BoltShear(b, Planes{Shank: 1}), k("shank")},
		{"thread", one.BoltShear(b, Planes{Thread: 2}), 2 * 0.6 * 0.8},
		{"tension", one.BoltTension(b), k("tension") * 0.8},
		{"punching", one.Punching(1, 1, 1), k("punching") * math.Pi},
		{"k1", one.Bearing(bear), k("k1 most")},
		{"oversized", one.Bearing(hole(OversizedHole)), k("oversized") * k("k1 most")},
		{"slot", one.Bearing(hole(ShortSlotAcross)), k("slot across") * k("k1 most")},
		{"net section", one.TensionRupture(1, 1), k("net section")},
		{"block", one.BlockTearing(Block{T: 1, Shear: 1, Tension: 1, Fy: 1, Fu: 1}), 1 + 1/math.Sqrt(3)},
		{"block, eccentric", one.BlockTearing(Block{T: 1, Shear: 1, Tension: 1, Fy: 1, Fu: 1, Uneven: true}), k("block, eccentric") + 1/math.Sqrt(3)},
		{"pin shear", pin.Shear, k("pin shear") * math.Pi / 4},
		{"pin bearing", pin.BearingMiddle, k("pin bearing")},
		{"pin bearing, replaceable", pin.BearingService, k("pin bearing, replaceable")},
		{"pin bending", pin.Bending, k("pin bending") * wel},
		{"pin bending, replaceable", pin.BendingService, k("pin bending, replaceable") * wel},
		{"contact limit", pin.ContactService, k("contact limit")},
	} {
		require.InEpsilon(t, c.want, c.r.Design, 1e-12, c.what)
	}
	require.InEpsilon(t, k("contact")*2*3, pin.Contact(9), 1e-12)
	thick, d0 := one.PinEndB(4, 1, 1, 1)
	require.InEpsilon(t, k("type B thickness")*2, thick.Bound, 1e-12)
	require.InEpsilon(t, k("type B hole"), d0.Bound, 1e-12)
	// The two terms of block tearing have factors of their own.
	rd := e.BlockTearing(Block{T: 1, Shear: 1, Tension: 1, Fy: 1, Fu: 1})
	require.InEpsilon(t, 1/1.25+1/math.Sqrt(3), rd.Design, 1e-12)
}

func TestPinConnectedPlateExample(t *testing.T) {
	r := load(t, "examples.json", "pin-connected plate")
	a := AISC{Units: Inch}
	side := (r.in(t, "w") - r.in(t, "hole")) / 2 * inch
	p := PinPlate{
		T: r.in(t, "t") * inch, Width: r.in(t, "w") * inch, Pin: r.in(t, "pin") * inch, Hole: r.in(t, "hole") * inch,
		End: r.in(t, "a") * inch, Side1: side, Side2: side, Corner: r.in(t, "c") * inch,
		Fy: r.in(t, "Fy") * ksi, Fu: r.in(t, "Fu") * ksi, Turns: true,
	}
	got := a.PinPlate(p)
	r.same(t, "two t plus", (2*p.T+0.63*inch)/inch)
	r.same(t, "be", got.EffectiveWidth/inch)
	r.same(t, "1.33 be", got.End.Bound/inch)
	r.same(t, "2 be + d", got.Wide.Bound/inch)
	r.same(t, "Asf", got.Shear.Nominal/(0.6*p.Fu)/(inch*inch))
	for what, c := range map[string]Result{"rupture": got.Rupture, "shear": got.Shear, "bearing": got.Bearing, "yield": got.Yield} {
		r.same(t, what, c.Nominal/kip)
		r.same(t, "phi "+what, c.Design/kip)
	}
	asd := AISC{Method: ASD, Units: Inch}.PinPlate(p)
	for what, c := range map[string]Result{"rupture": asd.Rupture, "shear": asd.Shear, "bearing": asd.Bearing, "yield": asd.Yield} {
		r.same(t, "omega "+what, c.Design/kip)
	}
	require.Equal(t, got.Bearing, got.Governs())
	require.Contains(t, got.Governs().Mode, "bearing")
	limits := got.AppendLimits(nil)
	require.Len(t, limits, 5)
	for _, l := range limits {
		require.True(t, l.Met(), l.Text(Inch))
	}
	// Dead 4, live 12: 1.2 D + 1.6 L, D + L.
	pu, pa := 1.2*r.in(t, "dead")+1.6*r.in(t, "live"), r.in(t, "dead")+r.in(t, "live")
	r.same(t, "Pu", pu)
	r.same(t, "Pa", pa)
	require.InEpsilon(t, 24/24.3, got.Governs().Utilisation(pu*kip), 0.001)
	governs := asd.Governs()
	require.InEpsilon(t, 16/16.2, governs.Utilisation(pa*kip), 0.001)
	// The older printing's slip: more width than there is metal.
	require.Greater(t, 2*p.T+0.63*inch, side)
	require.Equal(t, side, got.EffectiveWidth)
}

func TestPinPlateMetric(t *testing.T) {
	r := load(t, "examples.json", "pin plate, AISC metric")
	side := (r.in(t, "w") - r.in(t, "hole")) / 2
	got := AISC{}.PinPlate(PinPlate{
		T: r.in(t, "t"), Width: r.in(t, "w"), Pin: r.in(t, "d"), Hole: r.in(t, "hole"), End: r.in(t, "a"),
		Side1: side, Side2: side, Fy: r.in(t, "Fy"), Fu: r.in(t, "Fu"),
	})
	r.same(t, "be", got.EffectiveWidth)
	r.same(t, "a least", got.End.Bound)
	r.same(t, "w least", got.Wide.Bound)
	r.same(t, "rupture", got.Rupture.Nominal/1000)
	r.same(t, "shear", got.Shear.Nominal/1000)
	r.same(t, "bearing", got.Bearing.Nominal/1000)
	r.same(t, "yield", got.Yield.Nominal/1000)
	r.same(t, "phi bearing", got.Governs().Design/1000)
	require.Len(t, got.AppendLimits(nil), 3, "neither play nor a cut corner was asked about")
}

func points(l [][2]float64, unit float64) []geom.Point {
	out := make([]geom.Point, len(l))
	for i, p := range l {
		out[i] = pt(p[0]*unit, p[1]*unit)
	}
	return out
}

func TestEccentricBoltGroups(t *testing.T) {
	for _, c := range []struct {
		id            string
		length, force float64
	}{
		{"eccentric bolt group, SI", 1, 1000},
		{"bolt line, inclined load", inch, kip},
	} {
		r := load(t, "examples.json", c.id)
		load := PlaneLoad{F: r.point(t, "load").Mul(c.force), At: r.point(t, "at").Mul(c.length)}
		g, err := ElasticGroup(points(r.Bolts, c.length), load, nil)
		require.NoError(t, err)
		r.same(t, "J", g.J/(c.length*c.length))
		require.InEpsilon(t, r.Recomputed["M about centroid"], g.Moment/(c.force*c.length), 1e-9)
		for i, want := range r.Forces {
			require.InDelta(t, want[0], g.Forces[i].X/c.force, 1e-4*want[2])
			require.InDelta(t, want[1], g.Forces[i].Y/c.force, 1e-4*want[2])
			require.InDelta(t, want[2], g.Forces[i].Len()/c.force, 1e-4*want[2])
		}
		if c.id == "eccentric bolt group, SI" {
			r.same(t, "M", math.Abs(g.Moment)/c.force)
			r.same(t, "r", bolts4(r)[0].Len())
			r.same(t, "FA", g.Most/1000)
			r.same(t, "FC", g.Forces[2].Len()/1000)
			r.same(t, "F2", math.Abs(g.Moment)*bolts4(r)[0].Len()/g.J/1000)
			r.same(t, "tau", g.Most/r.in(t, "Ar"))
		} else {
			r.same(t, "M", math.Abs(g.Moment)/(c.force*c.length))
			r.same(t, "sum r2", g.J/(c.length*c.length))
			r.same(t, "p", g.Most/c.force)
			r.same(t, "sum px", g.Forces[0].X/c.force)
			r.same(t, "sum py", -g.Forces[0].Y/c.force)
			require.Equal(t, 0, g.MostAt)
		}
	}
}

func bolts4(r record) []geom.Point { return points(r.Bolts, 1) }

func TestFinPlateBolts(t *testing.T) {
	r := load(t, "examples.json", "fin plate: bolt group and bearing")
	var bolts []geom.Point
	for i := range int(r.in(t, "columns")) {
		for j := range int(r.in(t, "rows")) {
			bolts = append(bolts, pt(r.in(t, "p2")*(float64(i)-0.5), r.in(t, "p1")*(float64(j)-2)))
		}
	}
	v := r.in(t, "VEd") * 1000
	g, err := ElasticGroup(bolts, PlaneLoad{F: pt(0, -v), At: pt(r.in(t, "z"), 0)}, nil)
	require.NoError(t, err)
	r.same(t, "J", g.J)
	r.same(t, "largest at VEd", g.Most/1000)
	// alpha and beta: what the moment adds to the farthest bolt, both ways, as a
	// share of the load.
	most := g.Forces[g.MostAt]
	vertical, horizontal := math.Abs(most.Y), math.Abs(most.X)
	require.InEpsilon(t, r.Recomputed["alpha"], (vertical-v/10)/v, 0.001)
	require.InEpsilon(t, r.Recomputed["beta"], horizontal/v, 0.001)

	var e EN1993
	fv := e.BoltShear(ENBolt{D: r.in(t, "d"), As: r.in(t, "As"), Fub: r.in(t, "fub"), AlphaV: 0.6}, Planes{Thread: 1})
	r.same(t, "Fv", fv.Design/1000)
	group := fv.Design / g.Most * v / 1000
	require.InEpsilon(t, r.Published["group"], group, 0.002)
	r.same(t, "group", group)

	b := ENBearing{D: r.in(t, "d"), D0: r.in(t, "d0"), T: r.in(t, "t"), Fu: r.in(t, "fu"), Fub: r.in(t, "fub")}
	down, across := b, b
	down.E1, down.P1, down.E2, down.P2 = r.in(t, "e1"), r.in(t, "p1"), r.in(t, "e2"), r.in(t, "p2")
	across.E1, across.P1, across.E2, across.P2 = r.in(t, "e2"), r.in(t, "p2"), r.in(t, "e1"), r.in(t, "p1")
	alphaV, _ := down.AlphaB()
	alphaH, _ := across.AlphaB()
	r.same(t, "k1 vertical", down.K1())
	r.same(t, "alpha_b vertical", alphaV)
	r.same(t, "k1 horizontal", across.K1())
	r.same(t, "alpha_b horizontal", alphaH)
	fbv, fbh := e.Bearing(down), e.Bearing(across)
	r.same(t, "Fb vertical", fbv.Design/1000)
	r.same(t, "Fb horizontal", fbh.Design/1000)
	both := e.BearingBothWays(vertical, horizontal, fbv, fbh)
	r.same(t, "bearing", v/1000/math.Sqrt(both.V))
}

func TestFinPlateShear(t *testing.T) {
	r := load(t, "examples.json", "fin plate: shear of plate")
	var e EN1993
	h, tp := r.in(t, "hp"), r.in(t, "tp")
	r.same(t, "gross", e.FinShear(r.in(t, "fy"), h, tp).Design/1000)
	net := tp * (h - r.in(t, "bolts")*r.in(t, "d0"))
	r.same(t, "Av,net", net)
	r.same(t, "net", e.ShearNet(r.in(t, "fu"), net).Design/1000)
}

func TestLapJoint(t *testing.T) {
	r := load(t, "examples.json", "bearing and tear-out, lap joint")
	edge := (r.in(t, "Le") - r.in(t, "hole")/2) * inch
	r.same(t, "lc edge", edge/inch)
	n := func(a AISC, tk string) (total, one, other float64) {
		h := HoleBearing{D: r.in(t, "d") * inch, T: r.in(t, tk) * inch, Fu: r.in(t, "Fu") * ksi, Clear: edge}
		one = a.BoltHole(h).Nominal / kip
		require.Contains(t, a.BoltHole(h).Mode, "tear-out")
		h.Clear = r.in(t, "inner clear") * inch
		other = a.BoltHole(h).Nominal / kip
		require.Contains(t, a.BoltHole(h).Mode, "bearing")
		return r.in(t, "edge bolts")*one + r.in(t, "inner bolts")*other, one, other
	}
	total, one, other := n(AISC{}, "member t")
	r.same(t, "member edge", one)
	r.same(t, "member inner", other)
	r.same(t, "member total", total)
	total, one, other = n(AISC{}, "gusset t")
	r.same(t, "gusset edge", one)
	r.same(t, "gusset inner", other)
	r.same(t, "gusset total", total)
	r.same(t, "phi", 0.75*total)
	r.same(t, "asd", total/2)
}

func TestBlockShearExample(t *testing.T) {
	r := load(t, "examples.json", "block shear")
	b := EdgeBlock(r.in(t, "t")*inch, r.in(t, "end")*inch, r.in(t, "pitch")*inch, int(r.in(t, "bolts")), r.in(t, "edge")*inch, r.in(t, "hole")*inch)
	b.Fy, b.Fu = r.in(t, "Fy")*ksi, r.in(t, "Fu")*ksi
	r.same(t, "Agv", b.GrossShear()/(inch*inch))
	r.same(t, "Anv", b.NetShear()/(inch*inch))
	r.same(t, "Ant", b.NetTension()/(inch*inch))
	r.same(t, "rupture path", (0.6*b.Fu*b.NetShear()+b.Fu*b.NetTension())/kip)
	yield := AISC{}.BlockShear(b)
	require.Contains(t, yield.Mode, "yielding of the sides")
	r.same(t, "yield path", yield.Nominal/kip)
	r.same(t, "phi", yield.Design/kip)
	r.same(t, "asd", AISC{Method: ASD}.BlockShear(b).Design/kip)
	// With a stronger yield the other path governs.
	b.Fy = b.Fu
	rupture := AISC{}.BlockShear(b)
	require.Contains(t, rupture.Mode, "rupture of the sides")
	r.same(t, "rupture path", rupture.Nominal/kip)
}

func TestLongitudinalWeld(t *testing.T) {
	r := load(t, "examples.json", "longitudinal fillet weld")
	w := Fillet{Leg: r.in(t, "leg") * inch, Length: inch, FEXX: r.in(t, "FEXX") * ksi}
	one := AISC{}.FilletWeld(w)
	r.same(t, "Rn per in", one.Nominal/kip)
	pu := 1.2*r.in(t, "dead") + 1.6*r.in(t, "live")
	pa := r.in(t, "dead") + r.in(t, "live")
	r.same(t, "Pu", pu)
	r.same(t, "Pa", pa)
	// The example goes on with the rounded 200 kip.
	r.same(t, "length lrfd", r.Published["Pu"]/(one.Design/kip))
	r.same(t, "length asd", pa/(AISC{Method: ASD}.FilletWeld(w).Design/kip))
	l := AISC{Units: Inch}.FilletLimits(w, inch/4, inch/4)
	r.same(t, "most leg on a 1/4 edge", l.Most.Bound/inch)
	r.same(t, "least leg in 1/4", l.Least.Bound/inch)
	require.True(t, l.Most.Met())
	require.True(t, l.Least.Met())
}

func TestPlainShearAndSlip(t *testing.T) {
	r := load(t, "examples.json", "bolt group in plain shear and slip")
	d, n := r.in(t, "d")*inch, r.in(t, "n")
	r.same(t, "Ab", Disc(d)/(inch*inch))
	shear := func(m Method, fnv string) Result {
		return AISC{Method: m}.BoltShear(d, BoltStress{ShearShank: r.in(t, fnv) * ksi}, Planes{Shank: 1})
	}
	r.same(t, "rn", shear(LRFD, "Fnv").Nominal/kip)
	r.same(t, "Rn", n*shear(LRFD, "Fnv").Nominal/kip)
	r.same(t, "phi shear", n*shear(LRFD, "Fnv").Design/kip)
	r.same(t, "asd shear", n*shear(ASD, "Fnv").Design/kip)
	r.same(t, "phi today", n*shear(LRFD, "Fnv today").Design/kip)
	j := SlipJoint{Mu: r.in(t, "mu"), Du: r.in(t, "Du"), Tension: r.in(t, "Tb") * kip, Planes: int(r.in(t, "Ns"))}
	r.same(t, "slip rn", AISC{}.Slip(j).Nominal/kip)
	r.same(t, "slip Rn", n*AISC{}.Slip(j).Nominal/kip)
	r.same(t, "slip asd", n*AISC{Method: ASD}.Slip(j).Design/kip)
}

func TestMachineDesignExample(t *testing.T) {
	r := load(t, "examples.json", "shear joint by a design factor")
	m := MachineDesign{r.in(t, "nd")}
	d, tk, n := r.in(t, "d")*inch, r.in(t, "t")*inch, int(r.in(t, "bolts"))
	sy, sp := r.in(t, "Sy")*ksi, r.in(t, "Sp")*ksi
	r.same(t, "bearing bolts", m.Bearing(d, tk, sp, n).Design/kip)
	r.same(t, "bearing members", m.Bearing(d, tk, sy, n).Design/kip)
	r.same(t, "shear shank", m.BoltShear(Disc(d), sp, int(r.in(t, "planes"))).Design/kip)
	r.same(t, "shear threads", m.BoltShear(r.in(t, "Ar")*inch*inch, sp, int(r.in(t, "planes"))).Design/kip)
	r.same(t, "edge shear", m.EdgeShear(r.in(t, "a")*inch, tk, sy, n).Design/kip)
	w := r.in(t, "w") * inch
	r.same(t, "net tension", m.Tension((w-float64(n)*d)*tk, sy).Design/kip)
	r.same(t, "gross yield", m.Tension(w*tk, sy).Design/kip)
}

func TestSingleBoltTable(t *testing.T) {
	r := load(t, "examples.json", "single bolt in shear")
	for _, row := range r.Rows {
		s := BoltStress{ShearThread: row[2].(float64) * ksi}
		d := row[1].(float64) * inch
		phi := AISC{}.BoltShear(d, s, Planes{Thread: 1}).Design / kip
		// The Manual prints three figures.
		require.InEpsilon(t, row[3].(float64), phi, 0.005, r.Source)
		require.InEpsilon(t, row[4].(float64), AISC{Method: ASD}.BoltShear(d, s, Planes{Thread: 1}).Design/kip, 0.005, r.Source)
		require.InEpsilon(t, row[5].(float64), phi, 0.0001, r.Source)
	}
}

func TestBearingPerInch(t *testing.T) {
	r := load(t, "examples.json", "bearing and tear-out per inch of thickness")
	for _, row := range r.Rows {
		const hole = 13.0 / 16
		clear := row[1].(float64) - hole
		if e := row[2].(float64); e > 0 {
			clear = e - hole/2
		}
		for i, fu := range []float64{58, 65} {
			got := AISC{}.BoltHole(HoleBearing{D: 0.75 * inch, T: inch, Fu: fu * ksi, Clear: clear * inch}).Design / kip
			require.InEpsilon(t, row[3+i].(float64), got, r.Tolerance, row[0])
			require.InEpsilon(t, row[5+i].(float64), got, 0.0003, row[0])
		}
	}
}

func TestENBoltTable(t *testing.T) {
	r := load(t, "examples.json", "EN bolts 8.8")
	for _, row := range r.Rows {
		b := ENBolt{As: row[1].(float64), Fub: 800, AlphaV: 0.6}
		fv := EN1993{}.BoltShear(b, Planes{Thread: 1}).Design / 1000
		ft := EN1993{}.BoltTension(b).Design / 1000
		require.InEpsilon(t, row[2].(float64), fv, 0.004, row[0]) // three figures
		require.InEpsilon(t, row[3].(float64), ft, 0.004, row[0])
		require.InEpsilon(t, row[4].(float64), fv, 0.0003, row[0])
		require.InEpsilon(t, row[5].(float64), ft, 0.0003, row[0])
	}
}

// The published sheet put the bolt's strength where the table has the plate's.
func TestENBearingTakesThePlatesStrength(t *testing.T) {
	r := load(t, "examples.json", "EN bolt M20 4.6 at least distances")
	var e EN1993
	bolt := ENBolt{D: r.in(t, "d"), As: r.in(t, "As"), Fub: r.in(t, "fub"), AlphaV: 0.6}
	r.same(t, "Fv", e.BoltShear(bolt, Planes{Thread: 1}).Design/1000)
	r.same(t, "Ft", e.BoltTension(bolt).Design/1000)
	r.same(t, "Bp", e.Punching(r.in(t, "dm"), r.in(t, "t"), r.in(t, "fu")).Design/1000)
	b := ENBearing{D: r.in(t, "d"), D0: r.in(t, "d0"), T: r.in(t, "t"), Fu: r.in(t, "fu"), Fub: r.in(t, "fub"), E2: r.in(t, "e2"), P2: r.in(t, "p2")}
	end, inner := b, b
	end.E1, inner.P1 = r.in(t, "e1"), r.in(t, "p1")
	r.same(t, "k1", end.K1())
	alpha, _ := end.AlphaB()
	r.same(t, "alpha end", alpha)
	alpha, _ = inner.AlphaB()
	r.same(t, "alpha inner", alpha)
	fe, fi := e.Bearing(end).Design/1000, e.Bearing(inner).Design/1000
	r.same(t, "Fb end", fe)
	r.same(t, "Fb inner", fi)
	require.InEpsilon(t, r.Wrong["Fb end"]*r.in(t, "fu")/r.in(t, "fub"), fe, 0.001, "the sheet's value falls right with the plate's strength")
	require.InEpsilon(t, r.Wrong["Fb inner"]*r.in(t, "fu")/r.in(t, "fub"), fi, 0.001)
	require.Less(t, fe, 0.95*r.Wrong["Fb end"])
	require.Less(t, fi, 0.95*r.Wrong["Fb inner"])
}

func TestENPinExample(t *testing.T) {
	r := load(t, "examples.json", "pin plate, EN type A, and pin")
	var e EN1993
	f := r.in(t, "FEd") * 1000
	a, c := e.PinEndA(f, r.in(t, "t"), r.in(t, "fy"), r.in(t, "d0"), 50, 30)
	r.same(t, "a least", a.Bound)
	r.same(t, "c least", c.Bound)
	require.True(t, a.Met())
	require.False(t, c.Met())
	thick, hole := e.PinEndB(f, r.in(t, "t"), r.in(t, "fy"), r.in(t, "d0"))
	r.same(t, "type B t least", thick.Bound)
	r.same(t, "type B d0 most", hole.Bound)
	require.True(t, thick.Met())
	require.True(t, hole.Met())
	p := e.Pin(PinJoint{Pin: r.in(t, "d"), Hole: r.in(t, "d0"), Middle: r.in(t, "b"), Outer: r.in(t, "a"), Gap: r.in(t, "c"),
		PinFy: r.in(t, "fyp"), PinFu: r.in(t, "fup"), Fy: r.in(t, "fy"), Replaceable: true})
	r.same(t, "Fb middle", p.BearingMiddle.Design/1000)
	r.same(t, "Fb service", p.BearingService.Design/1000)
	r.same(t, "Fv per plane", p.Shear.Design/1000)
	r.same(t, "MEd", p.Moment(f)/1e6)
	r.same(t, "MRd", p.Bending.Design/1e6)
	r.same(t, "interaction", p.Together(f).V)
}

func TestPublishedC(t *testing.T) {
	r := load(t, "examples.json", "C, one row, vertical load")
	for _, row := range r.Rows {
		n, ex := int(row[0].(float64)), row[1].(float64)
		c, err := InstantCentre(line(n, 3*inch), PlaneLoad{F: pt(0, -1), At: pt(ex*inch, 0)}, nil)
		require.NoError(t, err)
		require.InDelta(t, row[2].(float64), c.C, r.Tolerance, "%d bolts, ex %v in", n, ex)
	}
}

// line is a vertical row of bolts about the origin.
func line(n int, pitch float64) []geom.Point {
	out := make([]geom.Point, n)
	for i := range out {
		out[i] = pt(0, pitch*(float64(i)-float64(n-1)/2))
	}
	return out
}

func TestMedlar(t *testing.T) {
	r := load(t, "examples.json", "orchard cart Medlar")
	w := Weight(r.in(t, "mass"))
	motor := MotorTorque(r.in(t, "motor")*1000, r.in(t, "ratio"), r.in(t, "efficiency"))
	grip := TractionTorque(r.in(t, "mu"), w, r.in(t, "r"))
	near := func(key string, got float64) {
		t.Helper()
		require.InEpsilon(t, r.Recomputed[key], got, r.Tolerance, key)
	}
	near("T motor", motor.V/1000)
	near("T traction", grip.V/1000)
	require.Equal(t, motor, DriveTorque(motor, grip), "the tyres hold more than the motor gives")
	require.Equal(t, grip, DriveTorque(Shock(motor, 2), grip))
	near("Fx drive", TyreForce(motor.V, r.in(t, "r")).V)
	near("Fx brake", BrakeForce(r.in(t, "mu"), w).V)
	near("T traction", BrakeTorque(r.in(t, "mu"), w, r.in(t, "r")).V/1000)
	near("F drive", OneLink(motor.V, r.in(t, "h")).V)
	near("F traction", OneLink(grip.V, r.in(t, "h")).V)
	near("F shock", Shock(OneLink(grip.V, r.in(t, "h")), 2).V)
	tab := HoleBearing{D: inch / 2, T: r.in(t, "t") * inch, Fu: r.in(t, "Fu") * ksi, Clear: (r.in(t, "nose") - r.in(t, "hole")/2) * inch}
	near("tear-out", AISC{}.TearOut(tab).Nominal)
	weld := func(leg float64) float64 {
		w := Fillet{Leg: leg * inch, Length: 100, FEXX: r.in(t, "FEXX") * ksi}
		return AISC{Method: ASD}.FilletWeld(w).Design / 100
	}
	near("weld 3/16", weld(3.0/16))
	near("weld 1/4", weld(1.0/4))
}
