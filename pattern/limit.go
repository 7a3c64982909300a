package pattern

import (
	"math"
	"sort"

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
	mesh    geom.Mesh // shell axes
	low     float64   // lowest and highest level that mesh reaches
	high    float64
	drawn   [][]r2.Vec // hull of all that lies above high - i·drawStep; nil if the piece is not drawn on
	mirror  bool       // make each ring its own mirror image
	slices  map[float64][]r2.Vec
	byLevel []int // triangles by their lowest level
	span    float64
}

// drawStep is the spacing of the levels at which a drawn-on piece remembers
// what lies above (detail: a head does not change by a visible amount in it).
const drawStep = 2.0

// newLimit moves the mesh out by clear, which is asked with the outward normal
// and the point, both in shell axes. drawDown makes each ring also go round all
// that lies above it, so that the piece can be drawn on from above.
func newLimit(m geom.Mesh, clear func(n, p r3.Vec) float64, drawDown, mirror bool) *limit {
	normals := geom.VertexNormals(m)
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, p := range m.V {
		out.V[i] = r3.Add(p, r3.Scale(clear(normals[i], p), normals[i]))
	}
	l := &limit{mesh: out, mirror: mirror, slices: map[float64][]r2.Vec{}}
	l.sortByLevel()
	if drawDown {
		l.rememberAbove()
	}
	return l
}

func (l *limit) sortByLevel() {
	l.low, l.high = math.Inf(1), math.Inf(-1)
	for _, v := range l.mesh.V {
		l.low, l.high = min(l.low, v.Y), max(l.high, v.Y)
	}
	lowest := make([]float64, len(l.mesh.T))
	for i, t := range l.mesh.T {
		a, b, c := l.mesh.V[t[0]].Y, l.mesh.V[t[1]].Y, l.mesh.V[t[2]].Y
		lowest[i] = min(a, b, c)
		l.span = max(l.span, max(a, b, c)-lowest[i])
		l.byLevel = append(l.byLevel, i)
	}
	sort.SliceStable(l.byLevel, func(a, b int) bool { return lowest[l.byLevel[a]] < lowest[l.byLevel[b]] })
}

func (l *limit) rememberAbove() {
	steps := int((l.high-l.low)/drawStep) + 2
	at := make([][]r2.Vec, steps)
	for _, v := range l.mesh.V {
		i := int(math.Ceil((l.high - v.Y) / drawStep))
		at[i] = append(at[i], ringVec(v))
	}
	l.drawn = make([][]r2.Vec, steps)
	for i := range at {
		if i > 0 {
			at[i] = append(at[i], l.drawn[i-1]...)
		}
		l.drawn[i] = hull(at[i])
	}
}

// hull is the convex hull, or the points themselves while they span no area.
func hull(pts []r2.Vec) []r2.Vec {
	if len(pts) < 3 {
		return pts
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
	pts := l.crossings(level)
	if l.drawn != nil {
		if i := int(math.Floor((l.high - level) / drawStep)); i >= 0 {
			pts = append(pts, l.drawn[min(i, len(l.drawn)-1)]...)
		}
	}
	if l.mirror {
		for _, p := range pts {
			pts = append(pts, r2.Vec{X: p.X, Y: -p.Y})
		}
	}
	ring := hull(pts)
	l.slices[level] = ring
	return ring
}

// crossings are the points where the mesh's edges cross the level.
func (l *limit) crossings(level float64) []r2.Vec {
	first := sort.Search(len(l.byLevel), func(i int) bool {
		return l.lowestOf(l.byLevel[i]) >= level-l.span-geom.Coincident
	})
	var pts []r2.Vec
	for _, ti := range l.byLevel[first:] {
		if l.lowestOf(ti) > level {
			break
		}
		t := l.mesh.T[ti]
		for k := range 3 {
			a, b := l.mesh.V[t[k]], l.mesh.V[t[(k+1)%3]]
			if (a.Y <= level) == (b.Y <= level) {
				continue
			}
			pts = append(pts, ringVec(r3.Add(a, r3.Scale((level-a.Y)/(b.Y-a.Y), r3.Sub(b, a)))))
		}
	}
	return pts
}

func (l *limit) lowestOf(ti int) float64 {
	t := l.mesh.T[ti]
	return min(l.mesh.V[t[0]].Y, l.mesh.V[t[1]].Y, l.mesh.V[t[2]].Y)
}

// direction is the unit vector at an angle from forward.
func direction(angle float64) r2.Vec {
	s, c := math.Sincos(angle)
	return r2.Vec{X: c, Y: s}
}
