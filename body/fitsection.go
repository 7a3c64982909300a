package body

import "tasset/internal/report"

// fitted is the section with a girth, breadth and depth, all three exact where
// one convex section can have them. Where none can, the girth is kept, and of
// breadth and depth the less certain one gives way, by a finding.
func (s *sizes) fitted(girth, breadth, depth Name, front float64) (Section, []report.Finding) {
	g, b, d := s.mm(girth, Both), s.mm(breadth, Both), s.mm(depth, Both)
	sec, ok := solveExponent(g, b, d, front)
	if ok || len(s.missing) > 0 {
		return sec, nil
	}
	gives, was := breadth, b
	if s.lessCertain(breadth, depth) == depth {
		gives, was = depth, d
	}
	limit := sec.Exponent
	if gives == breadth {
		sec, ok = solveBreadth(g, d, front, limit)
	} else {
		sec, ok = solveDepth(g, b, front, limit)
	}
	if !ok { // even flat, the other diameter alone is too much for the girth
		sec = split(b, d, front, limit).withGirth(g)
	}
	now := sec.Breadth
	if gives == depth {
		now = sec.Depth()
	}
	f := report.Doubtf(string(gives), "No convex section has the %s of %.0f mm with a breadth of %.0f mm and a depth of %.0f mm; the form keeps the girth and takes %.0f mm for the %s instead of %.0f mm.",
		girth, g, b, d, now, gives, was)
	f.Perhaps = "Measure the three again at one level."
	if x, _ := s.m.Get(gives, Both); x.Origin == Estimated {
		f.Level = report.Note
	} else {
		f.Where = x.Where
	}
	return sec, []report.Finding{f}
}

// chest is the section at the fullest chest. A breadth over the ribs cannot
// carry the girth of the chest (the muscles at its sides do), so the breadth is
// solved from girth and depth; only where that comes out below the ribs does
// the measured breadth stand.
func (s *sizes) chest(front float64) (Section, []report.Finding) {
	g, d := s.mm("chest girth", Both), s.mm("chest depth", Both)
	n := s.bySex(3.0, 3.4)
	sec, ok := solveBreadth(g, d, front, n)
	if ok && sec.Breadth >= s.mm("chest breadth", Both) {
		return sec, nil
	}
	return s.fitted("chest girth", "chest breadth", "chest depth", front)
}
