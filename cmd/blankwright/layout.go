package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"time"

	"blankwright/export/paper"
	"blankwright/export/platemap"
	"blankwright/flat/blank"
	"blankwright/flat/layout"
	"blankwright/flat/num"
	"blankwright/flat/unit"

	"github.com/urfave/cli/v2"
)

func layoutCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "layout",
		Usage:     "place all parts on sheets or remnants; write a DXF for each sheet, a picture and lists",
		ArgsUsage: "FILE... --sheet 48x96in",
		Description: "Quantities and hands are those of the descriptions; FILE*4 takes four times as many\n" +
			"of one, --times 4 of all. Parts of one material, thickness and process share sheets.\n" +
			"Remnants are used first, then sheets in the order given. --sheet 4x8ft*2 has two of\n" +
			"them, without a count there are as many as it takes; 4x8ft*2@1/4in says that they are\n" +
			"1/4 in thick (or @A36, or @1/4in,A36), for calls with parts of several plates.\n" +
			"A part that fails a check is left out, and said to be. Ctrl-C ends the search and\n" +
			"writes the best layout so far. Nothing is written where anything in the call is wrong.",
		Flags: []cli.Flag{
			&cli.StringSliceFlag{Name: "sheet", Usage: "whole sheets, `WxH` with its unit, such as 48x96in or 1250x2500mm*3; may be repeated"},
			&cli.StringSliceFlag{Name: "remnant", Usage: "a drop of any shape, `FILE.dxf` with one closed outline and openings, if any; may be repeated"},
			&cli.IntFlag{Name: "times", Value: 1, Usage: "take all quantities `N` times"},
			&cli.StringFlag{Name: "gap", Usage: "least distance between parts (default: kerf and least web of the process)"},
			&cli.StringFlag{Name: "margin", Usage: "least distance from the edges of the sheet (default: as the gap)"},
			&cli.StringFlag{Name: "turns", Value: "any", Usage: "how parts may be turned: any, 90, 180 or none"},
			&cli.StringFlag{Name: "grain", Usage: "along or across: how each part's own x axis lies to the grain, which runs along the length of a sheet and along x of a remnant"},
			&cli.BoolFlag{Name: "inside-openings", Usage: "parts may lie in large openings of others"},
			&cli.StringFlag{Name: "time", Usage: "how long to search, such as 30s or 2m", DefaultText: "10s, or what --iterations takes"},
			&cli.IntFlag{Name: "iterations", Usage: "search effort: the same count and seed give the same layout", DefaultText: "as many as --time allows"},
			&cli.Uint64Flag{Name: "seed", Value: 1, Usage: "where the search starts"},
			&cli.StringFlag{Name: "name", Value: "layout", Usage: "what the names of the files begin with"},
			outFolderFlag(), unitsFlag(), outlineFlag(), bendsFlag(), formatFlag(), noMarksFlag(), kerfFlag(),
			&cli.StringFlag{Name: "paper", Usage: "paper of the pictures, such as A3 or tabloid (default: letter or A4, by the unit)"},
			acceptFlag(), profileFlag(), jsonFlag(),
		},
		Action: func(c *cli.Context) error {
			l := layouter{talk: t, json: c.Bool("json"), folder: c.String("out"), profiled: c.String("profile")}
			if err := l.fill(c); err != nil {
				return err
			}
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
			defer stop()
			context.AfterFunc(ctx, stop) // a second interrupt ends the program
			return l.run(ctx, c.Args().Slice())
		},
	}
}

func outFolderFlag() cli.Flag {
	return &cli.StringFlag{Name: "out", Aliases: []string{"o"}, Value: "out", Usage: "folder for the files"}
}

// usualTime is how long the search goes on where the person does not say.
const usualTime = 10 * time.Second

// layouter takes descriptions to sheets.
type layouter struct {
	*talk
	order
	json     bool
	folder   string
	name     string
	profiled string // the file that --profile names

	stock          []plateStock
	times          int
	gap, margin    float64 // mm; less than 0 where the person leaves it to the process
	turns          []float64
	grain          string
	turnWords      string
	inside         bool
	seed           uint64
	iterations     int
	time           time.Duration
	page           paper.Page
	groups         []*group
	report         layoutReport
	files          []file
	failedAccepted bool
}

// fill reads the flags.
func (l *layouter) fill(c *cli.Context) (err error) {
	if err := l.order.fill(c); err != nil {
		return err
	}
	if l.folder == "-" {
		return usage("--out -: a layout is several files; name a folder")
	}
	l.name = blank.SafeName(c.String("name"), longestName)
	if l.times = c.Int("times"); l.times < 1 || l.times > mostPieces {
		return usage("--times %d; wanted 1 to %d", l.times, mostPieces)
	}
	if l.gap, err = distanceFlag(c, "gap"); err != nil {
		return err
	}
	if l.margin, err = distanceFlag(c, "margin"); err != nil {
		return err
	}
	l.inside, l.seed = c.Bool("inside-openings"), c.Uint64("seed")
	l.iterations = c.Int("iterations")
	if c.IsSet("time") {
		if l.time, err = time.ParseDuration(strings.ReplaceAll(c.String("time"), " ", "")); err != nil {
			return usage("--time %q; it takes a time with its unit, such as 30s or 2m", c.String("time"))
		}
	}
	if c.IsSet("time") && l.time <= 0 || c.IsSet("iterations") && l.iterations <= 0 {
		return usage("--time and --iterations bound the search: give more than 0")
	}
	if l.iterations == 0 && l.time == 0 {
		l.time = usualTime
	}
	if l.paperOrder.page != "" {
		if l.page, err = paper.FindPage(l.paperOrder.page); err != nil || l.page.Roll {
			return usage("--paper %q; the pictures take a paper with two sides, such as A3 or tabloid", l.paperOrder.page)
		}
		if !platemap.Takes(l.page) {
			return usage("--paper %q; the pictures need paper of A5 (148 x 210 mm) at least", l.paperOrder.page)
		}
	}
	if err := l.fillStock(c.StringSlice("sheet"), c.StringSlice("remnant")); err != nil {
		return err
	}
	return l.fillTurns(c.String("turns"), c.String("grain"))
}

const (
	longestName = 40
	// mostPieces is the most pieces that one call lays out: far beyond any job, it
	// tells a slip of the keyboard.
	mostPieces = 20_000
	// mostDistance is the largest gap and margin, mm.
	mostDistance = 1000.0
)

// distanceFlag reads a length that may be nothing; less than nothing where the
// flag is not given.
func distanceFlag(c *cli.Context, name string) (float64, error) {
	text := c.String(name)
	if text == "" {
		return -1, nil
	}
	mm, err := unit.Length(text, nil, unit.Unset)
	if err != nil || !num.Finite(mm) || mm < 0 || mm > mostDistance {
		return 0, usage("--%s %q; it takes a length with its unit, such as 8mm or 5/16in, up to %v mm", name, text, mostDistance)
	}
	return mm, nil
}

// run goes through all steps; files are written only after the last.
func (l *layouter) run(ctx context.Context, args []string) error {
	list, err := l.inputs(args)
	if err != nil {
		return err
	}
	if l.read(list) && l.canWrite() {
		if err := l.plan(ctx); err != nil {
			return err
		}
	}
	if l.json {
		l.printJSON(&l.report)
	}
	return nil
}

// canWrite tells before the search, not after it, that the folder takes no files.
func (l *layouter) canWrite() bool {
	err := canWrite(l.folder)
	if err != nil {
		l.cannotWrite(err)
	}
	return err == nil
}

func (l *layouter) cannotWrite(err error) {
	l.report.Errors = append(l.report.Errors, problemReport{Message: plainError(err).Error()})
	l.worst(exitCannot)
	l.say("blankwright: error: cannot write: %v", plainError(err))
}

// plan lays the groups out, one after the other, and writes what came of it.
func (l *layouter) plan(ctx context.Context) error {
	if err := l.shareStock(); err != nil {
		return err
	}
	for _, g := range l.groups {
		if err := l.fillGroupKerf(g); err != nil {
			return err
		}
	}
	began := time.Now()
	for i, g := range l.groups {
		left := l.time
		if left > 0 { // each group has its share of what is left
			left = max(time.Millisecond, (l.time-time.Since(began))/time.Duration(len(l.groups)-i))
		}
		err := l.planGroup(ctx, g, left)
		if errors.Is(err, errInterrupted) && i > 0 {
			l.worst(exitCannot)
			l.say("%s: %v for it", g.words(l.system()), err)
			l.groups = l.groups[:i] // what is done is written
			break
		}
		if err != nil {
			l.refuse(g, err)
			return nil
		}
	}
	if ctx.Err() != nil {
		l.say("interrupted: this is the best layout so far")
	}
	for _, g := range l.groups {
		if err := l.render(g); err != nil {
			l.report.Errors = append(l.report.Errors, l.explain(err)...)
			return nil
		}
	}
	if len(l.files) == 0 {
		l.sayUnplaced()
		return nil
	}
	l.write()
	return nil
}

// planGroup lays out one group.
func (l *layouter) planGroup(ctx context.Context, g *group, bound time.Duration) error {
	p := l.progress(g)
	r, err := layout.Plan(ctx, g.pieces, g.sheets(), layout.Options{
		Gap: g.gap, Margin: g.margin, InsideOpenings: l.inside, Seed: l.seed,
		Iterations: l.iterations, Time: bound, Progress: p.show,
	})
	p.end()
	if err != nil {
		if ctx.Err() != nil {
			return errInterrupted
		}
		return err
	}
	g.result = r
	return layout.Prove(g.pieces, g.sheets(), r, g.gap, g.margin)
}

var errInterrupted = errors.New("interrupted before there was a layout; nothing written")

// refuse says why there is no layout: what is wrong with the call, or what could
// not be computed. Nothing is written.
func (l *layouter) refuse(g *group, err error) {
	var in *layout.InputError
	if !errors.As(err, &in) {
		l.report.Errors = append(l.report.Errors, l.explain(fmt.Errorf("%s: %w", g.words(l.system()), err))...)
		return
	}
	text := g.words(l.system()) + ": " + in.Text(l.length)
	if in.Fault == layout.PieceTooLarge {
		text += " (the margin is " + l.length(g.margin) + ")"
	}
	l.worst(exitWrong)
	l.say("blankwright: error: %s", text)
	l.report.Errors = append(l.report.Errors, problemReport{Message: text})
}

// system is the unit of what is written.
func (l *layouter) system() unit.System {
	if l.units != unit.Unset {
		return l.units
	}
	for _, g := range l.groups {
		if s := g.kinds[0].blank.Part.Units; s != unit.Unset {
			return s
		}
	}
	return unit.Millimetre
}

// length writes a length in the unit of what is written.
func (l *layouter) length(mm float64) string {
	if l.system() == unit.Inch {
		return num.Short(mm/unit.MM, 2) + " in"
	}
	return num.Short(mm, 1) + " mm"
}

// distance writes a gap or a margin, in mm as well, and where it comes from.
func (l *layouter) distance(mm float64, from string) string {
	text := num.Short(mm, 2) + " mm"
	if l.system() == unit.Inch {
		text, from = num.Short(mm/unit.MM, 3)+" in", strings.TrimSuffix(text+"; "+from, "; ")
	}
	if from == "" {
		return text
	}
	return text + " (" + from + ")"
}

// sizes writes two lengths.
func (l *layouter) sizes(w, h float64) string {
	a, b := l.length(w), l.length(h)
	return strings.TrimRight(a, " inm") + " x " + b
}
