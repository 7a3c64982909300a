package photo

import (
	"errors"
	"fmt"
	"math"

	"tasset/internal/report"
)

// Limits on what a shot may say.
const (
	minF35, maxF35 = 5, 2000 // mm
	shortStick     = 20      // px: marks of a ruler nearer than this tell no scale
	fewMarks       = 4       // a picture with fewer says nothing about its camera
)

// admit checks what cannot be understood at all. Its error names all of it.
func (f *figure) admit(shots []Shot) error {
	var errs []error
	fail := func(where, subject, format string, args ...any) {
		place := subject
		if where != "" {
			place = where + ": " + subject
		}
		errs = append(errs, fmt.Errorf("%s: %s", place, fmt.Sprintf(format, args...)))
	}
	for _, s := range shots {
		if s.Width <= 0 || s.Height <= 0 {
			fail(s.Where, s.Name, "the picture's size is not known")
			continue
		}
		if s.F35 != 0 && !(s.F35 >= minF35 && s.F35 <= maxF35) {
			fail(s.Where, s.Name, "a focal length of %g mm is none; lenses have %d to %d mm", s.F35, minF35, maxF35)
		}
		if !(s.Distance >= 0) || math.IsInf(s.Distance, 0) {
			fail(s.Where, s.Name, "a distance of %g mm is none", s.Distance)
		}
		s.admitMarks(f, fail)
		s.admitSticks(fail)
	}
	return errors.Join(errs...)
}

type failure func(where, subject, format string, args ...any)

func (s *Shot) admitMarks(f *figure, fail failure) {
	var names []string
	for _, l := range f.landmarks {
		names = append(names, l.Name)
	}
	first := map[string]string{}
	for _, m := range s.Marks {
		subject := s.Name + ", " + m.Name
		if f.index(m.Name) < 0 {
			if near := report.Nearest(m.Name, names); near != "" {
				fail(m.Where, subject, "no landmark of a %s has this name; perhaps %q", f.name, near)
			} else {
				fail(m.Where, subject, "no landmark of a %s has this name", f.name)
			}
			continue
		}
		if at, twice := first[m.Name]; twice {
			fail(m.Where, subject, "it is marked twice in this picture, first at %s; keep one", at)
		}
		first[m.Name] = m.At.String()
		if !s.holds(m.At) {
			fail(m.Where, subject, "%v is outside the picture, which has %d × %d pixels", m.At, s.Width, s.Height)
		}
		if !(m.SD >= 0) || math.IsInf(m.SD, 0) {
			fail(m.Where, subject, "a deviation of %g mm is none", m.SD)
		}
	}
}

// holds tells whether a place is in the picture.
func (s *Shot) holds(p Pixel) bool {
	return p.X >= 0 && p.Y >= 0 && p.X <= float64(s.Width) && p.Y <= float64(s.Height)
}

func (s *Shot) admitSticks(fail failure) {
	if r := s.Ruler; r != nil {
		switch d := math.Hypot(r.To.X-r.From.X, r.To.Y-r.From.Y); {
		case !s.holds(r.From) || !s.holds(r.To):
			fail(r.Where, s.Name+", ruler", "an end of it, %v or %v, is outside the picture, which has %d × %d pixels", r.From, r.To, s.Width, s.Height)
		case !(r.Length > 0) || math.IsInf(r.Length, 0):
			fail(r.Where, s.Name+", ruler", "its length is %g mm; give the length between the two marked figures", r.Length)
		case d < shortStick:
			fail(r.Where, s.Name+", ruler", "its two marks are only %.0f pixels apart; mark two figures far apart", d)
		}
	}
	if c := s.Card; c != nil {
		for _, p := range c.Corners {
			if !s.holds(p) {
				fail(c.Where, s.Name+", card", "a corner, %v, is outside the picture, which has %d × %d pixels", p, s.Width, s.Height)
				return
			}
		}
		if !clockwise(c.Corners) {
			fail(c.Where, s.Name+", card", "its corners must run clockwise in the picture, from the upper left one as the card is read, and make a rectangle seen at a slant")
		}
	}
}

// clockwise tells whether corners bound a convex figure, in order.
func clockwise(c [4]Pixel) bool {
	for i := range c {
		p, q, r := c[i], c[(i+1)%4], c[(i+2)%4]
		if !((q.X-p.X)*(r.Y-q.Y)-(q.Y-p.Y)*(r.X-q.X) > shortStick*shortStick/4) {
			return false
		}
	}
	return true
}
