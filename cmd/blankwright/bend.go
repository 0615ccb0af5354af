package main

import (
	"math"
	"strings"

	"blankwright/flat/bend"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"

	"github.com/urfave/cli/v2"
)

// bendCommand works out what a shop's own test bend says.
func bendCommand(t *talk) *cli.Command {
	text := func(name, what string) cli.Flag { return &cli.StringFlag{Name: name, Usage: what} }
	return &cli.Command{
		Name:  "bend",
		Usage: "work out the K-factor of a test bend, and the lines for a profile",
		Description: "Cut a strip, measure it, bend it once, measure both legs. Lengths need a unit, or --units.\n" +
			"  blankwright bend --flat 100mm --legs 54.2mm,54.2mm --thickness 3/16in --radius 3/16in",
		Flags: []cli.Flag{
			text("flat", "length of the strip before"),
			&cli.StringFlag{Name: "legs", Usage: "both legs after, with a comma between"},
			text("thickness", "of the plate, as descriptions give it"),
			text("radius", "inside radius, as descriptions give it"),
			&cli.StringFlag{Name: "angle", Value: "90 deg", Usage: "turned through"},
			&cli.StringFlag{Name: "measured", Value: "outside", Usage: "what the legs were measured to: outside, inside, apex or tangent"},
			text("name", "what the shop calls it"),
			text("material", "of the plate; any where not given"),
			unitsFlag(),
		},
		Action: func(c *cli.Context) error { return testBend(t, c) },
	}
}

func testBend(t *talk, c *cli.Context) error {
	if c.NArg() > 0 {
		return usage("bend takes flags only, got %q", c.Args().First())
	}
	sys := unit.Unset
	switch u := c.String("units"); u {
	case "":
	case "in":
		sys = unit.Inch
	case "mm":
		sys = unit.Millimetre
	default:
		return usage("--units %q; it takes in or mm", u)
	}
	var wrong error
	length := func(flag, text string) float64 {
		v, err := unit.Length(text, nil, sys)
		if err != nil && wrong == nil {
			wrong = usage("--%s %q: %v", flag, text, err)
		}
		return v
	}
	for _, f := range [...]string{"flat", "thickness", "radius"} {
		if c.String(f) == "" {
			return usage("--%s is missing; see blankwright help bend", f)
		}
	}
	legs := strings.Split(c.String("legs"), ",")
	if len(legs) != 2 {
		return usage("--legs %q; it takes the two legs, like 54.2mm,54.2mm", c.String("legs"))
	}
	angle, err := unit.Angle(c.String("angle"), nil)
	if err != nil {
		return usage("--angle %q: %v", c.String("angle"), err)
	}
	to, err := bend.ParseReference(c.String("measured"))
	if err != nil {
		return usage("--measured: %v", err)
	}
	trial := bend.Trial{Name: c.String("name"), T: length("thickness", c.String("thickness")), R: length("radius", c.String("radius")), A: angle,
		Flat: length("flat", c.String("flat")), LegA: length("legs", legs[0]), LegB: length("legs", legs[1]), To: to}
	if wrong != nil {
		return wrong
	}
	if m := c.String("material"); m != "" {
		if _, err := profiles.FindMaterial(m); err != nil {
			return usage("--material: %v", err)
		}
	}
	k, err := trial.Factor()
	if err != nil {
		return usage("%v", err)
	}
	t.tellTrial(trial, k, c.String("material"))
	return nil
}

// readingDoubt is how far (mm) a length read with a caliper may be off.
const readingDoubt = 0.1

func (t *talk) tellTrial(trial bend.Trial, k float64, material string) {
	b := trial.Bend()
	mm := func(v float64) string { return num.Short(v, 3) + " mm" }
	t.result("# K-factor " + num.Short(k, 4) + ", within " + num.Short(trial.Doubt(readingDoubt), 3) + " where each length was read to " + num.Short(readingDoubt, 1) + " mm")
	t.result("# bend allowance " + mm(b.Arc(k)) + ", between the lines where the bend begins and ends")
	t.result("# bend deduction " + mm(b.Deduction(bend.Outside, b.Arc(k))) + ", from legs measured outside")
	if u := trial.Unusual(); u != "" {
		t.say("blankwright: warning: %s", u)
	}
	name := strings.TrimSpace(strings.NewReplacer(":", " ", "#", " ", "\n", " ", "\"", " ").Replace(trial.Name))
	if name == "" {
		name = "t" + num.Short(trial.T, 3) + " r" + num.Short(trial.R, 3)
	}
	line := "thickness: " + mm4(trial.T) + ", radius: " + mm4(trial.R) + ", angle: " + num.Short(trial.A*180/math.Pi, 4) +
		", flat: " + mm4(trial.Flat) + ", legs: [" + mm4(trial.LegA) + ", " + mm4(trial.LegB) + "], measured: " + trial.To.String()
	if material != "" {
		line += ", material: " + material
	}
	t.result("test bends:")
	t.result("  " + name + ": {" + line + "}")
}

func mm4(v float64) string { return num.Short(v, 6) + " mm" }

// allTables are those of the profiles, of the set, and of bends, in the order of
// their names.
func allTables(set *profiles.Set) []profiles.Table {
	tables := set.Tables()
	for _, b := range bend.Tables() {
		t := profiles.Table{Name: b.Name, Title: b.Title, Columns: b.Columns, Rows: b.Rows,
			Source: profiles.Source{Text: b.Source.Text, Prov: profiles.Prov(b.Source.Prov)}}
		at := 0
		for at < len(tables) && tables[at].Name < t.Name {
			at++
		}
		tables = append(tables[:at], append([]profiles.Table{t}, tables[at:]...)...)
	}
	return tables
}
