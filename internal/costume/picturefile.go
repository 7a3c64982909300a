package costume

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
)

// mostPicture is larger than the files that cameras write, bytes.
const mostPicture = 100 << 20

// readPicture reads a picture of the maker's. Nothing outside the folder is
// opened, not even through a link that leads there. One that is not there was
// not meant for one of the others that the maker names.
func readPicture(dir, name string, others []string) ([]byte, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("cannot open the folder %s: %w", dir, reason(err))
	}
	defer root.Close()
	info, err := root.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, missing(root.FS(), name, others)
	case err != nil:
		return nil, fmt.Errorf("%s cannot be opened; a picture must lie in the costume's folder itself, not behind a link that leads out of it", name)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is a folder or a device; name a picture", name)
	case info.Size() > mostPicture:
		return nil, fmt.Errorf("%s has %d MB; a picture may have %d", name, info.Size()>>20, mostPicture>>20)
	}
	file, err := root.Open(name)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, reason(err))
	}
	defer file.Close()
	src, err := io.ReadAll(io.LimitReader(file, mostPicture))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, reason(err))
	}
	return src, nil
}

// missing says that a file is not there, and which one was probably meant.
func missing(folder fs.FS, name string, others []string) error {
	var there []string
	if list, err := fs.ReadDir(folder, path.Dir(name)); err == nil {
		for _, e := range list {
			if !contains(others, path.Join(path.Dir(name), e.Name())) {
				there = append(there, e.Name())
			}
		}
	}
	if near := nearPicture(path.Base(name), there); near != "" {
		return fmt.Errorf("there is no %s in the costume's folder; did you mean %s?", name, path.Join(path.Dir(name), near))
	}
	if deeper := inSubfolder(folder, path.Base(name)); deeper != "" {
		return fmt.Errorf("there is no %s in the costume's folder; did you mean %s?", name, deeper)
	}
	return fmt.Errorf("there is no %s in the costume's folder; copy the picture there, or mend the name", name)
}

// inSubfolder finds a file of that name in one of the folder's own; "" if there is
// none.
func inSubfolder(folder fs.FS, base string) string {
	list, err := fs.ReadDir(folder, ".")
	if err != nil {
		return ""
	}
	for _, e := range list {
		at := path.Join(e.Name(), base)
		if info, err := fs.Stat(folder, at); e.IsDir() && err == nil && info.Mode().IsRegular() {
			return at
		}
	}
	return ""
}
