package photo

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/report"
)

// mislabelled compares the marks with the mean figure in every view, with left
// and right as marked and exchanged, and with their places counted otherwise; nil
// if the label may be right. A picture shows another view than its label says if
// the mean figure, seen as labelled, misses its marks by more than the figure's
// limit, and less than half as much seen otherwise.
func (f *figure) mislabelled(s *Shot) *report.Finding {
	if len(s.Marks) < fewMarks {
		return nil
	}
	as, _ := f.misfit(s, s.View, false)
	best, view, turned := as, s.View, false
	if swapped, _ := f.misfit(s, s.View, true); swapped < best {
		best, turned = swapped, true
	}
	for _, v := range Views() {
		if v.OfHead() != s.View.OfHead() || v == s.View {
			continue
		}
		for _, swap := range []bool{false, true} {
			if m, _ := f.misfit(s, v, swap); m < best-1 {
				best, view, turned = m, v, swap
			}
		}
	}
	if as >= f.mislabels {
		if g := f.miscounted(s, min(best-1, as/2)); g != nil {
			return g
		}
	}
	if as < f.mislabels || best > as/2 {
		return f.otherMarks(s)
	}
	g := s.problem("It is labelled %s, but its marks lie as in a %s picture. It is left out.", s.View, view)
	g.Perhaps = fmt.Sprintf("Change its view to %q.", view)
	if turned {
		g = s.problem("All left and right marks stand the wrong way round for a %s picture. It is left out.", s.View)
		g.Perhaps = "Left and right are the wearer's own: their left eye is on the right of a front picture. If the names are right, the picture is mirrored, as some cameras do; mirror it back."
	}
	return &g
}

// otherMarks tells of a picture many of whose marks its view cannot show, and
// that looks like one of another view that shows all of them.
func (f *figure) otherMarks(s *Shot) *report.Finding {
	const many = 3
	hidden := f.notSeen(s, s.View)
	if len(hidden) < many {
		return nil
	}
	best, _ := f.misfit(s, s.View, false)
	view := s.View
	for _, v := range Views() {
		if v.OfHead() == s.View.OfHead() && len(f.notSeen(s, v)) == 0 {
			if m, _ := f.misfit(s, v, false); m < best {
				best, view = m, v
			}
		}
	}
	if view == s.View {
		return nil
	}
	g := s.problem("It is labelled %s, but %d of its marks cannot be seen in such a picture (%s); all lie as in a %s picture. It is left out.", s.View, len(hidden), strings.Join(hidden, ", "), view)
	g.Perhaps = fmt.Sprintf("Change its view to %q.", view)
	return &g
}

// notSeen are the marks that a view does not show.
func (f *figure) notSeen(s *Shot, v View) []string {
	var out []string
	for _, m := range s.Marks {
		if !f.landmarks[f.must(m.Name)].SeenIn(v) {
			out = append(out, m.Name)
		}
	}
	return out
}

// miscounts are ways to count places otherwise than from the upper left corner,
// with the places as they should be.
var miscounts = []struct {
	said, perhaps string
	right         func(p Pixel, w, h float64) Pixel
}{
	{"Its marks lie upside down.", "The second number counts from the upper edge downwards, not from below.", func(p Pixel, w, h float64) Pixel { return Pixel{p.X, h - p.Y} }},
	{"Its marks lie on their side and mirrored.", "The two numbers of the marks are exchanged: the first counts from the left edge, the second from the upper edge.", func(p Pixel, w, h float64) Pixel { return Pixel{p.Y, p.X} }},
	{"Its marks lie upside down.", "Turn the picture upright in an image editor, save it, and mark it again.", func(p Pixel, w, h float64) Pixel { return Pixel{w - p.X, h - p.Y} }},
	{"Its marks lie on their side.", "Turn the picture upright in an image editor, save it, and mark it again.", func(p Pixel, w, h float64) Pixel { return Pixel{p.Y, w - p.X} }},
	{"Its marks lie on their side.", "Turn the picture upright in an image editor, save it, and mark it again.", func(p Pixel, w, h float64) Pixel { return Pixel{h - p.Y, p.X} }},
}

// miscounted tells of marks that fit as labelled, better than a limit, if their
// places are counted otherwise.
func (f *figure) miscounted(s *Shot, limit float64) *report.Finding {
	var out *report.Finding
	for _, c := range miscounts {
		as := *s
		as.Marks = nil
		for _, m := range s.Marks {
			m.At = c.right(m.At, float64(s.Width), float64(s.Height))
			as.Marks = append(as.Marks, m)
		}
		if m, _ := f.misfit(&as, s.View, false); m < limit {
			g := s.problem("%s It is left out.", c.said)
			g.Perhaps, limit, out = c.perhaps, m, &g
		}
	}
	return out
}

// misfit is how far the marks are from the mean figure in a view, moved, scaled
// and rolled up to a quarter right angle to fit best: root mean square, in mm of
// the mean figure, of which one has scale px.
func (f *figure) misfit(s *Shot, v View, swap bool) (rms, scale float64) {
	var z, w []complex128
	var mz, mw complex128
	r := newTurns(v.yaw(), 0, 0).r
	n := complex(float64(len(s.Marks)), 0)
	for _, m := range s.Marks {
		l := f.landmarks[f.index(m.Name)]
		if swap && l.Pair != "" {
			l = f.landmarks[f.index(l.Pair)]
		}
		c := r.mul(l.mean)
		z, w = append(z, complex(c.X, c.Y)), append(w, complex(m.At.X, m.At.Y))
		mz, mw = mz+z[len(z)-1]/n, mw+w[len(w)-1]/n
	}
	var dot complex128
	var size float64
	for i := range z {
		z[i], w[i] = z[i]-mz, w[i]-mw
		dot += complex(real(z[i]), -imag(z[i])) * w[i]
		size += real(z[i])*real(z[i]) + imag(z[i])*imag(z[i])
	}
	const most = math.Pi / 8
	roll := min(max(math.Atan2(imag(dot), real(dot)), -most), most)
	along := complex(math.Cos(roll), math.Sin(roll))
	k := max(real(dot*complex(real(along), -imag(along)))/size, 1e-9)
	var sum float64
	for i := range z {
		d := w[i] - complex(k, 0)*along*z[i]
		sum += real(d)*real(d) + imag(d)*imag(d)
	}
	return math.Sqrt(sum/float64(len(z))) / k, k
}
