package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankwright/samples"
)

// FuzzMake feeds descriptions through the whole way. Whatever the text:
//  1. no panic and no hang;
//  2. a description that is not understood gives no blank and no byte;
//  3. a blank that fails its checks gives no file;
//  4. otherwise every file asked for is there and not empty.
func FuzzMake(f *testing.F) {
	for _, s := range samples.List() {
		f.Add(s.Text)
	}
	for _, j := range samples.Jobs() {
		for _, s := range j.Files {
			f.Add(s.Text)
		}
	}
	f.Add([]byte(bracket))
	f.Fuzz(func(t *testing.T, text []byte) {
		out := workText("fuzz.yaml", text, everything)
		if out.err != nil {
			if len(out.blanks)+len(out.products) != 0 {
				t.Fatalf("blanks although: %v", out.err)
			}
			return
		}
		for _, p := range out.products {
			if p.failed != (len(p.files) == 0) {
				t.Fatalf("%d files of %s, failed: %t", len(p.files), p.name, p.failed)
			}
			for _, file := range p.files {
				if len(file.data) == 0 {
					t.Fatalf("%s is empty", file.name)
				}
			}
		}
		for _, c := range out.blanks {
			want := 3
			if c.blank.Formed != nil {
				want = 4 // the picture of the folded part
			}
			if c.failed {
				want = 0
			}
			if len(c.files) != want {
				t.Fatalf("%d files, want %d", len(c.files), want)
			}
			for _, file := range c.files {
				if len(file.data) == 0 {
					t.Fatalf("%s is empty", file.name)
				}
			}
		}
	})
}

// FuzzInspect feeds drawings through inspect with the rules and the mending.
// Whatever the text:
//  1. no panic and no hang, and one of the exit codes;
//  2. a drawing that cannot be read leaves no file;
//  3. a clean copy has no fault that makes it fail.
func FuzzInspect(f *testing.F) {
	paths, err := filepath.Glob("../../samples/*/*.dxf")
	if err != nil || len(paths) == 0 {
		f.Fatal("no drawings of the samples", err)
	}
	for _, p := range paths {
		text, err := os.ReadFile(p)
		if err != nil {
			f.Fatal(err)
		}
		// The entities alone: the frame is the same in all.
		if i := bytes.Index(text, []byte("ENTITIES")); i > 0 {
			f.Add(append([]byte("  0\r\nSECTION\r\n  2\r\n"), text[i:]...))
		}
	}
	for _, entity := range []string{
		"0\nELLIPSE\n10\n5\n20\n5\n11\n40\n21\n0\n40\n0.5\n41\n0\n42\n6.283185307\n",
		"0\nSPLINE\n70\n1\n71\n2\n40\n0\n40\n0\n40\n0\n40\n1\n40\n1\n40\n1\n10\n0\n20\n0\n10\n40\n20\n90\n10\n0\n20\n0\n",
		"0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n42\n1\n10\n30\n20\n0\n42\n0\n10\n30\n20\n9\n42\n1\n10\n0\n20\n9\n",
	} {
		f.Add([]byte("0\nSECTION\n2\nENTITIES\n" + entity + "0\nENDSEC\n0\nEOF\n"))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		folder := t.TempDir()
		inspect := func(from string, in []byte, more ...string) int {
			var quiet discard
			args := append([]string{"blankwright", "inspect", from, "--plate", "6mm", "--process", "air plasma"}, more...)
			return run(args, bytes.NewReader(in), quiet, quiet)
		}
		code := inspect("-", text, "--mend", filepath.Join(folder, "clean.dxf"), "--json")
		files, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		if code < exitClean || code > exitCannot || code == exitWrong && len(files) > 0 {
			t.Fatalf("exit code %d with %d files", code, len(files))
		}
		for _, file := range files {
			var out strings.Builder
			code := run([]string{"blankwright", "inspect", filepath.Join(folder, file.Name())}, nil, &out, discard{})
			if code != exitClean {
				t.Fatalf("the clean copy %s has exit code %d\n%s", file.Name(), code, out.String())
			}
		}
	})
}
