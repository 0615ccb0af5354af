package drawing

import "strings"

// markWords are the trade's words for lines that are not cut through.
var markWords = map[string]bool{
	"MARK": true, "MARKS": true, "MARKING": true, "MARKINGS": true, "ENGRAVE": true, "ENGRAVING": true,
	"ETCH": true, "ETCHING": true, "SCRIBE": true, "PUNCH": true, "BEND": true, "BENDS": true, "FOLD": true, "FOLDS": true,
}

// MarkLayer reports whether a layer's name says that it holds lines to be marked
// or bent, not cut: one of its words is marks, engraving, etch, scribe, punch,
// bend, fold or a form of these.
func MarkLayer(name string) bool {
	words := strings.FieldsFunc(strings.ToUpper(name), func(r rune) bool { return r < 'A' || r > 'Z' })
	for _, w := range words {
		if markWords[w] {
			return true
		}
	}
	return false
}
