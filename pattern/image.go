package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// image says which part a part is cut alike to or as the mirror image of, -1 for
// none, and which of that part's edges its own edge i is the image of.
type image struct {
	of      int
	edge    []int
	flipped bool
	moved   geom.Frame // of one that is not flipped: how the other is moved onto it, in space
}

// printBoth is the number of mirrored pairs above which both panels of each
// pair are printed (common practice, no source: with more, it is easy to lose
// count of what was flipped).
const printBoth = 6

// cutAlike (detail): a hundredth of a millimetre is nothing to a knife that
// follows a template.
const cutAlike = 0.01

// findImages finds the parts that one template serves: on a piece that is its
// own mirror image each other's images, on another those that are alike.
func (a *assembly) findImages() {
	a.images = make([]image, len(a.parts))
	for i := range a.images {
		a.images[i].of = -1
	}
	if !a.blanks.paired {
		a.findAlike()
		return
	}
	pairs := 0
	paired := make([]bool, len(a.parts))
	found := append([]image(nil), a.images...)
	for i := range a.parts {
		for j := i + 1; j < len(a.parts) && !paired[i]; j++ {
			if paired[j] {
				continue
			}
			if !a.faceEachOther(i, j) {
				continue
			}
			if edges, ok := mirrorMatch(&a.parts[j], &a.parts[i]); ok {
				found[j] = image{of: i, edge: edges, flipped: true}
				paired[i], paired[j] = true, true
				pairs++
			}
		}
	}
	if pairs <= printBoth {
		a.images = found
	}
}

// faceEachOther tells whether two parts stand on either side of the piece's
// middle, in the same lame: the front and the back of a tube may be of one shape
// and are no left and right.
func (a *assembly) faceEachOther(i, j int) bool {
	const near = 1.0 // mm
	p, q := &a.blanks.panels[a.parts[i].raw], &a.blanks.panels[a.parts[j].raw]
	at, image := p.surf.Lift(geom.Centroid(a.parts[i].outline())), q.surf.Lift(geom.Centroid(a.parts[j].outline()))
	image.X = -image.X
	return p.lame == q.lame && geom.Dist(at, image) < near
}

// mirrorMatch tells whether p is the mirror image of q (about the upright
// middle line of both), and which edge of q each edge of p is the image of.
func mirrorMatch(p, q *part) ([]int, bool) {
	if len(p.edges) != len(q.edges) || len(p.holes) != len(q.holes) {
		return nil, false
	}
	cp, cq := geom.Centroid(p.outline()), geom.Centroid(q.outline())
	edges := make([]int, len(p.edges))
	taken := make([]bool, len(q.edges))
	for i, e := range p.edges {
		edges[i] = -1
		for j, f := range q.edges {
			if !taken[j] && e.kind == f.kind && (e.seam >= 0) == (f.seam >= 0) && mirrors(e.pts, cp, f.pts, cq) {
				edges[i], taken[j] = j, true
				break
			}
		}
		if edges[i] < 0 {
			return nil, false
		}
	}
	return edges, true
}

// mirrors tells whether line a, seen in a mirror and run backwards, is line b,
// each about its own centre.
func mirrors(a []r2.Vec, ca r2.Vec, b []r2.Vec, cb r2.Vec) bool {
	la, lb := geom.Length(a), geom.Length(b)
	if math.Abs(la-lb) > cutAlike {
		return false
	}
	for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
		p := r2.Sub(geom.At(a, t*la), ca)
		q := r2.Sub(geom.At(b, (1-t)*lb), cb)
		if math.Abs(p.X+q.X) > cutAlike || math.Abs(p.Y-q.Y) > cutAlike {
			return false
		}
	}
	return true
}
