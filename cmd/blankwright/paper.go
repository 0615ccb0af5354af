package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"blankwright/export/paper"
	"blankwright/export/pdf"
	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/num"
	"blankwright/flat/unit"

	"github.com/urfave/cli/v2"
)

// paperOrder says which drawings on paper are made, and how.
type paperOrder struct {
	svg, pdf bool
	pages    bool // each page of the PDF as an SVG too
	page     string
	measured paper.Reading // of the printer
}

func (o paperOrder) any() bool { return o.svg || o.pdf || o.pages }

func paperFlag() cli.Flag {
	return &cli.StringFlag{Name: "paper", Usage: "`NAME` of the paper, such as A4, legal or tabloid; a size such as \"300 x 500 mm\"; a roll such as \"roll 24 in\" (default: letter or A4, by the description's units)"}
}

func measuredFlag() cli.Flag {
	return &cli.StringFlag{Name: "measured", Usage: "what the 100 mm bars of an uncorrected print measure, `ACROSSxUP` in mm, such as 99.4x100.2: prints again, corrected for that printer"}
}

func pagesFlag() cli.Flag {
	return &cli.BoolFlag{Name: "pages", Usage: "write each page of the PDF as an SVG file too"}
}

func asFlag() cli.Flag {
	return &cli.StringFlag{Name: "as", Usage: "write only the `KIND` pdf (all pages) or svg (one sheet) (default: both)"}
}

// fill reads the flags that are given.
func (o *paperOrder) fill(c *cli.Context) error {
	o.page = strings.TrimSpace(c.String("paper"))
	if o.page != "" {
		if _, err := paper.FindPage(o.page); err != nil {
			return usage("--paper: %v", err)
		}
	}
	if text := c.String("measured"); text != "" {
		r, err := paper.ParseReading(text)
		if err != nil {
			return usage("--measured: %v", err)
		}
		o.measured = r
	}
	o.pages = c.Bool("pages")
	switch as := c.String("as"); as {
	case "":
	case "pdf":
		o.svg = false
	case "svg":
		o.pdf = false
	default:
		return usage("--as %q; it takes pdf or svg", as)
	}
	return nil
}

// onPaper draws a blank on paper and adds the files: the PDF with all pages, the
// SVG with the whole part on one sheet, where wanted an SVG of each page; of a
// formed part the bending sheet too, in the PDF and as an SVG.
func (c *checked) onPaper(o paperOrder, sys unit.System, note string) error {
	base := c.base
	if w := o.measured.FileWord(); w != "" {
		base += "-" + w
	}
	set, err := c.print(o, paper.Options{Unit: sys, Note: note, Page: o.page, Measured: o.measured, Welds: welds(c.blank, sys), Bends: bends(c.blank)})
	if err != nil {
		return err
	}
	defer set.Release()
	folded := paper.Folded(c.blank, paper.Options{Unit: sys, Note: note, Page: o.page})
	defer folded.Release()
	if o.pdf && len(set.Pages) > 0 {
		pages := set.Pages
		if folded != nil {
			pages = append(slices.Clip(pages), folded)
			c.note("the bending sheet is the last page of %s.pdf", base)
		}
		data, lost := pdf.Render(pages)
		c.files = append(c.files, file{base + ".pdf", data})
		if lost != "" {
			c.note("warning: %s.pdf: the letters of a PDF do not have %s; question marks stand for them, the SVG shows them", base, spaced(lost))
		}
	}
	if o.svg {
		c.files = append(c.files, file{base + ".svg", svg.Render(set.Full)})
	}
	if o.pages && len(set.Pages) > 1 {
		for _, s := range set.Pages {
			c.files = append(c.files, file{base + "-" + strings.ReplaceAll(s.Name, " ", "-") + ".svg", svg.Render(s)})
		}
	}
	if !o.svg {
		return nil
	}
	if folded != nil {
		c.files = append(c.files, file{c.base + foldedSuffix, svg.Render(folded)})
	}
	return nil
}

// print makes the pages that are asked for. A part that would take too many
// comes on one sheet for a large printer, if there is a PDF of that size.
func (c *checked) print(o paperOrder, po paper.Options) (*paper.Set, error) {
	if o.pdf || o.pages {
		set, err := paper.Print(c.blank, c.findings, po)
		if err == nil {
			c.sayPages(set)
			return set, nil
		}
		if !errors.Is(err, paper.ErrTooMany) {
			return nil, err
		}
		c.note("warning: %v", err)
	}
	s, err := paper.Compose(c.blank, c.findings, po)
	if err != nil {
		return nil, err
	}
	if !o.pdf {
		return &paper.Set{Full: s}, nil
	}
	if !pdf.Fits(s) {
		c.note("warning: no PDF is written, for its one sheet of %s would be too large for one", num.Short(s.Page.Width, 0)+" x "+num.Short(s.Page.Height, 0)+" mm")
		return &paper.Set{Full: s}, nil
	}
	c.note("the PDF has the whole part on one sheet of %s x %s mm", num.Short(s.Page.Width, 1), num.Short(s.Page.Height, 1))
	return &paper.Set{Full: s, Pages: []*paper.Sheet{s}}, nil
}

// welds are the welded edges of a blank, in words for the drawing.
func welds(b *blank.Blank, sys unit.System) (list []paper.Weld) {
	for i := range b.Welds {
		w := &b.Welds[i]
		words := unit.Text(w.Leg, sys) + " leg"
		if w.Sides == 2 {
			words += ", both sides"
		}
		list = append(list, paper.Weld{Edge: w.Segs, Words: words})
	}
	return list
}

// bends are the bend lines of a formed blank.
func bends(b *blank.Blank) (list []paper.Bend) {
	if b.Formed == nil {
		return nil
	}
	for _, s := range b.Plan().Steps {
		d := s.Bend
		list = append(list, paper.Bend{No: s.No, Name: d.Name, Line: d.Line, Angle: d.Bend.A, Down: d.Down, Radius: d.Bend.R})
	}
	return list
}

// note keeps a line of talk about the files.
func (c *checked) note(format string, args ...any) {
	c.talk = append(c.talk, fmt.Sprintf(format, args...))
}

// mostTold is how many holes across seams are named one by one.
const mostTold = 10

// sayPages notes what a person has to know of several pages.
func (c *checked) sayPages(set *paper.Set) {
	if n := len(set.Pages); n > 1 {
		c.note("%d pages of %s, %s to %s; the whole part on one sheet is %s", n, set.Paper.Name,
			set.Pages[0].Name, set.Pages[n-1].Name, set.Full.Page.Name)
	}
	for i, s := range set.Straddles {
		if i == mostTold {
			c.note("warning: %d more lie across a seam; the pages name them", len(set.Straddles)-mostTold)
			break
		}
		c.note("warning: %s; join the pages before you punch it, or use a larger paper", s)
	}
	if n := len(set.Pages[len(set.Pages)-1].Left); n > 0 {
		c.note("warning: %d labels have no room and are left out; the table on the sheet tells where the holes are", n)
	}
}

// spaced puts a space between characters.
func spaced(s string) string {
	var b strings.Builder
	for i, r := range s {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
	}
	return b.String()
}
