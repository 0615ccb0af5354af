package profiles

import (
	"testing"
)

// A shop's test bends are read, laid over those of the same name, and listed.
func TestTestBends(t *testing.T) {
	if n := len(Default().TestBends()); n != 0 {
		t.Errorf("%d test bends are embedded", n)
	}
	if _, ok := Default().testBendTable(); ok {
		t.Error("a table of no test bends")
	}
	s, err := ReadProfile("a.yaml", []byte("test bends:\n  one: {thickness: 3 mm, radius: 0 mm, flat: 100 mm, legs: [52 mm, 53 mm]}\n"+
		"  two: {thickness: 1/8 in, radius: 1/8 in, angle: 45, flat: 4 in, legs: [2 in, 2.1 in], measured: inside, material: a36}\n"))
	if err != nil {
		t.Fatal(err)
	}
	s, err = s.With("b.yaml", []byte("test bends:\n  one: {thickness: 4 mm, radius: 4 mm, flat: 100 mm, legs: [53 mm, 54 mm]}\n"))
	if err != nil {
		t.Fatal(err)
	}
	rows := s.TestBends()
	if len(rows) != 2 || rows[0].T != 4 || rows[0].Angle != 90 || rows[0].Measured != "outside" || rows[1].Material != "A36" || rows[1].Legs[0] != 2*inch || rows[1].Measured != "inside" {
		t.Errorf("read as %+v", rows)
	}
	tb, ok := s.testBendTable()
	if !ok || len(tb.Rows) != 2 {
		t.Errorf("listed as %+v", tb)
	}
	for text, want := range map[string]string{
		"{thickness: 3 mm}":                                                   "lacks a measurement",
		"{thickness: 3 mm, flat: 9 mm, legs: 5 mm}":                           "the two legs",
		"{thickness: 3 mm, flat: 9 mm, legs: [5 mm, 5 mm], angle: 0}":         "out of reach",
		"{thickness: 3 mm, flat: 9 mm, legs: [5 mm, 5 mm], measured: middle}": "not one of",
		"{thickness: 3 mm, flat: 9 mm, legs: [5 mm, 5 mm], material: cheese}": "cheese",
		"{thickness: 3 mm, flat: 9 mm, legs: [5 mm, 5 mm], k: 3}":             "unknown key",
		"3": "no mapping",
	} {
		_, err := ReadProfile("a.yaml", []byte("test bends: {x: "+text+"}\n"))
		mustSay(t, text, err, want)
	}
}
