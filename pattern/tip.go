package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// placeApex finds where a shell that ends in a point ends: at the level that
// the template gives, above the middle of its last drawn ring. Gores over a
// body find it at the end of their limit.
func (s *shell) placeApex() error {
	if s.plan.capped != "point" || len(s.bands) == 0 {
		return nil
	}
	b := s.bands[len(s.bands)-1]
	if b.along && !s.drawnBand(b) {
		return nil
	}
	r := &s.rings[b.from]
	level := s.apexLevel()
	if s.plan.spine != nil {
		level = s.plan.spine.length()
	}
	if s.plan.apex != nil {
		level = *s.plan.apex
	}
	if !(level > r.level+geom.Detail) || math.IsInf(level, 0) {
		return fmt.Errorf("the point of the cap lies at %.1f mm, not above ring %q at %.1f mm; give the cap a higher level: at", level, s.plan.rings[b.from].name, r.level)
	}
	s.apex = shellVec(s.middle(b.from), level)
	if s.plan.spine != nil {
		s.apex = s.plan.spine.frame(level).Point(shellVec(s.middle(b.from), 0))
	}
	return nil
}

// middle is the centre of a ring, in its plane.
func (s *shell) middle(i int) r2.Vec {
	c := geom.Centroid(s.line(s.rings[i]))
	if s.plan.mirror {
		c.Y = 0
	}
	return c
}

// drawnBand tells whether a band runs from or to a drawn ring, so that no body
// gives its profile.
func (s *shell) drawnBand(b band) bool {
	return s.plan.rings[b.from].drawn != nil || !b.pointed && s.plan.rings[b.to].drawn != nil
}

// drawnRails are the seams of gores between drawn rings: straight from ring to
// ring, and to a point on a quarter of an ellipse, so that they close as a dome
// does. Their polygons stay similar, so each gore bends about parallel lines.
func (s *shell) drawnRails(b *band) {
	b.rails = make([][]r3.Vec, len(s.keys))
	foot := s.rings[b.from].point(s.middle(b.from))
	for k := range s.keys {
		if !b.seamAt[k] {
			continue
		}
		from := s.ringPoint(b.from, k)
		if !b.pointed {
			b.rails[k] = []r3.Vec{from, s.ringPoint(b.to, k)}
			continue
		}
		for i := range risers {
			sin, cos := math.Sincos(math.Pi / 2 * float64(i) / risers)
			at := r3.Add(r3.Scale(cos, r3.Sub(from, foot)), r3.Scale(sin, r3.Sub(s.apex, foot)))
			b.rails[k] = append(b.rails[k], r3.Add(foot, at))
		}
		b.rails[k] = append(b.rails[k], s.apex)
	}
}

// tipSides are the stretches at a wrapped panel's point: the grooves of its
// folds, which end there apart.
func (c *cutter) tipSides(runs []run) []side {
	var out []side
	for i := 1; i < len(runs); i++ {
		if a, b := runs[i-1].upper[0], runs[i].upper[0]; a != b {
			out = append(out, side{seam: atHinge, verts: []int{a, b}})
		}
	}
	return out
}

// drawnAxisAt is where angles are counted about between two drawn rings, whatever
// the body's own outline is there: the middle of the rings' lines.
func (s *shell) drawnAxisAt(level float64) (r3.Vec, bool) {
	for i := range len(s.rings) - 1 {
		a, b := s.plan.rings[i].drawn, s.plan.rings[i+1].drawn
		low, high := s.rings[i].level, s.rings[i+1].level
		if s.plan.spine != nil || a == nil || b == nil || level < low-geom.Coincident || level > high+geom.Coincident || high <= low {
			continue
		}
		t := (level - low) / (high - low)
		return shellVec(geom.Lerp(s.centre(a.line), s.centre(b.line), t), level), true
	}
	return r3.Vec{}, false
}

// axisAt is the middle of the shell at a level, in shell axes: between drawn
// rings, of its limit, or half way between the shell's own rings.
func (s *shell) axisAt(level float64) (r3.Vec, bool) {
	if middle, ok := s.drawnAxisAt(level); ok {
		return middle, true
	}
	if ring := s.limit.at(level); len(ring) >= 3 {
		return shellVec(geom.Centroid(ring), level), true
	}
	if sp := s.plan.spine; sp != nil && len(s.rings) > 0 {
		top := s.rings[len(s.rings)-1].level
		if s.plan.capped == "point" {
			top = sp.length()
		}
		return sp.frame(level).O, level >= s.rings[0].level-geom.Coincident && level <= top+geom.Coincident
	}
	for i := range s.rings {
		r := &s.rings[i]
		if level < r.level-geom.Coincident {
			continue
		}
		from := r.point(s.middle(i))
		to, end := s.apex, s.apex.Y
		if i+1 < len(s.rings) {
			to, end = s.rings[i+1].point(s.middle(i+1)), s.rings[i+1].level
		}
		if level <= end+geom.Coincident && end > r.level {
			return geom.Lerp(from, to, (level-r.level)/(end-r.level)), true
		}
	}
	return r3.Vec{}, false
}
