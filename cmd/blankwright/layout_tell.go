package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blankwright/flat/num"
)

// used says how much of a sheet is parts, and how much of what is not left of it.
func used(r *sheetReport) string {
	if len(r.Left) == 0 {
		return percent(r.Utilisation)
	}
	return percent(r.Utilisation) + "; " + percent(r.Net) + " net"
}

func percent(v float64) string { return num.Rounded(100*v, 1) + " %" }

// blameUnplaced lets the exit code tell of parts without a place.
func (l *layouter) blameUnplaced() {
	for i := range l.report.Groups {
		if len(l.report.Groups[i].Unplaced) > 0 {
			l.worst(exitFailed)
		}
	}
}

// sayUnplaced is all there is to tell where nothing found a place.
func (l *layouter) sayUnplaced() {
	l.blameUnplaced()
	for i := range l.report.Groups {
		for _, u := range l.report.Groups[i].Unplaced {
			l.say("not placed: %d of %s (%s): %s", u.Count, u.Part, u.Hand, u.Why)
		}
	}
	l.say("no part found a place; nothing written")
}

// tell prints the results: what lies where, and the files.
func (l *layouter) tell() {
	for i := range l.report.Groups {
		r := &l.report.Groups[i]
		g := l.groups[i]
		l.result(fmt.Sprintf("%s: %s on %s, %s used", g.words(l.system()), counted(r.Placed, "part", "parts"),
			counted(len(r.Sheets), "sheet", "sheets"), percent(r.Utilisation)))
		l.result(fmt.Sprintf("  gap %s, margin %s, turns: %s", l.distance(g.gap, g.gapFrom), l.distance(g.margin, ""), l.turnsTold(g)))
		for k := range r.Sheets {
			s := &r.Sheets[k]
			line := fmt.Sprintf("  sheet %d, %s: %s; used: %s; to cut: %s m, %s", s.Number, s.Stock, counted(len(s.Pieces), "part", "parts"),
				used(s), num.Rounded(s.CutLength/1000, 2), counted(s.Pierces, "pierce", "pierces"))
			if s.Seconds > 0 {
				line += fmt.Sprintf(", about %s min", num.Rounded(s.Seconds/60, 1))
			}
			for _, left := range s.Left {
				line += "; left: " + l.sizes(left.Width, left.Height)
			}
			l.result(line)
		}
		for _, u := range r.Unplaced {
			l.result(fmt.Sprintf("  not placed: %d of %s (%s): %s", u.Count, u.Part, u.Hand, u.Why))
		}
	}
	for i := range l.report.Groups {
		r := &l.report.Groups[i]
		for k := range r.Sheets {
			for _, f := range r.Sheets[k].Files {
				l.result(f)
			}
		}
		if r.Picture != "" {
			l.result(r.Picture)
		}
	}
	l.result(l.report.List)
}

// warnOld speaks of drawings and pictures of sheets that an earlier run of this name
// left and this one did not write.
func (l *layouter) warnOld() {
	there, err := os.ReadDir(l.folder) // sorted
	if err != nil {
		return // the files of this run are there all the same
	}
	for _, e := range there {
		name := e.Name()
		ending := filepath.Ext(name)
		old := strings.HasPrefix(name, l.name+"-") && strings.Contains(name, "-sheet-") && (ending == ".dxf" || ending == ".svg")
		if old && !slices.ContainsFunc(l.files, func(f file) bool { return f.name == name }) {
			l.say("warning: %s was left by an earlier run and is no part of this layout; do not cut from it", filepath.Join(l.folder, name))
		}
	}
}
