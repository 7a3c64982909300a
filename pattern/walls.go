package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// walls are the bent panels of a piece before anything is cut out of them, as
// rays meet them.
type walls struct {
	mesh    geom.Mesh
	locator *geom.Locator
	middle  r3.Vec
}

func newWalls(panels []rawPanel) *walls {
	w := &walls{}
	for i := range panels {
		w.mesh.Append(geom.Mesh{V: panels[i].surf.Bent, T: panels[i].surf.T})
	}
	w.locator = geom.NewLocator(w.mesh)
	low, high := w.bounds()
	w.middle = r3.Scale(0.5, r3.Add(low, high))
	return w
}

func (w *walls) bounds() (low, high r3.Vec) {
	inf := math.Inf(1)
	low, high = r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	for _, v := range w.mesh.V {
		low = r3.Vec{X: min(low.X, v.X), Y: min(low.Y, v.Y), Z: min(low.Z, v.Z)}
		high = r3.Vec{X: max(high.X, v.X), Y: max(high.Y, v.Y), Z: max(high.Z, v.Z)}
	}
	return low, high
}

// hit is where a ray first meets the piece, if it meets its outer face there, or
// with inner its inner one.
func (w *walls) hit(from, dir r3.Vec, inner bool) (r3.Vec, bool) {
	t, tri, ok := w.locator.Hit(from, dir)
	if !ok {
		return r3.Vec{}, false
	}
	v := w.mesh.T[tri]
	n := normalOf(w.mesh.V[v[0]], w.mesh.V[v[1]], w.mesh.V[v[2]])
	return r3.Add(from, r3.Scale(t, dir)), (r3.Dot(n, dir) > 0) == inner
}

// seen is where the eye meets the piece at a place of its picture.
func (w *walls) seen(e eye, q r2.Vec) (r3.Vec, bool) {
	return w.hit(e.at, r3.Unit(e.ray(e.target(q))), false)
}

// solid puts a closed curve of a picture onto the piece. What runs past the
// piece stands as deep as the nearest part of the curve that does not; ok is
// false if none of it meets the piece.
func (w *walls) solid(e eye, ring []r2.Vec) (out []r3.Vec, ok bool) {
	n := len(ring)
	out = make([]r3.Vec, n)
	met := make([]bool, n)
	for i, q := range ring {
		out[i], met[i] = w.seen(e, q)
		ok = ok || met[i]
	}
	for i, q := range ring {
		for d := 1; ok && !met[i] && d <= n; d++ {
			j := (i + d) % n
			if !met[j] {
				j = (i + n - d%n) % n
			}
			if met[j] {
				out[i] = e.atDepth(q, -r3.Dot(r3.Sub(out[j], e.at), e.toward))
				break
			}
		}
	}
	return out, ok
}

// atDepth is the place at a depth before the lens that stands at a place of its
// picture.
func (e eye) atDepth(q r2.Vec, depth float64) r3.Vec {
	return r3.Add(e.at, r3.Scale(depth/e.depth, e.ray(e.target(q))))
}
