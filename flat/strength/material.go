package strength

// ThicknessRange bounds the thickness of a plate, mm, by that up to which the strengths
// of its material are stated; source names the material's row. Thicker plate yields
// earlier.
func ThicknessRange(t, most float64, source string) Limit {
	return Limit{What: "the plate's thickness", Clause: Clause{source, true}, Kind: Length,
		Got: t, Bound: most, Most: true, formula: put("thickness up to which the material's strengths are stated")}
}
