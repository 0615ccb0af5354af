package profiles

// Thicknesses in which hot-rolled plate is stocked. Common practice: mills roll others
// too, yards keep these.
var (
	platesMetric = []float64{2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100}
	platesInch   = []float64{1. / 16, 1. / 8, 3. / 16, 1. / 4, 5. / 16, 3. / 8, 1. / 2, 5. / 8, 3. / 4, 7. / 8, 1, 5. / 4, 3. / 2, 7. / 4, 2, 5. / 2, 3, 4}
)

// PlateSizes gives the usual thicknesses of plate, mm, thinnest first: metric ones, or
// those in inches. Common practice.
func PlateSizes(metric bool) []float64 {
	if metric {
		return append([]float64{}, platesMetric...)
	}
	out := make([]float64, len(platesInch))
	for i, v := range platesInch {
		out[i] = v * inch
	}
	return out
}
