package blank

import (
	"path/filepath"
	"strings"
	"testing"

	"blankwright/flat/unit"
)

func TestFileBase(t *testing.T) {
	b := &Blank{Name: "Axle Tab", Thickness: 6.35}
	for _, c := range []struct {
		rev  string
		hand Hand
		sys  unit.System
		want string
	}{
		{"", AsDrawn, unit.Inch, "axle-tab-t0.25in"},
		{"", AsDrawn, unit.Millimetre, "axle-tab-t6.35mm"},
		{"", AsDrawn, unit.Unset, "axle-tab-t6.35mm"},
		{"B", Mirrored, unit.Inch, "axle-tab-rev-b-t0.25in-mirrored"},
		{"1.2", Mirrored, unit.Millimetre, "axle-tab-rev-1.2-t6.35mm-mirrored"},
	} {
		b.Revision, b.Hand = c.rev, c.hand
		if got := FileBase(b, c.sys); got != c.want {
			t.Errorf("file base is %q, want %q", got, c.want)
		}
	}
}

// A name that reads like another part's revision stays apart from it.
func TestFileBaseKeepsRevisionsApart(t *testing.T) {
	a := FileBase(&Blank{Name: "tab", Revision: "b", Thickness: 6}, unit.Millimetre)
	b := FileBase(&Blank{Name: "tab rev b", Thickness: 6}, unit.Millimetre)
	if a != "tab-rev-b-t6mm" || a == b || !strings.HasPrefix(b, "tab-rev-b-") {
		t.Errorf("the two parts are %q and %q", a, b)
	}
}

func TestSafeName(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"axle tab", "axle-tab"},
		{"  Axle -- Tab ", "axle-tab"},
		{"tab_2", "tab_2"},
		{"v1.2", "v1.2"},
		{"", "part-811c9dc5"},
		{"con", "part-con"},
		{"NUL.x", "part-nul.x"},
		{"com1", "part-com1"},
		{"lpt9", "part-lpt9"},
		{"com", "com"},
		{"com12", "com12"},
		{"console", "console"},
	} {
		if got := SafeName(c.text, maxNameLen); got != c.want {
			t.Errorf("%q gives %q, want %q", c.text, got, c.want)
		}
	}
	// What is lost leaves a hash behind.
	for _, c := range []struct{ text, start string }{
		{"../../etc/passwd", "etc-passwd-"},
		{`C:\plates\tab`, "c-plates-tab-"},
		{"3/8 tab", "3-8-tab-"},
		{"läppchen", "l-ppchen-"},
		{"タブ", "part-"},
		{"..", "part-"},
		{"tab.", "tab-"},
		{"a\x00b\nc", "a-b-c-"},
		{strings.Repeat("long ", 40), "long-long-"},
	} {
		got := SafeName(c.text, maxNameLen)
		if !strings.HasPrefix(got, c.start) || len(got) <= len(c.start) {
			t.Errorf("%q gives %q, want %q and a hash", c.text, got, c.start)
		}
	}
}

func TestNamesStayApart(t *testing.T) {
	seen := map[string]string{}
	for _, text := range []string{
		"tab", "tab ø", "tab å", "tab å ", "タブ", "タグ", "3/8 tab", "3\\8 tab", "3-8 tab", "tab.", "tab..", "..", ".", "",
		strings.Repeat("a", 200), strings.Repeat("a", 201), strings.Repeat("a", 60),
	} {
		got := SafeName(text, maxNameLen)
		if other, taken := seen[got]; taken {
			t.Errorf("%q and %q are both %q", text, other, got)
		}
		seen[got] = text
	}
}

// Whatever the name, the file lies in the folder that it is put in, under a name
// that any system takes.
func FuzzSafeName(f *testing.F) {
	for _, s := range []string{"axle tab", "../..", "con", "NUL.txt", "COM1", "タブ", "a.b", ".", "", "-", "aux-", strings.Repeat("x.", 80)} {
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, name, rev string) {
		for _, sys := range []unit.System{unit.Unset, unit.Millimetre, unit.Inch} {
			base := FileBase(&Blank{Name: name, Revision: rev, Thickness: 6.35, Hand: Mirrored}, sys)
			checkFileName(t, base)
		}
		checkFileName(t, SafeName(name, maxNameLen))
		checkFileName(t, SafeName(rev, maxRevLen))
		if got := SafeName(name, maxRevLen); len(got) > maxRevLen+len("part-") {
			t.Errorf("%q is longer than %d", got, maxRevLen)
		}
	})
}

func checkFileName(t *testing.T, s string) {
	t.Helper()
	if s == "" || len(s) > 130 {
		t.Fatalf("name %q has %d characters", s, len(s))
	}
	for i := range len(s) {
		if c := s[i]; !plainByte(c) && c != '-' && c != '.' {
			t.Fatalf("name %q holds %q", s, c)
		}
	}
	if strings.ContainsAny(s[:1]+s[len(s)-1:], "-.") || strings.Contains(s, "..") || strings.Contains(s, "--") {
		t.Fatalf("name %q begins or ends badly", s)
	}
	if filepath.Base(filepath.Join("out", s)) != s || !filepath.IsLocal(s) {
		t.Fatalf("name %q leads elsewhere", s)
	}
	stem, _, _ := strings.Cut(s, ".")
	for _, device := range []string{"con", "prn", "aux", "nul", "com0", "com9", "lpt1"} {
		if stem == device {
			t.Fatalf("name %q is a device", s)
		}
	}
}
