package costume

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"tasset/pattern"
)

func TestDrawing(t *testing.T) {
	r, err := Sample(context.Background(), t.TempDir(), "vambrace")
	if err != nil {
		t.Fatal(err)
	}
	for file, starts := range map[string]string{"a.svg": "<", "a.png": "\x89PNG"} {
		doc, err := r.Drawing(&r.Set.Pieces[0], file)
		if err != nil || !bytes.HasPrefix(doc, []byte(starts)) {
			t.Errorf("%s: %v", file, err)
		}
	}
	for _, c := range []struct {
		piece      *pattern.Piece
		file, says string
	}{
		{&r.Set.Pieces[0], "a.pdf", "neither .svg nor .png"},
		{&pattern.Piece{Name: "blade", Flat: true}, "a.svg", "the blade is cut flat"},
	} {
		if _, err := r.Drawing(c.piece, c.file); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.file, err, c.says)
		}
	}
}
