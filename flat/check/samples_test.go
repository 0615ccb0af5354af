package check

import (
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sample is one description of testdata/samples. A line that should raise
// findings says so: `# want edge-distance note:bolt-spacing`, a severity where
// it is not an error.
type sample struct {
	file   string
	wants  []string // `12 error edge-distance`, sorted
	blanks []*blank.Blank
}

func samples(t testing.TB) []sample {
	t.Helper()
	files, err := filepath.Glob("testdata/samples/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var all []sample
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		p, err := describe.Parse(filepath.Base(f), text)
		require.NoError(t, err)
		bs, err := blank.Make(p)
		require.NoError(t, err)
		all = append(all, sample{filepath.Base(f), wants(string(text)), bs})
	}
	return all
}

func wants(text string) []string {
	var all []string
	for i, line := range strings.Split(text, "\n") {
		_, words, ok := strings.Cut(line, "# want ")
		if !ok {
			continue
		}
		for _, w := range strings.Fields(words) {
			severity, id, ok := strings.Cut(w, ":")
			if !ok {
				severity, id = "error", w
			}
			all = append(all, strconv.Itoa(i+1)+" "+severity+" "+id)
		}
	}
	sort.Strings(all)
	return all
}

func TestSamples(t *testing.T) {
	for _, s := range samples(t) {
		for _, b := range s.blanks {
			t.Run(s.file+"/"+b.Hand.String(), func(t *testing.T) {
				fs := Run(b)
				var got []string
				for _, f := range fs {
					got = append(got, strconv.Itoa(f.Pos.Line)+" "+f.Severity.String()+" "+f.Rule)
				}
				sort.Strings(got)
				assert.Equal(t, s.wants, got, "%s", AppendText(nil, fs))
				assert.True(t, sort.SliceIsSorted(fs, func(i, j int) bool { return fs[i].Pos.Before(fs[j].Pos) }), "sorted by place")
				failed := slices.ContainsFunc(fs, func(f diag.Finding) bool { return f.Severity == diag.Error && f.Waived == "" })
				assert.Equal(t, failed, Failed(fs))
			})
		}
	}
}

// Every finding tells where, what was measured, what is needed, by whose word
// and what to do; and each change that it suggests makes it go.
func TestFindingsAreWholeAndFixesHold(t *testing.T) {
	for _, s := range samples(t) {
		for _, b := range s.blanks {
			for _, r := range Results(b) {
				wholeFinding(t, r)
				if k, _ := Find(r.Rule); k.tells {
					assert.Empty(t, r.Changes)
					continue
				}
				require.NotEmpty(t, r.Changes, "%s: %s: no change suggested", s.file, r.Message)
				for _, ch := range r.Changes {
					assert.Contains(t, r.Fix, ch.Text)
					assertMended(t, b, r, ch)
				}
			}
		}
	}
}

func wholeFinding(t *testing.T, r Result) {
	t.Helper()
	assert.NotZero(t, r.Pos.Line, r.Message)
	assert.NotEmpty(t, r.Source, r.Message)
	assert.NotEmpty(t, r.Message)
	assert.NotEmpty(t, r.Fix, r.Message)
	assert.NotNil(t, r.Features, r.Message)
	if k, _ := Find(r.Rule); r.Unit == "mm" && r.Got > r.Want && k.strength {
		assert.Greater(t, r.Utilisation, 1.0, r.Message) // an upper bound
	} else if r.Unit == "mm" {
		assert.Less(t, r.Got, r.Want+1e-6, r.Message)
	}
	for _, text := range []string{r.Message, r.Fix} {
		assert.NotRegexp(t, `\.$`, text)
		assert.NotContains(t, strings.ToLower(text), "safe")
	}
}

// assertMended applies a change and looks for the finding again.
func assertMended(t testing.TB, b *blank.Blank, r Result, ch Change) {
	t.Helper()
	after, err := ch.Apply(b)
	require.NoError(t, err, "%s: %s", r.Message, ch.Text)
	before := 0
	for _, q := range Results(b) {
		if sameMatter(q, r, ch.Kind == Spread) {
			before++
		}
	}
	left := 0
	var told string
	for _, q := range Results(after) {
		if sameMatter(q, r, ch.Kind == Spread) {
			left++
			told = q.Message
		}
	}
	require.Less(t, left, before, "%s\nis not mended by: %s\nstill: %s", r.Message, ch.Text, told)
}

// sameMatter reports whether two findings are on the same thing: one rule and
// one hole, or one rule and the pair of holes that b names first. A pattern that
// was opened up counts with all pairs among its holes.
func sameMatter(a, b Result, pattern bool) bool {
	if a.Rule != b.Rule || a.Severity < b.Severity {
		return false
	}
	if len(b.Features) == 0 || len(a.Features) == 0 {
		return len(a.Features) == len(b.Features)
	}
	if k, _ := Find(a.Rule); k.strength && strings.SplitN(a.Message, " is ", 2)[0] != strings.SplitN(b.Message, " is ", 2)[0] && a.Unit == "mm" {
		return false // another dimension
	}
	pair := a.Rule == boltSpacing.ID || a.Rule == openingsOverlap.ID || a.Rule == leastWeb.ID && len(b.Features) > 1
	if !pair {
		return a.Features[0] == b.Features[0] && (a.Rule != leastWeb.ID || len(a.Features) == 1)
	}
	one := func(f []string) bool {
		first, _, _ := strings.Cut(f[0], ".")
		second, _, _ := strings.Cut(f[1], ".")
		return first == second
	}
	if pattern && len(a.Features) > 1 && one(a.Features) != one(b.Features) {
		return false // within a pattern, and between it and another opening
	}
	among := a.Features
	if !pattern {
		among = among[:min(2, len(among))]
	}
	return slices.Contains(among, b.Features[0]) && slices.Contains(among, b.Features[1])
}
