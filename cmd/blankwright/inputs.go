package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"blankwright/flat/describe"
)

// input is one description to be worked on.
type input struct {
	path string // as shown in messages
	err  error  // why there is none at this path
}

// inputs lists the descriptions that the arguments name: files as they are, and
// for a folder every *.yaml and *.yml below it, by name, but for those that a job
// in it names.
func inputs(args []string) ([]input, error) {
	if len(args) == 0 {
		return nil, usage("no description named; give a FILE, a folder, or - for standard input")
	}
	var list []input
	seen := map[string]bool{}
	for _, a := range args {
		if seen[filepath.Clean(a)] {
			continue // named twice
		}
		seen[filepath.Clean(a)] = true
		if a == "-" {
			list = append(list, input{path: a})
			continue
		}
		info, err := os.Stat(a)
		if err != nil || !info.IsDir() {
			list = append(list, input{path: a, err: err})
			continue
		}
		found, err := below(a)
		if err == nil && len(found) == 0 {
			err = fmt.Errorf("no description (*.yaml) in folder %s", a)
		}
		if err != nil {
			list = append(list, input{path: a, err: err})
		}
		list = append(list, found...)
	}
	return list, nil
}

func below(folder string) ([]input, error) {
	var list []input
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := d.Name()
		if d.IsDir() && path != folder && strings.HasPrefix(name, ".") {
			return fs.SkipDir
		}
		if ext := filepath.Ext(name); !d.IsDir() && (ext == ".yaml" || ext == ".yml") {
			list = append(list, input{path: path})
		}
		return nil
	})
	sort.Slice(list, func(i, j int) bool { return list[i].path < list[j].path })
	return leftToJobs(list), err
}

// leftToJobs leaves out the parts and tubes that a job of the list names: they are
// made with it, under its loads, and not where it fails a check. A job that cannot
// be read names none here; it tells what is wrong when its turn comes.
func leftToJobs(list []input) []input {
	named := map[string]bool{}
	for _, in := range list {
		name, text, err := read(in.path, nil)
		if err != nil || describe.KindOf(text) != describe.JobFile {
			continue
		}
		j, err := describe.ParseJob(name, text)
		if err != nil {
			continue
		}
		folder := filepath.Dir(in.path)
		for i := range j.Parts {
			named[filepath.Join(folder, j.Parts[i].File.Text)] = true
		}
		for i := range j.Tubes {
			named[filepath.Join(folder, j.Tubes[i].File.Text)] = true
		}
	}
	return slices.DeleteFunc(list, func(in input) bool { return named[filepath.Clean(in.path)] })
}

// read gives the text of a description, at most one byte more than a
// description may have (describe says what is wrong then).
func read(path string, stdin io.Reader) (name string, text []byte, err error) {
	r := stdin
	name = "stdin"
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return path, nil, err
		}
		defer f.Close()
		r, name = f, path
	}
	text, err = io.ReadAll(io.LimitReader(r, describe.MaxSize+1))
	return name, text, err
}
