package check

import (
	"strconv"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/profiles"
)

var boltLength = &Check{
	ID:       "bolt-length",
	Severity: diag.Error,
	Title:    "a bolt has the wrong length for its joint",
	Meaning: "The bolt has to reach through all plies and washers, fill the nut and show some thread. Its thread has to " +
		"begin before the nut is tight, or the nut runs up on the shank and clamps nothing. Where the file asks for " +
		"it (`threads: out`), no thread lies in a shear plane, where it would cost strength and saw at the hole.",
	Formula: "length >= grip + washers + nut + limit threads past nut (2 pitches)\n" +
		"length - thread <= grip + washers\n" +
		"threads: out: length - thread - 2.5 pitches >= washers under the head + grip - last ply",
	Source: "ISO 4014 and ISO 888, ASME B18.2.1: usual lengths and lengths of thread (from memory); nuts and washers by " +
		"the tables nuts-metric and nuts-inch; threads past the nut: common practice",
	Limits: "Hexagon bolts with a shank and coarse thread, nominal lengths of thread. The last ply lies under the nut. " +
		"Where no length is given the shortest usual one that does is chosen and told on paper.",
	Run: func(c *Context) {
		for i := range c.Blank.Joints {
			c.checkBolt(&c.Blank.Joints[i])
		}
	},
}

func (c *Context) checkBolt(j *blank.Joint) {
	f := diag.Finding{Pos: j.Pos, Features: []string{j.Hole}, Where: at(c.holeAt(j.Hole)), Unit: "mm"}
	if j.Length == 0 {
		if j.Chosen && (j.Washers == j.Stack.Washers || !c.part.Joints[j.Index].Washers.Set) {
			return
		}
		f.Unit, f.Got, f.Want = "", float64(j.Stack.Washers), float64(j.Washers)
		f.Message = "no usual length of " + j.Stack.Bolt.Name + " bolt does at " + quoted(j.Hole) + " with a grip of " + c.len(j.Stack.Grip) +
			" and " + strconv.Itoa(j.Stack.Washers) + " washers"
		c.Report(f, c.boltChanges(j)...)
		return
	}
	fit, err := j.Stack.Fit(j.Length)
	if err != nil || j.Stack.Good(fit) {
		return
	}
	name := "the " + j.Stack.Bolt.Name + " bolt at " + quoted(j.Hole) + ", " + c.len(j.Length) + " long,"
	switch {
	case fit.Past < 0:
		f.Got, f.Want = j.Length, j.Length-fit.Past
		f.Message = name + " does not fill its nut: grip " + c.len(j.Stack.Grip) + ", washers, nut and threads past it need " + c.len(f.Want)
	case fit.Thread < 0:
		grip := j.Stack.Grip
		f.Got, f.Want = grip, grip-fit.Thread
		f.Message = name + " has too little thread: its nut stops " + c.len(-fit.Thread) + " short of clamping the grip of " + c.len(grip)
	default:
		shank := profiles.Shank(j.Stack.Bolt, j.Length)
		f.Got, f.Want = shank, shank-fit.Shank
		f.Message = name + " has thread in its last shear plane: full shank for " + c.len(shank) + ", needs " + c.len(f.Want)
	}
	c.Report(f, c.boltChanges(j)...)
}

// boltChanges are the usual length that does, and the washers that it takes.
func (c *Context) boltChanges(j *blank.Joint) []Change {
	if !j.Chosen {
		return nil
	}
	washers := Change{Kind: Rewrite, Key: keyWashers, Item: j.Index, To: float64(j.Washers), Text: "use " + strconv.Itoa(j.Washers) + " washers"}
	if j.Length == 0 {
		return []Change{washers}
	}
	longer := Change{Kind: Rewrite, Key: keyLength, Item: j.Index, To: j.Choice.Length, Text: "take one " + c.len(j.Choice.Length) + " long"}
	if j.Washers != j.Stack.Washers {
		longer.Text += ", with " + strconv.Itoa(j.Washers) + " washers"
		longer.Sub = j.Washers
	}
	return []Change{longer}
}
