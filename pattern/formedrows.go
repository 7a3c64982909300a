package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A formed band follows its surface both ways. It is a grid: columns run from
// ring to ring through the rings' own points, rows round the shell between
// them. Neighbours share the column at their seam and the row at their ring.

// How fine a formed panel is: about so many triangles give its outline within
// a tenth of a millimetre; more than the most are never made. A panel has at
// least so many cells each way (measured on gores, cups and saddles).
const (
	formedTriangles = 1200
	mostFormed      = 2000
	fewestCells     = 6
)

// samples is how many levels tell how a formed band's columns run (detail).
const samples = 24

// row is a line of a formed band round the shell, divided as its rings are.
type row struct{ arcs [][]r3.Vec }

// coarser is into how many parts a stretch of the rings is divided: n, or as
// many as the formed panels that it borders on need. A panel's size is judged by
// its rings.
func (s *shell) coarser(a, n int, outlines [][]r2.Vec, points [][]r2.Vec) int {
	formed := 0
	for i := range s.bands {
		if b := &s.bands[i]; b.formed {
			width, part := 0.0, 0.0
			for _, r := range []int{b.from, b.to} {
				w, p := s.widths(*b, a, outlines[r], points[r])
				width, part = max(width, w), max(part, p)
			}
			edge := math.Sqrt(width * s.height(i, outlines) * 2 / formedTriangles)
			edge = min(edge, width/fewestCells)
			formed = max(formed, int(math.Ceil(part/edge-1e-6)), 2)
		}
	}
	if formed > 0 {
		return formed
	}
	return n
}

// widths is how long a ring is over the panel that arc a belongs to, and over
// the arc itself.
func (s *shell) widths(b band, a int, outline, points []r2.Vec) (panel, arc float64) {
	length := func(a int) float64 {
		return geom.Length(between(outline, points[a], points[(a+1)%len(s.keys)]))
	}
	arc = length(a)
	panel = arc
	for k := a; !s.endsPanel(b, k); { // to the left
		if k = (k + s.arcs() - 1) % s.arcs(); k == a {
			return panel, arc
		}
		panel += length(k)
	}
	for k := (a + 1) % len(s.keys); !s.endsPanel(b, k) && k != a; k = (k + 1) % len(s.keys) {
		panel += length(k)
	}
	return panel, arc
}

// endsPanel tells whether a band's panels end at a key.
func (s *shell) endsPanel(b band, k int) bool { return b.seamAt[k] || s.keys[k].edge != bothSides }

// height is about how long a band's columns are.
func (s *shell) height(i int, outlines [][]r2.Vec) float64 {
	b := s.bands[i]
	from, to := s.plan.rings[b.from].level, s.plan.rings[b.to].level
	if s.bands[i].pointed {
		reach := geom.Perimeter(outlines[b.from]) / (2 * math.Pi)
		return 1.2 * math.Hypot(s.apexLevel()-from, reach)
	}
	g := (geom.Perimeter(outlines[b.to]) - geom.Perimeter(outlines[b.from])) / (2 * math.Pi)
	return 1.1 * math.Hypot(to-from, g)
}

// drawFormed makes the rows of a formed band and the columns at its keys.
func (s *shell) drawFormed(i int) error {
	b := &s.bands[i]
	if m := len(s.bands) - 1 - i; s.plan.ends && m < i && s.bands[m].rows != nil {
		b.rows = endForEnd(s.bands[m].rows)
	} else if err := s.drawRows(i); err != nil {
		return err
	}
	b.rails = make([][]r3.Vec, len(s.keys))
	for k := range s.keys {
		for _, r := range b.rows {
			b.rails[k] = append(b.rails[k], r.at(k))
		}
	}
	return nil
}

// at is the row's point at a key; a row that is one point has no arcs.
func (r *row) at(k int) r3.Vec {
	if k < len(r.arcs) {
		return r.arcs[k][0]
	}
	last := r.arcs[len(r.arcs)-1]
	return last[len(last)-1]
}

// endForEnd is a band's rows seen in a mirror square to the shell's axis.
func endForEnd(rows []row) []row {
	out := make([]row, len(rows))
	for i, r := range rows {
		to := &out[len(rows)-1-i]
		for _, arc := range r.arcs {
			image := make([]r3.Vec, len(arc))
			for j, p := range arc {
				image[j] = r3.Vec{X: p.X, Y: -p.Y, Z: p.Z}
			}
			to.arcs = append(to.arcs, image)
		}
	}
	return out
}

// drawRows lays a band's rows at equal distances along its columns.
func (s *shell) drawRows(i int) error {
	at, err := s.surfaceOf(i)
	if err != nil {
		return err
	}
	fine := make([]row, samples+1)
	for j := range fine {
		if fine[j], err = at(s.share(i, float64(j)/samples), true); err != nil {
			return err
		}
	}
	height := make([]float64, len(fine)) // mean length of the columns so far
	for j := 1; j < len(fine); j++ {
		height[j] = height[j-1] + fine[j].from(&fine[j-1])
	}
	n := s.rowsOf(i, height[samples])
	b := &s.bands[i]
	for j := range n + 1 {
		seg, t := geom.Locate(height, height[samples]*float64(j)/float64(n))
		r, err := at(s.share(i, (float64(seg)+t)/samples), false)
		if err != nil {
			return err
		}
		b.rows = append(b.rows, r)
	}
	if s.plan.ends && i == len(s.bands)-1-i { // its own image
		half := endForEnd(b.rows)
		copy(b.rows[(n+2)/2:], half[(n+2)/2:])
	}
	return nil
}

// share spreads levels so that they crowd where a shell that ends in a point
// turns level.
func (s *shell) share(i int, t float64) float64 {
	if s.bands[i].pointed {
		return math.Sin(t * math.Pi / 2)
	}
	return t
}

// from is the mean distance of two rows' points.
func (r *row) from(o *row) float64 {
	sum, n := 0.0, 0.0
	for a, arc := range r.arcs {
		for j, p := range arc {
			sum += geom.Dist(p, o.arcs[a][j])
			n++
		}
	}
	return sum / n
}

// rowsOf is how many rows of cells a band has: about as high as they are wide,
// and no more than the widest panel bears.
func (s *shell) rowsOf(i int, height float64) int {
	b := s.bands[i]
	most, width := 1, 1.0
	for _, arcs := range s.panelArcs(b) {
		n, w := 0, 0.0
		for _, a := range arcs {
			n += len(s.rings[b.from].arcs[a]) - 1
			w += max(geom.Length(s.rings[b.from].arcs[a]), geom.Length(s.rings[b.to].arcs[a]))
		}
		if n > most {
			most, width = n, w
		}
	}
	n := int(math.Round(height * float64(most) / width))
	return min(max(n, fewestCells), max(mostFormed/2/most, 2))
}

// panelArcs are the arcs of each panel of a band.
func (s *shell) panelArcs(b band) [][]int {
	var out [][]int
	first := 0
	for k := range s.arcs() {
		if s.endsPanel(b, k) {
			first = k
			break
		}
	}
	for n := range s.arcs() {
		a := (first + n) % s.arcs()
		if n == 0 || s.endsPanel(b, a) {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], a)
	}
	return out
}

// surfaceOf gives a band's rows by their share of the way up; rough ones only
// at the keys, which tell how long the columns are.
func (s *shell) surfaceOf(i int) (func(t float64, rough bool) (row, error), error) {
	b := s.bands[i]
	if s.plan.rings[b.from].scaled != nil || s.plan.rings[b.to].scaled != nil {
		return s.domeRows(i), nil
	}
	if s.drawnRing(b.from) || s.drawnRing(b.to) || b.pointed && s.plan.apex != nil {
		return s.between(i), nil
	}
	first, err := s.rowAt(i, 0, false)
	if err != nil {
		return nil, err
	}
	low := s.rowOfRing(b.from).less(first)
	high := first.less(first)
	if !b.pointed {
		if first, err = s.rowAt(i, 1, false); err != nil {
			return nil, err
		}
		high = s.rowOfRing(b.to).less(first)
	}
	return func(t float64, rough bool) (row, error) {
		r, err := s.rowAt(i, t, rough)
		if err == nil && !rough {
			r.shift(low, high, t)
		}
		return r, err
	}, nil
}

// drawnRing tells whether a ring's outline is drawn instead of taken from what
// the piece goes round.
func (s *shell) drawnRing(i int) bool { return s.rings[i].stood != nil || s.plan.rings[i].drawn != nil }

// rowAt is the row at a share of the way up a band, on the limit and creased or
// cornered as the rings are.
func (s *shell) rowAt(i int, t float64, rough bool) (row, error) {
	b := s.bands[i]
	lower, upper := s.plan.rings[b.from], s.plan.rings[b.to]
	if s.bands[i].pointed {
		upper.level = s.apexLevel()
		upper.section = upper.level
		if t == 1 {
			return s.apexRow(i, rough)
		}
	}
	r := lower.toward(upper, t)
	var facing []float64
	if len(r.corners) > 0 {
		facing = facings(r.corners)
	}
	line, at, err := s.outline(r, facing)
	if err != nil {
		return row{}, err
	}
	var arcs [][]r2.Vec
	for a := range s.arcs() {
		n := len(s.rings[b.from].arcs[a]) - 1
		if rough {
			arcs = append(arcs, []r2.Vec{at[a], at[(a+1)%len(s.keys)]})
		} else {
			arcs = append(arcs, stretch(line, at[a], at[(a+1)%len(s.keys)], n))
		}
	}
	s.mirrorArcs(arcs)
	return rowOf(arcs, func(p r2.Vec) r3.Vec { return shellVec(p, r.level) }), nil
}

func rowOf(arcs [][]r2.Vec, point func(r2.Vec) r3.Vec) row {
	var out row
	for _, arc := range arcs {
		line := make([]r3.Vec, len(arc))
		for j, p := range arc {
			line[j] = point(p)
		}
		out.arcs = append(out.arcs, line)
	}
	return out
}

func (s *shell) rowOfRing(i int) row { return rowOf(s.rings[i].arcs, s.rings[i].point) }

// apexRow is the point in which a band ends, above the middle of its last row.
func (s *shell) apexRow(i int, rough bool) (row, error) {
	r, err := s.rowAt(i, s.share(i, 1-1./samples), rough)
	if err != nil {
		return r, err
	}
	var sum r3.Vec
	n := 0.0
	for _, arc := range r.arcs {
		for _, p := range arc[1:] {
			sum, n = r3.Add(sum, p), n+1
		}
	}
	apex := r3.Scale(1/n, sum)
	apex.Y = s.apexLevel()
	if s.plan.mirror {
		apex.X = 0
	}
	for _, arc := range r.arcs {
		for j := range arc {
			arc[j] = apex
		}
	}
	return r, nil
}

// toward is a ring between two others that have the same corners and creases.
func (r ringPlan) toward(o ringPlan, t float64) ringPlan {
	mix := func(a, b float64) float64 { return (1-t)*a + t*b }
	out := ringPlan{name: r.name, level: mix(r.level, o.level), section: mix(r.section, o.section)}
	for i, c := range r.ridges {
		if i < len(o.ridges) {
			c.rise = mix(c.rise, o.ridges[i].rise)
		} else {
			c.rise = mix(c.rise, 0)
		}
		out.ridges = append(out.ridges, c)
	}
	for i, c := range r.corners {
		if i < len(o.corners) {
			c = mix(c, o.corners[i])
		}
		out.corners = append(out.corners, c)
	}
	return out
}

// less is by how much a row stands off another.
func (r row) less(o row) row {
	out := row{}
	for a, arc := range r.arcs {
		line := make([]r3.Vec, len(arc))
		for j, p := range arc {
			line[j] = r3.Sub(p, o.arcs[a][j])
		}
		out.arcs = append(out.arcs, line)
	}
	return out
}

// shift moves a row by a share of what the band's rings stand off their limit.
func (r *row) shift(low, high row, t float64) {
	for a, arc := range r.arcs {
		for j := range arc {
			arc[j] = r3.Add(arc[j], r3.Add(r3.Scale(1-t, low.arcs[a][j]), r3.Scale(t, high.arcs[a][j])))
		}
	}
}

// between gives rows that run smoothly through all rings of the shell, and
// never beyond them.
func (s *shell) between(i int) func(t float64, rough bool) (row, error) {
	b := s.bands[i]
	var rows []row
	for r := range s.rings {
		rows = append(rows, s.rowOfRing(r))
	}
	to := b.to
	if b.pointed {
		to = len(rows)
		rows = append(rows, s.tip())
	}
	knots := make([]float64, len(rows))
	for r := 1; r < len(rows); r++ {
		knots[r] = knots[r-1] + max(rows[r].from(&rows[r-1]), geom.Detail)
	}
	columns := make([][]func(float64) r3.Vec, s.arcs())
	for a, arc := range rows[0].arcs {
		for j := range arc {
			var pts []r3.Vec
			for r := range rows {
				pts = append(pts, rows[r].arcs[a][j])
			}
			columns[a] = append(columns[a], smooth(knots, pts))
		}
	}
	return func(t float64, _ bool) (row, error) {
		switch t {
		case 0:
			return rows[b.from], nil
		case 1:
			return rows[to], nil
		}
		x := (1-t)*knots[b.from] + t*knots[to]
		var out row
		for a := range columns {
			line := make([]r3.Vec, len(columns[a]))
			for j, at := range columns[a] {
				line[j] = at(x)
			}
			out.arcs = append(out.arcs, line)
		}
		return out, nil
	}
}

// tip is the shell's point as a row.
func (s *shell) tip() row {
	last := &s.rings[len(s.rings)-1]
	return rowOf(last.arcs, func(r2.Vec) r3.Vec { return s.apex })
}

// smooth is a monotone cubic through points at knots.
//
// Source: Fritsch and Butland, "A method for constructing local monotone
// piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5 (1984).
func smooth(knots []float64, pts []r3.Vec) func(float64) r3.Vec {
	if len(knots) == 2 {
		return func(x float64) r3.Vec { return geom.Lerp(pts[0], pts[1], (x-knots[0])/(knots[1]-knots[0])) }
	}
	var f [3]interp.FritschButland
	for axis := range f {
		values := make([]float64, len(pts))
		for i, p := range pts {
			values[i] = [3]float64{p.X, p.Y, p.Z}[axis]
		}
		if err := f[axis].Fit(knots, values); err != nil {
			panic(err) // knots rise by at least a detail
		}
	}
	return func(x float64) r3.Vec { return r3.Vec{X: f[0].Predict(x), Y: f[1].Predict(x), Z: f[2].Predict(x)} }
}
