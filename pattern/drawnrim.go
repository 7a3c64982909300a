package pattern

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"

	"gonum.org/v1/gonum/spatial/r3"
)

// A drawn edge is met with the piece where it is seen, carried on across what
// cannot be seen, and cut as it is seen from the middle of the piece, all round.
// How it is carried on depends on the view:
//
//   - from the side, on a piece that is its own mirror image: to the middle line,
//     in front and behind, and mirrored to the other half;
//   - from the front or from behind, on such a piece: not at all; the rim behind
//     stays as it is;
//   - on any other piece: straight through to its far side, so that the piece
//     looks as drawn from there.

// drawnRim is what lies beyond a drawn edge; nil if it lies beyond the piece.
// drawn notes where the lower rim and the upper one were drawn.
func (b *builder) drawnRim(s *sketch, shape *shape, w *walls, drawn map[bool]string) (*cutout, error) {
	lower, err := b.isLower(s, &shape.shells[0].plan, w)
	if err != nil {
		return nil, err
	}
	if first, twice := drawn[lower]; twice {
		return nil, fmt.Errorf("this rim is drawn twice, the first time at %s; one curve makes it all round, and a curve drawn from the side is mirrored", first)
	}
	drawn[lower] = s.Where
	spots, gap := w.along(s, lower)
	if gap > geom.Detail {
		b.noteTooShort(s, lower, gap)
	}
	met := false
	for _, p := range spots {
		met = met || p.met
	}
	switch {
	case !met && gap > 0:
		return nil, nil
	case !met:
		return nil, fmt.Errorf("none of its curve lies on the piece; look whether it was drawn on the right photograph, and for the right piece")
	}
	path, err := b.path(s, spots, w, lower)
	if err != nil {
		return nil, err
	}
	return path.cutout(s.Name, lower), nil
}

// path carries a drawn edge on round the piece.
func (b *builder) path(s *sketch, spots []spot, w *walls, lower bool) (*rimPath, error) {
	even := b.template.Mirror || s.Mirror && !b.stand.paired()
	path := &rimPath{eye: eye{kind: within, at: w.within(spots, b.template.Mirror)}, walls: w}
	switch {
	case even && math.Abs(s.eye.toward.X) > math.Abs(s.eye.toward.Z):
		b.noteShort(s, w.goesOn(s.eye, spots))
		path.halves(spots, s.eye.at.X < 0)
	case even:
		path.follow(spots)
		if !s.AsSeen {
			b.evenRim(s, path)
		}
		b.noteSteps(s, path, lower)
		path.closeBeyond(lower)
	default:
		b.noteShort(s, w.goesOn(s.eye, spots))
		path.through(s.eye, spots)
	}
	if turns := path.turns(); math.Abs(turns-1) > 0.01 {
		return nil, fmt.Errorf("its curve does not go round the piece; draw it from one side of what is seen to the other, without loops")
	}
	return path, nil
}

// isLower tells whether a drawn edge is the lower rim of the piece or the upper.
func (b *builder) isLower(s *sketch, p *plan, w *walls) (bool, error) {
	below, above := !p.base, p.capped == ""
	first, last := "", ""
	if b.template.Frame.Axis == "across" {
		below, above = true, false
	} else {
		first, last = p.rings[0].name, p.rings[len(p.rings)-1].name
	}
	names := []string{"rim"}
	if below {
		names = appendNamed(names, "lower rim", first)
	}
	if above {
		names = appendNamed(names, "upper rim", last)
	}
	switch name := strings.ToLower(s.Name); {
	case name == "rim" && below && above:
		sum := 0.0
		for _, q := range s.line {
			sum += q.Y
		}
		return sum/float64(len(s.line)) < s.eye.see(w.middle).Y, nil
	case name == "rim" && (below || above):
		return below, nil
	case below && (name == "lower rim" || name == strings.ToLower(first)):
		return true, nil
	case above && (name == "upper rim" || name == strings.ToLower(last)):
		return false, nil
	case !below && !above:
		return false, fmt.Errorf("the %s is closed below and above; it has no edge to draw", b.template.Name)
	default:
		said := fmt.Sprintf("the %s has no edge of that name; it has %s", b.template.Name, strings.Join(names, ", "))
		if k := report.Nearest(name, names); k != "" {
			said += fmt.Sprintf("; did you mean %q?", k)
		}
		return false, fmt.Errorf("%s", said)
	}
}

func appendNamed(names []string, more ...string) []string {
	for _, n := range more {
		if n != "" && !equalsAny(n, names) {
			names = append(names, n)
		}
	}
	return names
}

// evenRim makes an edge that was drawn from the front its own mirror image.
func (b *builder) evenRim(s *sketch, path *rimPath) {
	differ, ok := path.even()
	if ok {
		b.noteUneven(s, differ)
		return
	}
	b.findings = append(b.findings, report.Finding{Level: report.Note, Subject: b.order.Name, Where: s.Where,
		Said: fmt.Sprintf("the drawn edge %q turns back on itself; it is cut as seen, not evenly left and right.", s.Name)})
}

// within is a place in the middle of the piece, on the level of an edge.
func (w *walls) within(spots []spot, mirror bool) r3.Vec {
	n := 0.0
	var at r3.Vec
	for _, s := range spots {
		if s.met {
			at.Y += s.p.Y
			n++
		}
	}
	at.Y /= n
	low, high := w.bounds()
	if cut := geom.Slice(w.mesh, at, r3.Vec{Y: 1}); len(cut) > 2 {
		low, high = cut[0][0], cut[0][0]
		for _, s := range cut {
			for _, p := range s {
				low.X, high.X, low.Z, high.Z = min(low.X, p.X), max(high.X, p.X), min(low.Z, p.Z), max(high.Z, p.Z)
			}
		}
	}
	at.X, at.Z = (low.X+high.X)/2, (low.Z+high.Z)/2
	if mirror {
		at.X = 0
	}
	return at
}
