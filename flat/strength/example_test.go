package strength_test

import (
	"fmt"

	"blankwright/flat/geom"
	"blankwright/flat/strength"
)

// A tab of 12 mm plate on a 25 mm pin, pulled with 90 kN (factored).
func ExampleAISC_PinPlate() {
	tab := strength.PinPlate{
		T: 12, Width: 110, Pin: 25, Hole: 26, End: 50, Side1: 42, Side2: 42, Fy: 250, Fu: 400,
	}
	held := strength.AISC{}.PinPlate(tab)
	worst := held.Governs()
	fmt.Println(worst.Mode)
	fmt.Println(worst.Formula(strength.Metric))
	fmt.Println(worst.Clause)
	fmt.Printf("%.0f %% of it used\n", 100*worst.Utilisation(90e3))
	for _, l := range held.AppendLimits(nil) {
		if !l.Met() {
			fmt.Println(l.Text(strength.Metric))
		}
	}
	// Output:
	// bearing of the pin on the plate
	// Rn = 1.8 Fy d t = 1.8 x 250 MPa x 25 mm x 12 mm = 135 kN; phi Rn = 0.75 x 135 kN = 101.2 kN
	// AISC 360-22 J7, eq. J7-1
	// 89 % of it used
	// the metal beyond the pin hole, along the force is 50 mm, wanted at least 1.33 be = 1.33 x 40 mm = 53.2 mm
}

// Four bolts, 150 by 120 mm apart, with 16 kN hung 425 mm out.
func ExampleInstantCentre() {
	bolts := []geom.Point{{X: 75, Y: 60}, {X: 75, Y: -60}, {X: -75, Y: -60}, {X: -75, Y: 60}}
	load := strength.PlaneLoad{F: geom.Point{Y: -16000}, At: geom.Point{X: 425}}
	elastic, _ := strength.ElasticGroup(bolts, load, nil)
	turned, _ := strength.InstantCentre(bolts, load, nil)
	fmt.Printf("elastic: the worst bolt holds %.2f kN\n", elastic.Most/1000)
	fmt.Printf("instantaneous centre: C = %.3f, a bolt needs %.2f kN\n", turned.C, turned.Needed/1000)
	// Output:
	// elastic: the worst bolt holds 20.97 kN
	// instantaneous centre: C = 0.819, a bolt needs 19.54 kN
}
