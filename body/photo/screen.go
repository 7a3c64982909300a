package photo

import (
	"fmt"
	"slices"
	"strings"

	"tasset/internal/report"
)

// screen looks at marks before anything is solved: pictures that show another
// view than their label says, marks that their view cannot show, left and right
// the wrong way round, rulers and cards that cannot be right. What cannot be right
// is left out of the solve, with a finding that says so; nothing is changed. No
// shots are left if nothing can be solved.
func (f *figure) screen(shots []Shot) ([]Shot, []report.Finding) {
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
		return nil, append(findings, f.useless("No photograph of the %s can be used.", f.name))
	}
	asked := f.askScale(kept)
	kept, wrong := f.screenScales(kept)
	findings = append(append(findings, asked...), wrong...)
	if !slices.ContainsFunc(kept, Shot.hasScale) {
		g := f.useless("No photograph of the %s has a ruler or a scale card marked, so nothing tells how large anything is.", f.name)
		if len(wrong) > 0 {
			g = f.useless("No photograph of the %s has a ruler or a scale card that can be right, so nothing tells how large anything is.", f.name)
		}
		g.Perhaps = "Mark two figures of the ruler, or the card's four corners, in at least one picture."
		return nil, append(findings, g)
	}
	return kept, findings
}

// useless tells that nothing can be solved.
func (f *figure) useless(format string, args ...any) report.Finding {
	g := report.Problemf(f.name+" photographs", format, args...)
	g.Said += " None of its sizes comes from photographs."
	return g
}

// hasScale tells whether anything in a shot tells a size.
func (s Shot) hasScale() bool { return s.Ruler != nil || s.Card != nil || s.Distance > 0 }

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

// askScale asks for rulers.
func (f *figure) askScale(shots []Shot) []report.Finding {
	var findings []report.Finding
	rulers := slices.ContainsFunc(shots, func(s Shot) bool { return s.Ruler != nil || s.Card != nil })
	if !slices.ContainsFunc(shots, Shot.hasScale) {
		return nil
	}
	for _, s := range shots {
		if s.Ruler != nil || s.Card != nil {
			continue
		}
		g := s.doubt("No ruler or card is marked in it; how large things are comes from the other pictures alone.")
		if !rulers {
			g = s.doubt("No ruler or card is marked in it; how large things are hangs on the distance that was taped.")
		}
		g.Perhaps = "Mark two figures of its ruler."
		findings = append(findings, g)
	}
	return findings
}
