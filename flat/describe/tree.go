package describe

// kind is what a node of the text's tree is.
type kind uint8

const (
	scalarKind  kind = iota // a piece of text
	listKind                // a list
	mappingKind             // keys with values
	brokenKind              // something already reported
)

// style is how a scalar is written.
type style uint8

const (
	plainStyle style = iota
	singleStyle
	doubleStyle
	blockStyle // | or >
)

// node is one node of the tree that a description's text makes: a mapping has
// its keys and values as kids in turn.
type node struct {
	kind      kind
	style     style
	line, col int32 // from 1; col in characters
	kids      int32
	text      string // of a scalar
	first     *node
	next      *node // sibling
}

// kids adds the kids of a node one by one.
type kids struct {
	of   *node
	last *node
}

func (k *kids) add(kid *node) {
	if k.last == nil {
		k.of.first = kid
	} else {
		k.last.next = kid
	}
	k.last = kid
	k.of.kids++
}

// empty reports whether a scalar has no value: nothing written, or the word
// that YAML has for nothing.
func (n *node) empty() bool {
	if n.kind != scalarKind {
		return false
	}
	if n.style != plainStyle {
		return n.text == ""
	}
	switch n.text {
	case "", "~", "null", "Null", "NULL":
		return true
	}
	return false
}

// slab hands out nodes in blocks, so that a tree costs few allocations.
type slab struct {
	free []node
	size int // of the next block
}

func (s *slab) new(k kind, line, col int32) *node {
	if len(s.free) == 0 {
		s.size = max(s.size, 64)
		s.free = make([]node, s.size)
	}
	n := &s.free[0]
	s.free = s.free[1:]
	n.kind, n.line, n.col = k, line, col
	return n
}
