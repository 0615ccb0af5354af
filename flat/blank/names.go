package blank

import (
	"hash/fnv"
	"strconv"
	"strings"

	"blankwright/flat/num"
	"blankwright/flat/unit"
)

const (
	maxNameLen = 60 // of a part's name in a file name
	maxRevLen  = 20 // of a revision in a file name
)

// FileBase is the name of a blank's files without their suffix:
//
//	<name>[-rev-<revision>]-t<thickness><unit>[-mirrored][-kerf<kerf>mm]
//
// with the thickness in the unit that the drawing is in: `axle-tab-rev-b-t0.25in`,
// and the kerf that the edges are compensated for, if they are.
// It holds nothing but a-z, 0-9, `.`, `_` and `-`, so that it names one file in
// the folder it is put in, on any system.
func FileBase(b *Blank, sys unit.System) string {
	base := SafeName(b.Name, maxNameLen)
	if strings.Contains(base, "-rev-") {
		// Another part of a shorter name may have that as its revision.
		base = tagged(base, b.Name, maxNameLen)
	}
	if b.Revision != "" {
		base += "-rev-" + SafeName(b.Revision, maxRevLen)
	}
	base += "-t" + thicknessText(b.Thickness, sys)
	if b.Hand == Mirrored {
		base += "-mirrored"
	}
	if b.Kerf != 0 {
		base += "-kerf" + num.Short(b.Kerf, 3) + "mm"
	}
	return base
}

// thicknessText is a plate thickness with its unit: `6.35mm`, `0.25in`.
func thicknessText(mm float64, sys unit.System) string {
	if sys == unit.Inch {
		return num.Short(mm/unit.MM, 4) + "in"
	}
	return num.Short(mm, 3) + "mm"
}

// SafeName makes a file name of any text: lower case ASCII letters, digits, `_`
// and inner points; everything else becomes one `-`. It is never empty, never
// longer than limit (which must be 20 or more), never a name that Windows keeps
// for a device, and leads to no other folder.
//
// Capitals, spaces and hyphens come out alike (`Axle Tab` and `axle-tab` are one
// file). Where anything else is lost, a short hash of the text is put behind, so
// that `tab ø` and `tab å` stay two files.
func SafeName(text string, limit int) string {
	var b strings.Builder
	lost, gap := false, false
	for i := 0; i < len(text); i++ {
		c := lower(text[i])
		if !plainByte(c) && !(c == '.' && between(text, i)) {
			lost = lost || c != ' ' && c != '-'
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('-')
		}
		gap = false
		b.WriteByte(c)
	}
	s := b.String()
	switch {
	case s == "":
		return tagged("part", text, limit)
	case lost || len(s) > limit:
		s = tagged(s, text, limit)
	}
	if deviceName(s) {
		s = "part-" + s
	}
	return s
}

// tagged cuts s to size and puts a short hash of the text behind it.
func tagged(s, text string, limit int) string {
	h := fnv.New32a()
	h.Write([]byte(text))
	tag := strconv.FormatUint(uint64(h.Sum32()), 16)
	tag = "-" + strings.Repeat("0", 8-len(tag)) + tag
	if len(s) > limit-len(tag) {
		s = strings.TrimRight(s[:limit-len(tag)], "-.")
	}
	return s + tag
}

func plainByte(c byte) bool {
	return 'a' <= c && c <= 'z' || '0' <= c && c <= '9' || c == '_'
}

// between reports whether a byte of the text has a letter or digit on each side.
func between(text string, i int) bool {
	return i > 0 && i < len(text)-1 && plainByte(lower(text[i-1])) && plainByte(lower(text[i+1]))
}

func lower(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		c += 'a' - 'A'
	}
	return c
}

// deviceName reports whether Windows takes the name, or what stands before its
// first point, for a device (Microsoft, Naming Files, Paths, and Namespaces).
func deviceName(s string) bool {
	s, _, _ = strings.Cut(s, ".")
	switch s {
	case "con", "prn", "aux", "nul":
		return true
	}
	if len(s) == 4 && (strings.HasPrefix(s, "com") || strings.HasPrefix(s, "lpt")) {
		return '0' <= s[3] && s[3] <= '9'
	}
	return false
}
