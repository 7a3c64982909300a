package costume

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern"
)

// Sampled is a piece made with its default settings, so that it can be drawn.
type Sampled struct {
	Piece  *pattern.Piece
	Others []pattern.Piece // that it lies on, follows or hangs from, and that turn on it
	Form   *body.Form      // that it was made on
	Found  []report.Finding
}

// Sample makes one piece with its default settings, and those that its drawing
// shows with it: on the wearer of the folder dir, or if there is none on somebody
// of middling size.
func (c *Catalogue) Sample(ctx context.Context, dir, piece string) (*Sampled, error) {
	f := &Folder{Dir: dir, Catalogue: c, Wearer: middling(), Costume: &Costume{Material: pattern.Material{K: 0.5}}}
	if src, err := os.ReadFile(filepath.Join(dir, WearerFile)); err == nil {
		if f.Wearer, err = ReadWearer(WearerFile, src); err != nil {
			return nil, err
		}
	}
	if !contains(c.Names(), piece) {
		return nil, c.noPiece(piece)
	}
	names, err := c.withBearers(piece)
	if err != nil {
		return nil, err
	}
	with := append(c.turningOn(piece), c.hangsFrom(piece)...)
	for _, name := range append(names, with...) {
		f.Costume.Orders = append(f.Costume.Orders, pattern.Order{Name: strings.ReplaceAll(name, "-", " "), Template: name})
	}
	r, err := Dress(ctx, f, Options{}, func(string, int, int) {})
	if err != nil {
		return nil, err
	}
	s := &Sampled{Form: r.Form, Found: r.Findings}
	for i, p := range r.Set.Pieces {
		switch {
		case p.Template != piece:
			s.Others = append(s.Others, p)
		case s.Piece == nil: // of two sides, the left
			s.Piece = &r.Set.Pieces[i]
		}
	}
	if s.Piece == nil {
		return nil, fmt.Errorf("the %s was not made", piece)
	}
	return s, nil
}

// withBearers are a piece and the pieces that it lies on or whose curves it
// follows, and theirs; what lies below comes first.
func (c *Catalogue) withBearers(piece string) ([]string, error) {
	var names []string
	seen := map[string]bool{}
	var add func(name string) error
	add = func(name string) error {
		if name == "" || seen[name] {
			return nil
		}
		seen[name] = true
		t, err := c.Load(name)
		if err != nil {
			return err
		}
		for _, under := range t.BuiltOn() {
			if err := add(under); err != nil {
				return err
			}
		}
		names = append(names, name)
		return nil
	}
	err := add(piece)
	return names, err
}

// turningOn are the pieces that lie over one and turn on pivots of it. A template
// with mistakes turns on nothing: who asks for it is told.
func (c *Catalogue) turningOn(piece string) []string {
	var names []string
	for _, name := range c.Names() {
		t, err := c.Load(name)
		if err != nil || t.Frame.Over != piece {
			continue
		}
		for _, f := range t.Fastenings {
			if f.Kind == "pivot" && f.To == piece {
				names = append(names, name)
				break
			}
		}
	}
	return names
}

// middling is nobody: a body for drawings.
func middling() *Wearer {
	return &Wearer{Tape: body.Tape{Entries: []body.Entry{{Name: "stature", Value: 1720}, {Name: "weight", Value: 72}}}}
}

// hangsFrom are the pieces of the trunk that one of a limb is fastened to.
func (c *Catalogue) hangsFrom(piece string) []string {
	var names []string
	t, err := c.Load(piece)
	if err != nil || onTrunk(t.Frame.Segment) {
		return nil
	}
	for _, f := range t.Fastenings {
		if f.To == "" || contains(names, f.To) {
			continue
		}
		if o, err := c.Load(f.To); err == nil && t.Frame.Kind == "segment" && onTrunk(o.Frame.Segment) {
			names = append(names, f.To)
		}
	}
	return names
}
