// Package report writes what is to be read of a job: the pages of its traveller,
// and the same as one HTML file that needs nothing beside it.
package report

import (
	"encoding/base64"
	"html"
	"strings"

	"blankwright/export/paper"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// HTML collects one page: a paper.Writer. The bytes depend on what is written
// alone; there are no scripts, no links out and no fonts.
type HTML struct {
	title string
	b     strings.Builder
}

// NewHTML begins a page.
func NewHTML(title string) *HTML {
	h := &HTML{title: title}
	h.b.WriteString("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>" +
		html.EscapeString(title) + "</title>\n<style>\n" + style + "</style>\n</head>\n<body>\n<h1>" + html.EscapeString(title) + "</h1>\n")
	return h
}

// style: black on white, tables with thin rules, nothing that a printer does not
// print.
const style = `body{font-family:Helvetica,Arial,sans-serif;margin:2em auto;max-width:62em;padding:0 1em;color:#000;background:#fff;line-height:1.4}
h1{font-size:1.6em}
h2{font-size:1.15em;border-bottom:1px solid #000;margin-top:1.8em}
table{border-collapse:collapse;margin:.6em 0;font-size:.92em}
th,td{text-align:left;vertical-align:top;padding:.25em .9em .25em 0;border-bottom:1px solid #999}
td.s{white-space:nowrap}
th{font-weight:normal;color:#444}
p{margin:.35em 0}
figure{margin:1em 0}
figcaption{font-size:.9em;color:#444}
img,svg{max-width:100%;height:auto;border:1px solid #ccc}
`

// shortCell is how many letters a cell may have that is not broken into lines.
const shortCell = 16

// Heading begins a section.
func (h *HTML) Heading(words string) { h.put("h2", words) }

// Text adds a paragraph.
func (h *HTML) Text(words string) { h.put("p", words) }

// Strong adds a heavy paragraph.
func (h *HTML) Strong(words string) {
	h.b.WriteString("<p><strong>" + html.EscapeString(words) + "</strong></p>\n")
}

func (h *HTML) put(tag, words string) {
	h.b.WriteString("<" + tag + ">" + html.EscapeString(words) + "</" + tag + ">\n")
}

// Table adds a table.
func (h *HTML) Table(head []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	h.b.WriteString("<table>\n<thead><tr>")
	for _, c := range head {
		h.b.WriteString("<th>" + html.EscapeString(c) + "</th>")
	}
	h.b.WriteString("</tr></thead>\n<tbody>\n")
	for _, r := range rows {
		h.b.WriteString("<tr>")
		for i := range head {
			cell := ""
			if i < len(r) {
				cell = r[i]
			}
			if len(cell) <= shortCell {
				h.b.WriteString("<td class=\"s\">")
			} else {
				h.b.WriteString("<td>")
			}
			h.b.WriteString(html.EscapeString(cell) + "</td>")
		}
		h.b.WriteString("</tr>\n")
	}
	h.b.WriteString("</tbody>\n</table>\n")
}

// Drawing adds a whole SVG file as a picture.
func (h *HTML) Drawing(svg []byte, words string) {
	h.b.WriteString("<figure><img alt=\"" + html.EscapeString(words) + "\" src=\"data:image/svg+xml;base64,")
	h.b.WriteString(base64.StdEncoding.EncodeToString(svg))
	h.b.WriteString("\"/><figcaption>" + html.EscapeString(words) + "</figcaption></figure>\n")
}

// Picture adds a picture.
func (h *HTML) Picture(p *paper.Picture) {
	f := func(v float64) string { return num.Short(v, 3) }
	y := func(v float64) string { return f(p.Height - v) }
	h.b.WriteString("<figure><svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + f(p.Width*4) + "\" height=\"" + f(p.Height*4) +
		"\" viewBox=\"0 0 " + f(p.Width) + " " + f(p.Height) + "\" fill=\"none\" stroke=\"#000\">\n")
	for _, l := range [3]struct {
		segs []geom.Seg
		pen  string
	}{{p.Lines, "stroke-width=\"0.35\""}, {p.Thin, "stroke-width=\"0.15\""}, {p.Dashed, "stroke-width=\"0.25\" stroke-dasharray=\"3 1\""}} {
		if len(l.segs) == 0 {
			continue
		}
		h.b.WriteString("<path " + l.pen + " d=\"")
		for i := range l.segs {
			g := &l.segs[i]
			h.b.WriteString("M" + f(g.A.X) + " " + y(g.A.Y))
			if !g.IsArc() {
				h.b.WriteString("L" + f(g.B.X) + " " + y(g.B.Y))
				continue
			}
			sweep := "1"
			if g.Bulge > 0 {
				sweep = "0" // y points down here
			}
			r := f(g.Circle().R)
			h.b.WriteString("A" + r + " " + r + " 0 0 " + sweep + " " + f(g.B.X) + " " + y(g.B.Y))
		}
		h.b.WriteString("\"/>\n")
	}
	for _, c := range p.Circles {
		h.b.WriteString("<circle stroke-width=\"0.35\" cx=\"" + f(c.C.X) + "\" cy=\"" + y(c.C.Y) + "\" r=\"" + f(c.R) + "\"/>\n")
	}
	for _, t := range p.Words {
		h.b.WriteString("<text x=\"" + f(t.At.X) + "\" y=\"" + y(t.At.Y) + "\" text-anchor=\"middle\" font-size=\"3.5\" fill=\"#000\" stroke=\"none\">" + html.EscapeString(t.S) + "</text>\n")
	}
	h.b.WriteString("</svg></figure>\n")
}

// Bytes ends the page and gives it.
func (h *HTML) Bytes() []byte { return []byte(h.b.String() + "</body>\n</html>\n") }
