package pattern

import (
	"fmt"
	"math"
	"sort"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// ring is one ring of a shell, divided at the keys.
type ring struct {
	level float64
	stood *geom.Frame // shellFromRing, where the axis is a curve; nil: square to the axis at its level
	arcs  [][]r2.Vec  // between key i and key i+1, both ends included; nil where the shell is open
}

// point is a point of the ring in shell axes.
func (r *ring) point(p r2.Vec) r3.Vec {
	if r.stood != nil {
		return r.stood.Point(shellVec(p, 0))
	}
	return shellVec(p, r.level)
}

// band is the part of a shell between two rings.
type band struct {
	bandPlan
	seamAt []bool // at key i
	// Rails of an along band, at key i; nil elsewhere. Columns of a formed one, at
	// all keys.
	rails [][]r3.Vec
	rows  []row // of a formed band
}

// shell is the neutral surface of a piece, in shell axes.
type shell struct {
	plan   plan
	limit  *limit
	keys   []key
	rings  []ring
	bands  []band
	lame   int     // which of a run, from 1; 0: none
	pushed float64 // how far a ring was moved out at most so that straight foam clears
	apex   r3.Vec  // where a band's upper end comes to a point, if the plan is capped so
}

// spacing is the distance of a ring's points (detail): with it an unrolled
// cone of a forearm's size is within a hundredth of a millimetre of the exact one.
const spacing = 3.0

func newShell(p plan, l *limit) (*shell, error) {
	s := &shell{plan: p, limit: l}
	if err := s.placeKeys(); err != nil {
		return nil, err
	}
	for _, b := range p.bands {
		s.bands = append(s.bands, band{bandPlan: b, seamAt: s.seamsAt(b)})
	}
	if n := len(s.bands); n > 0 && p.capped == "point" {
		s.bands[n-1].pointed = true
	}
	if err := s.drawRings(); err != nil {
		return nil, err
	}
	if err := s.standRings(); err != nil {
		return nil, err
	}
	s.pushOut()
	if err := s.placeApex(); err != nil {
		return nil, err
	}
	if err := s.placeCrests(); err != nil {
		return nil, err
	}
	s.lift()
	for i := range s.bands {
		if s.bands[i].along {
			if err := s.drawRails(i); err != nil {
				return nil, err
			}
		}
		if s.bands[i].formed {
			if err := s.drawFormed(i); err != nil {
				return nil, err
			}
		}
	}
	return s, nil
}

// drawRings makes every ring's outline at its level and divides it at the keys.
func (s *shell) drawRings() error {
	outlines := make([][]r2.Vec, len(s.plan.rings))
	points := make([][]r2.Vec, len(s.plan.rings))
	for i, r := range s.plan.rings {
		var err error
		if r.scaled != nil {
			s.rings = append(s.rings, ring{level: r.level, arcs: make([][]r2.Vec, s.arcs())})
			continue // drawn from its foot below
		}
		if outlines[i], points[i], err = s.outline(r, s.facingOf(i)); err != nil {
			return fmt.Errorf("ring %q: %w", r.name, err)
		}
		s.rings = append(s.rings, ring{level: r.level, arcs: make([][]r2.Vec, s.arcs())})
	}
	for i, r := range s.plan.rings {
		if d := r.scaled; d != nil {
			outlines[i], points[i] = d.smaller(outlines[d.of], points[d.of], s.plan.mirror)
		}
	}
	for a := range s.arcs() {
		b := (a + 1) % len(s.keys)
		n := 1
		for i := range outlines {
			n = max(n, divisions(outlines[i], points[i][a], points[i][b]))
		}
		n = s.coarser(a, n, outlines, points)
		for i := range outlines {
			s.rings[i].arcs[a] = stretch(outlines[i], points[i][a], points[i][b], n)
		}
	}
	s.reflect()
	return nil
}

// facingOf gives the angles that a ring's flat sides face: between corners, or
// between the seams of a band of gores; nil for a smooth ring.
func (s *shell) facingOf(i int) []float64 {
	if c := s.plan.rings[i].corners; len(c) > 0 {
		return facings(c)
	}
	for _, b := range s.plan.bands {
		if b.along && (b.from == i || b.to == i) {
			return facings(sortedTurns(b.seams))
		}
	}
	return nil
}

func sortedTurns(angles []float64) []float64 {
	out := make([]float64, len(angles))
	for i, a := range angles {
		out[i] = turn(a)
	}
	sort.Float64s(out)
	return out
}

// outline is a ring's closed line, and the places of the keys on it.
func (s *shell) outline(r ringPlan, facing []float64) (line, at []r2.Vec, err error) {
	round := s.limit.at(r.section)
	if r.drawn != nil {
		if r.drawn, err = r.drawn.beyond(round); err != nil {
			return nil, nil, err
		}
		s.pushed = max(s.pushed, r.drawn.pushed)
		round = r.drawn.line
	}
	if r.drawn != nil && r.drawn.points {
		return round, s.besideGap(round, s.placesOf(r)), nil
	}
	if len(s.limit.mesh.V) == 0 && r.drawn == nil {
		return nil, nil, fmt.Errorf("there is no body here to take its outline from; draw it, with size: {width: 60 mm, depth: 40 mm} or points")
	}
	if len(round) < 3 {
		return nil, nil, fmt.Errorf("there is no body at %.0f mm along the axis, which reaches from %.0f to %.0f mm; move the ring's level", r.section, s.limit.low, s.limit.high)
	}
	line = round
	var tips []r2.Vec
	if facing != nil {
		if line, err = facetRing(round, facing); err != nil {
			return nil, nil, err
		}
	} else if len(r.ridges) > 0 {
		line, tips = creasedAbout(s.centre(round), round, r.ridges)
	}
	return line, s.keyPoints(r, line, tips, facing != nil), nil
}

// centre is where a ring's angles are counted about: its middle, or the axis
// itself where the body goes on beside it.
func (s *shell) centre(line []r2.Vec) r2.Vec {
	if s.plan.aboutAxis && geom.Inside(line, r2.Vec{}) {
		return r2.Vec{}
	}
	return geom.Centroid(line)
}

func (s *shell) keyPoints(r ringPlan, line, tips []r2.Vec, faceted bool) []r2.Vec {
	centre := s.centre(line)
	at := make([]r2.Vec, len(s.keys))
	nextCorner := s.cornerOfSeam(faceted && len(r.corners) == 0)
	for i, k := range s.keys {
		switch {
		case k.corner >= 0 && faceted && len(r.corners) > 0:
			at[i] = line[k.corner]
		case nextCorner[i] >= 0:
			at[i] = line[nextCorner[i]]
		case k.crease >= 0 && k.crease < len(tips):
			at[i] = tips[k.crease]
		default:
			at[i], _ = rayMeets(line, centre, k.angle, 0)
		}
	}
	return s.besideGap(line, at)
}

// besideGap moves the edges of a gap apart on a ring.
func (s *shell) besideGap(line, at []r2.Vec) []r2.Vec {
	g := s.plan.gap
	for i, k := range s.keys {
		if g == nil || k.edge == bothSides || s.plan.span != nil {
			continue
		}
		d := g.width / 2
		if k.edge == endsHere {
			d = -d
		}
		at[i] = walk(line, position(line, at[i])+d)
	}
	return at
}

// cornerOfSeam numbers the seams of a ring of gores, whose corners they are.
func (s *shell) cornerOfSeam(gores bool) []int {
	out := make([]int, len(s.keys))
	n := 0
	for i := range out {
		out[i] = -1
		if !gores {
			continue
		}
		for _, b := range s.bands {
			if b.along && b.seamAt[i] {
				out[i] = n
				n++
				break
			}
		}
	}
	return out
}

// divisions is how many points a stretch of a ring needs; a straight one needs
// none but its ends.
func divisions(line []r2.Vec, from, to r2.Vec) int {
	pts := between(line, from, to)
	chord := r2.Sub(to, from)
	l := geom.Dist(from, to)
	bow, length := 0.0, 0.0
	for i, p := range pts {
		if l > 0 {
			bow = max(bow, math.Abs(r2.Cross(chord, r2.Sub(p, from)))/l)
		}
		if i > 0 {
			length += geom.Dist(p, pts[i-1])
		}
	}
	if l > 0 && bow < geom.Coincident {
		return 1
	}
	return max(int(math.Ceil(length/spacing)), 2)
}

// between is the stretch of a closed line from one place on it to another.
func between(line []r2.Vec, from, to r2.Vec) []r2.Vec {
	a, b, total := position(line, from), position(line, to), geom.Perimeter(line)
	if b <= a {
		b += total
	}
	pts := []r2.Vec{from}
	s := 0.0
	for lap := 0; lap < 2; lap++ {
		for i, p := range line {
			if s > a+geom.Coincident && s < b-geom.Coincident {
				pts = append(pts, p)
			}
			s += geom.Dist(p, line[(i+1)%len(line)])
		}
	}
	return append(pts, to)
}

// stretch divides the line between two places into n equal lengths.
func stretch(line []r2.Vec, from, to r2.Vec, n int) []r2.Vec {
	pts := between(line, from, to)
	cum := make([]float64, len(pts))
	for i := 1; i < len(pts); i++ {
		cum[i] = cum[i-1] + geom.Dist(pts[i], pts[i-1])
	}
	out := make([]r2.Vec, n+1)
	out[0], out[n] = from, to
	j := 0
	for i := 1; i < n; i++ {
		s := cum[len(cum)-1] * float64(i) / float64(n)
		for j+2 < len(cum) && cum[j+1] < s {
			j++
		}
		t := 0.0
		if d := cum[j+1] - cum[j]; d > 0 {
			t = (s - cum[j]) / d
		}
		out[i] = r2.Add(pts[j], r2.Scale(t, r2.Sub(pts[j+1], pts[j])))
	}
	return out
}

// line is the whole ring in one polyline, without repeating the keys; a closed
// ring does not repeat its first point.
func (s *shell) line(r ring) []r2.Vec {
	var pts []r2.Vec
	for _, arc := range r.arcs {
		pts = append(pts, arc[:len(arc)-1]...)
	}
	if s.open() {
		last := r.arcs[len(r.arcs)-1]
		pts = append(pts, last[len(last)-1])
	}
	return pts
}

// setLine puts a moved line back into the ring's arcs.
func (s *shell) setLine(r *ring, pts []r2.Vec) {
	i := 0
	for a, arc := range r.arcs {
		for j := range arc {
			arc[j] = pts[(i+j)%len(pts)]
		}
		i += len(arc) - 1
		r.arcs[a] = arc
	}
}
