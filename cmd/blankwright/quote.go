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
			"common practice, without marking, moving and handling. A part that fails a\n" +
			"check is left out and said to be; --accept-failed takes it in.",
		Flags: []cli.Flag{&cli.BoolFlag{Name: "accept-failed", Usage: "take parts in although a check failed"}},
		Action: func(c *cli.Context) error {
			list, err := inputs(c.Args().Slice())
			if err != nil {
				return err
			}
			q := quoter{talk: t, accept: c.Bool("accept-failed")}
			q.csv = csv.NewWriter(&q.text)
			q.row(quoteHead)
			inOrder(list,
				func(in input) outcome {
					if in.err != nil {
						return outcome{path: in.path, err: in.err}
					}
					return work(in.path, t.in, order{})
				},
				q.take)
			q.csv.Flush()
			t.print(q.text.Bytes())
			return nil
		},
	}
}

var quoteHead = []string{"part", "revision", "hand", "quantity", "material", "thickness_mm", "process",
	"width_mm", "height_mm", "area_mm2", "cut_length_mm", "pierces", "mass_kg", "time_s"}

// quoter collects the rows of a quote, in the order of the inputs.
type quoter struct {
	*talk
	accept bool
	text   bytes.Buffer
	csv    *csv.Writer
}

func (q *quoter) row(cells []string) {
	if err := q.csv.Write(cells); err != nil && q.lost == nil {
		q.lost = err
	}
}

func (q *quoter) take(out outcome) {
	if out.err != nil {
		q.explain(out.err)
		return
	}
	for _, c := range out.blanks {
		if c.failed {
			q.worst(exitFailed)
			if !q.accept {
				q.say("%s: %s (%s): a check failed, not in the quote; `blankwright check %s` says which", out.path, c.blank.Name, c.blank.Hand, out.path)
				continue
			}
		}
		q.row(quoteRow(c.blank))
	}
}

func quoteRow(b *blank.Blank) []string {
	f := cutlist.Measure(b)
	known := func(v float64, decimals int) string {
		if v == 0 {
			return ""
		}
		return num.Rounded(v, decimals)
	}
	return []string{
		cell(b.Name), cell(b.Revision), b.Hand.String(), strconv.Itoa(b.Quantity), cell(b.Material.Name),
		num.Short(b.Thickness, 3), b.Process.Name, num.Rounded(f.Width, 2), num.Rounded(f.Height, 2),
		num.Rounded(f.Area, 1), num.Rounded(f.CutLength, 1), strconv.Itoa(f.Pierces), known(f.Mass, 4), known(f.Seconds, 1),
	}
}

// cell keeps a spreadsheet from taking a name for a formula.
func cell(text string) string {
	if strings.HasPrefix(text, "=") || strings.HasPrefix(text, "+") || strings.HasPrefix(text, "-") || strings.HasPrefix(text, "@") {
		return "'" + text
	}
	return text
}
