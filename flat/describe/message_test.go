package describe

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankwright/flat/diag"
)

var update = flag.Bool("update", false, "write what is found into the files of testdata")

// Each file of testdata is a description with everything that is wrong with it
// noted behind it, in order:
//
//	# want 3:9 message
//	# hint what to do
func TestMessages(t *testing.T) {
	files, err := filepath.Glob("testdata/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no cases found", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			raw, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			text, want := cutWants(string(raw))
			got := wants(t, file, text)
			if *update {
				if err := os.WriteFile(file, []byte(text+got), 0o666); err != nil {
					t.Fatal(err)
				}
				return
			}
			if want == "" {
				t.Error("the file says nothing that is wanted")
			}
			if got != want {
				t.Errorf("found\n%swanted\n%s", got, want)
			}
		})
	}
}

// cutWants parts a description from the notes behind it.
func cutWants(text string) (description, want string) {
	if i := strings.Index("\n"+text, "\n# want "); i >= 0 {
		return text[:i], text[i:]
	}
	return text, ""
}

func wants(t *testing.T, file, text string) string {
	t.Helper()
	p, err := Parse(file, []byte(text))
	if err == nil {
		return ""
	}
	if p != nil {
		t.Error("a part came with the error")
	}
	problems, ok := err.(diag.Problems)
	if !ok {
		t.Fatalf("the error is %T, wanted diag.Problems", err)
	}
	var b strings.Builder
	for i, q := range problems {
		if i > 0 && q.Pos.Before(problems[i-1].Pos) {
			t.Errorf("%s comes after %s", q.Pos, problems[i-1].Pos)
		}
		if q.Pos.File != file {
			t.Errorf("the place is in file %q", q.Pos.File)
		}
		fmt.Fprintf(&b, "# want %d:%d %s\n", q.Pos.Line, q.Pos.Col, q.Message)
		if q.Hint != "" {
			fmt.Fprintf(&b, "# hint %s\n", q.Hint)
		}
		for _, s := range []string{q.Message, q.Hint} {
			if strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "...") || strings.ContainsAny(s, "\n\t") {
				t.Errorf("not in the house's form: %q", s)
			}
		}
	}
	return b.String()
}
