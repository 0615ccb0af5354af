package main

import (
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/check"
)

// utilisationText lists how much of what there is the loads take, rule by rule and
// place by place with the formula, the dimensions that rules on loads ask for, and what
// was taken for granted; nothing where the file gives no loads.
func utilisationText(b *blank.Blank) []byte {
	out := usedText(check.Utilisations(b), check.Method(b))
	for _, a := range check.Assumptions(b) {
		out = append(append(append(out, "  assumed: "...), a...), '\n')
	}
	return out
}

func usedText(used []check.Utilisation, method string) []byte {
	var out []byte
	line := func(s string) { out = append(append(out, s...), '\n') }
	loads := [][]string{{"rule", "place", "utilisation", "case", "governs"}}
	shapes := [][]string{{"rule", "place", "share", "case", "dimension"}}
	for _, u := range used {
		share := strconv.FormatFloat(u.Value, 'f', 2, 64)
		if u.Shape {
			shapes = append(shapes, []string{u.Rule, u.Place, share, u.Case, u.Formula})
		} else {
			governs := u.Mode
			if u.Formula != "" {
				governs += ": " + u.Formula
			}
			loads = append(loads, []string{u.Rule, u.Place, share, u.Case, governs})
		}
	}
	table := func(head string, rows [][]string) {
		if len(rows) < 2 {
			return
		}
		line("  " + head + ":")
		width := make([]int, len(rows[0]))
		for _, r := range rows {
			for i, c := range r {
				width[i] = max(width[i], len([]rune(c)))
			}
		}
		for _, r := range rows {
			text := "   "
			for i, c := range r {
				text += " " + c + strings.Repeat(" ", width[i]-len([]rune(c))+1)
			}
			line(strings.TrimRight(text, " "))
		}
	}
	table("utilisation, share of what is held by "+method, loads)
	table("shape, share of the bound that rules on loads and welds put on a dimension", shapes)
	return out
}
