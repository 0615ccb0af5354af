package main

import (
	"fmt"
	"os"
	"slices"

	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/cutlist"
	"blankwright/flat/diag"
	"blankwright/flat/layout"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// group is the parts that may share a sheet: of one material and thickness, cut by
// one process.
type group struct {
	material  string
	thickness float64
	process   profiles.Process
	gap       float64
	margin    float64
	kerf      float64 // that edges are moved for, mm; 0 for nominal edges
	gapFrom   string  // where the gap comes from
	kinds     []kind
	pieces    []layout.Piece
	stock     []*plateStock
	result    *layout.Result
	withWhat  string   // the process, where another group differs in nothing else
	failed    bool     // a failed check was accepted
	grained   []string // parts whose descriptions say how the grain lies in them
	report    groupReport
}

// kind is one hand of a part with how many are wanted.
type kind struct {
	file  string
	blank *blank.Blank
	times int
	marks []stroke.Mark
	cuts  []cutlist.Cut
	drawn *blank.Blank // with the edges that the table follows: moved for the kerf, or blank itself
}

// batch is an input and how many times it is taken.
type batch struct {
	input
	times int
}

// inputs lists the descriptions, each with how many times it is taken: FILE*4.
// One that is named twice is taken as often.
func (l *layouter) inputs(args []string) ([]batch, error) {
	var list []batch
	place := map[string]int{}
	for _, a := range args {
		times := 1
		if _, err := os.Stat(a); err != nil {
			rest, n, err := cutCount(a, 1)
			if err != nil {
				return nil, usage("%s: %v", a, err)
			}
			a, times = rest, n
		}
		found, err := inputs([]string{a})
		if err != nil {
			return nil, err
		}
		for _, in := range found {
			if i, ok := place[in.path]; ok {
				list[i].times += times
				continue
			}
			place[in.path] = len(list)
			list = append(list, batch{in, times})
		}
	}
	if len(list) == 0 {
		_, err := inputs(nil) // says what is missing
		return nil, err
	}
	return list, nil
}

// read takes all descriptions to blanks and groups them. It is false where there
// is nothing to lay out, or something is wrong.
func (l *layouter) read(list []batch) bool {
	l.report = layoutReport{Groups: []groupReport{}, Held: []heldReport{}}
	plain := make([]input, len(list))
	for i := range list {
		plain[i] = list[i].input
	}
	at, good := 0, true
	l.each(plain, order{profile: l.profile, acceptFailed: l.acceptFailed}, func(out outcome) {
		times := list[at].times * l.times
		at++
		if out.err != nil {
			l.report.Errors = append(l.report.Errors, l.explain(out.err)...)
			good = false
			return
		}
		l.take(out, times)
	})
	if !good {
		l.say("nothing is laid out while a description is wrong or cannot be read")
		return false
	}
	pieces := 0
	for _, g := range l.groups {
		for i := range g.pieces {
			pieces += g.pieces[i].Quantity
		}
	}
	if pieces > mostPieces {
		l.worst(exitWrong)
		l.say("blankwright: error: there are %d pieces to lay out; at most %d are", pieces, mostPieces)
		return false
	}
	if pieces == 0 {
		l.say("there is no part left to lay out; nothing written")
		return false
	}
	return true
}

// take puts the blanks of one description into their groups: those of a part, or of
// all parts of a job.
func (l *layouter) take(out outcome, times int) {
	texts := findingsText(out.blanks)
	for i, c := range out.blanks {
		l.takeBlank(out.path, c, times, texts[i])
	}
	for i := range out.products {
		p := &out.products[i]
		switch {
		case p.kind != "job":
			l.say("%s: %s is a tube and not cut from plate; it is left out", out.path, p.title())
		case p.failed && !l.acceptFailed:
			l.err.Write(check.AppendText(nil, unsaid(out.products, i)))
			l.worst(exitFailed)
			l.say("%s: %s: a check failed, none of its parts is laid out; --accept-failed takes them in", out.path, p.title())
			rules := failedRules(p.findings)
			for _, c := range p.plates {
				l.report.Held = append(l.report.Held, heldReport{out.path, c.blank.Name, c.blank.Hand.String(), rules})
			}
		default:
			for _, c := range p.plates {
				c.failed = c.failed || p.failed
				l.takeBlank(out.path, c, times*p.quantity, check.AppendText(nil, c.findings))
			}
		}
	}
}

func (l *layouter) takeBlank(path string, c checked, times int, findings []byte) {
	b := c.blank
	if c.failed {
		l.err.Write(findings)
		l.worst(exitFailed)
		if !l.acceptFailed {
			l.say("%s: %s (%s): a check failed, it is not laid out; --accept-failed takes it in", path, b.Name, b.Hand)
			l.report.Held = append(l.report.Held, heldReport{path, b.Name, b.Hand.String(), failedRules(c.findings)})
			return
		}
		l.failedAccepted = true
	}
	g := l.groupOf(b)
	g.failed = g.failed || c.failed
	g.kinds = append(g.kinds, kind{file: path, blank: b, times: times})
	g.pieces = append(g.pieces, layout.Piece{
		Name:     fmt.Sprintf("%s (%s)", b.Name, b.Hand),
		Region:   b.Region(),
		Quantity: b.Quantity * times,
		Turns:    l.turnsOf(b, g),
	})
}

// failedRules names the rules that failed, each once.
func failedRules(findings []diag.Finding) (rules []string) {
	for _, f := range findings {
		if f.Fails() && !slices.Contains(rules, f.Rule) {
			rules = append(rules, f.Rule)
		}
	}
	return rules
}

// groupOf finds the group of a blank, or begins it.
func (l *layouter) groupOf(b *blank.Blank) *group {
	withWhat := ""
	for _, g := range l.groups {
		if g.material != b.Material.Name || !num.Same(g.thickness, b.Thickness) {
			continue
		}
		if g.process.Name == b.Process.Name {
			return g
		}
		g.withWhat, withWhat = g.process.Name, b.Process.Name
	}
	g := &group{material: b.Material.Name, thickness: b.Thickness, process: b.Process, withWhat: withWhat, gap: l.gap, margin: l.margin}
	g.gapFrom = "as asked for"
	if g.gap < 0 {
		web := b.Process.LeastWeb(b.Thickness)
		g.gap = b.Process.Kerf + web
		g.gapFrom = fmt.Sprintf("kerf %s and least web %s mm of %s", num.Short(b.Process.Kerf, 2), num.Short(web, 2), b.Process.Name)
	}
	if g.margin < 0 {
		g.margin = g.gap
	}
	l.groups = append(l.groups, g)
	return g
}

// fillGroupKerf settles the kerf that a group's edges are moved for.
func (l *layouter) fillGroupKerf(g *group) error {
	if g.kerf = l.kerf; l.kerfOfProcess {
		if g.kerf = g.process.Kerf; g.kerf == 0 {
			return usage("--kerf auto: process %q has no kerf; give it as a length", g.process.Name)
		}
	}
	if kerf := max(g.kerf, g.process.Kerf); !num.AtLeast(g.gap, kerf) {
		return usage("a gap of %s mm is less than the kerf of %s mm, and parts would lose metal; give a wider --gap", num.Short(g.gap, 2), num.Short(kerf, 2))
	}
	return nil
}

// sheets are the group's sheets for the search.
func (g *group) sheets() []layout.Sheet {
	list := make([]layout.Sheet, len(g.stock))
	for i, s := range g.stock {
		list[i] = s.Sheet
	}
	return list
}

// words names the plate of a group for people.
func (g *group) words(sys unit.System) string {
	w := thickness(g.thickness, sys) + " " + g.material
	if g.withWhat != "" {
		w += ", cut by " + g.withWhat
	}
	return w
}

// thickness writes a plate's thickness as people say it: `1/4 in`, `6 mm`.
func thickness(mm float64, sys unit.System) string {
	if sys != unit.Inch {
		return num.Short(mm, 3) + " mm"
	}
	if f, exact := unit.Fraction(mm); exact {
		return f + " in"
	}
	return num.Short(mm/unit.MM, 4) + " in"
}

// tagWords names it as --sheet takes it.
func (g *group) tagWords(sys unit.System) string {
	if sys == unit.Inch {
		return num.Short(g.thickness/unit.MM, 4) + "in," + g.material
	}
	return num.Short(g.thickness, 3) + "mm," + g.material
}

// base is what the names of the group's files begin with.
func (g *group) base(name string, sys unit.System) string {
	if g.material != "" {
		name += "-" + blank.SafeName(g.material, longestName)
	}
	if sys == unit.Inch {
		name += "-t" + num.Short(g.thickness/unit.MM, 4) + "in"
	} else {
		name += "-t" + num.Short(g.thickness, 3) + "mm"
	}
	if g.withWhat != "" {
		name += "-" + blank.SafeName(g.withWhat, longestName)
	}
	if g.kerf != 0 {
		name += "-kerf" + num.Short(g.kerf, 3) + "mm"
	}
	if g.failed {
		name += failedSuffix
	}
	return name
}

func (l *layouter) groupWords() string {
	text := ""
	for i, g := range l.groups {
		switch {
		case i == 0:
		case i == len(l.groups)-1:
			text += " and of "
		default:
			text += ", of "
		}
		text += g.words(l.system())
	}
	return text
}
