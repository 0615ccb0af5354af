package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"blankwright/flat/layout"
	"blankwright/flat/num"
)

// progress shows on a terminal how far a search has come, on one line that is
// written over and taken away at the end. It is silent where talk goes to a file
// or another program.
type progress struct {
	to   io.Writer // nil to be silent
	what string
	wide int // of the longest line written
	last time.Duration
}

// often is how long a line stays before it is written anew.
const often = 100 * time.Millisecond

// progress is that of one group.
func (l *layouter) progress(g *group) *progress {
	p := &progress{what: g.words(l.system())}
	if f, ok := l.err.(*os.File); ok && isTerminal(f) {
		p.to = f
	}
	return p
}

// isTerminal reports whether a person may be looking.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// show writes the line anew.
func (p *progress) show(s layout.Progress) {
	if p.to == nil || p.wide > 0 && s.Elapsed >= p.last && s.Elapsed-p.last < often {
		return
	}
	p.last = s.Elapsed
	line := fmt.Sprintf("%s: %d of %d on %s, %s used, %s s", p.what, s.Placed, s.Total, counted(s.Sheets, "sheet", "sheets"),
		percent(s.Utilisation), num.Rounded(s.Elapsed.Seconds(), 1))
	p.wide = max(p.wide, len(line))
	fmt.Fprintf(p.to, "\r%-*s", p.wide, line)
}

// end takes the line away.
func (p *progress) end() {
	if p.to != nil && p.wide > 0 {
		fmt.Fprintf(p.to, "\r%s\r", strings.Repeat(" ", p.wide))
	}
}
