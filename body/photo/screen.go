package photo

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"tasset/internal/report"
)

// screen looks at marks before anything is solved: pictures that show another
// view than their label says, marks that their view cannot show, left and right
// the wrong way round. What cannot be right is left out of the solve, with a
// finding that says so; nothing is changed. The error says why nothing is left.
func (f *figure) screen(shots []Shot) ([]Shot, []report.Finding, error) {
	var kept []Shot
	var findings []report.Finding
	for _, s := range shots {
		left, more := f.screenShot(s)
		findings = append(findings, more...)
		if left != nil {
			kept = append(kept, *left)
		}
	}
	if len(kept) == 0 {
		var why []string
		for _, g := range findings {
			why = append(why, g.String())
		}
		return nil, nil, fmt.Errorf("no photograph of the %s can be used:\n%s", f.name, strings.Join(why, "\n"))
	}
	more, err := f.screenScale(kept)
	return kept, append(findings, more...), err
}

// screenShot is the shot without the marks that cannot be right; nil if the
// whole of it is left out.
func (f *figure) screenShot(s Shot) (*Shot, []report.Finding) {
	if g := f.mislabelled(&s); g != nil {
		return nil, []report.Finding{*g}
	}
	out := map[string]bool{}
	findings := f.hidden(&s, out)
	findings = append(findings, f.crossed(&s, out)...)
	var marks []Mark
	for _, m := range s.Marks {
		if !out[m.Name] {
			marks = append(marks, m)
		}
	}
	s.Marks = marks
	if len(marks) < fewMarks {
		g := s.doubt("Only %d landmarks can be used; at least %d are needed to tell where the camera stood. The picture is left out.", len(marks), fewMarks)
		g.Perhaps = "Mark more of what this view shows: " + strings.Join(f.unmarked(&s, 6), ", ") + "."
		return nil, append(findings, g)
	}
	return &s, findings
}

func (s *Shot) doubt(format string, args ...any) report.Finding {
	g := report.Doubtf(s.Name, format, args...)
	g.Where = s.Where
	return g
}

func (s *Shot) problem(format string, args ...any) report.Finding {
	g := s.doubt(format, args...)
	g.Level = report.Problem
	return g
}

// unmarked names up to n landmarks that the view shows and nobody marked.
func (f *figure) unmarked(s *Shot, n int) []string {
	var out []string
	for _, l := range f.landmarks {
		if l.SeenIn(s.View) && s.find(l.Name) < 0 && len(out) < n {
			out = append(out, l.Name)
		}
	}
	return out
}

// find is the mark with a name; -1 if there is none.
func (s *Shot) find(name string) int {
	for i, m := range s.Marks {
		if m.Name == name {
			return i
		}
	}
	return -1
}

// hidden finds marks that the view cannot show.
func (f *figure) hidden(s *Shot, out map[string]bool) []report.Finding {
	var findings []report.Finding
	for _, m := range s.Marks {
		l := f.landmarks[f.index(m.Name)]
		if l.SeenIn(s.View) {
			continue
		}
		out[m.Name] = true
		g := s.doubt("The %s is marked, which a picture of the %s does not show; this mark is left out.", m.Name, s.View)
		g.Where = m.Where
		if i := f.index(l.Pair); i >= 0 && f.landmarks[i].SeenIn(s.View) && s.find(l.Pair) < 0 {
			g.Perhaps = fmt.Sprintf("It is the %s: left and right are the wearer's own.", l.Pair)
		}
		findings = append(findings, g)
	}
	return findings
}

// crossed finds pairs of which the wearer's left one stands left in the picture.
// Residuals would blame other marks, so this is asked before solving.
func (f *figure) crossed(s *Shot, out map[string]bool) []report.Finding {
	if s.View.fromSide() {
		return nil
	}
	var findings []report.Finding
	for _, m := range s.Marks {
		l := f.landmarks[f.index(m.Name)]
		other := s.find(l.Pair)
		if l.side() != 1 || other < 0 || out[m.Name] || m.At.X > s.Marks[other].At.X {
			continue
		}
		out[m.Name], out[l.Pair] = true, true
		g := s.problem("The %s stands to the left of the %s in the picture, but a wearer who faces the camera has their left on its right. Both marks are left out.", m.Name, l.Pair)
		g.Where = m.Where
		g.Perhaps = "The two marks are swapped: exchange their places."
		findings = append(findings, g)
	}
	return findings
}

// mislabelled compares the marks with the mean figure in every view, with left
// and right as marked and exchanged; nil if the label may be right. A picture
// shows another view than its label says if the mean figure, seen as labelled,
// misses its marks by more than the figure's limit, and less than half as much
// seen otherwise.
func (f *figure) mislabelled(s *Shot) *report.Finding {
	if len(s.Marks) < fewMarks {
		return nil
	}
	as, swapped := f.misfit(s, s.View, false), f.misfit(s, s.View, true)
	best, view, turned := as, s.View, false
	if swapped < best {
		best, turned = swapped, true
	}
	for _, v := range Views() {
		if v.OfHead() != s.View.OfHead() || v == s.View {
			continue
		}
		for _, swap := range []bool{false, true} {
			if m := f.misfit(s, v, swap); m < best-1 {
				best, view, turned = m, v, swap
			}
		}
	}
	if as < f.mislabels || best > as/2 {
		return nil
	}
	var g report.Finding
	switch {
	case turned:
		g = s.problem("All left and right marks stand the wrong way round for a %s picture. It is left out.", s.View)
		g.Perhaps = "Left and right are the wearer's own: their left eye is on the right of a front picture. If the names are right, the picture is mirrored, as some cameras do; mirror it back."
	default:
		g = s.problem("It is labelled %s, but its marks lie as in a %s picture. It is left out.", s.View, view)
		g.Perhaps = fmt.Sprintf("Change its view to %q.", view)
	}
	return &g
}

// misfit is how far the marks are from the mean figure in a view, moved, scaled
// and rolled up to a quarter right angle to fit best: root mean square, in mm of
// the mean figure.
func (f *figure) misfit(s *Shot, v View, swap bool) float64 {
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
	return math.Sqrt(sum/float64(len(z))) / k
}

// screenScale asks for rulers.
func (f *figure) screenScale(shots []Shot) ([]report.Finding, error) {
	var findings []report.Finding
	scales, distances := 0, 0
	for _, s := range shots {
		if s.Ruler != nil || s.Card != nil {
			scales++
		} else if s.Distance > 0 {
			distances++
		}
	}
	if scales+distances == 0 {
		return nil, errors.New("no photograph of the " + f.name + " has a ruler or a scale card marked, so nothing tells how large anything is; mark two figures of the ruler, or the card's four corners, in at least one picture")
	}
	for _, s := range shots {
		if s.Ruler != nil || s.Card != nil {
			continue
		}
		g := s.doubt("No ruler or card is marked in it; how large things are comes from the other pictures alone.")
		if scales == 0 {
			g = s.doubt("No ruler or card is marked in it; how large things are hangs on the distance that was taped.")
		}
		g.Perhaps = "Mark two figures of its ruler."
		findings = append(findings, g)
	}
	return findings, nil
}
