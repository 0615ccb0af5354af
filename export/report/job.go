package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blankwright/export/paper"
	"blankwright/export/wrap"
	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/flat/job"
	"blankwright/flat/link"
	"blankwright/flat/num"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// Told is what was found of one thing of a job.
type Told struct {
	Of       string // "job", "tube link", "part tab"
	Findings []diag.Finding
}

// Job writes all that is to be read of a job. told are the findings of the job,
// its tubes and its parts.
func Job(w paper.Writer, j *job.Job, told []Told) {
	if failed(told) {
		w.Strong("Checks failed: do not make it by this sheet.")
	}
	if n := j.Desc.Note.Text; n != "" {
		w.Text(n)
	}
	sets := "One set."
	if j.Sets > 1 {
		sets = fmt.Sprintf("%d sets: the lists are for all of them.", j.Sets)
	}
	w.Text(sets + " Forward, left and up are those of the vehicle.")
	for _, p := range Pictures(j) {
		w.Picture(p)
	}
	pivots(w, j)
	tubes(w, j)
	forces(w, j)
	fits(w, j)
	lists(w, j)
	findings(w, told)
	used(w, j)
	w.Heading("Taken for granted")
	for _, a := range Assumed(j) {
		w.Text("- " + a)
	}
	w.Heading("Not checked")
	for _, u := range Unchecked(j) {
		w.Text("- " + u)
	}
	w.Heading("Cautions")
	for _, c := range check.Cautions() {
		w.Text("- " + c)
	}
}

func failed(told []Told) bool {
	for _, t := range told {
		if check.Failed(t.Findings) {
			return true
		}
	}
	return false
}

func pivots(w paper.Writer, j *job.Job) {
	text := func(mm float64) string { return unit.Text(mm, j.Desc.Units) }
	w.Heading("Pivots")
	var rows [][]string
	for i := range j.Pivots {
		p, d := &j.Pivots[i], &j.Desc.Pivots[i]
		row := []string{p.Name, text(p.At.X), text(p.At.Y), text(p.At.Z), "", ""}
		if s := d.Sleeve; s != nil {
			row[4] = text(s.Outside.MM) + " outside, " + text(s.Bore.MM) + " bore, " + text(s.Length.MM) + " long"
		}
		if s := d.Bush; s != nil {
			row[5] = text(s.Outside.MM) + " outside, " + text(s.Bore.MM) + " bore, " + text(s.Length.MM) + " long"
		}
		rows = append(rows, row)
	}
	w.Table([]string{"pivot", "forward", "left", "up", "sleeve", "bush"}, rows)
	if s := j.Survey; s != nil {
		rows = nil
		for _, r := range s.Residuals {
			rows = append(rows, []string{r.From + " to " + r.To, text(r.Distance), num.Rounded(r.Off, 2) + " mm"})
		}
		w.Text(fmt.Sprintf("Measured distances: worst off %s, %d more than places need.", text(math.Abs(s.Worst)), s.Spare))
		w.Table([]string{"distance", "measured", "off"}, rows)
	}
}

func tubes(w paper.Writer, j *job.Job) {
	if len(j.Tubes) == 0 {
		return
	}
	w.Heading("Tubes")
	var rows [][]string
	for i := range j.Tubes {
		t := &j.Tubes[i]
		for _, h := range t.Hands {
			text := func(mm float64) string { return unit.Text(mm, j.Desc.Units) }
			p := h.Cut.Piece
			turn := ""
			if !h.Ends[0].Square && !h.Ends[1].Square {
				turn = num.Short(p.Turn*180/math.Pi, 2) + " deg = " + text(h.Cut.Clocking()) + " round"
			}
			rows = append(rows, []string{h.Name + ", " + h.Hand.String(), strconv.Itoa(h.Quantity * j.Sets), t.Desc.From.Text + " to " + t.Desc.To.Text,
				text(p.Tube.OD) + " x " + text(p.Tube.Wall) + ", " + h.Material.Name, text(p.Centres), text(h.Blank()), text(h.Cut.Throats(h.Line)),
				turn, num.Rounded(h.Mass, 2) + " kg"})
		}
	}
	w.Table([]string{"tube", "pieces", "pivots", "section", "pivot to pivot", "saw to", "between shortest points", "turn", "mass"}, rows)
	for i := range j.Tubes {
		if h := j.Tubes[i].Hands[0]; !h.Ends[0].Square && !h.Ends[1].Square {
			w.Text(j.Tubes[i].Name + ": " + wrap.TurnWords(h))
		}
	}
}

func kN(n float64) string { return num.Rounded(n/1000, 2) }

func forces(w paper.Writer, j *job.Job) {
	s := j.Solution
	if s == nil {
		return
	}
	w.Heading("Forces, factors put in")
	var rows [][]string
	for c := range s.Cases {
		for i, f := range s.Cases[c].Members {
			way := "tension"
			if f < 0 {
				way = "compression"
			}
			rows = append(rows, []string{s.Cases[c].Name, "tube " + j.Tubes[i].Name, kN(math.Abs(f)), way})
		}
		for _, r := range s.Cases[c].Reactions {
			if kN(r.Force.Len()) == kN(0) {
				continue // held, with nothing to hold
			}
			rows = append(rows, []string{s.Cases[c].Name, "support of " + r.Pivot, kN(r.Force.Len()), along(r.Force)})
		}
	}
	for i := range j.Parts {
		p := &j.Parts[i]
		if p.Bracket == nil {
			continue
		}
		for _, f := range p.Bracket.Forces {
			what := "bracket " + p.Name + ", each plate"
			if p.Bent() {
				what = "bracket " + p.Name + ", each leg"
			}
			rows = append(rows, []string{f.Case, what, kN(math.Hypot(f.X, f.Y)),
				fmt.Sprintf("x %s, y %s of the plate; sideways %s", kN(f.X), kN(f.Y), sideways(p, f))})
		}
	}
	w.Table([]string{"case", "what", "kN", "way"}, rows)
}

// sideways is what pushes a bracket out of its plane, in words.
func sideways(p *job.Part, f job.Force) string {
	if p.Desc.Joint != nil && kN(math.Abs(f.Side)) != kN(0) {
		return kN(f.Side) + ", all on one plate"
	}
	return kN(f.Side)
}

func along(f link.Vec) string {
	return fmt.Sprintf("forward %s, left %s, up %s", kN(f.X), kN(f.Y), kN(f.Z))
}

func fits(w paper.Writer, j *job.Job) {
	list := j.Joints()
	if len(list) == 0 {
		return
	}
	text := func(mm float64) string { return unit.Text(mm, j.Desc.Units) }
	w.Heading("Fits")
	var rows [][]string
	for _, b := range list {
		k := b.Joint
		gap, play := "", ""
		if b.Gap > 0 {
			gap = text(b.Gap)
			play = text(b.Gap - b.Sleeve - 2*k.Spacer)
		}
		washers := k.Stack.Washers
		if k.Chosen && k.Length == 0 {
			washers = k.Washers
		}
		rows = append(rows, []string{b.Part + ", hole " + k.Hole, k.Stack.Bolt.Name, b.LengthText(), text(b.Grip), gap, text(b.Sleeve), play, strconv.Itoa(washers), profiles.NutKinds()[k.Stack.Nut]})
	}
	w.Table([]string{"joint", "bolt", "length", "grip", "gap", "sleeve or bush", "play before welding", "washers", "nut"}, rows)
}

func lists(w paper.Writer, j *job.Job) {
	sys := j.Desc.Units
	text := func(mm float64) string { return unit.Text(mm, sys) }
	w.Heading("Bill of materials")
	var rows [][]string
	for _, i := range j.Bill() {
		rows = append(rows, []string{strconv.Itoa(i.Count), i.What, i.Size, i.For})
	}
	w.Table([]string{"pieces", "what", "size", "for"}, rows)
	if len(j.Stocks) > 0 {
		w.Heading("Cut list")
		rows = nil
		for i := range j.Stocks {
			s := &j.Stocks[i]
			for _, p := range s.Pieces {
				rows = append(rows, []string{s.Section(sys), p.Name, text(p.Length), strconv.Itoa(p.Count), perBar(j, p.Length)})
			}
		}
		w.Table([]string{"tube", "piece", "length", "pieces", "of one bar"}, rows)
		sawing(w, j)
	}
	if plates := j.Plates(); len(plates) > 0 {
		w.Heading("Plate list")
		rows = nil
		for _, p := range plates {
			rows = append(rows, []string{p.Name, p.Hand, strconv.Itoa(p.Count), p.Size(sys), num.Rounded(p.Area/100, 1), num.Rounded(p.Mass, 3)})
		}
		w.Table([]string{"part", "hand", "pieces", "plate and size", "area, cm2", "mass, kg"}, rows)
	}
}

func perBar(j *job.Job, length float64) string {
	if n := j.PerBar(length); n > 0 {
		return strconv.Itoa(n)
	}
	return ""
}

func sawing(w paper.Writer, j *job.Job) {
	sys := j.Desc.Units
	var rows [][]string
	for i := range j.Stocks {
		s := &j.Stocks[i]
		if s.Plan == nil {
			continue
		}
		length := map[string]float64{} // as it is asked for: the plan counts in whole micrometres
		for _, p := range s.Pieces {
			length[p.Name] = p.Length
		}
		for _, l := range s.Plan.Layouts {
			var cuts []string
			for k := 0; k < len(l.Cuts); {
				n := k
				for n < len(l.Cuts) && l.Cuts[n].Length == l.Cuts[k].Length && l.Cuts[n].Names[0] == l.Cuts[k].Names[0] {
					n++
				}
				cuts = append(cuts, fmt.Sprintf("%d x %s (%s)", n-k, unit.Text(length[l.Cuts[k].Names[0]], sys), l.Cuts[k].Names[0]))
				k = n
			}
			left := "scrap"
			if l.Kept {
				left = "kept"
			}
			rows = append(rows, []string{s.Section(sys), fmt.Sprintf("%d x %s", l.Count, l.Bar), strings.Join(cuts, ", "), unit.Text(l.Left, sys) + ", " + left})
		}
	}
	w.Table([]string{"tube", "bars", "cuts", "left over"}, rows)
}

func findings(w paper.Writer, told []Told) {
	w.Heading("Findings")
	var rows [][]string
	for _, t := range told {
		for _, f := range t.Findings {
			words := f.Message
			if f.Waived != "" {
				words += " (waived: " + f.Waived + ")"
			}
			rows = append(rows, []string{t.Of, f.Severity.String(), f.Rule, words, f.Fix})
		}
	}
	if len(rows) == 0 {
		w.Text("None by the rules that were applied.")
	}
	w.Table([]string{"of", "weighs", "rule", "what was found", "what mends it"}, rows)
}

// used tells how much of what things carry the loads take, and how near to their
// bounds the dimensions are that rules on loads and welds ask for.
func used(w paper.Writer, j *job.Job) {
	var rows, shapes [][]string
	methods := map[string]bool{}
	add := func(of, method string, us []check.Utilisation) {
		for _, u := range us {
			share := num.Rounded(100*u.Value, 0) + " %"
			if u.Shape {
				shapes = append(shapes, []string{of, u.Rule, u.Place, share, u.Formula})
				continue
			}
			methods[method] = true
			rows = append(rows, []string{of, u.Rule, u.Place, u.Case, share, u.Mode, method})
		}
	}
	for _, t := range j.Tubes {
		add("tube "+t.Name, t.Hands[0].Method(), tube.Utilisations(t.Hands[0]))
	}
	for _, p := range j.Parts {
		add("part "+p.Name, check.Method(p.Hands[0]), check.Utilisations(p.Hands[0]))
	}
	head := []string{"of", "rule", "place", "case", "used", "governs", "by"}
	if len(rows) > 0 {
		title := "How much of what they carry is used"
		if len(methods) == 1 {
			title += ", by " + rows[0][len(head)-1]
			head = head[:len(head)-1]
			for i := range rows {
				rows[i] = rows[i][:len(head)]
			}
		}
		w.Heading(title)
		w.Table(head, rows)
	}
	if len(shapes) > 0 {
		w.Heading("Dimensions that loads and welds ask for")
		w.Table([]string{"of", "rule", "place", "of the bound", "dimension"}, shapes)
	}
}

// Assumed lists what was taken for granted anywhere in the job, once each.
func Assumed(j *job.Job) []string {
	var out []string
	seen := map[string]bool{}
	add := func(list []string) {
		for _, a := range list {
			if !seen[a] {
				seen[a] = true
				out = append(out, a)
			}
		}
	}
	add(j.Assumed)
	for _, t := range j.Tubes {
		add(tube.Assumptions(t.Hands[0]))
	}
	for _, p := range j.Parts {
		add(check.Assumptions(p.Hands[0]))
	}
	return out
}

// Unchecked lists what was not looked at anywhere in the job.
func Unchecked(j *job.Job) []string {
	out := append([]string(nil), job.Unchecked(j)...)
	var words []string // that tubes and parts have, once each
	of := map[string][]string{}
	add := func(name string, list []string) {
		for _, u := range list {
			if of[u] == nil {
				words = append(words, u)
			}
			of[u] = append(of[u], name)
		}
	}
	for _, t := range j.Tubes {
		add("tube "+t.Name, tube.Unchecked(t.Hands[0]))
	}
	for _, p := range j.Parts {
		add("part "+p.Name, check.Unchecked(p.Hands[0]))
	}
	for _, u := range words {
		out = append(out, strings.Join(of[u], ", ")+": "+u)
	}
	return out
}
