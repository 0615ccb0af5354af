package describe

import "testing"

// What is not given is what a shop would take.
func TestJointDefaults(t *testing.T) {
	p := parse(t, "part: a\nunits: mm\nplate: {thickness: 6, material: S355}\nprocess: waterjet\nprofile: shop.yaml\n"+
		"holes: {a: {at: [0, 0], bolt: M12}}\noutline: {disc: {diameter: 100}}\n"+
		"joints:\n  - {hole: a, plies: [6, 8], length: 45}\n  - {hole: a, sleeve: {width: 60}, gap: 61, spacer: 0, washers: 0, nut: thin, threads: out, held: bolted}\n"+
		"coating: {kind: galvanised}\n")
	j := p.Joints[0]
	if j.Held.Text != "welded" || j.Nut.Text != "plain" || j.Threads.Text != "in" || j.Washers.N != 1 || j.Washers.Set || len(j.Plies) != 2 || j.Length.MM != 45 {
		t.Errorf("%+v", j)
	}
	k := p.Joints[1]
	if k.Held.Text != "bolted" || k.Nut.Text != "thin" || k.Threads.Text != "out" || k.Washers.N != 0 || !k.Washers.Set || k.Sleeve.Width.MM != 60 || k.Gap.MM != 61 {
		t.Errorf("%+v", k)
	}
	if p.Profile.Text != "shop.yaml" || p.Coating.Kind.Text != "galvanised" || p.Coating.Thickness.Set {
		t.Errorf("%+v %+v", p.Profile, p.Coating)
	}
	reprints(t, p)
}
