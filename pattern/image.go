package pattern

import (
	"math"
	"slices"

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

// freeAlike (detail): nothing is joined to a free edge, and the line that is cut
// along is 0.25 mm wide. Openings are followed over triangles whose diagonals are
// not mirrored.
const freeAlike = 0.1

// findImages finds the parts that one template serves: on a piece that is its
// own mirror image each other's images, on another those that are alike.
func (a *assembly) findImages() {
	a.images = make([]image, len(a.parts))
	for i := range a.images {
		a.images[i].of = -1
	}
	if a.blanks.paired {
		a.findMirrored()
	} else {
		a.findAlike()
	}
	for a.unlikeNeighbours() {
	}
}

// unlikeNeighbours gives a part a template of its own where its neighbours are
// others than those of the part that it shares one with: what a template says that
// an edge meets must hold for every copy. It tells whether there was one.
func (a *assembly) unlikeNeighbours() (found bool) {
	for i, im := range a.images {
		if im.of < 0 {
			continue
		}
		for ei, e := range a.parts[i].edges {
			if e.seam < 0 {
				continue
			}
			_, mine := a.spanOf(EdgeRef{i, ei})
			_, its := a.spanOf(EdgeRef{im.of, im.edge[ei]})
			if a.kept(mine).Panel != a.kept(its).Panel || a.bothHands(mine) && a.images[mine.Panel].flipped != (a.images[its.Panel].flipped != im.flipped) {
				a.images[i] = image{of: -1}
				found = true
				break
			}
		}
	}
	return found
}

// bothHands tells whether the template of an edge is also cut turned over.
func (a *assembly) bothHands(r EdgeRef) bool {
	of := a.kept(r).Panel
	return slices.ContainsFunc(a.images, func(im image) bool { return im.of == of && im.flipped })
}

// findMirrored finds the parts that are each other's mirror images.
func (a *assembly) findMirrored() {
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
			if !taken[j] && e.kind == f.kind && (e.seam >= 0) == (f.seam >= 0) && mirrors(e, cp, f, cq) {
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

// mirrors tells whether edge e, seen in a mirror and run backwards, is edge f, each
// about its own centre. What is joined is so at every length along it; a free edge
// is so where a knife runs.
func mirrors(e rawEdge, ce r2.Vec, f rawEdge, cf r2.Vec) bool {
	le, lf := geom.Length(e.pts), geom.Length(f.pts)
	if math.Abs(le-lf) > cutAlike {
		return false
	}
	for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
		image := r2.Sub(geom.At(e.pts, t*le), ce)
		image.X = -image.X
		image = r2.Add(image, cf)
		at, most := geom.At(f.pts, (1-t)*lf), cutAlike
		if e.seam < 0 && t > 0 && t < 1 {
			at, most = nearestOnLine(f.pts, image), freeAlike
		}
		if geom.Dist(image, at) > most {
			return false
		}
	}
	return true
}

func nearestOnLine(line []r2.Vec, p r2.Vec) r2.Vec {
	best := line[0]
	for i := 0; i+1 < len(line); i++ {
		if q, _ := geom.NearestOnSegment(p, line[i], line[i+1]); geom.Dist(p, q) < geom.Dist(p, best) {
			best = q
		}
	}
	return best
}
