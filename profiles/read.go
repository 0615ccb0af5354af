package profiles

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"blankwright/flat/diag"
)

// MaxProfile is the most bytes that a profile may have.
const MaxProfile = 1 << 16

const (
	profileDepth    = 6
	profileProblems = 100
	mostRows        = 200 // of one table
	largest         = 1e6 // value of any figure
)

// With reads a profile and gives a set with its rows on top of this one; s stays as
// it is. file is the name for messages. The error is diag.Problems with everything
// that is wrong with the text, each with its place.
//
//	profile: orchard workshop
//	processes:
//	  air plasma: {kerf: 1.7 mm, tolerance: 0.8 mm}
//	  old table: {like: air plasma, kerf: 2.2 mm, hole times: 2}
//	materials:
//	  yard plate: {like: S275, fy: 235 MPa}
//	shop: {toe: 8 mm, wall ratio: 1.5}
//	fits:
//	  shell: [{to: 40 mm, allowance: -0.08 mm}, {to: 90 mm, allowance: -0.12 mm}]
//	coatings: {paint: 0.15 mm}
//	currency: EUR
//	rates:
//	  air plasma:
//	    lead in: 4 mm
//	    feeds: [{to: 6.5 mm, feed: 2400 mm/min, pierce: 0.4 s}, {to: 10 mm, feed: 1500 mm/min, pierce: 0.6 s}]
//	    cost per hour: 95
//	    cost per pierce: 0.15
//	    cost per kg: 1.4
//	layers:
//	  marks: {name: SCRIBE, colour: 6}
//	  outline: {name: CUT-OUTER}
//	test bends:
//	  hanger: {thickness: 3/16 in, radius: 3/16 in, angle: 90, flat: 100 mm, legs: [54.2 mm, 54.2 mm]}
//
// A figure is a number with its unit: mm or in for lengths, MPa or ksi for
// stresses; a bare number where it has none.
func (s *Set) With(file string, text []byte) (*Set, error) {
	r := &profileReader{file: file}
	root := r.load(text)
	if root == nil {
		return nil, r.problems.Err()
	}
	t := *s.orDefault()
	t.processes = slices.Clone(t.processes)
	t.materials = slices.Clone(t.materials)
	t.tabFits = slices.Clone(t.tabFits)
	t.fits = slices.Clone(t.fits)
	t.coatings = slices.Clone(t.coatings)
	t.cuttings = slices.Clone(t.cuttings)
	t.testBends = slices.Clone(t.testBends)
	t.own = append(slices.Clone(t.own), file)
	r.set = &t
	r.profile(root)
	if err := r.problems.Err(); err != nil {
		return nil, err
	}
	return &t, nil
}

type profileReader struct {
	file     string
	set      *Set
	problems diag.Problems
}

func (r *profileReader) add(n *yaml.Node, hint, format string, args ...any) {
	if len(r.problems) < profileProblems {
		r.problems.AddHint(diag.Pos{File: r.file, Line: n.Line, Col: n.Column}, hint, format, args...)
	}
}

// load gives the top mapping of the text, or nil with the problem noted.
func (r *profileReader) load(text []byte) *yaml.Node {
	whole := diag.Pos{File: r.file}
	switch {
	case len(text) > MaxProfile:
		r.problems.AddHint(whole, "is this the right file?", "the profile has more than %d bytes", MaxProfile)
		return nil
	case !utf8.Valid(text):
		r.problems.AddHint(whole, "save the file again as UTF-8", "the profile is not UTF-8 text")
		return nil
	}
	loader, err := yaml.NewLoader(strings.NewReader(string(text)),
		yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(profileDepth), loaderlimits.AliasNone())))
	var doc, second yaml.Node
	if err == nil {
		err = loader.Load(&doc)
	}
	switch {
	case errors.Is(err, io.EOF):
		r.problems.AddHint(diag.Pos{File: r.file, Line: 1, Col: 1}, "begin with a line like profile: orchard workshop", "the profile is empty")
		return nil
	case err != nil:
		r.problems.Add(diag.Pos{File: r.file, Line: 1, Col: 1}, "the profile cannot be read as YAML: %s", strings.TrimPrefix(err.Error(), "yaml: "))
		return nil
	case len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode:
		r.problems.AddHint(diag.Pos{File: r.file, Line: 1, Col: 1}, "begin with a line like profile: orchard workshop", "the profile is no mapping of keys to values")
		return nil
	}
	if err := loader.Load(&second); !errors.Is(err, io.EOF) {
		r.problems.Add(diag.Pos{File: r.file, Line: max(1, second.Line), Col: max(1, second.Column)}, "a second document begins here, wanted one")
		return nil
	}
	return doc.Content[0]
}

// key is one key of a mapping of a profile.
type key struct {
	name string
	read func(n *yaml.Node)
}

// keys reads a mapping by its known keys: unknown and repeated ones are told. It
// reports whether n is a mapping.
func (r *profileReader) keys(n *yaml.Node, what string, known ...key) bool {
	if n.Kind != yaml.MappingNode {
		r.add(n, "", "%s is no mapping of keys to values", what)
		return false
	}
	var names []string
	for _, k := range known {
		names = append(names, k.name)
	}
	r.each(n, what, func(name string, k, v *yaml.Node) {
		i := slices.Index(names, name)
		if i < 0 {
			hint := "known here: " + strings.Join(names, ", ")
			if near := diag.Nearest(name, names); near != "" {
				hint = "write " + near
			}
			r.add(k, hint, "unknown key %q in %s", short40(name), what)
			return
		}
		known[i].read(v)
	})
	return true
}

// each goes through a mapping; a name that comes twice is told.
func (r *profileReader) each(n *yaml.Node, what string, do func(name string, k, v *yaml.Node)) {
	if n.Kind != yaml.MappingNode {
		if n.Tag != "!!null" {
			r.add(n, "", "%s is no mapping of names to values", what)
		}
		return
	}
	if len(n.Content) > 2*mostRows {
		r.add(n, "", "%s has %d rows, at most %d are read", what, len(n.Content)/2, mostRows)
		return
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		switch {
		case k.Kind != yaml.ScalarNode || k.Anchor != "" || v.Anchor != "" || v.Kind == yaml.AliasNode:
			r.add(k, "write names and values out", "a profile has plain names, no anchors and no aliases")
		case seen[k.Value]:
			r.add(k, "keep one of them", "%q is given twice in %s", short40(k.Value), what)
		default:
			seen[k.Value] = true
			do(k.Value, k, v)
		}
	}
}

// short40 keeps a word of the file short in a message.
func short40(s string) string {
	if u := []rune(s); len(u) > 40 {
		return string(u[:40]) + "..."
	}
	return s
}

func (r *profileReader) profile(root *yaml.Node) {
	var rates *yaml.Node // of processes that may stand further down
	r.keys(root, "the profile",
		key{"profile", func(n *yaml.Node) { r.word(n) }},
		key{"processes", func(n *yaml.Node) { r.each(n, "processes", r.process) }},
		key{"materials", func(n *yaml.Node) { r.each(n, "materials", r.material) }},
		key{"shop", func(n *yaml.Node) { r.shop(n) }},
		key{"fits", func(n *yaml.Node) { r.each(n, "fits", r.fit) }},
		key{"coatings", func(n *yaml.Node) { r.each(n, "coatings", r.coating) }},
		key{"currency", r.currencyOf},
		key{"rates", func(n *yaml.Node) { rates = n }},
		key{"layers", r.layer},
		key{"test bends", func(n *yaml.Node) { r.each(n, "test bends", r.testBend) }},
	)
	if rates != nil {
		r.each(rates, "rates", r.cutting)
	}
}

func (r *profileReader) source() Source { return Source{"profile " + r.file, ShopsOwn} }

// word reads a plain text.
func (r *profileReader) word(n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode || strings.TrimSpace(n.Value) == "" || n.Tag == "!!null" || len(n.Value) > 200 {
		r.add(n, "", "wanted a text of at most 200 characters")
		return ""
	}
	return strings.TrimSpace(n.Value)
}

// figure is what a number of a profile may be.
type figure struct {
	units       map[string]float64 // nil for a bare number
	least, most float64
	whole       bool
}

var (
	lengthUnits = map[string]float64{"mm": 1, "in": inch, `"`: inch}
	stressUnits = map[string]float64{"MPa": 1, "N/mm2": 1, "ksi": ksi}
	aLength     = figure{lengthUnits, 0, largest, false}
	aSigned     = figure{lengthUnits, -largest, largest, false}
	aStress     = figure{stressUnits, 1, largest, false}
)

// example is a figure of the kind for people.
func (f figure) example() string {
	for _, e := range [...]struct{ unit, text string }{{"ksi", "355 MPa"}, {"m/min", "2400 mm/min"}, {"s", "0.4 s"}} {
		if _, ok := f.units[e.unit]; ok {
			return e.text
		}
	}
	return "1.5 mm"
}

// number reads a figure.
func (r *profileReader) number(n *yaml.Node, f figure, into *float64) {
	wanted := "a number"
	if f.units != nil {
		wanted = "a number with its unit, like " + f.example()
	}
	if n.Kind != yaml.ScalarNode {
		r.add(n, "", "wanted %s", wanted)
		return
	}
	text := strings.TrimSpace(n.Value)
	if len(text) > longestName {
		r.add(n, "", "%q is too long, wanted %s", short40(text), wanted)
		return
	}
	scale, digits := 1.0, text
	if f.units != nil {
		longest := "" // mm/min ends in m/min as well
		for u := range f.units {
			if strings.HasSuffix(text, u) && len(u) > len(longest) {
				longest = u
			}
		}
		scale, digits = f.units[longest], strings.TrimSpace(strings.TrimSuffix(text, longest))
		if longest == "" {
			r.add(n, "", "%q has no unit that is known here, wanted %s", short40(text), wanted)
			return
		}
	}
	v, ok := readFigure(digits)
	switch v *= scale; {
	case !ok || math.IsNaN(v) || math.IsInf(v, 0):
		r.add(n, "", "%q is not %s", short40(text), wanted)
	case f.whole && v != math.Trunc(v):
		r.add(n, "", "%q is no whole number", short40(text))
	case v < f.least || v > f.most:
		r.add(n, "", "%q is out of reach, wanted %s to %s", short40(text), short(f.least, 3), short(f.most, 3))
	default:
		*into = v
	}
}

// readFigure reads 1.5, -0.02, 1/16 and 1-1/4.
func readFigure(s string) (float64, bool) {
	if !strings.ContainsRune(s, '/') {
		v, err := strconv.ParseFloat(s, 64)
		return v, err == nil
	}
	rest, sign := s, 1.0
	if r, ok := strings.CutPrefix(s, "-"); ok {
		rest, sign = strings.TrimSpace(r), -1
	}
	v, after, ok := readInches(rest)
	return sign * v, ok && after == ""
}

// process reads one row over processes: a change to a row that there is, or a new
// one like another.
func (r *profileReader) process(name string, k, n *yaml.Node) {
	at := slices.IndexFunc(r.set.processes, func(p processRow) bool { return squeeze(p.p.Name) == squeeze(name) })
	var row processRow
	fit, known := TabFit{}, at >= 0
	twin := "" // whose rates a new row takes over
	if known {
		row, fit = r.set.processes[at], r.set.TabFitFor(r.set.processes[at].p)
	}
	like := r.like(n, func(w string) error {
		p, err := r.set.FindProcess(w)
		if err == nil {
			row, fit, known, twin = processRow{p: p}, r.set.TabFitFor(p), true, p.Name
		}
		return err
	})
	if !known && !like {
		r.add(k, "begin it with like: air plasma, or another row", "process %q is not in the tables and is like none of them", short40(name))
		return
	}
	p := &row.p
	var class, grade = float64(p.Class), float64(p.Range)
	ok := r.keys(n, "a process",
		key{"like", func(*yaml.Node) {}},
		key{"kerf", func(n *yaml.Node) { r.number(n, figure{lengthUnits, 0.01, 50, false}, &p.Kerf) }},
		key{"hole times", func(n *yaml.Node) { r.number(n, figure{nil, 0, 20, false}, &p.MinHoleT) }},
		key{"least hole", func(n *yaml.Node) { r.number(n, aLength, &p.MinHole) }},
		key{"web times", func(n *yaml.Node) { r.number(n, figure{nil, 0, 20, false}, &p.MinWebT) }},
		key{"least web", func(n *yaml.Node) { r.number(n, aLength, &p.MinWeb) }},
		key{"shortest edge", func(n *yaml.Node) { r.number(n, aLength, &p.MinSeg) }},
		key{"tolerance", func(n *yaml.Node) { r.number(n, aLength, &p.Tolerance) }},
		key{"class", func(n *yaml.Node) { r.number(n, figure{nil, 0, 2, true}, &class) }},
		key{"range", func(n *yaml.Node) { r.number(n, figure{nil, 0, 5, true}, &grade) }},
		key{"tab clearance", func(n *yaml.Node) { r.number(n, aLength, &fit.Least) }},
		key{"usual tab clearance", func(n *yaml.Node) { r.number(n, aLength, &fit.Usual) }},
	)
	if !ok {
		return
	}
	p.Class, p.Range, p.Source = int(class), int(grade), r.source()
	fit.Usual = max(fit.Usual, fit.Least)
	fit.Source = p.Source
	if at >= 0 {
		p.Name = r.set.processes[at].p.Name
		row.aliases = r.set.processes[at].aliases
		r.set.processes[at] = row
	} else {
		p.Name = name
		r.set.processes = append(r.set.processes, row)
	}
	if c := r.set.Cutting(twin); twin != "" && c.Process != "" {
		c.Process = p.Name
		r.set.putCutting(c)
	}
	fit.Process = p.Name
	if i := slices.IndexFunc(r.set.tabFits, func(f TabFit) bool { return f.Process == p.Name }); i >= 0 {
		r.set.tabFits[i] = fit
	} else {
		r.set.tabFits = append(r.set.tabFits, fit)
	}
}

// like looks for the row that a new one starts from, and tells where there is none
// of that name.
func (r *profileReader) like(n *yaml.Node, find func(string) error) bool {
	if n.Kind != yaml.MappingNode {
		return false
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value != "like" {
			continue
		}
		if err := find(r.word(n.Content[i+1])); err != nil {
			r.add(n.Content[i+1], "", "%s", err)
		}
		return true
	}
	return false
}

// material reads one row over materials.
func (r *profileReader) material(name string, k, n *yaml.Node) {
	at := slices.IndexFunc(r.set.materials, func(m materialRow) bool { return squeeze(m.m.Name) == squeeze(name) })
	row := materialRow{m: Material{Density: steelDensity, Group: CarbonSteel}}
	if at >= 0 {
		row = r.set.materials[at]
	}
	r.like(n, func(w string) error {
		m, err := r.set.FindMaterial(w)
		if err == nil {
			row.m = m
		}
		return err
	})
	m := &row.m
	group := string(m.Group)
	ok := r.keys(n, "a material",
		key{"like", func(*yaml.Node) {}},
		key{"fy", func(n *yaml.Node) { r.number(n, aStress, &m.Fy) }},
		key{"fu", func(n *yaml.Node) { r.number(n, aStress, &m.Fu) }},
		key{"density", func(n *yaml.Node) { r.number(n, figure{nil, 500, 25_000, false}, &m.Density) }},
		key{"group", func(n *yaml.Node) { group = r.oneOf(n, string(CarbonSteel), string(StainlessSteel), string(Aluminium)) }},
		key{"up to", func(n *yaml.Node) { r.number(n, aLength, &m.MaxT) }},
	)
	switch {
	case !ok:
		return
	case m.Fy == 0 || m.Fu == 0:
		r.add(k, "give both, or like:", "material %q has no fy or no fu", short40(name))
		return
	case m.Fu < m.Fy:
		r.add(k, "", "material %q has fu under its fy", short40(name))
		return
	}
	m.Group, m.Source = Group(group), r.source()
	if at >= 0 {
		m.Name = r.set.materials[at].m.Name
		r.set.materials[at] = row
		return
	}
	// The name is looked for as people write it, and as the look-up reads it.
	m.Name, row.aliases = name, []string{materialKey(name)}
	r.set.materials = append(r.set.materials, row)
}

// oneOf reads one of a few words.
func (r *profileReader) oneOf(n *yaml.Node, words ...string) string {
	w := r.word(n)
	if w == "" || slices.Contains(words, w) {
		return w
	}
	hint := ""
	if near := diag.Nearest(w, words); near != "" {
		hint = "write " + near
	}
	r.add(n, hint, "%q is not one of %s", short40(w), strings.Join(words, ", "))
	return words[0]
}

// shop reads the limits.
func (r *profileReader) shop(n *yaml.Node) {
	known := make([]key, limitCount)
	for i := range known {
		l := &r.set.limits[i]
		known[i] = key{l.Key, func(n *yaml.Node) {
			f := figure{lengthUnits, 0, 1000, false}
			if l.Bare {
				f = figure{nil, 0, 180, false}
			}
			r.number(n, f, &l.Value)
			l.Source = r.source()
		}}
	}
	if !r.keys(n, "shop", known...) {
		return
	}
	for _, p := range [][2]LimitID{{SaddleGapLeast, SaddleGapUsual}, {TabGapLeast, TabGapUsual}, {TabGapUsual, TabGapMost},
		{ToeLeast, ToeUsual}, {ReamStockLeast, ReamStockMost}} {
		if a, b := r.set.limits[p[0]], r.set.limits[p[1]]; a.Value > b.Value {
			r.add(n, "give both", "%s (%s) is more than %s (%s)", a.Key, a.Text(), b.Key, b.Text())
		}
	}
}

// fit reads the rows of one kind of fit, which take the place of all rows of that
// kind.
func (r *profileReader) fit(name string, k, n *yaml.Node) {
	if kinds := FitKinds(); !slices.Contains(kinds, name) {
		hint := "known here: " + strings.Join(kinds, ", ")
		if near := diag.Nearest(name, kinds); near != "" {
			hint = "write " + near
		}
		r.add(k, hint, "unknown fit %q", short40(name))
		return
	}
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 || len(n.Content) > mostRows {
		r.add(n, "", "%s: wanted a list of rows like {to: 40 mm, allowance: -0.1 mm}", name)
		return
	}
	r.set.fits = slices.DeleteFunc(r.set.fits, func(f FitRow) bool { return f.Kind == name })
	before := 0.0
	for _, item := range n.Content {
		row := FitRow{Kind: name, To: math.NaN(), Allowance: math.NaN(), Source: r.source()}
		ok := r.keys(item, "a row of a fit",
			key{"to", func(n *yaml.Node) { r.number(n, aLength, &row.To) }},
			key{"allowance", func(n *yaml.Node) { r.number(n, aSigned, &row.Allowance) }},
		)
		switch {
		case !ok:
			return
		case math.IsNaN(row.To) || math.IsNaN(row.Allowance):
			r.add(item, "", "a row of a fit needs to and allowance")
			return
		case row.To <= before:
			r.add(item, "put the smallest first", "the rows of %s do not rise", name)
			return
		}
		before = row.To
		r.set.fits = append(r.set.fits, row)
	}
}

// coating reads the thickness of one kind of coating, which takes the place of all
// its rows.
func (r *profileReader) coating(name string, k, n *yaml.Node) {
	if kinds := CoatingKinds(); !slices.Contains(kinds, name) {
		hint := "known here: " + strings.Join(kinds, ", ")
		if near := diag.Nearest(name, kinds); near != "" {
			hint = "write " + near
		}
		r.add(k, hint, "unknown coating %q", short40(name))
		return
	}
	row := Coating{Kind: name, Source: r.source()}
	r.number(n, figure{lengthUnits, 0, 5, false}, &row.Mean)
	r.set.coatings = append(slices.DeleteFunc(r.set.coatings, func(c Coating) bool { return c.Kind == name }), row)
}

// ReadProfile reads a profile on top of the embedded tables.
func ReadProfile(file string, text []byte) (*Set, error) { return Default().With(file, text) }

// String names what the set is made of.
func (s *Set) String() string {
	own := s.Own()
	if len(own) == 0 {
		return "the embedded tables"
	}
	return fmt.Sprintf("the embedded tables with %s on top", list(own))
}
