package costume

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestReadPicture_readsNothingOutsideTheFolder(t *testing.T) {
	dir := t.TempDir()
	inside := filepath.Join(dir, "costume")
	if err := os.MkdirAll(filepath.Join(inside, "photos"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, f := range []string{"secret.jpg", "costume/photos/front.jpg", "costume/photos/back.jpg"} {
		if err := os.WriteFile(filepath.Join(dir, f), []byte(f), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink("../../secret.jpg", filepath.Join(inside, "photos", "link.jpg")); err != nil {
		t.Skip("no links here")
	}
	if err := os.Symlink("..", filepath.Join(inside, "up")); err != nil {
		t.Fatal(err)
	}
	if got, err := readPicture(inside, "photos/front.jpg", nil); err != nil || string(got) != "costume/photos/front.jpg" {
		t.Errorf("read %q, %v", got, err)
	}
	for _, c := range []struct{ name, says string }{
		{"photos/link.jpg", "photos/link.jpg cannot be opened; a picture must lie in"},
		{"up/secret.jpg", "up/secret.jpg cannot be opened"},
		{"../secret.jpg", "cannot be opened"},
		{"photos", "photos is a folder or a device"},
		{"photos/frnt.jpg", "there is no photos/frnt.jpg in the costume's folder; did you mean photos/front.jpg?"},
		{"photos/bck.jpg", "there is no photos/bck.jpg in the costume's folder; copy the picture there"},
		{"pics/front.jpg", "there is no pics/front.jpg in the costume's folder; did you mean photos/front.jpg?"},
		{"front.jpg", "there is no front.jpg in the costume's folder; did you mean photos/front.jpg?"},
		{"pics/lamp.jpg", "there is no pics/lamp.jpg in the costume's folder; copy the picture there"},
	} {
		got, err := readPicture(inside, c.name, []string{"photos/back.jpg"})
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s gives %q, %v; want an error that says %q", c.name, got, err, c.says)
		}
	}
}
