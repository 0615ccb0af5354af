package unit

import "testing"

func BenchmarkLength(b *testing.B) {
	names := map[string]Quantity{"drop": {95.25, LengthDim}, "nose": {1, Plain}}
	for _, text := range []string{"1-3/4", "5 mm", "44.5 mm", "0.531", "2'-3-1/2\"", "drop/2 + 1/4", "(3/8 + 1/16) in"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Length(text, names, Inch); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkAngle(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Angle("22.5 deg", nil); err != nil {
			b.Fatal(err)
		}
	}
}
