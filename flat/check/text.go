package check

import (
	"io"
	"strings"
	"unicode"

	"blankwright/flat/diag"
)

// Print writes findings for a terminal: see AppendText.
func Print(w io.Writer, fs []diag.Finding) error {
	_, err := w.Write(AppendText(nil, fs))
	return err
}

// AppendText appends findings for a terminal, in the order given, two lines
// each and a third where a waiver answers for it:
//
//	tab.yaml:7:3: error (waived): edge-distance: bolt hole "h2": ... [EN 1993-1-8:2005, Table 3.3]
//	tab.yaml:7:3: fix: move "h2" by x +2.20 mm
//	tab.yaml:7:3: waived: trial part that carries no load
//
// Control characters in names and reasons are written as escapes, so that a
// file cannot steer the terminal.
func AppendText(b []byte, fs []diag.Finding) []byte {
	for i := range fs {
		f := &fs[i]
		pos := clean(f.Pos.String())
		line := func(label, text string) {
			if pos != "" {
				b = append(b, pos...)
				b = append(b, ": "...)
			}
			b = append(b, label...)
			b = append(b, ": "...)
			b = append(b, clean(text)...)
			b = append(b, '\n')
		}
		text := f.Rule + ": " + f.Message
		if f.Source != "" {
			text += " [" + f.Source + "]"
		}
		label := f.Severity.String()
		if f.Waived != "" {
			label += " (waived)"
		}
		line(label, text)
		if f.Fix != "" {
			line("fix", f.Fix)
		}
		if f.Waived != "" {
			line("waived", f.Waived)
		}
	}
	return b
}

// clean writes what would not show as an escape.
func clean(s string) string {
	shows := func(r rune) bool { return unicode.IsPrint(r) }
	if strings.IndexFunc(s, func(r rune) bool { return !shows(r) }) < 0 {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if shows(r) {
			b.WriteRune(r)
			continue
		}
		q := quoted(string(r))
		b.WriteString(q[1 : len(q)-1])
	}
	return b.String()
}
