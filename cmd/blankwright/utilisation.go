package main

import (
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/check"
)

// utilisationText lists how much of what there is the loads take, rule by rule and
// place by place, and what was taken for granted; nothing where the file gives no
// loads.
func utilisationText(b *blank.Blank) []byte {
	var out []byte
	line := func(s string) { out = append(append(out, s...), '\n') }
	if used := check.Utilisations(b); len(used) > 0 {
		rows := [][]string{{"rule", "place", "utilisation", "case", "governs"}}
		for _, u := range used {
			rows = append(rows, []string{u.Rule, u.Place, strconv.FormatFloat(u.Value, 'f', 2, 64), u.Case, u.Mode})
		}
		line("  utilisation, share of what is held by " + check.Method(b) + ":")
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
	for _, a := range check.Assumptions(b) {
		line("  assumed: " + a)
	}
	return out
}
