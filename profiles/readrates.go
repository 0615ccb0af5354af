package profiles

import (
	"math"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

var (
	feedUnits = map[string]float64{"mm/min": 1, "in/min": inch, "m/min": 1000}
	timeUnits = map[string]float64{"s": 1, "min": 60}
	aFeed     = figure{feedUnits, 1, largest, false}
	aTime     = figure{timeUnits, 0, 3600, false}
	aPrice    = figure{nil, 0, largest, false}
)

// mostLeadIn is the longest lead-in that is read, mm.
const mostLeadIn = 100

// currencyOf reads what the prices are in: a few letters or a sign.
func (r *profileReader) currencyOf(n *yaml.Node) {
	w := r.word(n)
	if len([]rune(w)) > 8 || strings.ContainsAny(w, "0123456789,;=+-@\"'") {
		r.add(n, "write it like EUR", "%q is no currency", short40(w))
		return
	}
	r.set.currency = w
}

// cutting reads the rates of one process. Rows of feeds take the place of all
// there are; what is not given stays.
func (r *profileReader) cutting(name string, k, n *yaml.Node) {
	p, err := r.set.FindProcess(name)
	if err != nil {
		r.add(k, "rates are for a process of the tables, or of this profile", "%s", err)
		return
	}
	row := r.set.Cutting(p.Name)
	row.Process = p.Name
	price := func(into *float64) func(*yaml.Node) {
		return func(n *yaml.Node) {
			r.number(n, aPrice, into)
			row.Priced = true
		}
	}
	ok := r.keys(n, "rates of a process",
		key{"lead in", func(n *yaml.Node) { r.number(n, figure{lengthUnits, 0, mostLeadIn, false}, &row.LeadIn) }},
		key{"feeds", func(n *yaml.Node) { row.Rates = r.feeds(n) }},
		key{"cost per hour", price(&row.Price.Hour)},
		key{"cost per pierce", price(&row.Price.Pierce)},
		key{"cost per kg", price(&row.Price.Kilo)},
	)
	if !ok {
		return
	}
	row.Source = r.source()
	r.set.putCutting(row)
}

// putCutting puts a row in the place of the one of its process.
func (s *Set) putCutting(row Cutting) {
	if i := slices.IndexFunc(s.cuttings, func(c Cutting) bool { return c.Process == row.Process }); i >= 0 {
		s.cuttings[i] = row
		return
	}
	s.cuttings = append(s.cuttings, row)
}

// feeds reads rows by growing thickness.
func (r *profileReader) feeds(n *yaml.Node) (rows []Rate) {
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 || len(n.Content) > mostRows {
		r.add(n, "", "feeds: wanted a list of rows like {to: 6.5 mm, feed: 2400 mm/min, pierce: 0.4 s}")
		return nil
	}
	before := 0.0
	for _, item := range n.Content {
		row := Rate{math.NaN(), math.NaN(), math.NaN()}
		ok := r.keys(item, "a row of feeds",
			key{"to", func(n *yaml.Node) { r.number(n, aLength, &row.MaxT) }},
			key{"feed", func(n *yaml.Node) { r.number(n, aFeed, &row.Feed) }},
			key{"pierce", func(n *yaml.Node) { r.number(n, aTime, &row.Pierce) }},
		)
		switch {
		case !ok:
			return nil
		case math.IsNaN(row.MaxT + row.Feed + row.Pierce):
			r.add(item, "", "a row of feeds needs to, feed and pierce")
			return nil
		case row.MaxT <= before:
			r.add(item, "put the thinnest plate first", "the rows of feeds do not rise")
			return nil
		}
		before = row.MaxT
		rows = append(rows, row)
	}
	return rows
}
