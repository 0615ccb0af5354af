package describe

// maxPieces is the most entries that add, cutouts, tabs and tab slots may have,
// each.
const maxPieces = 500

// addedKeys and cutoutKeys are a name and every kind of outline; a cutout may
// also be a saddle.
var (
	addedKeys  = mapping[Piece]{"an added shape", pieceFields()}
	cutoutKeys = mapping[Piece]{"a cutout", append(pieceFields(),
		field[Piece]{"saddle", false, func(r *reader, n *node, p *Piece) { p.Saddle = r.saddle(n) }})}
)

func pieceFields() []field[Piece] {
	fields := []field[Piece]{{"name", false, func(r *reader, n *node, p *Piece) { p.Name = r.ownName(n, "a shape") }}}
	for _, f := range outlineKeys.fields {
		fields = append(fields, field[Piece]{f.key, false, func(r *reader, n *node, p *Piece) { f.read(r, n, &p.Shape) }})
	}
	return fields
}

// ownName reads the name of a thing that stands in a list.
func (r *reader) ownName(n *node, of string) Word {
	w := r.word(n)
	if !w.Set {
		return w
	}
	if w = r.name(n, of); w.Set {
		r.named = append(r.named, w)
	}
	return w
}

// pieces reads a list of shapes.
func (r *reader) pieces(n *node, keys *mapping[Piece]) []Piece {
	if !r.pieceList(n, "shapes like {disc: {at: [0, 0], diameter: 40}}") {
		return nil
	}
	ps := make([]Piece, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = keys.what, nil
		p := Piece{Pos: r.pos(item)}
		p.Shape.Pos = p.Pos
		if found, ok := readMapping(r, item, keys, &p); ok {
			r.exactlyOne(item, keys.what, &found, keys.keys()[1:]...)
		}
		ps = append(ps, p)
	}
	return ps
}

// pieceList reports whether n is a list with something in it, and not too much.
func (r *reader) pieceList(n *node, of string) bool {
	if n.empty() || !r.list(n, 0, of) || n.kids == 0 {
		return false
	}
	if n.kids > maxPieces {
		r.add(r.pos(n), "%s is a list of %d, at most %d are made", r.key, n.kids, maxPieces)
		return false
	}
	return true
}

var saddleKeys = mapping[Saddle]{"a saddle", []field[Saddle]{
	{"tube", true, func(r *reader, n *node, s *Saddle) { s.Tube = r.positive(n) }},
	{"wall", false, func(r *reader, n *node, s *Saddle) { s.Wall = r.positive(n) }},
	{"at", true, func(r *reader, n *node, s *Saddle) { s.At = r.point(n) }},
	{"gap", false, func(r *reader, n *node, s *Saddle) { s.Gap = r.notNegative(n) }},
	{"wrap", false, func(r *reader, n *node, s *Saddle) { s.Wrap = r.wrap(n) }},
}}

func (r *reader) saddle(n *node) *Saddle {
	s := &Saddle{Pos: r.pos(n)}
	readMapping(r, n, &saddleKeys, s)
	if s.Wall.MM > 0 && s.Tube.MM > 0 && 2*s.Wall.MM >= s.Tube.MM {
		r.addHint(s.Wall.Pos, "is the unit right?", "the wall of the tube is half of its outside or more")
	}
	return s
}

// wrap reads how far a plate goes round a tube: more than nothing, and not all
// the way.
func (r *reader) wrap(n *node) Angle {
	const most = 350
	a := r.angle(n, 0, most)
	if a.Set && a.Rad == 0 {
		r.add(a.Pos, "%s is %s, wanted more than 0 and at most %d deg", r.key, quote(n.text), most)
	}
	return a
}
