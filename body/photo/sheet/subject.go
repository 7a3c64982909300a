package sheet

import (
	"math"
	"strings"

	"tasset/body/photo"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// limb is a stretch of what a view shows, with the half width of what belongs to
// it, mm.
type limb struct {
	from, to r2.Vec
	half     float64
}

// Half widths about the lines that join landmarks (judgement), and how far a hand
// reaches past its wrist.
const (
	headHalf  = 95.0
	limbHalf  = 65.0
	rulerHalf = 40.0
	handReach = 190.0
)

// limbsOf are head, trunk, limbs and the ruler; none if a landmark is missing by
// which they are found.
func limbsOf(b *photo.Subject, v *view, sh photo.Shot) []limb {
	missing := false
	point := func(name string) r2.Vec {
		p, ok := b.Point(name)
		missing = missing || !ok
		return v.plane.seen(p.At)
	}
	var out []limb
	chain := func(half float64, pts ...r2.Vec) {
		for i := 0; i+1 < len(pts); i++ {
			out = append(out, limb{pts[i], pts[i+1], half})
		}
	}
	chain(headHalf, point("crown"), point("chin"))
	crotch := point("crotch")
	var shoulders []r2.Vec
	for _, side := range []string{"left ", "right "} {
		shoulder, wrist, knee := point(side+"shoulder edge"), point(side+"wrist"), point(side+"knee")
		hand := r2.Add(wrist, r2.Scale(handReach, r2.Unit(r2.Sub(wrist, shoulder))))
		shoulders = append(shoulders, shoulder)
		chain(limbHalf, shoulder, wrist, hand)
		chain(limbHalf, point("chin"), shoulder, crotch, knee, point(side+"ankle"), point(side+"toe"))
		outline := []r2.Vec{shoulder}
		for _, name := range []string{"waist side", "hip side"} {
			if p, ok := b.Point(side + name); ok {
				outline = append(outline, v.plane.seen(p.At))
			}
		}
		if len(outline) < 3 { // as wide as the shoulders
			outline = append(outline, at(shoulder.X, crotch.Y))
		}
		chain(limbHalf, append(outline, knee)...)
	}
	chain(limbHalf, shoulders...)
	if r := v.scaleOf(sh); len(r) > 0 {
		chain(rulerHalf, r...)
	}
	if missing {
		return nil
	}
	return out
}

// scaleOf are where the ends of the ruler or the corners of the card appear on
// the view's plane.
func (v *view) scaleOf(sh photo.Shot) []r2.Vec {
	var out []r2.Vec
	put := func(ps ...photo.Pixel) {
		for _, p := range ps {
			if q, ok := v.plane.under(p); ok {
				out = append(out, q)
			}
		}
	}
	if r := sh.Ruler; r != nil {
		put(r.From, r.To)
	}
	if c := sh.Card; c != nil {
		put(c.Corners[:]...)
	}
	return out
}

// A ruler or card is shown whole, with its edges, if it stands no further out of
// the view than this, mm (judgement).
const (
	scaleEdge    = 15.0
	farthestEdge = 120.0
)

// withScales makes a view so large that it shows what gives it its scale.
func (v *view) withScales(sh photo.Shot) {
	low, high := v.low, v.high
	for _, q := range v.scaleOf(sh) {
		low = at(min(low.X, q.X-scaleEdge), min(low.Y, q.Y-scaleEdge))
		high = at(max(high.X, q.X+scaleEdge), max(high.Y, q.Y+scaleEdge))
	}
	if max(v.low.X-low.X, v.low.Y-low.Y, high.X-v.high.X, high.Y-v.high.Y) <= farthestEdge {
		v.low, v.high = low, high
	}
}

// places finds what joins of pages should keep off: the eyes, of a body picture
// the middle of the head, and all other marks.
func (v *view) places(s *photo.Subject, sh photo.Shot) {
	for _, m := range sh.Marks {
		p, ok := s.Point(m.Name)
		switch {
		case !ok:
		case strings.Contains(m.Name, "pupil"), strings.Contains(m.Name, "eye corner"):
			v.eyes = append(v.eyes, v.plane.seen(p.At))
		default:
			v.marks = append(v.marks, v.plane.seen(p.At))
		}
	}
	crown, ok := s.Point("crown")
	chin, ok2 := s.Point("chin")
	if !sh.View.OfHead() && ok && ok2 {
		v.eyes = append(v.eyes, v.plane.seen(r3.Scale(0.5, r3.Add(crown.At, chin.At))))
	}
}

// under is where the ray of a pixel meets the plane.
func (p plane) under(px photo.Pixel) (r2.Vec, bool) {
	c := p.camera
	ray := c.Frame.Dir(r3.Vec{X: (px.X - c.Centre.X) / c.Focal, Y: (px.Y - c.Centre.Y) / c.Focal, Z: 1})
	toward := -r3.Dot(ray, p.toward)
	if toward <= 0 || math.IsNaN(toward) {
		return r2.Vec{}, false
	}
	q := r3.Add(c.Frame.O, r3.Scale(p.distance()/toward, ray))
	return at(r3.Dot(q, p.right), r3.Dot(q, p.up)), true
}
