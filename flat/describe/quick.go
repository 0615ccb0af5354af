package describe

// The quick reader reads the everyday part of YAML: block and flow mappings
// and lists, plain and quoted scalars on one line, comments. Whatever it meets
// beyond that, or finds wrong, it leaves to the YAML library (yaml.go): it
// never reports, it only gives up. What it does read, it reads exactly as the
// library does, places included; a fuzz test holds the two together. It exists
// because it takes a tenth of the library's time.

// quick is the state of one reading. Block structure is read line by line:
// between constructs the cursor stands on the first sign of a line's content.
type quick struct {
	slab
	s     string
	ascii bool
	at    int   // next byte
	bol   int   // where the line begins
	line  int32 // from 1
	ind   int   // indent of the content line at the cursor; -1 at the end of the text

	colAt, colBol int // up to where the line's wide bytes have been counted
	colWide       int
}

// readQuick gives the tree of the text, or false where the text is not of the
// everyday kind.
func readQuick(s string, ascii bool) (*node, bool) {
	q := &quick{s: s, ascii: ascii, line: 1}
	// A node takes about five bytes of text.
	q.free = make([]node, min(len(s)/5+8, 4096))
	q.size = min(len(s)/20+8, 1024)
	if !q.seekContent() || q.ind < 0 {
		return nil, false
	}
	n := q.block(0, 1)
	if n == nil || q.ind >= 0 {
		return nil, false
	}
	return n, true
}

// col is the column of byte i of the current line, in characters from 1.
func (q *quick) col(i int) int32 {
	if q.ascii {
		return int32(i - q.bol + 1)
	}
	if q.colBol != q.bol || q.colAt > i {
		q.colBol, q.colAt, q.colWide = q.bol, q.bol, 0
	}
	for ; q.colAt < i; q.colAt++ {
		if q.s[q.colAt]&0xc0 == 0x80 {
			q.colWide++
		}
	}
	return int32(i - q.bol - q.colWide + 1)
}

func (q *quick) node(k kind, i int) *node { return q.new(k, q.line, q.col(i)) }

// lineEnd reports whether the text ends its line at i, and where the next line
// begins. A carriage return counts only before a line feed; alone it makes no
// line end here, and no plain text either.
func (q *quick) lineEnd(i int) (next int, end bool) {
	if i >= len(q.s) {
		return i, true
	}
	switch q.s[i] {
	case '\n':
		return i + 1, true
	case '\r':
		if i+1 < len(q.s) && q.s[i+1] == '\n' {
			return i + 2, true
		}
	}
	return i, false
}

func (q *quick) skipSpaces() {
	for q.at < len(q.s) && q.s[q.at] == ' ' {
		q.at++
	}
}

// comment skips a comment that begins at the cursor; false where it is not
// allowed to begin there.
func (q *quick) comment() bool {
	if q.at > q.bol && q.s[q.at-1] != ' ' {
		return false
	}
	for q.at < len(q.s) {
		c := q.s[q.at]
		if c == '\n' {
			break
		}
		if c == '\r' {
			_, end := q.lineEnd(q.at)
			return end
		}
		q.at++
	}
	return true
}

// newLine goes to the next line if the cursor is at a line's end.
func (q *quick) newLine() bool {
	next, end := q.lineEnd(q.at)
	if end && next > q.at {
		q.at, q.bol = next, next
		q.line++
	}
	return end
}

// endLine makes sure that the rest of the line is blank or a comment and goes
// on to the next content.
func (q *quick) endLine() bool {
	q.skipSpaces()
	if q.at < len(q.s) && q.s[q.at] == '#' && !q.comment() {
		return false
	}
	return q.newLine() && q.seekContent()
}

// seekContent goes from the start of a line to the next line with content.
func (q *quick) seekContent() bool {
	for {
		q.skipSpaces()
		if q.at >= len(q.s) {
			q.ind = -1
			return true
		}
		if q.s[q.at] == '#' && !q.comment() {
			return false
		}
		if _, end := q.lineEnd(q.at); end {
			if q.at >= len(q.s) {
				q.ind = -1
				return true
			}
			q.newLine()
			continue
		}
		q.ind = q.at - q.bol
		return q.ind > 0 || !q.documentMark()
	}
}

// documentMark reports whether the line at the cursor begins or ends a
// document or is a directive.
func (q *quick) documentMark() bool {
	rest := q.s[q.at:]
	return rest[0] == '%' || len(rest) >= 3 && (rest[:3] == "---" || rest[:3] == "...")
}

// dash reports whether a list item begins at the cursor.
func (q *quick) dash() bool {
	return q.s[q.at] == '-' && q.blankAt(q.at+1)
}

func (q *quick) blankAt(i int) bool {
	if i >= len(q.s) {
		return true
	}
	switch q.s[i] {
	case ' ', '\n', '\r', '\t':
		return true
	}
	return false
}

// block reads the mapping or list whose first line is at the cursor.
func (q *quick) block(min, depth int) *node {
	if q.ind < min || depth > maxDepth {
		return nil
	}
	if q.dash() {
		return q.blockList(q.ind, depth)
	}
	return q.blockMapping(q.ind, depth)
}

func (q *quick) blockList(ind, depth int) *node {
	n := q.node(listKind, q.at)
	ks := kids{of: n}
	for q.ind == ind && q.dash() {
		q.at++
		item := q.listItem(ind, depth)
		if item == nil || q.ind > ind {
			return nil
		}
		ks.add(item)
	}
	return n
}

// listItem reads what follows a dash.
func (q *quick) listItem(ind, depth int) *node {
	after := q.at
	q.skipSpaces()
	if q.restEmpty() {
		return q.nested(ind+1, depth, after)
	}
	c := q.s[q.at]
	if q.dash() {
		return nil // a list in a list on one line
	}
	if c == '{' || c == '[' || c == '"' || c == '\'' {
		return q.inline(ind, depth)
	}
	start := q.at
	_, stop, ok := q.plain(false)
	if !ok {
		return nil
	}
	q.at = start
	if stop == ':' {
		q.ind = start - q.bol
		if depth >= maxDepth {
			return nil
		}
		return q.blockMapping(q.ind, depth+1)
	}
	return q.inline(ind, depth)
}

// restEmpty reports whether nothing but a comment is left of the line.
func (q *quick) restEmpty() bool {
	if _, end := q.lineEnd(q.at); end {
		return true
	}
	return q.s[q.at] == '#'
}

// nested reads the value that begins on a following line, indented by at least
// min; an empty scalar after byte i of this line where there is none.
func (q *quick) nested(min, depth, i int) *node {
	none := q.node(scalarKind, i)
	if !q.endLine() {
		return nil
	}
	if q.ind >= min {
		return q.block(min, depth+1)
	}
	return none
}

func (q *quick) blockMapping(ind, depth int) *node {
	n := q.node(mappingKind, q.at)
	ks := kids{of: n}
	for q.ind == ind {
		if q.dash() {
			return nil
		}
		key := q.key(false)
		if key == nil {
			return nil
		}
		ks.add(key)
		value := q.mappingValue(ind, depth)
		if value == nil || q.ind > ind {
			return nil
		}
		ks.add(value)
	}
	return n
}

// key reads a plain key and its colon.
func (q *quick) key(flow bool) *node {
	start := q.at
	end, stop, ok := q.plain(flow)
	if !ok || stop != ':' || end-start > 4*maxName {
		return nil
	}
	n := q.node(scalarKind, start)
	n.text = q.s[start:end]
	q.at++ // the colon: plain stops on it
	return n
}

// mappingValue reads what follows a key's colon in a block mapping.
func (q *quick) mappingValue(ind, depth int) *node {
	after := q.at
	q.skipSpaces()
	if !q.restEmpty() {
		if q.dash() {
			return nil
		}
		return q.inline(ind, depth)
	}
	none := q.node(scalarKind, after)
	if !q.endLine() {
		return nil
	}
	switch {
	case q.ind > ind:
		return q.block(ind+1, depth+1)
	case q.ind == ind && q.dash():
		if depth >= maxDepth {
			return nil
		}
		return q.blockList(ind, depth+1)
	}
	return none
}

// inline reads a value that begins on this line in a block indented by ind,
// and the rest of its line.
func (q *quick) inline(ind, depth int) *node {
	n := q.value(ind, depth, false)
	if n == nil || !q.endLine() || q.ind > ind {
		return nil
	}
	return n
}

// value reads a flow collection or a scalar at the cursor.
func (q *quick) value(ind, depth int, flow bool) *node {
	switch c := q.s[q.at]; c {
	case '[', '{':
		if depth >= maxDepth {
			return nil
		}
		if c == '[' {
			return q.flowList(ind, depth+1)
		}
		return q.flowMapping(ind, depth+1)
	case '"', '\'':
		return q.quoted()
	}
	start := q.at
	end, stop, ok := q.plain(flow)
	if !ok || stop == ':' {
		return nil
	}
	n := q.node(scalarKind, start)
	n.text = q.s[start:end]
	return n
}

// quoted reads a quoted scalar without escapes that ends on its line.
func (q *quick) quoted() *node {
	mark := q.s[q.at]
	n := q.node(scalarKind, q.at)
	n.style = singleStyle
	if mark == '"' {
		n.style = doubleStyle
	}
	start := q.at + 1
	for i := start; i < len(q.s); i++ {
		switch q.s[i] {
		case mark:
			if mark == '\'' && i+1 < len(q.s) && q.s[i+1] == '\'' {
				return nil
			}
			n.text = q.s[start:i]
			q.at = i + 1
			return n
		case '\\':
			if mark == '"' {
				return nil
			}
		case '\n', '\r':
			return nil
		}
	}
	return nil
}

// Signs that cannot begin a plain scalar, or only before more text.
var (
	neverFirst = signs(",[]{}#&*!|>'\"%@`")
	flowSign   = signs(",[]{}")
	plainStop  = signs(" \n\r\t?#:,[]{}") // worth a look inside a plain scalar
)

func signs(s string) (t [256]bool) {
	for i := 0; i < len(s); i++ {
		t[s[i]] = true
	}
	return t
}

// plain reads a plain scalar on one line. It leaves the cursor on the sign
// that ended it, gives that sign (0 for the end of the line) and where the text
// ends without trailing spaces.
func (q *quick) plain(flow bool) (end int, stop byte, ok bool) {
	s, i := q.s, q.at
	switch c := s[i]; {
	case neverFirst[c], c == '\t':
		return 0, 0, false
	case c == '-' || c == '?' || c == ':':
		if q.blankAt(i+1) || flowSign[s[i+1]] {
			return 0, 0, false
		}
	}
	end = i
	for ; i < len(s); i++ {
		c := s[i]
		if !plainStop[c] {
			end = i + 1
			continue
		}
		switch c {
		case ' ':
			continue
		case '\n', '\r':
			_, e := q.lineEnd(i)
			q.at = i
			return end, 0, e
		case '\t':
			return 0, 0, false
		case '?':
			if flow {
				return 0, 0, false
			}
		case '#':
			if s[i-1] == ' ' {
				q.at = i
				return end, '#', true
			}
		case ':':
			if q.blankAt(i + 1) {
				q.at = i
				return end, ':', true
			}
			if flow && flowSign[s[i+1]] {
				return 0, 0, false
			}
		case ',', '[', ']', '{', '}':
			if flow {
				q.at = i
				return end, c, true
			}
		}
		end = i + 1
	}
	q.at = i
	return end, 0, true
}

func closer(c byte) bool { return c == ']' || c == '}' }

// flowSpace skips blanks, comments and line ends inside brackets. A line that
// goes on inside brackets must be indented deeper than the block around them,
// unless it begins with the closing bracket.
func (q *quick) flowSpace(ind int) bool {
	for q.at < len(q.s) {
		switch q.s[q.at] {
		case ' ':
			q.at++
		case '#':
			if !q.comment() {
				return false
			}
		case '\n', '\r':
			if !q.newLine() {
				return false
			}
			q.skipSpaces()
			if q.at-q.bol <= ind && q.at < len(q.s) && !q.restEmpty() && !closer(q.s[q.at]) {
				return false
			}
		case '\t':
			return false
		default:
			return true
		}
	}
	return false
}

func (q *quick) flowList(ind, depth int) *node {
	n := q.node(listKind, q.at)
	ks := kids{of: n}
	q.at++
	for {
		if !q.flowSpace(ind) {
			return nil
		}
		if q.s[q.at] == ']' {
			q.at++
			return n
		}
		item := q.value(ind, depth, true)
		if item == nil || !q.flowSpace(ind) {
			return nil
		}
		ks.add(item)
		if q.s[q.at] == ',' {
			q.at++
		} else if q.s[q.at] != ']' {
			return nil
		}
	}
}

func (q *quick) flowMapping(ind, depth int) *node {
	n := q.node(mappingKind, q.at)
	ks := kids{of: n}
	q.at++
	for {
		if !q.flowSpace(ind) {
			return nil
		}
		if q.s[q.at] == '}' {
			q.at++
			return n
		}
		key := q.key(true)
		if key == nil || !q.flowSpace(ind) {
			return nil
		}
		ks.add(key)
		value := q.value(ind, depth, true)
		if value == nil || !q.flowSpace(ind) {
			return nil
		}
		ks.add(value)
		if q.s[q.at] == ',' {
			q.at++
		} else if q.s[q.at] != '}' {
			return nil
		}
	}
}
