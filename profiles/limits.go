package profiles

// LimitID names a shop limit.
type LimitID int

// The shop limits.
const (
	SaddleGapLeast  LimitID = iota // gap of a saddle to its tube, mm
	SaddleGapUsual                 // and what is made
	WallRatio                      // thickness of a plate over the wall of the tube it is welded to
	TabGapLeast                    // gap between welded tabs over their sleeve, mm
	TabGapUsual                    // and what is made
	TabGapMost                     // and beyond which the tabs are bent in
	BoltedGapMost                  // gap between bolted plates over their sleeve, mm
	SleeveBoreMost                 // bore of a sleeve over its bolt, mm
	SleeveLand                     // outside of a sleeve over the hole it bears round, mm
	SnipePastWeld                  // snipe of a gusset over the leg of the weld, mm
	ToeLeast                       // blunt end of a gusset, mm
	ToeUsual                       // and what is made
	HoleToWeld                     // metal between a hole and the toe of a weld, mm
	CutUnder                       // how much under size a hole to be reamed is cut, mm
	ReamStockLeast                 // what a drill leaves for the reamer, mm
	ReamStockMost                  // and at most
	CoatedClearance                // clearance of a bolt hole left under the coating, mm
	CoatedSaddleGap                // gap of a saddle left under the coating, mm
	ThreadsPastNut                 // pitches of thread that show past a nut
	ShopEdge                       // centre to edge over bolt diameter, of rules: shop
	ShopPitch                      // centre to centre over bolt diameter, of rules: shop
	FreeEdge                       // length of a free edge over sqrt(E/Fy) t
	BendAngle                      // largest bend angle, degrees
	InLineMost                     // how far two holes for one bolt may miss each other, mm
	limitCount
)

// Limit is a workshop's figure, which a profile may change.
type Limit struct {
	Key    string  // as a profile names it
	Title  string  // what it limits
	Value  float64 // mm, or a bare number where Bare
	Bare   bool
	Source Source
}

// Text writes the value with its unit.
func (l Limit) Text() string {
	if l.Bare {
		return short(l.Value, 3)
	}
	return short(l.Value, 3) + " mm"
}

func practice(text string) Source { return Source{"common practice: " + text, CommonPractice} }

// limits are starting values; shops differ.
var limits = [limitCount]Limit{
	SaddleGapLeast:  {"saddle gap", "least gap of a saddle to its tube", 0.5, false, practice("0.5 to 1 mm, for paint and a tube that is not quite round")},
	SaddleGapUsual:  {"usual saddle gap", "gap of a saddle where the file does not say", 0.8, false, practice("0.5 to 1 mm")},
	WallRatio:       {"wall ratio", "thickness of a plate over the wall of the tube that it is welded to", 2, true, practice("no more than 2; a stiffer tab tears the wall")},
	TabGapLeast:     {"tab gap", "least gap between welded tabs, over the width of their sleeve", 0.5, false, practice("0.5 to 1 mm before welding, which pulls the tabs in")},
	TabGapUsual:     {"usual tab gap", "gap between welded tabs that is made, over the width of their sleeve", 0.8, false, practice("0.5 to 1 mm")},
	TabGapMost:      {"most tab gap", "largest gap between welded tabs, over the width of their sleeve", 1, false, practice("0.5 to 1 mm; with more the bolt bends the tabs in")},
	BoltedGapMost:   {"bolted gap", "largest gap between bolted plates, over the width of their sleeve and spacers", 0.5, false, practice("a few tenths; with more the bolt bends the plates in before it clamps")},
	SleeveBoreMost:  {"sleeve bore", "largest play of a bolt in its sleeve", 1, false, practice("0.2 to 0.8 mm")},
	SleeveLand:      {"sleeve land", "least that a sleeve is wider across than the hole that it bears round", 2, false, practice("1 mm all round at least, so that the plate is clamped and not the hole's edge")},
	SnipePastWeld:   {"snipe past weld", "least that a gusset's snipe is longer than the leg of the weld that it clears", 3, false, practice("leg and 3 mm; 10 to 15 mm is usual")},
	ToeLeast:        {"toe", "least blunt end of a gusset", 6, false, practice("6 to 10 mm; a knife point melts away and leaves a notch")},
	ToeUsual:        {"usual toe", "blunt end of a gusset that is made", 8, false, practice("6 to 10 mm")},
	HoleToWeld:      {"hole to weld", "least metal between the edge of a hole and the toe of a weld", 6, false, practice("6 mm or one plate thickness, whichever is more; the heat pulls a nearer hole out of round, and no washer sits flat")},
	CutUnder:        {"cut under", "how much under size a hole to be reamed is cut, on the diameter", 1.5, false, practice("1.5 to 2 mm, to take out the hard edge and the taper")},
	ReamStockLeast:  {"ream stock", "least that the drill leaves for the reamer, on the diameter", 0.2, false, practice("0.2 to 0.5 mm")},
	ReamStockMost:   {"most ream stock", "most that the drill leaves for the reamer, on the diameter", 0.5, false, practice("0.2 to 0.5 mm")},
	CoatedClearance: {"coated clearance", "least clearance of a bolt hole that its coating leaves", 0.2, false, practice("0.2 mm, else the bolt has to be driven or the hole reamed through the coating")},
	CoatedSaddleGap: {"coated saddle gap", "least gap of a saddle that the coating of both parts leaves", 0.2, false, practice("0.2 mm")},
	ThreadsPastNut:  {"threads past nut", "least pitches of thread past a nut", 2, true, practice("2 full threads")},
	ShopEdge:        {"edge factor", "centre of a bolt to an edge over its diameter, of rules: shop", 1.5, true, practice("1.5 as a floor, 2 preferred")},
	ShopPitch:       {"pitch factor", "centre to centre of bolts over their diameter, of rules: shop", 2.5, true, practice("2.5; 3 preferred")},
	FreeEdge:        {"free edge", "length of a free edge over sqrt(E/Fy) t", 2.06, true, Source{"AASHTO LRFD Bridge Design Specifications, 6th ed., 6.14.2.8", FromMemory}},
	BendAngle:       {"bend angle", "largest angle that a bend turns through, degrees", 150, true, practice("a V-die of 30 degrees leaves 150; hems need a tool of their own and are set by 180")},
	InLineMost:      {"in line", "how far the axes of two holes meant for one bolt may miss each other", 0.2, false, practice("a few tenths, within the clearance of the bolt")},
}

func (s *Set) limitTable() Table {
	t := Table{Name: "shop-limits", Title: "a workshop's limits, starting values that a profile changes",
		Columns: []string{"limit", "value", "what it limits", "source", founded}, Source: Source{Text: "common practice; shops differ"}}
	for _, l := range s.limits {
		t.Rows = append(t.Rows, []string{l.Key, l.Text(), l.Title, l.Source.Text, string(l.Source.Prov)})
	}
	return t
}
