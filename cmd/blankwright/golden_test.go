package main

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/samples"
)

var update = flag.Bool("update", false, "rewrite the expected outputs of the samples")

// The outputs of every sample, file by file, are those beside its description.
// After a change meant to alter them: go test ./cmd/blankwright -update, then
// read the diff.
func TestSampleGoldens(t *testing.T) {
	t.Chdir(root) // so that messages name samples/... as a person sees them
	list := samples.List()
	require.NotEmpty(t, list)
	for _, s := range list {
		t.Run(s.Path, func(t *testing.T) {
			out := work(filepath.Join("samples", filepath.FromSlash(s.Path)), nil, everything)
			require.NoError(t, out.err)
			stem := strings.TrimSuffix(out.path, ".yaml")
			want := map[string][]byte{}
			for i, text := range findingsText(out.blanks) {
				c := out.blanks[i]
				want[stem+".findings.txt"] = append(append(want[stem+".findings.txt"], text...), summary(filepath.ToSlash(out.path), c)+"\n"...)
				for _, f := range c.files {
					hand := ""
					if i > 0 {
						hand = ".mirrored"
					}
					want[stem+hand+strings.TrimPrefix(f.name, c.base)] = f.data
				}
				assert.Equal(t, s.Variant == "trap", c.failed, "a trap fails its checks, a mended one does not")
			}
			for path, data := range want {
				if *update {
					require.NoError(t, os.WriteFile(path, data, 0o644))
					continue
				}
				have, err := os.ReadFile(path)
				require.NoError(t, err, "run go test ./cmd/blankwright -update and read what it wrote")
				assert.Equal(t, string(have), string(data), path)
			}
		})
	}
}

// So are those of every job: what check says in findings.txt, the files that make
// writes in the folder made.
func TestJobGoldens(t *testing.T) {
	t.Chdir(root)
	list := samples.Jobs()
	require.NotEmpty(t, list)
	for _, j := range list {
		t.Run(j.Folder, func(t *testing.T) {
			folder := filepath.Join("samples", filepath.FromSlash(j.Folder))
			out := work(filepath.Join(folder, "job.yaml"), nil, everything)
			require.NoError(t, out.err)
			require.Len(t, out.products, 1)
			p := out.products[0]
			want := map[string][]byte{filepath.Join(folder, "findings.txt"): append(check.AppendText(nil, p.findings), summaryOf(filepath.ToSlash(out.path), p.title(), p.findings)+"\n"...)}
			for _, f := range p.files {
				want[filepath.Join(folder, "made", f.name)] = f.data
			}
			rules := map[string]bool{}
			for _, f := range p.findings {
				if f.Fails() {
					rules[f.Rule] = true
				}
				assert.True(t, f.Severity == diag.Note || f.Fails() && j.Variant == samples.Trap, "%s: %s", f.Rule, f.Message)
			}
			assert.ElementsMatch(t, j.Files[0].Rules(), slices.Collect(maps.Keys(rules)), "a trap fails by the rules of its first line, a mended job by none")
			assert.Equal(t, j.Variant == samples.Trap, p.failed)
			if *update {
				require.NoError(t, os.RemoveAll(filepath.Join(folder, "made")))
			} else {
				there, err := filepath.Glob(filepath.Join(folder, "made", "*"))
				require.NoError(t, err)
				assert.Len(t, there, len(p.files), "no file is left from before")
			}
			for path, data := range want {
				if *update {
					require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
					require.NoError(t, os.WriteFile(path, data, 0o644))
					continue
				}
				have, err := os.ReadFile(path)
				require.NoError(t, err, "run go test ./cmd/blankwright -update and read what it wrote")
				assert.Equal(t, string(have), string(data), path)
			}
		})
	}
}

// One hand after the other, from many goroutines at once: always the same
// bytes.
func TestSameBytesInParallel(t *testing.T) {
	t.Chdir(root)
	path := filepath.Join("samples", "hanger-plate", "mended.yaml")
	first := work(path, nil, everything)
	require.NoError(t, first.err)
	list := make([]input, 200)
	for i := range list {
		list[i] = input{path: path}
	}
	n := 0
	inOrder(list,
		func(in input) outcome { return work(in.path, nil, everything) },
		func(out outcome) {
			n++
			for i, c := range out.blanks {
				for j, f := range c.files {
					if string(f.data) != string(first.blanks[i].files[j].data) {
						t.Errorf("run %d: %s differs", n, f.name)
					}
				}
			}
		})
	assert.Equal(t, len(list), n)
}
