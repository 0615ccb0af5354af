package tube

import (
	"slices"
	"strconv"

	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

// Rule is one rule for tubes: what it tells of itself, and how it is measured.
type Rule struct {
	check.Check
	run func(*run)
}

// rules are run and told in this order.
var rules = []*Rule{angleRule, overrunRule, insideRule, gapRule, seamRule, clampRule, stressRule, bucklingRule, sleeveRule, weldRule}

// Rules lists the rules for tubes.
func Rules() []*check.Check {
	out := make([]*check.Check, len(rules))
	for i, r := range rules {
		out[i] = &r.Check
	}
	return out
}

// run is one measuring of a tube.
type run struct {
	t        *Tube
	rule     *Rule
	findings []diag.Finding
	uses     []check.Utilisation
}

// report adds a finding of the running rule; its severity and source are the
// rule's where the finding has none.
func (c *run) report(f diag.Finding, severity diag.Severity) {
	f.Rule, f.Severity = c.rule.ID, severity
	if f.Source == "" {
		f.Source = c.rule.Source
	}
	if f.Features == nil {
		f.Features = []string{}
	}
	f.Waived = check.Waived(c.t.Desc.Waivers, f.Rule)
	c.findings = append(c.findings, f)
}

// use notes how much of what a place holds is used, and a finding where that is
// more than all.
func (c *run) use(l *Load, u check.Utilisation, fix string) {
	u.Rule, u.Case, u.Source = c.rule.ID, l.Case, c.rule.Source
	k := slices.IndexFunc(c.uses, func(v check.Utilisation) bool { return v.Rule == u.Rule && v.Place == u.Place })
	if k < 0 {
		c.uses = append(c.uses, u)
	} else if u.Value > c.uses[k].Value {
		c.uses[k] = u
	}
	if num.AtMost(u.Value, 1) {
		return
	}
	message := u.Place + ": " + u.Mode + " is used to " + num.Short(100*u.Value, 0) + " %"
	if l.Case != "" {
		message += " in case " + strconv.Quote(l.Case)
	}
	c.report(diag.Finding{Pos: l.Pos, Features: []string{u.Place}, Got: u.Value, Want: 1, Message: message, Fix: fix,
		Formula: u.Formula, Utilisation: u.Value, Case: l.Case}, diag.Error)
}

// Run measures a tube against every rule: findings sorted by place, waivers
// marked. No finding does not mean that the tube will hold: see Unchecked.
func Run(t *Tube) []diag.Finding {
	fs, _ := measure(t)
	return fs
}

// Utilisations tells how much of what the tube carries its loads use.
func Utilisations(t *Tube) []check.Utilisation {
	_, uses := measure(t)
	return uses
}

func measure(t *Tube) ([]diag.Finding, []check.Utilisation) {
	c := &run{t: t}
	for _, r := range rules {
		c.rule = r
		r.run(c)
	}
	c.findings = append(c.findings, check.IdleWaivers(t.Desc.Waivers, c.findings, Rules())...)
	slices.SortStableFunc(c.findings, func(a, b diag.Finding) int { return a.Pos.Compare(b.Pos) })
	return c.findings, c.uses
}
