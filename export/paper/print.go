package paper

import (
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// Set is a part on paper: on one sheet as a whole, and on pages of the paper
// that is at hand.
type Set struct {
	// Full is the whole part on one sheet: the only page where one is enough,
	// else a larger paper than was asked for.
	Full *Sheet
	// Pages are one page, or a cover and the pages that are joined.
	Pages []*Sheet
	Paper Page // that the pages are on, as it is turned
	// Straddles are the holes that a seam between two pages goes through.
	Straddles []Straddle
}

// Print draws the blank at scale 1:1 on pages of the paper asked for (letter or
// A4 where none is): on one page when that takes the part, upright or turned,
// else on several that overlap and share alignment marks, with a cover that says
// how they are joined. Seams are put so that no hole lies across one where that
// can be had. Errors are those of Compose; a paper on which not even the check
// bars find room, and a part that would take more than 400 pages, are errors
// too.
func Print(b *blank.Blank, findings []diag.Finding, o Options) (*Set, error) {
	j, err := newJob(b, findings, &o)
	if err != nil {
		return nil, err
	}
	usual := Pages(j.sys)
	p, known := usual[0], 0
	if o.Page != "" {
		if p, err = FindPage(o.Page); err != nil {
			return nil, err
		}
		known = -1
	}
	whole, left := j.onPaper(p, j.kits())
	if whole == nil && len(o.Bends) > 0 { // one page without figures of bend lines rather than two with them
		j.locate(false)
		if whole, _ = j.onPaper(p, j.kits()); whole == nil {
			j.locate(true)
		}
	}
	if whole == nil && left > hopeless {
		whole, _ = j.onPaper(p, j.lastKits())
	}
	if whole != nil {
		return &Set{Full: whole, Pages: []*Sheet{whole}, Paper: whole.Page}, nil
	}
	set, err := j.onPages(p)
	if err != nil {
		return nil, err
	}
	if set.Full, err = j.onUsual(usual[known+1:]); err != nil {
		return nil, err
	}
	return set, nil
}

// Release gives the memory of all sheets back, as Sheet.Release does.
func (s *Set) Release() {
	if s == nil {
		return
	}
	if len(s.Pages) != 1 || s.Pages[0] != s.Full {
		s.Full.Release()
	}
	s.release()
}

func (s *Set) release() {
	if s != nil {
		for _, p := range s.Pages {
			p.Release()
		}
	}
}

// spares are the widths of room round the part that are tried when labels find
// no clear place, mm.
var spares = [...]float64{0, 12, 30}

// onPages draws the part on several pages.
func (j *job) onPages(p Page) (*Set, error) {
	left := 0
	for _, spare := range spares {
		t, err := j.tile(p, spare)
		if err != nil && spare == 0 {
			return nil, err
		}
		if err != nil || left > hopeless {
			break
		}
		for _, k := range j.kits() {
			if k.dims == t.dims {
				k.rooms = t.rooms
				set, n := j.onTiles(t, k)
				if set != nil {
					return set, nil
				}
				left = n
			}
		}
	}
	t, err := j.tile(p, 0)
	if err != nil {
		return nil, err
	}
	k := j.lastKits()[0]
	k.dims, k.rooms = t.dims, t.rooms
	set, _ := j.onTiles(t, k)
	return set, nil
}

// onTiles draws the part on the pages of a tiling; nil when labels are left and
// the kit does not leave them out.
func (j *job) onTiles(t *tiling, k kit) (set *Set, left int) {
	canvas := newSheet(Page{Width: t.w, Height: t.h}, Reading{}, "")
	defer canvas.Release()
	if left = draw(canvas, j, Rect{0, 0, t.w, t.h}, k, t); left > 0 && !k.leave {
		return nil, left
	}
	set = &Set{Paper: t.page, Straddles: j.straddles(t)}
	tiles := j.tiles(t, canvas, set.Straddles)
	set.Pages = append(j.covers(t, canvas, k, tiles, set.Straddles), tiles...)
	return set, 0
}

// handWords is the part's hand.
func (j *job) handWords() string {
	hand := j.b.Hand.String()
	if j.b.Part != nil && j.b.Part.Hand.Text == "pair" {
		hand += ", of a pair"
	}
	return hand
}

func (j *job) thicknessWords() string { return unit.Text(j.b.Thickness, j.sys) }
