// Package samples holds worked descriptions: parts of the orchard cart "Medlar"
// at Brackenholt Farm, each as it was first drawn, with a trap that the checks
// find, and mended. A comment at the top of each says what the trap is.
//
// Starters are parts of use to any shop. Jobs are folders of files that belong together. All serve as starters, as
// examples of the language and as tests.
package samples

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed */*.yaml jobs/*/*/*.yaml
var files embed.FS

// Variants of a sample.
const (
	Trap   = "trap"   // fails a check, for the reason at its top
	Mended = "mended" // the same part, without a failing finding
	// Starter stands alone: a part to begin from, without a failing finding and
	// without a trap.
	Starter = "starter"
)

// Sample is one description.
type Sample struct {
	Name    string // of the part, and of its folder: `hanger-plate`
	Variant string // Trap, Mended or Starter
	Path    string // from the samples folder, with /: `hanger-plate/trap.yaml`
	Text    []byte // the caller's own copy
}

// List gives all samples, sorted by name, a part's mended variant before its
// trap.
func List() []Sample {
	paths, err := fs.Glob(files, "*/*.yaml") // sorted
	if err != nil {
		panic("samples: " + err.Error()) // the pattern is a constant
	}
	list := make([]Sample, 0, len(paths))
	for _, p := range paths {
		text, err := files.ReadFile(p)
		if err != nil {
			panic("samples: " + err.Error()) // the file is in the binary
		}
		list = append(list, Sample{
			Name:    path.Dir(p),
			Variant: strings.TrimSuffix(path.Base(p), ".yaml"),
			Path:    p,
			Text:    text,
		})
	}
	return list
}

// Job is a job with the files that it names.
type Job struct {
	Name    string   // of its folder: `anti-wrap-link`
	Variant string   // Trap or Mended
	Folder  string   // from the samples folder, with /: `jobs/anti-wrap-link/trap`
	Files   []Sample // Name is that of the file without ending; job.yaml comes first, the others by name
}

// jobFile is what the file of a job itself is called.
const jobFile = "job"

// Jobs gives all jobs, sorted by name, the mended variant before the trap.
func Jobs() []Job {
	paths, err := fs.Glob(files, "jobs/*/*/*.yaml") // sorted
	if err != nil {
		panic("samples: " + err.Error()) // the pattern is a constant
	}
	var list []Job
	for _, p := range paths {
		text, err := files.ReadFile(p)
		if err != nil {
			panic("samples: " + err.Error()) // the file is in the binary
		}
		folder := path.Dir(p)
		if len(list) == 0 || list[len(list)-1].Folder != folder {
			list = append(list, Job{Name: path.Base(path.Dir(folder)), Variant: path.Base(folder), Folder: folder})
		}
		j := &list[len(list)-1]
		s := Sample{Name: strings.TrimSuffix(path.Base(p), ".yaml"), Variant: j.Variant, Path: p, Text: text}
		if s.Name == jobFile {
			j.Files = append([]Sample{s}, j.Files...)
		} else {
			j.Files = append(j.Files, s)
		}
	}
	return list
}

// Rules gives the ids of the rules that a sample fails by its own word, the
// comment `# trap: ID, ID` in its first line; none for a mended one.
func (s Sample) Rules() []string {
	first, _, _ := strings.Cut(string(s.Text), "\n")
	ids, ok := strings.CutPrefix(strings.TrimSpace(first), "# trap:")
	if !ok {
		return nil
	}
	var rules []string
	for _, id := range strings.Split(ids, ",") {
		rules = append(rules, strings.TrimSpace(id))
	}
	return rules
}
