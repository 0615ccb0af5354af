package profiles_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/profiles"
)

const ratesProfile = `profile: orchard workshop
currency: EUR
rates:
  old table: {cost per hour: 80}
  air plasma:
    lead in: 1/4 in
    feeds: [{to: 6.5 mm, feed: 100 in/min, pierce: 0.4 s}, {to: 10 mm, feed: 1.5 m/min, pierce: 0.01 min}]
    cost per pierce: 0.15
    cost per kg: 1.4
processes:
  old table: {like: waterjet}
layers:
  marks: {name: SCRIBE, colour: 6}
  outline: {name: Cut_Outer-1}
`

// Rates, prices and layers of a profile; those it does not name stay, and the
// embedded tables stay as they are.
func TestProfileRatesAndLayers(t *testing.T) {
	s, err := profiles.ReadProfile("shop.yaml", []byte(ratesProfile))
	require.NoError(t, err)
	c := s.Cutting("air plasma")
	assert.InDelta(t, 6.35, c.LeadIn, 1e-12)
	assert.Equal(t, profiles.Price{Pierce: 0.15, Kilo: 1.4}, c.Price)
	assert.Equal(t, profiles.ShopsOwn, c.Source.Prov)
	thin, ok := c.Rate(6.5)
	assert.True(t, ok)
	assert.InDelta(t, 2540, thin.Feed, 1e-9)
	thick, ok := c.Rate(9)
	assert.True(t, ok)
	assert.Equal(t, profiles.Rate{MaxT: 10, Feed: 1500, Pierce: 0.6}, thick)
	_, ok = c.Rate(11)
	assert.False(t, ok)

	old := s.Cutting("old table")
	assert.Equal(t, profiles.Default().Cutting("waterjet").Rates, old.Rates, "those of the row it is like")
	assert.True(t, old.Priced)
	assert.False(t, s.Cutting("waterjet").Priced)
	assert.Equal(t, "EUR", s.Currency())

	assert.Equal(t, "SCRIBE", s.Layer(profiles.LayerMarks).Name)
	assert.Equal(t, 6, s.Layer(profiles.LayerMarks).Colour)
	assert.Equal(t, "Cut_Outer-1", s.Layer(profiles.LayerOutline).Name)
	assert.Equal(t, 7, s.Layer(profiles.LayerOutline).Colour)
	assert.Equal(t, "HOLES", s.Layer(profiles.LayerHoles).Name)

	var none *profiles.Set
	assert.Equal(t, "MARKS", none.Layer(profiles.LayerMarks).Name)
	assert.False(t, none.Cutting("air plasma").Priced)
	assert.InDelta(t, 5, none.Cutting("air plasma").LeadIn, 0)
	assert.Empty(t, none.Currency())
	assert.Empty(t, none.Cutting("saw and drill").Rates)
}

func TestProfileRatesAndLayersWrong(t *testing.T) {
	for text, want := range map[string]string{
		"rates: {air plasme: {lead in: 4 mm}}":                                    `1:9: error: unknown process "air plasme"`,
		"rates: {air plasma: {lead in: 4}}":                                       "has no unit",
		"rates: {air plasma: {lead in: 400 mm}}":                                  "out of reach",
		"rates: {air plasma: {feeds: 3}}":                                         "wanted a list of rows",
		"rates: {air plasma: {feeds: []}}":                                        "wanted a list of rows",
		"rates: {air plasma: {feeds: [{to: 3 mm, feed: 100 mm/min}]}}":            "needs to, feed and pierce",
		"rates: {air plasma: {feeds: [{to: 3 mm, feed: 0 mm/min, pierce: 1 s}]}}": "out of reach",
		"rates: {air plasma: {feeds: [{to: 3 mm, feed: 100, pierce: 1 s}]}}":      "has no unit",
		"rates: {air plasma: {feeds: [{to: 3 mm, feed: 9 mm/min, pierce: 1 s}, {to: 3 mm, feed: 8 mm/min, pierce: 1 s}]}}": "do not rise",
		"rates: {air plasma: {cost per hour: -3}}":                 "out of reach",
		"rates: {air plasma: {cost per day: 3}}":                   "unknown key",
		"currency: 12":                                             "is no currency",
		"currency: '=EUR'":                                         "is no currency",
		"layers: {marks: {name: 'A\nB'}}":                          "cannot be written",
		"layers: {marks: {name: Mörk}}":                            "cannot be written",
		"layers: {marks: {name: " + strings.Repeat("A", 32) + "}}": "cannot be written",
		"layers: {marks: {name: ''}}":                              "cannot be written",
		"layers: {marks: {name: outline}}":                         "both on layer",
		"layers: {marks: {colour: 0}}":                             "out of reach",
		"layers: {marks: {colour: 2.5}}":                           "no whole number",
		"layers: {mark: {name: A}}":                                "write marks",
		"layers: 3":                                                "no mapping",
	} {
		_, err := profiles.ReadProfile("p.yaml", []byte(text))
		assert.ErrorContains(t, err, want, text)
	}
}
