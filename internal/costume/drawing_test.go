package costume

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"tasset/pattern"
)

func TestDrawing(t *testing.T) {
	p, err := NewCatalogue(nil).Sample(context.Background(), t.TempDir(), "vambrace")
	if err != nil {
		t.Fatal(err)
	}
	for file, starts := range map[string]string{"a.svg": "<", "a.png": "\x89PNG", "a.pdf": "%PDF"} {
		doc, err := p.Drawing(file, true)
		if err != nil || !bytes.HasPrefix(doc, []byte(starts)) {
			t.Errorf("%s: %v", file, err)
		}
	}
	if doc, err := p.Drawing("a.svg", false); err != nil || bytes.Contains(doc, []byte("Vambrace")) {
		t.Errorf("a drawing without its title has it, or failed: %v", err)
	}
	for _, c := range []struct {
		piece      *Sampled
		file, says string
	}{
		{p, "a.bmp", "ends in none of .svg, .png and .pdf"},
		{&Sampled{Piece: &pattern.Piece{Name: "blade", Flat: true}}, "a.svg", "the blade is cut flat"},
	} {
		if _, err := c.piece.Drawing(c.file, true); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.file, err, c.says)
		}
	}
}
