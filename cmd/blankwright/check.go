package main

import (
	"blankwright/flat/check"

	"github.com/urfave/cli/v2"
)

func checkCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "say what is wrong with a part and what mends it; writes nothing",
		ArgsUsage: "FILE...",
		Flags:     []cli.Flag{profileFlag(), jsonFlag()},
		Action: func(c *cli.Context) error {
			list, err := inputs(c.Args().Slice())
			if err != nil {
				return err
			}
			var o order
			if err := o.fillProfile(c.String("profile")); err != nil {
				return err
			}
			k := checker{talk: t, json: c.Bool("json")}
			t.each(list, o, k.take)
			k.finish()
			return nil
		},
	}
}

// checker prints findings, in the order of the inputs.
type checker struct {
	*talk
	json   bool
	report []fileReport
	parts  int
}

func (k *checker) take(out outcome) {
	rep := fileReport{File: out.path, Parts: []partReport{}}
	if out.err != nil {
		rep.Errors = k.explain(out.err)
	}
	k.takeProducts(out, &rep)
	texts := findingsText(out.blanks)
	for i, c := range out.blanks {
		k.parts++
		if c.failed {
			k.worst(exitFailed)
		}
		if k.json {
			rep.Parts = append(rep.Parts, newPartReport(c))
			continue
		}
		k.print(texts[i])
		k.result(summary(out.path, c))
		k.result(cutLine(c.blank))
		for _, l := range bendingText(c.blank) {
			k.result("  " + l)
		}
		for _, l := range tightLines(c.blank, c.order()) {
			k.result("  lead-in: " + l)
		}
		if i > 0 {
			continue // what was not checked is the same for both hands
		}
		k.print(utilisationText(c.blank))
		for _, u := range check.Unchecked(c.blank) {
			k.result("  not checked: " + u)
		}
	}
	if k.json {
		k.report = append(k.report, rep)
	}
}

func (k *checker) finish() {
	if k.json {
		k.printJSON(k.report)
		return
	}
	if k.parts > 0 {
		for _, line := range check.Cautions() {
			k.result("caution: " + line)
		}
	}
}
