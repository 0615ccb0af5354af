package main

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/num"

	"github.com/urfave/cli/v2"
)

func quoteCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "quote",
		Usage:     "print what a quote asks of each part as CSV: size, mass, cut length, pierces, time",
		ArgsUsage: "FILE...",
		Description: "Figures are of one piece; the time is cutting and piercing at the rates of\n" +
			"the profile, else of common practice, without marking, moving and handling.\n" +
			"Where a profile gives prices (rates: cost per hour, per pierce, per kg) two\n" +
			"columns more tell the cost of a piece. A part that fails a check is left out\n" +
			"and said to be; --accept-failed takes it in.",
		Flags: []cli.Flag{&cli.BoolFlag{Name: "accept-failed", Usage: "take parts in although a check failed"}, profileFlag()},
		Action: func(c *cli.Context) error {
			list, err := inputs(c.Args().Slice())
			if err != nil {
				return err
			}
			var o order
			if err := o.fillProfile(c.String("profile")); err != nil {
				return err
			}
			q := quoter{talk: t, accept: c.Bool("accept-failed")}
			t.each(list, o, q.take)
			q.finish()
			return nil
		},
	}
}

var (
	quoteHead = []string{"part", "revision", "hand", "quantity", "material", "thickness_mm", "process",
		"width_mm", "height_mm", "area_mm2", "cut_length_mm", "pierces", "mass_kg", "time_s"}
	costHead = []string{"cost", "currency"}
)

// quoter collects the rows of a quote, in the order of the inputs.
type quoter struct {
	*talk
	accept bool
	priced bool // a profile gives prices: the last columns are wanted
	rows   [][]string
}

// finish prints the rows; those without a price leave its cells empty.
func (q *quoter) finish() {
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	for _, row := range append([][]string{append(quoteHead, costHead...)}, q.rows...) {
		if !q.priced {
			row = row[:len(quoteHead)]
		}
		if err := w.Write(row); err != nil && q.lost == nil {
			q.lost = err
		}
	}
	w.Flush()
	q.print(text.Bytes())
}

func (q *quoter) take(out outcome) {
	if out.err != nil {
		q.explain(out.err)
		return
	}
	for _, c := range out.blanks {
		if q.takes(out.path, c.blank.Name+" ("+c.blank.Hand.String()+")", c.failed) {
			q.put(c.blank, 1)
		}
	}
	for i := range out.products {
		p := &out.products[i]
		if p.kind != "job" {
			q.say("%s: %s is a tube, not in the quote", out.path, p.title())
		} else if q.takes(out.path, p.title(), p.failed) {
			for _, c := range p.plates {
				q.put(c.blank, p.quantity)
			}
		}
	}
}

// takes tells whether a part, or all parts of a job, are in the quote.
func (q *quoter) takes(path, what string, failed bool) bool {
	if !failed {
		return true
	}
	q.worst(exitFailed)
	if !q.accept {
		q.say("%s: %s: a check failed, not in the quote; `blankwright check %s` says which", path, what, path)
	}
	return q.accept
}

// put puts one blank, so many times its quantity, into the quote.
func (q *quoter) put(b *blank.Blank, times int) {
	f := cutlist.Measure(b)
	known := func(v float64, decimals int) string {
		if v == 0 {
			return ""
		}
		return num.Rounded(v, decimals)
	}
	cost := ""
	if b.Profile.Cutting(b.Process.Name).Priced {
		q.priced = true
	}
	if f.Priced {
		cost = num.Rounded(f.Cost, 2)
	}
	q.rows = append(q.rows, []string{
		cell(b.Name), cell(b.Revision), b.Hand.String(), strconv.Itoa(b.Quantity * times), cell(b.Material.Name),
		num.Short(b.Thickness, 3), b.Process.Name, num.Rounded(f.Width, 2), num.Rounded(f.Height, 2),
		num.Rounded(f.Area, 1), num.Rounded(f.CutLength, 1), strconv.Itoa(f.Pierces), known(f.Mass, 4), known(f.Seconds, 1),
		cost, cell(f.Currency),
	})
}

// cell keeps a spreadsheet from taking a name for a formula.
func cell(text string) string {
	if strings.HasPrefix(text, "=") || strings.HasPrefix(text, "+") || strings.HasPrefix(text, "-") || strings.HasPrefix(text, "@") {
		return "'" + text
	}
	return text
}
