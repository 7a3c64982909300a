// Package costume reads the maker's folder, runs the stages over it in order,
// and writes what comes out: wearer.yaml (the person, private) and costume.yaml
// (the pieces, which can be shared) go in, pages come out.
package costume

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/natefinch/atomic"

	"tasset/internal/units"
)

// The names of the maker's files in the folder.
const (
	WearerFile  = "wearer.yaml"
	CostumeFile = "costume.yaml"
)

// Folder is a maker's folder, read and checked.
type Folder struct {
	Dir       string
	Wearer    *Wearer
	Costume   *Costume
	Catalogue *Catalogue
}

// Open reads a folder. The error tells everything that is wrong with both
// files, each with file and line.
func Open(dir string) (*Folder, error) {
	f := &Folder{Dir: dir, Catalogue: catalogueOf(dir)}
	person, err := readFile(dir, WearerFile)
	if err != nil {
		return nil, err
	}
	pieces, err := readFile(dir, CostumeFile)
	if err != nil {
		return nil, err
	}
	var errPerson, errPieces error
	f.Wearer, errPerson = ReadWearer(WearerFile, person)
	f.Costume, errPieces = ReadCostume(CostumeFile, pieces, f.Catalogue)
	if err := errors.Join(errPerson, errPieces); err != nil {
		return nil, err
	}
	return f, nil
}

func catalogueOf(dir string) *Catalogue {
	own := filepath.Join(dir, "templates")
	if info, err := os.Stat(own); err == nil && info.IsDir() {
		return NewCatalogue(os.DirFS(own))
	}
	return NewCatalogue(nil)
}

func readFile(dir, name string) ([]byte, error) {
	src, err := os.ReadFile(filepath.Join(dir, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("no %s in %s; start a costume with \"tasset new\", see one with \"tasset demo\", or name the folder with --folder", name, dir)
	}
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", filepath.Join(dir, name), reason(err))
	}
	return src, nil
}

// Units is how lengths are written for this maker.
func (f *Folder) Units() units.Unit {
	switch {
	case f.Wearer.Units != units.None:
		return f.Wearer.Units
	case f.Costume.Units != units.None:
		return f.Costume.Units
	}
	return units.CM
}

// Save writes a file so that a reader sees the old one or the new one, never
// half of it. The folder is made if it is missing.
func Save(path string, content []byte) error {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("cannot write %s: that is a folder or a device; name a file", path)
	}
	err := os.MkdirAll(filepath.Dir(path), 0o755)
	if err == nil {
		err = atomic.WriteFile(path, bytes.NewReader(content))
	}
	if err == nil {
		err = os.Chmod(path, 0o644)
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	return nil
}

// reason is what the system said, without the names of files that a maker did
// not type.
func reason(err error) error {
	var system syscall.Errno
	if errors.As(err, &system) {
		return system
	}
	said := err.Error() // of a temporary file, with the system's words at the end
	return errors.New(strings.TrimSpace(said[strings.LastIndex(said, ": ")+1:]))
}
