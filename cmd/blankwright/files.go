package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// tempPrefix begins the names of files that are still being written.
const tempPrefix = ".blankwright-"

// file is one rendered output.
type file struct {
	name string
	data []byte
}

// writeAll puts the files into a folder, whole or not at all: each is written
// beside its final name and renamed only when all of them are complete. An old
// file of the same name stays as it was until then.
func writeAll(folder string, files []file) (paths []string, err error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, err
	}
	for _, f := range files {
		path := filepath.Join(folder, f.name)
		if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
			return nil, fmt.Errorf("%s is there and is no file that could be replaced", path)
		}
	}
	temps := make([]string, 0, len(files))
	defer func() {
		for _, t := range temps {
			os.Remove(t) // those already renamed are no longer there
		}
	}()
	for _, f := range files {
		t, err := writeTemp(folder, f.data)
		if t != "" {
			temps = append(temps, t)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", filepath.Join(folder, f.name), err)
		}
	}
	for i, f := range files {
		path := filepath.Join(folder, f.name)
		if err := os.Rename(temps[i], path); err != nil {
			return paths, err
		}
		paths = append(paths, path)
	}
	temps = nil
	return paths, nil
}

// canWrite is an error where a folder, or the nearest folder above that is there,
// takes no file: for work that is long enough to be told before it is done.
func canWrite(folder string) error {
	for {
		info, err := os.Stat(folder)
		if up := filepath.Dir(folder); errors.Is(err, fs.ErrNotExist) && up != folder {
			folder = up
			continue
		}
		if err != nil {
			return err
		}
		if !info.IsDir() {
			return fmt.Errorf("%s is a file, not a folder", folder)
		}
		name, err := writeTemp(folder, nil)
		if name != "" {
			os.Remove(name)
		}
		var p *fs.PathError
		if errors.As(err, &p) && !errors.Is(err, fs.ErrPermission) {
			return fmt.Errorf("folder %s takes no files: %v", folder, p.Err)
		}
		return err
	}
}

func writeTemp(folder string, data []byte) (name string, err error) {
	t, err := os.CreateTemp(folder, tempPrefix+"*")
	if err != nil {
		return "", err
	}
	if _, err = t.Write(data); err == nil {
		err = t.Chmod(0o644)
	}
	if cerr := t.Close(); err == nil {
		err = cerr
	}
	return t.Name(), err
}
