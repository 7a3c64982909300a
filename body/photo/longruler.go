package photo

import (
	"errors"
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/report"
)

// LongRuler is a line laid over a photograph of the wearer, to read a length
// that no ruler in frame reaches.
type LongRuler struct {
	Name     string // "staff"
	From, To Pixel
	Depth    Depth
	Where    string // place in the maker's file
}

// Reading is a length read over a picture.
type Reading struct {
	Name    string
	Value   float64 // mm
	SD      float64 // mm
	Checked bool    // a known length in the same plane gives its scale
	Where   string
}

// HalfWidth is half the width of the 95 % interval.
func (r Reading) HalfWidth() float64 { return 1.96 * r.SD }

// Read is the length between the ruler's ends in the upright plane square to
// the view at its depth. Its deviation counts the picture's scale, the depth, a
// lean of 5° out of the plane and the two marks.
func (s Sight) Read(r LongRuler) (Reading, []report.Finding, error) {
	from, err := s.Place(r.From, r.Depth.Value)
	to, err2 := s.Place(r.To, r.Depth.Value)
	if err = errors.Join(err, err2); err != nil {
		return Reading{}, nil, at(r.Where, r.Name, err)
	}
	out := Reading{Name: r.Name, Value: r3.Norm(r3.Sub(to, from)), Where: r.Where}
	if out.Value < leastRead {
		return Reading{}, nil, at(r.Where, r.Name, fmt.Errorf("the two ends are one place, %s; mark two", r.From))
	}
	out.SD = norm(s.share(r.Depth)*out.Value, endSD, endSD)
	return out, doubtful(out), nil
}

// leastRead is the shortest length that a long ruler reads, mm.
const leastRead = 1

// doubtfulShare is the 95 % error, as a share, from which a reading is doubted.
const doubtfulShare = .08

// doubtful says of a reading that it is rough, and what makes it better.
func doubtful(r Reading) []report.Finding {
	if r.HalfWidth() < doubtfulShare*r.Value {
		return nil
	}
	f := report.Doubtf(r.Name, "It is read as %.0f mm, but only to ± %.0f mm (estimated, 95 %%).", r.Value, r.HalfWidth())
	f.Where, f.Perhaps = r.Where, "Give a known length on the thing itself, or a picture taken from farther away."
	return []report.Finding{f}
}

// at puts the place in the maker's file and what it is about before an error.
func at(where, what string, err error) error {
	if where == "" {
		return fmt.Errorf("%s: %w", what, err)
	}
	return fmt.Errorf("%s: %s: %w", where, what, err)
}
