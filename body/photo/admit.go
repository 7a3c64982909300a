package photo

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

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
	admitCopies(shots, fail)
	return errors.Join(errs...)
}

type failure func(where, subject, format string, args ...any)

func (s *Shot) admitMarks(f *figure, fail failure) {
	var names []string
	for _, l := range f.landmarks {
		names = append(names, l.Name)
	}
	if unknown := s.foreign(f); len(unknown) > 2 {
		fail(s.Where, s.Name, "%d of its marks (%s) are landmarks of a %s, but it is labelled %s; is the view right?", len(unknown), strings.Join(unknown, ", "), f.other().name, s.View)
		return
	}
	outside := 0
	for _, m := range s.Marks {
		if !s.holds(m.At) {
			outside++
		}
	}
	if outside > 2 {
		fail(s.Where, s.Name, "%d of its %d marks are outside the picture, which is %d pixels wide and %d high; were they read off a larger copy of it?", outside, len(s.Marks), s.Width, s.Height)
	}
	first := map[string]string{}
	for _, m := range s.Marks {
		subject := s.Name + ", " + m.Name
		if f.index(m.Name) < 0 {
			fail(m.Where, subject, "no landmark of a %s has this name%s (\"tasset photo landmarks\" lists them)", f.name, meant(m.Name, names))
			continue
		}
		if at, twice := first[m.Name]; twice {
			fail(m.Where, subject, "it is marked twice in this picture, first at %s; keep one", at)
		}
		first[m.Name] = m.At.String()
		if outside <= 2 && !s.holds(m.At) {
			fail(m.Where, subject, "%v is outside the picture, which has %d × %d pixels", m.At, s.Width, s.Height)
		}
		if !(m.SD >= 0) || math.IsInf(m.SD, 0) {
			fail(m.Where, subject, "a deviation of %g mm is none", m.SD)
		}
	}
}

// other is the figure that is not this one.
func (f *figure) other() *figure {
	if f.name == "head" {
		return newBody()
	}
	return newHead()
}

// foreign are the marks that only the other figure has.
func (s *Shot) foreign(f *figure) (out []string) {
	other := f.other()
	for _, m := range s.Marks {
		if f.index(m.Name) < 0 && other.index(m.Name) >= 0 {
			out = append(out, m.Name)
		}
	}
	return out
}

// meant asks for the names that may have been meant by a name that is none: those
// in which all of its words stand, or the nearest.
func meant(name string, names []string) string {
	const few = 6
	var like []string
	for _, n := range names {
		all := true
		for _, w := range strings.Fields(name) {
			all = all && slices.Contains(strings.Fields(n), w)
		}
		if all {
			like = append(like, n)
		}
	}
	if len(like) > 0 && len(like) <= few {
		return "; " + strings.Join(like, " or ") + "?"
	}
	if near := report.Nearest(name, names); near != "" {
		return fmt.Sprintf("; perhaps %q", near)
	}
	return ""
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
		if i, j, d := nearestCorners(c.Corners); d < shortStick {
			fail(c.Where, s.Name+", card", "its corners %d and %d are only %.0f pixels apart; mark four different corners", i+1, j+1, d)
		} else if !clockwise(c.Corners) {
			fail(c.Where, s.Name+", card", "its corners must run clockwise in the picture, from the upper left one as the card is read, and make a rectangle seen at a slant")
		}
	}
}

// nearestCorners are the two corners that are nearest to each other.
func nearestCorners(c [4]Pixel) (a, b int, d float64) {
	d = math.Inf(1)
	for i := range c {
		for j := range i {
			if px := math.Hypot(c[i].X-c[j].X, c[i].Y-c[j].Y); px < d {
				a, b, d = j, i, px
			}
		}
	}
	return a, b, d
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
