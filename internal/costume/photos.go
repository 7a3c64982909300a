package costume

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"tasset/body"
	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/report"
)

// Photos is what the wearer's photographs told. A nil *Photos is none.
type Photos struct {
	Pictures []*picture.Picture // as wearer.yaml lists them
	Shots    []photo.Shot       // the same, with their size and their lens
	Solution *photo.Solution
}

// Photographs reads the wearer's photographs and solves them; nil if there are none.
func (f *Folder) Photographs(ctx context.Context) (*Photos, []report.Finding, error) {
	if len(f.Wearer.Photos) == 0 {
		return nil, nil, nil
	}
	p, findings, err := f.openPhotos()
	if err != nil {
		return nil, nil, err
	}
	solution, more, err := photo.Solve(ctx, p.Shots)
	if err != nil {
		return nil, findings, err
	}
	p.Solution = solution
	findings = append(append(findings, p.toldAlready(more)...), solution.Head.Again()...)
	return p, append(findings, solution.Body.Again()...), nil
}

// openPhotos reads the photographs' headers. Its error names every picture that
// cannot be read.
func (f *Folder) openPhotos() (*Photos, []report.Finding, error) {
	p := &Photos{}
	var all []report.Finding
	var errs []error
	var names []string
	for _, s := range f.Wearer.Photos {
		names = append(names, s.Name)
	}
	for _, s := range f.Wearer.Photos {
		pic, findings, err := openPicture(f.Dir, s.Name, s.Where, names)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		all = append(all, focalLength(&s, pic, findings)...)
		s.Width, s.Height, s.Lens = pic.Width, pic.Height, pic.Lens
		if err := counted(s, pic); err != nil {
			errs = append(errs, err)
		}
		p.Pictures, p.Shots = append(p.Pictures, pic), append(p.Shots, s)
	}
	return p, all, errors.Join(errs...)
}

// openPicture reads the header of a picture of the maker's; where is its place
// in the maker's file, which names the others as well.
func openPicture(dir, name, where string, others []string) (*picture.Picture, []report.Finding, error) {
	src, err := readPicture(dir, name, others)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", where, err)
	}
	pic, findings, err := picture.Read(name, src)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", where, err)
	}
	for i := range findings {
		findings[i].Where = where
	}
	return pic, findings, nil
}

// seen is what the photographs tell of the wearer's sizes, and what they were
// taken over.
func (f *Folder) seen(p *Photos) *body.Seen {
	if p == nil || p.Solution == nil {
		return nil
	}
	seen := p.Solution.SeenOf(f.Wearer.Tape.Sex)
	if seen == nil || f.Wearer.Over == (Photographed{}) {
		return seen
	}
	out := *seen
	out.Over = nil
	for _, n := range out.Names {
		d, _ := body.Describe(n)
		over := f.Wearer.Over.Body
		if d.Region == body.Head {
			over = f.Wearer.Over.Head
		}
		if !f.Wearer.under(over, d) {
			over = ""
		}
		out.Over = append(out.Over, over)
	}
	return &out
}

// under tells whether a layer lies where a size is taken: hair not on the face,
// and on the whole height only what is on the head or under the feet.
func (w *Wearer) under(layer string, d body.Description) bool {
	for _, l := range w.Layers {
		if l.Name != layer {
			continue
		}
		on := func(s body.Segment) bool { return slices.Contains(l.Segments, s) }
		switch {
		case d.Kind == body.KindHeight && d.Name != "stature":
			return on(body.Foot)
		case d.Region == "":
			return on(body.Foot) || on(body.Head)
		case (strings.HasPrefix(string(d.Name), "face") || d.Name == "pupil distance") && (layer == "hair" || layer == "wig"):
			return false
		}
		return on(d.Region)
	}
	return false
}

// shot finds a photograph by its name; -1 if there is none.
func (p *Photos) shot(name string) int {
	if p == nil {
		return -1
	}
	for i, s := range p.Shots {
		if s.Name == name {
			return i
		}
	}
	return -1
}
