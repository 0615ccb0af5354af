// Command blankwright turns the description of a bracket into a checked flat
// blank: a DXF for the cutting table, a PDF and an SVG at true scale for paper.
//
// Results go to stdout, talk to stderr: lower case, no final stop. Exit codes:
// 0 clean, 1 a check failed, 2 the description or the call is wrong, 3 cannot
// read, write or compute.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/urfave/cli/v2"
)

// Exit codes.
const (
	exitClean  = 0
	exitFailed = 1 // a check failed
	exitWrong  = 2 // the description or the call is wrong
	exitCannot = 3 // cannot read, write or compute
)

func main() {
	os.Exit(run(os.Args, os.Stdin, os.Stdout, os.Stderr))
}

// run is the whole program: it never exits by itself, so that deferred work is
// done and tests can call it.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	t := &talk{in: stdin, out: stdout, err: stderr}
	app := newApp(t)
	for _, c := range app.Commands {
		c.OnUsageError = app.OnUsageError
	}
	if err := app.Run(flagsFirst(app, args)); err != nil {
		t.say("blankwright: error: %v", err)
		var u *usageError
		if !errors.As(err, &u) {
			t.say("blankwright: hint: `blankwright help` lists the commands and their flags")
		}
		t.worst(exitWrong)
	}
	if t.lost != nil {
		fmt.Fprintf(stderr, "blankwright: error: cannot print: %v\n", t.lost)
		t.worst(exitCannot)
	}
	return t.exit
}

// talk is one run's streams and its exit code so far.
type talk struct {
	in   io.Reader
	out  io.Writer
	err  io.Writer
	exit int
	lost error // first failure to write a result
}

// say prints one line of talk.
func (t *talk) say(format string, args ...any) {
	fmt.Fprintf(t.err, format+"\n", args...)
}

// result prints one line of results.
func (t *talk) result(line string) {
	t.print([]byte(line + "\n"))
}

// print writes results as they are.
func (t *talk) print(b []byte) {
	if _, err := t.out.Write(b); err != nil && t.lost == nil {
		t.lost = err
	}
}

// worst raises the exit code; a higher code outranks a lower one.
func (t *talk) worst(code int) {
	if code > t.exit {
		t.exit = code
	}
}

// usageError is a call that can't be taken.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

func usage(format string, args ...any) error {
	return &usageError{fmt.Sprintf(format, args...)}
}

func newApp(t *talk) *cli.App {
	return &cli.App{
		Name:  "blankwright",
		Usage: "checked flat blanks for weld-on brackets: DXF for the table, true-scale paper for the bench",
		Description: "FILE is a description (YAML), a folder of them, or - for standard input.\n" +
			"Exit codes: 0 clean, 1 a check failed, 2 the description or the call is wrong,\n" +
			"3 cannot read, write or compute.",
		Reader:         t.in,
		Writer:         t.out,
		ErrWriter:      t.err,
		HideVersion:    true,
		ExitErrHandler: func(*cli.Context, error) {},
		OnUsageError: func(_ *cli.Context, err error, _ bool) error {
			return err
		},
		CommandNotFound: func(_ *cli.Context, name string) {},
		Action: func(c *cli.Context) error {
			if c.NArg() > 0 {
				return unknownCommand(c.App, c.Args().First())
			}
			return cli.ShowAppHelp(c)
		},
		Commands: []*cli.Command{
			makeCommand(t),
			checkCommand(t),
			cutCommand(t),
			printCommand(t),
			quoteCommand(t),
			layoutCommand(t),
			inspectCommand(t),
			startCommand(t),
			couponCommand(t),
			ruleCommand(t),
			tableCommand(t),
			bendCommand(t),
			schemaCommand(t),
		},
		DisableSliceFlagSeparator: true, // a comma is part of a value: --sheet 4x8ft@1/4in,A36
	}
}
