package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/num"
	"blankwright/flat/unit"

	"github.com/urfave/cli/v2"
)

func couponCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "coupon",
		Usage:     "print the profile lines that a cut and measured coupon asks for",
		ArgsUsage: "FILE",
		Description: "FILE is the description that the coupon was cut from (`blankwright start coupon`\n" +
			"prints one). Say what you measured on it:\n\n" +
			"  blankwright coupon coupon.yaml --measured width=118.4 --measured row-12=13.6 \\\n" +
			"    --measured slot-6=7.5 --least-hole row-8 --least-slot slot-4\n\n" +
			"The outside comes out smaller by one kerf, openings larger by one, where the\n" +
			"table cut on the line. Save what is printed as your profile, or paste it into one.",
		Flags: []cli.Flag{
			&cli.StringSliceFlag{Name: "measured", Usage: "NAME=LENGTH, as often as you like: width or height of the outside, diameter of a hole, width of a slot"},
			&cli.StringFlag{Name: "least-hole", Usage: "NAME of the smallest hole that came out well"},
			&cli.StringFlag{Name: "least-slot", Usage: "NAME of the narrowest slot that is open from end to end"},
			profileFlag(),
		},
		Action: func(c *cli.Context) error {
			if c.NArg() != 1 {
				return usage("coupon takes the one FILE that the coupon was cut from, got %d", c.NArg())
			}
			var o order
			if err := o.fillProfile(c.String("profile")); err != nil {
				return err
			}
			out := work(c.Args().First(), t.in, o)
			if out.err != nil {
				t.explain(out.err)
				return nil
			}
			k := coupon{b: out.blanks[0].blank}
			if err := k.read(c); err != nil {
				return err
			}
			if k.told() == 0 {
				return usage("nothing was measured; give --measured NAME=LENGTH, --least-hole or --least-slot")
			}
			for _, w := range k.warnings() {
				t.say("%s: warning: %s", out.path, w)
			}
			t.print(k.profile())
			return nil
		},
	}
}

// coupon is a plate that was cut to learn what a table does.
type coupon struct {
	b        *blank.Blank
	outside  []float64   // kerfs by the outside, mm
	openings []float64   // and by the openings
	hole     *blank.Hole // the least that came out well; nil where not told
	slot     *blank.Hole
}

func (k *coupon) told() int {
	n := len(k.outside) + len(k.openings)
	if k.hole != nil {
		n++
	}
	if k.slot != nil {
		n++
	}
	return n
}

// read takes the flags.
func (k *coupon) read(c *cli.Context) (err error) {
	for _, m := range c.StringSlice("measured") {
		if err := k.measured(m); err != nil {
			return err
		}
	}
	if k.hole, err = k.named(c.String("least-hole"), "--least-hole", false); err != nil {
		return err
	}
	k.slot, err = k.named(c.String("least-slot"), "--least-slot", true)
	return err
}

// measured reads one NAME=LENGTH into a kerf.
func (k *coupon) measured(text string) error {
	name, value, ok := strings.Cut(text, "=")
	if !ok {
		return usage("--measured %q; it takes NAME=LENGTH, like row-12=13.6", text)
	}
	mm, err := unit.Length(value, nil, k.b.Part.Units)
	if err != nil || !num.Finite(mm) || mm <= 0 {
		return usage("--measured %q; it takes a length behind the =, like 13.6 or 13.6mm", text)
	}
	box := k.b.Outline.Bounds()
	switch name {
	case "width":
		return k.kerf(&k.outside, text, box.Width(), box.Width()-mm)
	case "height":
		return k.kerf(&k.outside, text, box.Height(), box.Height()-mm)
	}
	h, err := k.find(name, "--measured")
	if err != nil {
		return err
	}
	if h.CutDia == 0 {
		return usage("--measured %q; %s is drilled by hand and tells nothing of the table", text, name)
	}
	return k.kerf(&k.openings, text, h.CutDia, mm-h.CutDia)
}

// kerf keeps a kerf (mm) that can be one.
func (k *coupon) kerf(list *[]float64, text string, drawn, kerf float64) error {
	if num.AtLeast(kerf, leastKerf) && num.AtMost(kerf, mostKerf) {
		*list = append(*list, kerf)
		return nil
	}
	return usage("--measured %q; it is drawn %s mm, which makes a kerf of %s mm: wanted %v to %v; was the table's own compensation on, or the unit wrong?",
		text, num.Short(drawn, 3), num.Short(kerf, 3), leastKerf, mostKerf)
}

func (k *coupon) find(name, flag string) (*blank.Hole, error) {
	known := []string{"width", "height"}
	for i := range k.b.Holes {
		if k.b.Holes[i].Name == name {
			return &k.b.Holes[i], nil
		}
		known = append(known, k.b.Holes[i].Name)
	}
	return nil, unknownWord("name for "+flag, name, known)
}

// named finds the opening that a flag names, none for "".
func (k *coupon) named(name, flag string, slot bool) (*blank.Hole, error) {
	if name == "" {
		return nil, nil
	}
	h, err := k.find(name, flag)
	if err != nil {
		return nil, err
	}
	if long := h.Length != 0 && !num.Same(h.Length, h.Dia); long != slot {
		return nil, usage("%s %q; that is a %s", flag, name, map[bool]string{true: "slot", false: "round hole"}[long])
	}
	return h, nil
}

func mean(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list))
}

// all are the kerfs of both.
func (k *coupon) all() []float64 { return slices.Concat(k.outside, k.openings) }

// leanShare is by how much of their mean the kerfs of outside and openings may
// differ before the torch leans or the edge is tapered (common practice).
const leanShare = 0.2

func (k *coupon) warnings() (list []string) {
	if len(k.outside) == 0 || len(k.openings) == 0 {
		return nil
	}
	out, in := mean(k.outside), mean(k.openings)
	if math.Abs(out-in) > leanShare*mean(k.all()) {
		list = append(list, fmt.Sprintf("the outside makes a kerf of %s mm, openings one of %s: the torch leans or the edge is tapered; measure top and bottom",
			num.Short(out, 2), num.Short(in, 2)))
	}
	return list
}

// profile is the profile that the coupon asks for.
func (k *coupon) profile() []byte {
	p, t := k.b.Process, k.b.Thickness
	var s strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&s, format+"\n", args...) }
	line("# from a coupon of %s mm %s; what other thicknesses do is taken in proportion", num.Short(t, 3), plainText(k.b.Material.Name))
	line("profile: my table")
	line("processes:")
	line("  %q:", p.Name)
	if kerfs := k.all(); len(kerfs) > 0 {
		line("    kerf: %s mm # %s to %s, %s measured", num.Short(mean(kerfs), 3), num.Short(slices.Min(kerfs), 2), num.Short(slices.Max(kerfs), 2),
			counted(len(kerfs), "place", "places"))
	}
	k.limit(line, k.hole, "hole", "hole", p.MinHole)
	k.limit(line, k.slot, "web", "slot, for metal between cuts as well", p.MinWeb)
	return []byte(s.String())
}

// limit prints a least size as a multiple of the thickness, and lowers the size
// that holds in every plate where the coupon shows less.
func (k *coupon) limit(line func(string, ...any), h *blank.Hole, key, what string, floor float64) {
	if h == nil {
		return
	}
	line("    %s times: %s # least %s: %s mm in %s mm", key, notOver(h.CutDia/k.b.Thickness), what,
		num.Short(h.CutDia, 3), num.Short(k.b.Thickness, 3))
	line("    least %s: %s mm", key, num.Short(min(floor, h.CutDia), 3))
}

// notOver writes v with four decimals, the last one downwards, so that the size
// that was seen to come out well meets the limit.
func notOver(v float64) string { return num.Short(math.Floor(v*10_000+num.LimitSlack)/10_000, 4) }

// plainText keeps a name on one line of a comment.
func plainText(s string) string { return strings.Join(strings.Fields(s), " ") }
