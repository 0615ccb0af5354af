package describe

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"blankwright/flat/diag"
)

// readTree gives the tree of a description's text. Where the text is not YAML,
// or uses what a description has no use for, the problems say so; the tree may
// be nil then.
func readTree(file, s string, ascii bool) (*node, diag.Problems) {
	if n, ok := readQuick(s, ascii); ok {
		return n, nil
	}
	return readFull(file, s)
}

// readFull reads the text with the YAML library: the whole of the language, and
// the authority on what is wrong with a text.
func readFull(file, s string) (*node, diag.Problems) {
	if line, ok := directive(s); ok {
		return nil, diag.Problems{{
			Pos:     diag.Pos{File: file, Line: line, Col: 1},
			Message: "a directive: a description has none",
			Hint:    "leave the line out",
		}}
	}
	loader, err := yaml.NewLoader(strings.NewReader(s),
		yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(maxDepth), loaderlimits.AliasNone())))
	if err != nil {
		return nil, syntaxProblem(file, s, err)
	}
	var doc yaml.Node
	if err := loader.Load(&doc); err != nil {
		if err == io.EOF {
			return nil, nothing(file)
		}
		return nil, syntaxProblem(file, s, err)
	}
	t := &treeMaker{file: file}
	root := t.convert(&doc, 0)
	var second yaml.Node
	switch err := loader.Load(&second); {
	case err == nil:
		t.problems.AddHint(diag.Pos{File: file, Line: max(second.Line, 1), Col: max(second.Column, 1)},
			"one file describes one part; put the second part into a file of its own",
			"a second document begins here, wanted one")
	case err != io.EOF:
		return nil, append(t.problems, syntaxProblem(file, s, err)...)
	}
	if root != nil && root.empty() {
		return nil, nothing(file)
	}
	return root, t.problems
}

// directive reports whether the first line with content is a YAML directive.
func directive(s string) (line int, ok bool) {
	for line = 1; s != ""; line++ {
		text := lineText(s, 1)
		switch {
		case strings.HasPrefix(text, "%"):
			return line, true
		case text != "" && text[0] != '#' && strings.TrimSpace(text) != "":
			return 0, false
		}
		s = s[len(text):]
		s = s[endLength(s):]
	}
	return 0, false
}

func nothing(file string) diag.Problems {
	return diag.Problems{{
		Pos:     diag.Pos{File: file, Line: 1, Col: 1},
		Message: "the file describes nothing, wanted a part",
		Hint:    "begin with a line like part: axle tab",
	}}
}

// treeMaker turns the library's tree into ours, and refuses anchors, aliases
// and tags on the way.
type treeMaker struct {
	slab
	file     string
	problems diag.Problems
}

func (t *treeMaker) bad(y *yaml.Node, hint, format string, args ...any) {
	if len(t.problems) < maxProblems {
		t.problems.AddHint(diag.Pos{File: t.file, Line: y.Line, Col: y.Column}, hint, format, args...)
	}
}

func (t *treeMaker) convert(y *yaml.Node, depth int) *node {
	if y.Kind == yaml.DocumentNode {
		if len(y.Content) == 0 {
			return nil
		}
		return t.convert(y.Content[0], depth)
	}
	n := t.new(brokenKind, int32(y.Line), int32(y.Column))
	if y.Anchor != "" {
		t.bad(y, "write the value out, or give it a name under let", "anchor &%s: a description has no anchors", y.Anchor)
	}
	if y.Style&yaml.TaggedStyle != 0 || y.Tag == "!" {
		t.bad(y, "leave the tag out", "tag %s: a description has no tags", y.Tag)
	}
	switch y.Kind {
	case yaml.AliasNode:
		t.bad(y, "write the value out, or give it a name under let", "alias *%s: a description has no aliases", y.Value)
		return n
	case yaml.ScalarNode:
		n.kind, n.text = scalarKind, y.Value
		switch {
		case y.Style&yaml.SingleQuotedStyle != 0:
			n.style = singleStyle
		case y.Style&yaml.DoubleQuotedStyle != 0:
			n.style = doubleStyle
		case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
			n.style = blockStyle
		}
		return n
	case yaml.SequenceNode:
		n.kind = listKind
	case yaml.MappingNode:
		n.kind = mappingKind
	}
	if depth >= maxDepth {
		t.bad(y, "a description needs no more than 6", "lists and mappings lie %d deep, at most %d are read", depth+1, maxDepth)
		n.kind = brokenKind
		return n
	}
	ks := kids{of: n}
	for _, c := range y.Content {
		ks.add(t.convert(c, depth+1))
	}
	return n
}

// said says in the trade's words what the library found, by a part of its
// message. Where the place that the context began at helps more than the place
// where the reading stopped, context is set.
var said = []struct {
	part    string
	message string
	hint    string
	context bool
}{
	{"mapping values are not allowed", "a colon where no key can be", "put a text that holds a colon in quotes; indent the keys of one mapping alike", false},
	{"did not find expected ',' or '}'", "the { opened here is not closed, or a comma is missing", "end it with }, and put a comma between its entries", true},
	{"did not find expected ',' or ']'", "the [ opened here is not closed, or a comma is missing", "end it with ], and put a comma between its entries", true},
	{"found unexpected end of stream", "the quote opened here is not closed", "end it with the same quote mark", true},
	{"found unexpected document indicator", "the quote opened here is not closed", "end it with the same quote mark", true},
	{"could not find expected ':'", "a key without a colon", "write key: value, with a space after the colon", true},
	{"did not find expected key", "text where a key was wanted", "indent the keys of one mapping alike; write key: value", false},
	{"did not find expected '-' indicator", "text where a list item was wanted", "indent the items of one list alike; begin each with a dash and a space", false},
	{"block sequence entries are not allowed", "a dash where no list can be", "begin a list on a line of its own; write a minus right before its number", false},
	{"found character that cannot start any token", "a character that no plain text can begin with", "put the text in quotes", false},
	{"tab character", "a tab where spaces are wanted", "indent with spaces", false},
	{"did not find expected node content", "a value was wanted here", "is a comma or a bracket too many?", false},
	{"unknown escape character", "a backslash before a character that has no meaning after it", "write \\\\ for a backslash, or use single quotes", false},
	{"exceeded max depth", fmt.Sprintf("lists and mappings lie too deep, at most %d are read", maxDepth), "a description needs no more than 6", false},
	{"comment without preceding whitespace", "a # right after other text", "put a space before a comment, or quotes round a text that holds #", false},
	{"unknown anchor", "an alias: a description has no aliases", "write the value out, or give it a name under let", false},
	{"anchor", "an anchor or alias: a description has none", "write the value out, or give it a name under let", false},
	{"alias", "an anchor or alias: a description has none", "write the value out, or give it a name under let", false},
	{"tag", "a tag: a description has none", "leave it out; put a text that begins with ! in quotes", false},
	{"document", "text that belongs to no key here", "indent the keys of one mapping alike", false},
}

func syntaxProblem(file, s string, err error) diag.Problems {
	p := diag.Problem{Pos: diag.Pos{File: file, Line: 1, Col: 1}, Message: "the text cannot be read as YAML: " + err.Error()}
	var le *yaml.LoadError
	if !errors.As(err, &le) {
		return diag.Problems{p}
	}
	p.Message = "the text cannot be read as YAML: " + strings.TrimSpace(le.ContextMsg+" "+le.Message)
	mark := le.Mark
	for _, w := range said {
		if strings.Contains(le.Message, w.part) || strings.Contains(le.ContextMsg, w.part) {
			p.Message, p.Hint = w.message, w.hint
			if w.context && le.ContextMark.Line > 0 {
				mark = le.ContextMark
			}
			break
		}
	}
	if open := le.ContextMark; mark == open && le.Mark.Line == open.Line && strings.HasPrefix(le.Message, "did not find expected ','") {
		bracket := "{"
		p.Message = "a comma or a } is wanted here"
		if strings.HasSuffix(le.Message, "']'") {
			bracket, p.Message = "[", "a comma or a ] is wanted here"
		}
		mark = le.Mark
		p.Hint = fmt.Sprintf("the %s at column %d is open", bracket, open.Column)
	}
	if mark.Line > 0 {
		p.Pos.Line, p.Pos.Col = mark.Line, max(mark.Column, 1)
	}
	if line, col := textEnd(s); p.Pos.Line > line || p.Pos.Line == line && p.Pos.Col >= col {
		p.Pos.Line, p.Pos.Col = line, col
		p.Message, p.Hint = "the text ends here, where more was wanted", "is a bracket or a quote left open?"
	}
	if r := afterCol(lineText(s, p.Pos.Line), p.Pos.Col); r != "" {
		switch c, _ := utf8.DecodeRuneInString(r); {
		case c == '\t':
			p.Message, p.Hint = "a tab where spaces are wanted", "indent with spaces"
		case c == '-' && strings.Contains(p.Message, "value was wanted"):
			p.Message, p.Hint = "a dash where no list can be", "write a minus right before its number or name"
		case strings.Contains(p.Message, "no plain text"):
			p.Message = fmt.Sprintf("%c cannot begin a plain text", c)
		}
	}
	if strings.Contains(p.Message, "not closed") && hashOnLine(s, p.Pos.Line, p.Pos.Col) {
		p.Hint = "a # after a space begins a comment that hides the rest of the line; put a text that begins with # in quotes: \"#7\""
	}
	return diag.Problems{p}
}

// textEnd gives the place behind the last sign of the text that is no blank.
func textEnd(s string) (line, col int) {
	s = strings.TrimRight(s, " \t\r\n")
	line = 1
	for i := strings.IndexAny(s, "\r\n"); i >= 0; i = strings.IndexAny(s, "\r\n") {
		s = s[i:]
		s = s[endLength(s):]
		line++
	}
	return line, utf8.RuneCountInString(s) + 1
}

// hashOnLine reports whether a comment begins on the line after the column, at
// a # that looks like the start of a drill's number.
func hashOnLine(s string, line, col int) bool {
	text := lineText(s, line)
	for i := col; i+1 < len(text); i++ {
		if text[i] == '#' && text[i-1] == ' ' && text[i+1] != ' ' {
			return true
		}
	}
	return false
}

// lineText gives a line (from 1) of the text, without its end. Lines end as
// YAML has them: at a line feed, or at a carriage return.
func lineText(s string, line int) string {
	for ; line > 1; line-- {
		i := strings.IndexAny(s, "\r\n")
		if i < 0 {
			return ""
		}
		if strings.HasPrefix(s[i:], "\r\n") {
			i++
		}
		s = s[i+1:]
	}
	if i := strings.IndexAny(s, "\r\n"); i >= 0 {
		s = s[:i]
	}
	return s
}
