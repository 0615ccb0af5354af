package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
