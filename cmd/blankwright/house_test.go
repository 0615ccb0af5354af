package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../.."

// goFiles gives every Go file of the project, parsed, by its path from the
// root.
func goFiles(t *testing.T, mode parser.Mode) map[string]*ast.File {
	t.Helper()
	files := map[string]*ast.File{}
	fset := token.NewFileSet()
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(root, path)
		rel = filepath.ToSlash(rel)
		if d.IsDir() && rel != "." && strings.HasPrefix(d.Name(), ".") {
			return fs.SkipDir
		}
		if strings.HasSuffix(rel, ".go") {
			f, err := parser.ParseFile(fset, path, nil, mode)
			if err != nil {
				return err
			}
			files[rel] = f
		}
		return nil
	})
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

// allowed reads the table of folders and what each may import from
// DEVELOPERS.md: `| folder | subject | may import |`.
func allowed(t *testing.T) map[string][]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	require.NoError(t, err)
	table := map[string][]string{}
	row := regexp.MustCompile("(?m)^\\| `([a-z/]+)` \\| [^|]* \\| ([^|]*) \\|$")
	name := regexp.MustCompile("`([a-z/]+)`")
	for _, m := range row.FindAllStringSubmatch(string(text), -1) {
		may := []string{}
		for _, n := range name.FindAllStringSubmatch(m[2], -1) {
			may = append(may, n[1])
		}
		table[m[1]] = may
	}
	require.NotEmpty(t, table, "no table of folders found in DEVELOPERS.md")
	return table
}

// Imports between our packages follow the table in DEVELOPERS.md, tests
// included only where they stay in their own package's reach.
func TestImportDirection(t *testing.T) {
	table := allowed(t)
	for path, f := range goFiles(t, parser.ImportsOnly) {
		dir := filepath.ToSlash(filepath.Dir(path))
		may, known := table[dir]
		if !assert.True(t, known, "%s: folder %s has no row in the table of DEVELOPERS.md", path, dir) {
			continue
		}
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		for _, imp := range f.Imports {
			p := strings.Trim(imp.Path.Value, `"`)
			assert.NotEqual(t, "C", p, "%s uses cgo", path)
			own, ok := strings.CutPrefix(p, "blankwright/")
			if ok {
				assert.Contains(t, may, own, "%s imports %s; the table for %s does not have it", path, own, dir)
			}
		}
	}
}

// The table itself points one way: nothing imports, even at a distance, what
// imports it.
func TestImportTableHasNoCycle(t *testing.T) {
	table := allowed(t)
	var visit func(string, []string)
	visit = func(dir string, above []string) {
		if !assert.NotContains(t, above, dir, "cycle in the table of DEVELOPERS.md") {
			return
		}
		for _, next := range table[dir] {
			visit(next, append(above, dir))
		}
	}
	for dir := range table {
		visit(dir, nil)
	}
}

// The top level holds what the contributor guide says and nothing else but what the
// commands of README.md make there.
func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(root)
	require.NoError(t, err)
	var got []string
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains([]string{"out", "blankwright", "blankwright.exe"}, e.Name()) {
			got = append(got, e.Name())
		}
	}
	want := []string{"DEVELOPERS.md", "LICENSE", "README.md", "cmd", "export", "flat", "go.mod", "go.sum", "profiles", "samples"}
	sort.Strings(got)
	assert.Equal(t, want, got)
}

// Tolerances live in flat/num: no other package of the kernel or the rules
// writes a small number in exponent form.
func TestNoToleranceOutsideNum(t *testing.T) {
	small := regexp.MustCompile(`^[0-9.]+[eE]-[0-9]+$`)
	for path, f := range goFiles(t, 0) {
		if !strings.HasPrefix(path, "flat/") || strings.HasPrefix(path, "flat/num/") || strings.HasSuffix(path, "_test.go") {
			continue
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.FLOAT {
				assert.False(t, small.MatchString(lit.Value), "%s: %s looks like a tolerance; give it a name in flat/num", path, lit.Value)
			}
			return true
		})
	}
}
