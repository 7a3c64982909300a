package pattern

import (
	"math"
	"slices"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A ring lies square to the shell's axis and is written in the plane as
// (forward, sideways): X along the shell's z, Y along its x. Its angle 0 is
// forward and it runs counter-clockwise seen from the axis' upper end.

// limit bounds a neutral surface from inside: the body and what is worn on it,
// moved out along the surface's own normal by what the piece must keep clear
// and by its share of the foam. Moved so, a slope or a crown keeps the whole
// distance, which an offset within a section would not.
type limit struct {
	mesh   geom.Mesh // shell axes
	low    float64   // lowest and highest level that mesh reaches
	high   float64
	reach  [][]float64   // how far all above high - i·drawStep reaches, by direction; nil if the piece is not drawn on
	mirror bool          // make each ring its own mirror image
	beyond *geom.Locator // the body that the axis points out of: rings are not taken from it, but lie beyond it
	slices map[float64][]r2.Vec
	rows   []int32  // triangles that reach into each row of levels from low on:
	first  []int32  // of row r from rows[first[r]] on
	pts    []r2.Vec // room for those of one ring
}

// rowHeight is how high a row is, mm: less than most triangles are.
const rowHeight = 2.0

// drawStep is the spacing of the levels at which a drawn-on piece remembers
// what lies above (detail: a head does not change by a visible amount in it).
const drawStep = 2.0

// newLimit moves the mesh out by clear, which is asked with the outward normal
// and the point, both in shell axes. mirror makes each ring its own image.
func newLimit(m geom.Mesh, clear func(n, p r3.Vec) float64, mirror bool) *limit {
	return limitOf(movedBy(m, geom.VertexNormals(m), clear), mirror)
}

// limitOf is the limit that a mesh is.
func limitOf(m geom.Mesh, mirror bool) *limit {
	l := &limit{mesh: m, mirror: mirror, slices: map[float64][]r2.Vec{}}
	l.sortIntoRows()
	return l
}

// movedBy is a mesh moved out along its normals.
func movedBy(m geom.Mesh, normals []r3.Vec, clear func(n, p r3.Vec) float64) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: slices.Clip(m.T)}
	for i, p := range m.V {
		out.V[i] = r3.Add(p, r3.Scale(clear(normals[i], p), normals[i]))
	}
	return out
}

// sortIntoRows notes which triangles reach into which row of levels.
func (l *limit) sortIntoRows() {
	l.low, l.high = math.Inf(1), math.Inf(-1)
	for _, v := range l.mesh.V {
		l.low, l.high = min(l.low, v.Y), max(l.high, v.Y)
	}
	if l.low > l.high {
		return
	}
	of := make([]int32, len(l.mesh.V))
	for i, v := range l.mesh.V {
		of[i] = int32(l.row(v.Y))
	}
	// They are counted first, so that all rows share one list.
	l.first = make([]int32, l.row(l.high)+2)
	for _, t := range l.mesh.T {
		from, to := rowsOf(of, t)
		for r := from; r <= to; r++ {
			l.first[r]++
		}
	}
	var end int32
	for r, n := range l.first {
		end += n
		l.first[r] = end
	}
	l.rows = make([]int32, end)
	for i := len(l.mesh.T) - 1; i >= 0; i-- { // each row is filled from its end
		from, to := rowsOf(of, l.mesh.T[i])
		for r := from; r <= to; r++ {
			l.first[r]--
			l.rows[l.first[r]] = int32(i)
		}
	}
}

// rowsOf are the first and the last row that a triangle reaches into, of the rows of
// the vertices.
func rowsOf(of []int32, t [3]int) (from, to int32) {
	a, b, c := of[t[0]], of[t[1]], of[t[2]]
	return min(a, b, c), max(a, b, c)
}

// add makes the limit go round one more thing.
func (l *limit) add(m geom.Mesh) {
	l.mesh.Append(m)
	clear(l.slices)
	l.sortIntoRows()
}

// rest forgets what makes it answer fast.
func (l *limit) rest() {
	l.slices, l.pts, l.rows, l.first = map[float64][]r2.Vec{}, nil, nil, nil
}

// row is the number of the row that a level lies in.
func (l *limit) row(level float64) int { return int((level - l.low) / rowHeight) }

// drawnAngles (detail): a piece that is drawn on knows what it goes round by
// how far that reaches in so many directions.
const drawnAngles = 180

// rememberAbove makes the table of how far all that lies above each level
// reaches, and fills its hollows upwards (over an ear, say), so that the piece
// is round all over: the rings become sections of the convex hull of what the
// piece is drawn over.
func (l *limit) rememberAbove(floor float64) {
	steps := int((l.high-floor)/drawStep) + 2
	l.reach = make([][]float64, steps)
	for i := range l.reach {
		l.reach[i] = make([]float64, drawnAngles)
		for a := range l.reach[i] {
			l.reach[i][a] = math.Inf(-1)
		}
	}
	dirs := make([]r2.Vec, drawnAngles)
	for a := range dirs {
		dirs[a] = direction(2 * math.Pi * float64(a) / drawnAngles)
	}
	for _, v := range l.mesh.V {
		i := int(math.Ceil((l.high - v.Y) / drawStep))
		if i >= steps {
			continue
		}
		for a, d := range dirs {
			l.reach[i][a] = max(l.reach[i][a], r2.Dot(d, ringVec(v)))
		}
	}
	column := make([]float64, steps)
	for a := range dirs {
		for i := range l.reach {
			if i > 0 {
				l.reach[i][a] = max(l.reach[i][a], l.reach[i-1][a])
			}
			column[i] = l.reach[i][a]
		}
		for i, v := range concave(column) {
			l.reach[i][a] = v
		}
	}
}

// concave lifts a row of equally spaced values to the least concave row above
// it. Values before the first finite one stay.
func concave(v []float64) []float64 {
	var top []int // indices of the hull's corners
	for i := range v {
		if math.IsInf(v[i], -1) {
			continue
		}
		for len(top) > 1 {
			a, b := top[len(top)-2], top[len(top)-1]
			if (v[b]-v[a])*float64(i-a) > (v[i]-v[a])*float64(b-a) {
				break
			}
			top = top[:len(top)-1]
		}
		top = append(top, i)
	}
	out := append([]float64(nil), v...)
	for k := 0; k+1 < len(top); k++ {
		a, b := top[k], top[k+1]
		for i := a; i <= b; i++ {
			out[i] = v[a] + (v[b]-v[a])*float64(i-a)/float64(b-a)
		}
	}
	return out
}

// drawnAt is the ring that a drawn-on piece goes round at a level.
func (l *limit) drawnAt(level float64) []r2.Vec {
	x := min(max((l.high-level)/drawStep, 0), float64(len(l.reach)-1))
	i := min(int(x), len(l.reach)-2)
	t := x - float64(i)
	lines := make([]float64, drawnAngles)
	for a := range lines {
		lo, hi := l.reach[i][a], l.reach[i+1][a]
		if math.IsInf(lo, -1) {
			lo, t = hi, 1
		}
		if lines[a] = (1-t)*lo + t*hi; t == 1 {
			lines[a] = hi
		}
	}
	var pts []r2.Vec
	for a := range lines {
		b := (a + 1) % drawnAngles
		p, ok := meet(direction(2*math.Pi*float64(a)/drawnAngles), lines[a], direction(2*math.Pi*float64(b)/drawnAngles), lines[b])
		if ok {
			pts = append(pts, p)
		}
	}
	return pts
}

// hull is the convex hull, or the points themselves while they span no area.
func hull(pts []r2.Vec) []r2.Vec {
	if len(pts) < 3 {
		return slices.Clone(pts)
	}
	return geom.Hull(pts)
}

func ringVec(p r3.Vec) r2.Vec                 { return r2.Vec{X: p.Z, Y: p.X} }
func shellVec(p r2.Vec, level float64) r3.Vec { return r3.Vec{X: p.Y, Y: level, Z: p.X} }

// at gives the convex ring at a level; fewer than three points where nothing is.
func (l *limit) at(level float64) []r2.Vec {
	if ring, ok := l.slices[level]; ok {
		return ring
	}
	pts := l.crossings(l.pts[:0], level)
	if l.reach != nil && level <= l.high {
		pts = append(pts, l.drawnAt(level)...)
	}
	ring := hull(pts)
	if l.mirror {
		for _, p := range ring {
			ring = append(ring, r2.Vec{X: p.X, Y: -p.Y})
		}
		ring = hull(ring)
	}
	l.slices[level], l.pts = ring, pts
	return ring
}

// crossings adds the points where the mesh's edges cross the level.
func (l *limit) crossings(pts []r2.Vec, level float64) []r2.Vec {
	if !(level >= l.low && level <= l.high) {
		return pts
	}
	var last edges
	if l.rows == nil {
		for _, t := range l.mesh.T {
			pts = l.crossing(pts, t, level, &last)
		}
		return pts
	}
	r := l.row(level)
	for _, ti := range l.rows[l.first[r]:l.first[r+1]] {
		pts = l.crossing(pts, l.mesh.T[ti], level, &last)
	}
	return pts
}

// crossing adds the points where a triangle's edges cross the level, but for those of the
// last few triangles.
func (l *limit) crossing(pts []r2.Vec, t [3]int, level float64, last *edges) []r2.Vec {
	for k := range 3 {
		i, j := t[k], t[(k+1)%3]
		a, b := l.mesh.V[i], l.mesh.V[j]
		if (a.Y <= level) == (b.Y <= level) || last.had(i, j) {
			continue
		}
		pts = append(pts, ringVec(r3.Add(a, r3.Scale((level-a.Y)/(b.Y-a.Y), r3.Sub(b, a)))))
	}
	return pts
}

// edges are the last few edges of triangles that were crossed. Neighbours in a
// mesh mostly follow each other, and each edge is crossed in two of them.
type edges struct {
	ends [4][2]int
	next int
}

// had tells whether an edge was among them, run the other way, and notes it.
func (e *edges) had(i, j int) bool {
	for _, o := range e.ends {
		if o == [2]int{j, i} {
			return true
		}
	}
	e.ends[e.next%len(e.ends)] = [2]int{i, j}
	e.next++
	return false
}

// direction is the unit vector at an angle from forward.
func direction(angle float64) r2.Vec {
	s, c := math.Sincos(angle)
	return r2.Vec{X: c, Y: s}
}
