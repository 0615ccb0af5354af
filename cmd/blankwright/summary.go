package main

import (
	"bytes"
	"fmt"
	"strings"

	"blankwright/flat/check"
	"blankwright/flat/diag"
)

// summary is one line on what the checks found in a blank.
func summary(path string, c checked) string {
	return summaryOf(path, c.blank.Name+" ("+c.blank.Hand.String()+")", c.findings)
}

func summaryOf(path, title string, findings []diag.Finding) string {
	var errs, waived, warns, notes int
	for _, f := range findings {
		switch {
		case f.Waived != "":
			waived++
		case f.Severity == diag.Error:
			errs++
		case f.Severity == diag.Warning:
			warns++
		default:
			notes++
		}
	}
	var parts []string
	add := func(n int, one, many string) {
		if n == 1 {
			parts = append(parts, "1 "+one)
		} else if n > 1 {
			parts = append(parts, fmt.Sprintf("%d %s", n, many))
		}
	}
	add(errs, "failed check", "failed checks")
	add(waived, "waived", "waived")
	add(warns, "warning", "warnings")
	add(notes, "note", "notes")
	if len(parts) == 0 {
		parts = append(parts, "no finding by the rules that were applied")
	}
	return fmt.Sprintf("%s: %s: %s", path, title, strings.Join(parts, ", "))
}

// findingsText gives the findings of one description's blanks, hand by hand;
// what a mirrored twin has in common word for word is said once.
func findingsText(blanks []checked) [][]byte {
	texts := make([][]byte, len(blanks))
	for i, c := range blanks {
		texts[i] = check.AppendText(nil, c.findings)
		if i > 0 && bytes.Equal(texts[i], texts[0]) {
			texts[i] = nil
		}
	}
	return texts
}
