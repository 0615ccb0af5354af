package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/profiles"

	"github.com/urfave/cli/v2"
)

func profileFlag() cli.Flag {
	return &cli.StringFlag{Name: "profile", Usage: "file with a shop's own rows and limits, laid on top of the embedded tables"}
}

// fillProfile reads --profile.
func (o *order) fillProfile(path string) (err error) {
	o.profile, err = profileAt(path)
	return err
}

// profileAt reads a profile that the call names; none for "".
func profileAt(path string) (*profiles.Set, error) {
	if path == "" {
		return nil, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, usage("cannot read the profile: %v", err)
	}
	defer f.Close()
	text, err := profileText(f)
	if err != nil {
		return nil, usage("cannot read the profile %s: %v", path, err)
	}
	return profiles.ReadProfile(path, text)
}

var errNoFile = errors.New("it is no ordinary file")

// profileText reads at most one byte more than a profile may have.
func profileText(f *os.File) ([]byte, error) {
	switch info, err := f.Stat(); {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errNoFile
	}
	return io.ReadAll(io.LimitReader(f, profiles.MaxProfile+1))
}

// profileOf lays the profile that a description names on top of the one of the
// call. A description is somebody else's word: it names a file in its own folder
// or below, and no link leads out of there.
func profileOf(p *describe.Part, on *profiles.Set) (*profiles.Set, error) {
	return profileFor(p.File, p.Profile, on)
}

// profileFor is profileOf for any kind of description in a file.
func profileFor(file string, w describe.Word, on *profiles.Set) (*profiles.Set, error) {
	if w.Text == "" {
		return on, nil
	}
	wrong := func(hint, format string, args ...any) (*profiles.Set, error) {
		return nil, diag.Problems{{Pos: w.Pos, Message: fmt.Sprintf(format, args...), Hint: hint}}
	}
	rel := filepath.FromSlash(w.Text)
	if !filepath.IsLocal(rel) {
		return wrong("put it beside the description, or give it by --profile", "profile %q lies outside the folder of the description", w.Text)
	}
	folder := filepath.Dir(file)
	root, err := os.OpenRoot(folder)
	if err != nil {
		return wrong("", "the folder of the description cannot be read for profile %q", w.Text)
	}
	defer root.Close()
	// Looked at before it is opened: a pipe would wait for its other end.
	if info, err := root.Stat(rel); err != nil || !info.Mode().IsRegular() {
		return wrong("it is looked for beside the description", "profile %q cannot be read: there is no such file in the folder of the description", w.Text)
	}
	f, err := root.Open(rel)
	if err != nil {
		return wrong("", "profile %q cannot be read", w.Text)
	}
	defer f.Close()
	text, err := profileText(f)
	if err != nil {
		return wrong("", "profile %q cannot be read", w.Text)
	}
	return on.With(filepath.Join(folder, rel), text)
}
