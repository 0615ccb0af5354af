package job

import (
	"fmt"
	"math"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/cope"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Rule is one rule for jobs.
type Rule struct {
	check.Check
	run func(*run)
}

var rules = []*Rule{lengthRule, sleeveRule, angleRule, middleRule, turnRule, clashRule, bushRule, proudRule, pairRule, squareRule, sideRule, shareRule, nearlyRule}

// Rules lists the rules for jobs.
func Rules() []*check.Check {
	out := make([]*check.Check, len(rules))
	for i, r := range rules {
		out[i] = &r.Check
	}
	return out
}

type run struct {
	j        *Job
	rule     *Rule
	findings []diag.Finding
}

func (c *run) report(f diag.Finding, severity diag.Severity) {
	f.Rule, f.Severity, f.Source = c.rule.ID, severity, c.rule.Source
	f.Waived = check.Waived(c.j.Desc.Waivers, f.Rule)
	c.findings = append(c.findings, f)
}

// Run holds the job against its own rules: findings sorted by place, waivers
// marked. Those of its tubes and parts come from tube.Run and check.Run.
func Run(j *Job) []diag.Finding {
	c := &run{j: j}
	for _, r := range rules {
		c.rule = r
		r.run(c)
	}
	c.findings = append(c.findings, check.IdleWaivers(j.Desc.Waivers, c.findings, Rules())...)
	slices.SortStableFunc(c.findings, func(a, b diag.Finding) int { return a.Pos.Compare(b.Pos) })
	return c.findings
}

const degree = math.Pi / 180

func (j *Job) text(mm float64) string { return unit.Text(mm, j.Desc.Units) }

// plain writes a length as the file of a tube can hold it.
func (j *Job) plain(mm float64) string { return unit.Typed(mm, j.Desc.Units) }

func deg(a float64) string { return num.Short(a/degree, 2) + " deg" }

var lengthRule = &Rule{check.Check{
	ID: "job-length", Severity: diag.Error,
	Title:   "a tube is not as long as its pivots are apart",
	Meaning: "The tube's working points have to be as far from each other as the pivots, or the link does not go in, or sets the axle askew.",
	Formula: "|centres - distance of the pivots| <= within (0.5 mm)",
	Source:  "common practice: half a millimetre, what a tape gives",
	Limits:  "Of the described length. What welding pulls in comes on top: tack, measure, then weld.",
}, func(c *run) {
	for i := range c.j.Tubes {
		t := &c.j.Tubes[i]
		got := t.Hands[0].Cut.Piece.Centres
		if off := got - t.Length; !num.AtMost(math.Abs(off), c.j.Desc.Within.MM) {
			c.report(diag.Finding{Pos: t.Desc.Pos, Features: []string{t.Name}, Got: got, Want: t.Length, Unit: "mm",
				Message: fmt.Sprintf("tube %s is %s between its working points, pivots %s and %s are %s apart", t.Name, c.j.text(got), t.Desc.From.Text, t.Desc.To.Text, c.j.text(t.Length)),
				Fix:     t.lengthFix(c.j.plain(t.Length))}, diag.Error)
		}
	}
}}

// lengthFix says what to write for a tube to be as long as its pivots ask for.
func (t *Tube) lengthFix(want string) string {
	fix := "write centres: " + want + " in " + t.Desc.File.Text
	if t.Hands[0].Desc.Length.Set {
		fix += " in place of length"
	}
	return fix
}

// mains are the main of an end of a tube as described and as the pivots ask for.
// Of an end that meets several things it is the one main like the pivot's sleeve;
// ok is false where there is none, or more than one.
func (t *Tube) mains(end int) (have, want cope.Main, ok bool) {
	if t.Wanted == nil {
		return have, want, false
	}
	p := t.Hands[0].Cut.Piece
	a, b := p.First, t.Wanted.First
	if end == 1 {
		a, b = p.Second, t.Wanted.Second
	}
	want, _ = b[0].(cope.Main)
	if len(a) == 1 {
		have, ok = a[0].(cope.Main)
		return have, want, ok
	}
	for _, k := range a {
		m, is := k.(cope.Main)
		if !is || !num.AtMost(math.Abs(m.OD-want.OD), sleeveApart) || !num.AtMost(math.Abs(m.Angle-want.Angle), alike) {
			continue
		}
		if ok {
			return have, want, false
		}
		have, ok = m, true
	}
	return have, want, ok
}

// alike is how far the angle of a main may be off from the pivot's sleeve for it to
// be that sleeve, where an end meets several things, rad: well under what tells
// two tubes at one pivot apart.
const alike = 2 * degree

// mirrored reports whether the file of the tube describes the other hand.
func (t *Tube) mirrored() bool { return t.Hands[0].Hand == blank.Mirrored }

func (t *Tube) pivotOf(end int) string {
	if end == 0 {
		return t.Desc.From.Text
	}
	return t.Desc.To.Text
}

var endWords = [2]string{"first", "second"}

// sleeveApart is how far a sleeve's diameter may be off from what the tube is cut
// for, mm: a saddle gapes by half of it (common practice).
const sleeveApart = 0.2

var sleeveRule = &Rule{check.Check{
	ID: "job-sleeve", Severity: diag.Error,
	Title:   "a tube is cut for another sleeve than its pivot has",
	Meaning: "The saddle fits one diameter, the sleeve's length says whether the whole cut lies on it, and its bore how thick the wall is that holds the force.",
	Formula: "|main - outside of the pivot's sleeve| <= 0.2 mm; length and bore alike where the tube gives them",
	Source:  "common practice",
	Limits:  "Of ends that meet one main; of several, the one like the pivot's sleeve.",
}, func(c *run) {
	for i := range c.j.Tubes {
		t := &c.j.Tubes[i]
		for end := range 2 {
			have, want, ok := t.mains(end)
			if !ok {
				continue
			}
			f := diag.Finding{Pos: t.Desc.Pos, Features: []string{t.Name, t.pivotOf(end)}, Unit: "mm"}
			switch {
			case !num.AtMost(math.Abs(have.OD-want.OD), sleeveApart):
				f.Got, f.Want = have.OD, want.OD
				f.Message = fmt.Sprintf("%s end of tube %s is cut for %s, the sleeve of pivot %s is %s outside", endWords[end], t.Name, c.j.text(have.OD), t.pivotOf(end), c.j.text(want.OD))
				f.Fix = "write main: " + c.j.plain(want.OD) + " in " + t.Desc.File.Text
			case have.Length > 0 && !num.AtMost(math.Abs(have.Length-want.Length), sleeveApart):
				f.Got, f.Want = have.Length, want.Length
				f.Message = fmt.Sprintf("%s end of tube %s counts on a sleeve %s long, that of pivot %s is %s", endWords[end], t.Name, c.j.text(have.Length), t.pivotOf(end), c.j.text(want.Length))
				f.Fix = "write length: " + c.j.plain(want.Length) + " in " + t.Desc.File.Text
			default:
				bore := c.j.described(t.pivotOf(end)).Sleeve.Bore.MM
				off, ok := t.boreOff(end, want.OD, bore)
				if !ok {
					continue
				}
				f.Got, f.Want = off, bore
				f.Message = fmt.Sprintf("%s end of tube %s counts on a sleeve of %s bore, that of pivot %s has %s", endWords[end], t.Name, c.j.text(off), t.pivotOf(end), c.j.text(bore))
				f.Fix = "write bore: " + c.j.plain(bore) + " in " + t.Desc.File.Text
			}
			c.report(f, diag.Error)
		}
	}
}}

// boreOff is the bore of the sleeve of the given outside that an end counts on, mm;
// ok is false where it gives none, or that of its pivot.
func (t *Tube) boreOff(end int, outside, bore float64) (got float64, ok bool) {
	for _, s := range t.Hands[0].Ends[end].Sleeves {
		if num.AtMost(math.Abs(s.OD-outside), sleeveApart) && !num.AtMost(math.Abs(s.Bore-bore), sleeveApart) {
			return s.Bore, true
		}
	}
	return 0, false
}

var angleRule = &Rule{check.Check{
	ID: "job-angle", Severity: diag.Error,
	Title:   "a tube meets its sleeve at another angle than the pivots make",
	Meaning: "The angle between tube and sleeve follows from the pivots and the sleeve's axis. Off by some, the saddle stands open on one side.",
	Formula: "|angle - angle by the pivots| x outside of the tube <= within (0.5 mm)",
	Source:  "common practice",
	Limits:  "Of ends that meet the sleeve of their pivot.",
}, func(c *run) {
	for i := range c.j.Tubes {
		t := &c.j.Tubes[i]
		for end := range 2 {
			have, want, ok := t.mains(end)
			if !ok || num.AtMost(math.Abs(have.Angle-want.Angle)*t.Hands[0].Cut.Piece.Tube.OD, c.j.Desc.Within.MM) {
				continue
			}
			c.report(diag.Finding{Pos: t.Desc.Pos, Features: []string{t.Name, t.pivotOf(end)}, Got: have.Angle / degree, Want: want.Angle / degree, Unit: "deg",
				Message: fmt.Sprintf("%s end of tube %s is cut at %s, pivot %s asks for %s", endWords[end], t.Name, deg(have.Angle), t.pivotOf(end), deg(want.Angle)),
				Fix:     "write angle: " + deg(want.Angle) + " in " + t.Desc.File.Text}, diag.Error)
		}
	}
}}

// heels is how far the heel of the second end lies from that of the first, as the
// first end counts.
func heels(p *cope.Piece, first, second cope.Main) float64 { return p.Turn - second.Turn - first.Turn }

// TurnOff is how far the turn between both ends of a tube is off from what the
// pivots ask for, rad: the tube's less the pivots'. ok is false where an end is
// not to be compared.
func (t *Tube) TurnOff() (off float64, ok bool) {
	a, wa, ok1 := t.mains(0)
	b, wb, ok2 := t.mains(1)
	if !ok1 || !ok2 {
		return 0, false
	}
	p := t.Hands[0].Cut.Piece
	off = heels(&p, a, b) - heels(t.Wanted, wa, wb)
	round := 2 * math.Pi
	for _, m := range [4]cope.Main{a, wa, b, wb} {
		if t.nearlySquare(m) {
			round = math.Pi // a square sleeve has two heels
		}
	}
	return math.Remainder(off, round), true
}

// nearlySquare reports whether a sleeve lies so close to a right angle that nobody
// tells its heel from its toe: by no more than an angle may be off.
func (t *Tube) nearlySquare(m cope.Main) bool {
	return num.AtMost((math.Pi/2-m.Angle)*t.Hands[0].Cut.Piece.Tube.OD, t.within)
}

var turnRule = &Rule{check.Check{
	ID: "job-turn", Severity: diag.Error,
	Title: "the ends of a tube are turned against each other otherwise than their sleeves",
	Meaning: "The turn from one sleeve to the other follows from their axes. Seen from the other end it runs the other way round, " +
		"which is how a link ends up with its sleeves leaning apart by twice the angle.",
	Formula: "|turn - turn by the sleeves' axes| x outside / 2 <= within (0.5 mm), round the tube",
	Source:  "common practice",
	Limits:  "Of ends that meet the sleeves of their pivots. Of a square sleeve both directions of its axis count as one.",
}, func(c *run) {
	for i := range c.j.Tubes {
		t := &c.j.Tubes[i]
		off, ok := t.TurnOff()
		p := t.Hands[0].Cut.Piece
		round := off * p.Tube.OD / 2
		if !ok || num.AtMost(math.Abs(round), c.j.Desc.Within.MM) {
			continue
		}
		want := math.Remainder(p.Turn-off, 2*math.Pi)
		write := want // in the file, which describes the hand as drawn
		if t.mirrored() {
			write = -want
		}
		c.report(diag.Finding{Pos: t.Desc.Pos, Features: []string{t.Name}, Got: p.Turn / degree, Want: want / degree, Unit: "deg",
			Message: fmt.Sprintf("tube %s has its ends turned by %s, the sleeves of %s and %s ask for %s: %s off round the tube", t.Name, deg(p.Turn), t.Desc.From.Text, t.Desc.To.Text, deg(want), c.j.text(math.Abs(round))),
			Fix:     "write turn: " + deg(write) + " in " + t.Desc.File.Text}, diag.Error)
	}
}}

// bushApart is how far a bush and the bore that it goes into may be apart, mm.
const bushApart = 0.4

var bushRule = &Rule{check.Check{
	ID: "job-bush", Severity: diag.Error,
	Title:   "a bush does not suit the bore of its sleeve",
	Meaning: "A bush is pressed in, or pushed into a sleeve that was reamed after welding. More apart than that it falls out, or does not go in.",
	Formula: "|outside of the bush - bore of the sleeve| <= 0.4 mm",
	Source:  "common practice: press fits 0.05 to 0.15 mm by the maker; a welded sleeve shrinks by 0.1 to 0.4 mm and is reamed",
	Limits:  "Nominal sizes: the fit itself is the bush maker's word.",
}, func(c *run) {
	for i := range c.j.Desc.Pivots {
		p := &c.j.Desc.Pivots[i]
		if p.Bush == nil || p.Sleeve == nil {
			continue
		}
		got, want := p.Bush.Outside.MM, p.Sleeve.Bore.MM
		if !num.AtMost(math.Abs(got-want), bushApart) {
			c.report(diag.Finding{Pos: p.Bush.Pos, Features: []string{p.Name.Text}, Got: got, Want: want, Unit: "mm",
				Message: fmt.Sprintf("pivot %s: a bush of %s in a bore of %s", p.Name.Text, c.j.text(got), c.j.text(want)),
				Fix:     "another bush, or a sleeve bored for it"}, diag.Error)
		}
	}
}}

// proudLeast is how far a bush has to stand out of its sleeve at both ends
// together, mm: 3 thousandths of an inch at each.
const proudLeast = 2 * 0.003 * unit.MM

var proudRule = &Rule{check.Check{
	ID: "job-proud", Severity: diag.Error,
	Title:   "a bush does not stand proud of its sleeve",
	Meaning: "The bolt clamps the bush between the plates. Where the sleeve is as long, it is clamped as well, and the joint turns on the bolt or not at all.",
	Formula: "length of the bush - length of the sleeve >= 2 x 0.003 in (0.15 mm)",
	Source:  "common practice: 3 to 5 thousandths of an inch at each side",
	Limits:  "Of pivots with both.",
}, func(c *run) {
	for i := range c.j.Desc.Pivots {
		p := &c.j.Desc.Pivots[i]
		if p.Bush == nil || p.Sleeve == nil {
			continue
		}
		got, want := p.Bush.Length.MM, p.Sleeve.Length.MM+proudLeast
		if !num.AtLeast(got, want) {
			c.report(diag.Finding{Pos: p.Bush.Pos, Features: []string{p.Name.Text}, Got: got, Want: want, Unit: "mm",
				Message: fmt.Sprintf("pivot %s: the bush is %s long in a sleeve of %s and does not stand proud", p.Name.Text, c.j.text(got), c.j.text(p.Sleeve.Length.MM)),
				Fix:     "a bush " + c.j.text(want) + " long, or face the sleeve"}, diag.Error)
		}
	}
}}

var pairRule = &Rule{check.Check{
	ID: "job-pair", Severity: diag.Error,
	Title: "a bush is not clamped by two plates alike",
	Meaning: "The bolt of a joint clamps the bush between two plates, one on each side of the tube, and each takes half of the force. " +
		"A plate too few leaves a bolt that stands out of one plate alone and bends; plates of different thickness have another grip than was worked out.",
	Formula: "plates of a pivot's joint = 2, or 2 for each of several like it; thickness alike",
	Source:  "statics; common practice",
	Limits:  "Of parts with a joint, by the quantity in their files.",
}, func(c *run) {
	for i := range c.j.Desc.Pivots {
		pivot := c.j.Desc.Pivots[i].Name.Text
		plates := c.j.clamping(pivot)
		if len(plates) == 0 {
			continue
		}
		n := c.j.platesAt(pivot)
		f := diag.Finding{Pos: plates[0].Desc.Joint.Pos, Features: []string{pivot}}
		if n%2 != 0 {
			f.Got, f.Want = float64(n), float64(n+1)
			f.Message = fmt.Sprintf("pivot %s has %d plates with a joint, a bush is clamped by two", pivot, n)
			if n == 1 {
				f.Message = fmt.Sprintf("pivot %s has one plate with a joint, a bush is clamped by two", pivot)
			}
			f.Fix = fmt.Sprintf("write quantity: %d in %s", plates[0].quantity()+1, plates[0].Desc.File.Text)
			c.report(f, diag.Error)
		}
		for _, p := range plates[1:] {
			got, want := p.Hands[0].Thickness, plates[0].Hands[0].Thickness
			if num.Same(got, want) {
				continue
			}
			f := diag.Finding{Pos: p.Desc.Joint.Pos, Features: []string{pivot, p.Name}, Got: got, Want: want, Unit: "mm",
				Message: fmt.Sprintf("plate %s of pivot %s is %s thick, plate %s is %s: the grip is worked out for two alike", p.Name, pivot, c.j.text(got), plates[0].Name, c.j.text(want)),
				Fix:     "plates of one thickness, or work out grip and bolt by hand"}
			c.report(f, diag.Warning)
		}
	}
}}

// clamping are the parts whose joint clamps the bush of a pivot.
func (j *Job) clamping(pivot string) []*Part {
	var out []*Part
	for i := range j.Parts {
		if p := &j.Parts[i]; p.Desc.Joint != nil && p.Desc.At.Text == pivot {
			out = append(out, p)
		}
	}
	return out
}

// platesAt is how many plates clamp the bush of a pivot, in one set; a bent part
// whose legs stand on both sides of it counts as two.
func (j *Job) platesAt(pivot string) int {
	n := 0
	for _, p := range j.clamping(pivot) {
		n += p.quantity() * p.bolted
	}
	return n
}

// quantity is how many plates of a part are in one set, of both hands.
func (p *Part) quantity() int {
	n := 0
	for _, h := range p.Hands {
		n += h.Quantity
	}
	return n
}

// squareOff is how far a plate may lean off square to its bolt, rad: half a degree
// is half a millimetre over a gap of 60 mm (common practice).
const squareOff = 0.5 * degree

var squareRule = &Rule{check.Check{
	ID: "job-plate-square", Severity: diag.Error,
	Title: "a bracket does not stand square to its bolt",
	Meaning: "The bolt goes through the plate along the pivot's axis. A plate that leans has its hole off from its twin's, " +
		"is bent when the bolt is drawn up, and holds the sleeve askew.",
	Formula: "angle between the plate's normal (right x up) and the pivot's axis <= 0.5 deg",
	Source:  "common practice",
	Limits:  "Of pivots with an axis.",
}, func(c *run) {
	for i := range c.j.Parts {
		p := &c.j.Parts[i]
		if p.Bracket == nil {
			continue
		}
		pivot := c.j.described(p.Bracket.Pivot)
		if !pivot.Axis.Set {
			continue
		}
		_, _, side := frame(p.Desc)
		axis := vec(pivot.Axis).Unit()
		lean := math.Atan2(side.Cross(axis).Len(), math.Abs(side.Dot(axis)))
		if num.AtMost(lean, squareOff) {
			continue
		}
		c.report(diag.Finding{Pos: p.Desc.Right.Pos, Features: []string{p.Name, p.Bracket.Pivot}, Got: lean / degree, Want: squareOff / degree, Unit: "deg",
			Message: fmt.Sprintf("bracket %s leans by %s off square to the axis of pivot %s", p.Name, deg(lean), p.Bracket.Pivot),
			Fix:     "give right and up square to the pivot's axis, or mend the axis"}, diag.Error)
	}
}}

// sideLeast is the share of a bracket's force that has to run sideways to be told.
const sideLeast = 0.05

var sideRule = &Rule{check.Check{
	ID: "job-sideways", Severity: diag.Warning,
	Title:   "a tube pushes a bracket sideways",
	Meaning: "A flat plate is strong along itself. What a slanting tube puts on it sideways bends it at its weld, which the rules for plates do not look at.",
	Formula: "|sideways| <= 5 % of the force in the plate",
	Source:  "common practice",
	Limits:  "Of the forces of the load cases. What a bush puts on a bracket when it twists is not among them.",
}, func(c *run) {
	for i := range c.j.Parts {
		p := &c.j.Parts[i]
		if p.Bracket == nil {
			continue
		}
		worst := Force{}
		for _, f := range p.Bracket.Forces {
			if math.Abs(f.Side) > math.Abs(worst.Side) {
				worst = f
			}
		}
		along := math.Hypot(worst.X, worst.Y)
		if side := math.Abs(worst.Side); side >= leastForce && !num.AtMost(side, sideLeast*along) {
			c.report(diag.Finding{Pos: p.Desc.Pos, Features: []string{p.Name}, Got: side / 1000, Want: sideLeast * along / 1000, Unit: "kN", Case: worst.Case,
				Message: fmt.Sprintf("bracket %s takes %s sideways beside %s in its plane, in case %q", p.Name, kN(side), kN(along), worst.Case),
				Fix:     "set the plate along the tube, or brace it"}, diag.Warning)
		}
	}
}}

var nearlyRule = &Rule{check.Check{
	ID: "job-nearly-loose", Severity: diag.Warning,
	Title:   "the link is nearly a mechanism",
	Meaning: "Where pivots lie nearly in one line a small load makes large forces, and a small error of measuring changes them altogether.",
	Formula: "largest force in a tube by a load of 1 on any pivot <= 100",
	Source:  "common practice",
	Limits:  "Of links with loads.",
}, func(c *run) {
	if s := c.j.Solution; s != nil && s.Weakest.Nearly() {
		c.report(diag.Finding{Pos: c.j.Desc.Pos, Features: []string{s.Weakest.Member}, Got: s.Weakest.Force, Want: 100,
			Message: s.Weakest.String(), Fix: "spread the pivots"}, diag.Warning)
	}
}}

// Unchecked lists what was not looked at in the job as a whole.
func Unchecked(j *Job) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if j.Solution == nil {
		add("forces in tubes and brackets: the job gives no loads, or no tubes")
	}
	for i := range j.Tubes {
		t := &j.Tubes[i]
		if t.Wanted == nil {
			add("turn and angles of tube %s: a pivot of it has no sleeve", t.Name)
			continue
		}
		for end := range 2 {
			if _, _, ok := t.mains(end); !ok {
				add("%s end of tube %s against its pivot: nothing that it meets, or more than one thing, is like the pivot's sleeve", endWords[end], t.Name)
			}
		}
	}
	for i := range j.Parts {
		if p := &j.Parts[i]; p.Bracket != nil && len(p.Bracket.Forces) > 0 && p.Bent() {
			add("strength of bracket %s: it is bent, and loads are held against flat plates only; forces that pivot %s puts on it are told", p.Name, p.Bracket.Pivot)
		}
	}
	for i := range j.Pivots {
		name := j.Pivots[i].Name
		used, held := false, false
		for k := range j.Tubes {
			used = used || j.Tubes[k].Desc.From.Text == name || j.Tubes[k].Desc.To.Text == name
		}
		for k := range j.Parts {
			held = held || j.Parts[k].Bracket != nil && j.Parts[k].Bracket.Pivot == name
		}
		if used && !held {
			add("what holds pivot %s: the job has no bracket there", name)
		}
	}
	if s := j.Survey; s != nil && s.Spare == 0 {
		add("measured distances against each other: there are no more than places need, so a wrong one does not show")
	}
	add("clearance as the link swings, bind of bushes at the ends of travel")
	add("what the vehicle itself carries: axle, frame and crossmember where brackets are welded")
	return out
}
