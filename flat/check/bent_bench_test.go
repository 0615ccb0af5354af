package check

import (
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
)

// bentBracket has six bends and twelve holes.
const bentBracket = `part: bracket
units: mm
plate: {thickness: 3, material: S355MC}
process: fibre laser
formed: {box: {width: 160, depth: 100, height: 60, gap: 0.5}}
bends: {radius: 3, rule: k 0.42}
corner relief: {shape: round}
holes:
  drain: {at: [0, 0], diameter: 16}
  slot: {at: [-40, 0], diameter: 9, slot: {length: 25}}
flanges:
  front: {holes: {f: {row: {from: [50, 25], to: [100, 25], count: 2}, diameter: 10}}}
  back: {holes: {b: {row: {from: [50, 25], to: [100, 25], count: 2}, diameter: 10}}}
  left: {holes: {l: {row: {from: [35, 25], to: [65, 25], count: 2}, diameter: 10}}}
  right: {holes: {r: {row: {from: [35, 25], to: [65, 25], count: 2}, diameter: 10}}}
  lip-right: {on: right, edge: end, height: 20, turn: down, offset: [5, 5], holes: {lr: {at: [50, 15], diameter: 4}}}
  lip-left: {on: left, edge: end, height: 20, turn: down, offset: [5, 5], holes: {ll: {at: [50, 15], diameter: 4}}}
`

func readBent(b testing.TB) *describe.Part {
	b.Helper()
	p, err := describe.Parse("bent.yaml", []byte(bentBracket))
	if err != nil {
		b.Fatal(err)
	}
	return p
}

func BenchmarkBentBracket(b *testing.B) {
	p := readBent(b)
	b.ReportAllocs()
	for b.Loop() {
		bs, err := blank.Make(p)
		if err != nil {
			b.Fatal(err)
		}
		if n := len(bs[0].Holes); n != 12 || len(bs[0].Formed.Flat.Bends) != 6 {
			b.Fatalf("%d holes", n)
		}
		if Failed(Run(bs[0])) {
			b.Fatal("it fails a check")
		}
	}
}
