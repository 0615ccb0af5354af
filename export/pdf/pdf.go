// Package pdf writes sheets as one PDF file at true scale, all pages in it.
//
// Each page has exactly the size of its paper, and the file asks its reader not
// to scale it. Arcs are cubic Bézier curves that stray less than 0.01 mm. Texts
// are texts, in the two Helvetica faces that every reader has (ISO
// 32000-1:2008, 9.6.2.2). Streams are not compressed and there is neither date
// nor random id: the bytes depend on the sheets alone.
package pdf

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"sync"

	"blankwright/export/paper"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// pointsPerMM is the number of units of a PDF page in a millimetre.
const pointsPerMM = 72 / unit.MM

// Write draws the blank on pages of the paper that the options name and gives
// the file. Errors are those of paper.Print. The bytes depend on the arguments
// alone.
func Write(b *blank.Blank, findings []diag.Finding, o paper.Options) ([]byte, error) {
	set, err := paper.Print(b, findings, o)
	if err != nil {
		return nil, err
	}
	defer set.Release()
	file, _ := Render(set.Pages)
	return file, nil
}

// Render gives the sheets as one PDF file, a page each. Characters that the
// standard faces do not have stand as question marks; lost holds each of them
// once.
func Render(pages []*paper.Sheet) (file []byte, lost string) {
	w := writers.Get().(*writer)
	defer writers.Put(w)
	w.reset()
	w.document(pages)
	return append([]byte(nil), w.out...), string(w.lost)
}

// mostSide is the longest side of a page, in points (ISO 32000-1:2008, Annex
// C.2).
const mostSide = 14_400

// Fits reports whether a PDF can have a page as large as the sheet's.
func Fits(s *paper.Sheet) bool {
	return num.AtMost(max(s.Page.Width, s.Page.Height)*pointsPerMM, mostSide)
}

var writers = sync.Pool{New: func() any { return new(writer) }}

// Numbers of the objects that come once.
const (
	catalogObject = 1 + iota
	pagesObject
	infoObject
	plainObject // the two faces
	boldObject
	firstBlock // the check blocks, then pages
)

// writer collects the file.
type writer struct {
	out     []byte
	content content
	offsets []int // of the objects, by number from 1
	lost    []rune
}

func (w *writer) reset() {
	w.out, w.offsets, w.lost = w.out[:0], w.offsets[:0], w.lost[:0]
}

func (w *writer) document(pages []*paper.Sheet) {
	w.text("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	blocks := usedBlocks(pages)
	firstPage := firstBlock + len(blocks)
	w.catalog(pages)
	w.pageTree(blocks, firstPage, len(pages))
	w.info(pages)
	w.open()
	w.text("<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>")
	w.close()
	w.open()
	w.text("<</Type/Font/Subtype/Type1/BaseFont/Helvetica-Bold/Encoding/WinAnsiEncoding>>")
	w.close()
	for _, id := range blocks {
		w.out = append(w.out, w.form(id)...)
	}
	for i, s := range pages {
		w.page(s, firstPage+2*i)
	}
	w.trailer()
}

// usedBlocks are the check blocks of the pages, each once.
func usedBlocks(pages []*paper.Sheet) (ids []paper.BlockID) {
	for _, id := range [...]paper.BlockID{paper.FullBlock, paper.StripBlock} {
		for _, s := range pages {
			if s.CheckBlock == id {
				ids = append(ids, id)
				break
			}
		}
	}
	return ids
}

// catalog says how the file is shown and printed: one side, not scaled, on
// paper of its own size (ISO 32000-1:2008, Table 150).
func (w *writer) catalog(pages []*paper.Sheet) {
	w.open()
	w.text("<</Type/Catalog/Pages ")
	w.ref(pagesObject)
	w.text("/Lang(en)/PageLayout/SinglePage" +
		"/ViewerPreferences<</PrintScaling/None/Duplex/Simplex/PickTrayByPDFSize true/DisplayDocTitle true>>")
	if len(pages) > 1 {
		w.text("/PageLabels<</Nums[")
		for i, s := range pages {
			w.int(i)
			w.text("<</P")
			w.out = appendString(w.out, s.Name)
			w.text(">>")
		}
		w.text("]>>")
	}
	w.text(">>")
	w.close()
}

func (w *writer) pageTree(blocks []paper.BlockID, first, n int) {
	w.open()
	w.text("<</Type/Pages/Count ")
	w.int(n)
	w.text("/Kids[")
	for i := range n {
		if i > 0 {
			w.text(" ")
		}
		w.ref(first + 2*i)
	}
	w.text("]/Resources<<" + fonts + "/XObject<<")
	for i, id := range blocks {
		w.text("/B")
		w.int(int(id))
		w.text(" ")
		w.ref(firstBlock + i)
	}
	w.text(">>>>>>")
	w.close()
}

// fonts names the faces for the contents.
const fonts = "/Font<</F1 4 0 R/F2 5 0 R>>"

func (w *writer) info(pages []*paper.Sheet) {
	title, subject := "", "Flat part at true scale, 1:1. Print at 100 %, actual size."
	if len(pages) > 0 {
		title = pages[0].Part
		subject = pages[0].Shows + " at true scale, 1:1. Print at 100 %, actual size."
		if pages[0].CheckBlock == paper.NoBlock {
			subject = pages[0].Shows + ". Not at true scale: do not measure from it."
			if len(usedBlocks(pages)) > 0 {
				subject = pages[0].Shows + ". Pages with measuring bars are at true scale, 1:1: print at 100 %, actual size."
			}
		}
		if r := pages[0].Measured; r.Off() {
			subject = pages[0].Shows + ", corrected for a printer that draws " + r.String() + " mm for 100 x 100 mm. Print at 100 %, actual size."
		}
	}
	w.open()
	w.text("<</Title")
	w.out = appendString(w.out, title)
	w.text("/Subject")
	w.out = appendString(w.out, subject)
	w.text("/Creator(blankwright)/Producer(blankwright)>>")
	w.close()
}

// page writes a page and its contents, the objects n and n+1.
func (w *writer) page(s *paper.Sheet, n int) {
	w.open()
	w.text("<</Type/Page/Parent ")
	w.ref(pagesObject)
	w.text("/MediaBox[0 0 ")
	w.real(s.Page.Width*pointsPerMM, 6)
	w.text(" ")
	w.real(s.Page.Height*pointsPerMM, 6)
	w.text("]/Contents ")
	w.ref(n + 1)
	w.text(">>")
	w.close()
	c := &w.content
	c.begin(w.lost)
	sx, sy := s.Scale()
	c.scale(sx*pointsPerMM, sy*pointsPerMM)
	for i := range s.Layers {
		c.layer(paper.LayerID(i), &s.Layers[i])
	}
	if s.CheckBlock != paper.NoBlock {
		c.block(s.CheckBlock, s.Checks)
	}
	w.lost = c.lost
	w.open()
	w.text("<</Length ")
	w.int(len(c.out))
	w.text(">>stream\n")
	w.out = append(w.out, c.out...)
	w.text("\nendstream")
	w.close()
}

// form is a check block as an object of its own, shared by all pages.
func (w *writer) form(id paper.BlockID) []byte {
	w.offsets = append(w.offsets, len(w.out))
	var b []byte
	b = strconv.AppendInt(b, int64(len(w.offsets)), 10)
	b = append(b, " 0 obj\n"...)
	b = append(b, forms()[id]...)
	return append(b, "\nendobj\n"...)
}

// forms are the check blocks, written once. Their box holds all of them with
// room to spare.
var forms = sync.OnceValue(func() map[paper.BlockID][]byte {
	all := make(map[paper.BlockID][]byte)
	for _, id := range [...]paper.BlockID{paper.FullBlock, paper.StripBlock} {
		var c content
		c.begin(nil)
		ls := id.Layers()
		for i := range ls {
			c.layer(paper.LayerID(i), &ls[i])
		}
		var b []byte
		b = append(b, "<</Type/XObject/Subtype/Form/BBox[-10 -60 130 130]/Resources<<"+fonts+">>/Length "...)
		b = strconv.AppendInt(b, int64(len(c.out)), 10)
		b = append(append(append(b, ">>stream\n"...), c.out...), "\nendstream"...)
		all[id] = b
	}
	return all
})

// trailer writes the table of objects (ISO 32000-1:2008, 7.5.4: lines of twenty
// bytes) and what follows it. The id is a digest of the file before it.
func (w *writer) trailer() {
	start := len(w.out)
	digest := sha256.Sum256(w.out)
	id := hex.EncodeToString(digest[:16])
	w.text("xref\n0 ")
	w.int(len(w.offsets) + 1)
	w.text("\n0000000000 65535 f \n")
	for _, at := range w.offsets {
		s := strconv.Itoa(at)
		w.text("0000000000"[len(s):])
		w.text(s)
		w.text(" 00000 n \n")
	}
	w.text("trailer\n<</Size ")
	w.int(len(w.offsets) + 1)
	w.text("/Root ")
	w.ref(catalogObject)
	w.text("/Info ")
	w.ref(infoObject)
	w.text("/ID[<" + id + "><" + id + ">]>>\nstartxref\n")
	w.int(start)
	w.text("\n%%EOF\n")
}

// open begins the next object.
func (w *writer) open() {
	w.offsets = append(w.offsets, len(w.out))
	w.int(len(w.offsets))
	w.text(" 0 obj\n")
}

func (w *writer) close() { w.text("\nendobj\n") }

func (w *writer) text(s string) { w.out = append(w.out, s...) }

func (w *writer) int(n int) { w.out = strconv.AppendInt(w.out, int64(n), 10) }

func (w *writer) ref(n int) {
	w.int(n)
	w.text(" 0 R")
}

func (w *writer) real(v float64, decimals int) { w.out = append(w.out, num.Short(v, decimals)...) }
