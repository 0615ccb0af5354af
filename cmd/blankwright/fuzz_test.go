package main

import (
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
	f.Add([]byte(bracket))
	f.Fuzz(func(t *testing.T, text []byte) {
		out := workText("fuzz.yaml", text, everything)
		if out.err != nil {
			if len(out.blanks) != 0 {
				t.Fatalf("blanks although: %v", out.err)
			}
			return
		}
		for _, c := range out.blanks {
			want := 3
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
