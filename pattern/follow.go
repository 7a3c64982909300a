package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// followStep (detail): the angles, seen from the middle of the other piece, at
// which its face is followed; 1 mm at 120 mm.
const followStep = 0.5 * math.Pi / 180

// followed runs a flat part's outline on from its last point to its first along
// the curve in which its plane meets the outer face of another piece. Points are
// as they are drawn.
func (b *builder) followed(e *evaluator, f template.Flat, ring []r2.Vec, way facingWay, at r3.Vec) ([]r2.Vec, error) {
	gap := e.size(f.Follow.Gap, "gap to the "+f.Follow.Piece)
	others := b.others.wornWith(f.Follow.Piece, b.side)
	if e.err != nil {
		return nil, e.err
	}
	if len(others) == 0 {
		return nil, fmt.Errorf("it follows the %s, and the costume has none for it; add \"- piece: %s\" to its pieces, or leave this one out", f.Follow.Piece, f.Follow.Piece)
	}
	var face geom.Mesh
	for _, p := range others {
		face.Append(p.outerFace(b.side))
	}
	for i, v := range face.V {
		face.V[i] = b.stand.frame.Local(v)
	}
	if b.stand.mirrored {
		face = face.MirroredX()
	}
	face = movedOut(face, gap)
	const aside = 1e-4 // mm, off the plane of a mirrored piece's middle seam
	normal := r3.Cross(way.x, way.y)
	var cut [][2]r2.Vec
	for _, s := range geom.Slice(face, r3.Add(at, r3.Scale(aside, normal)), normal) {
		var seg [2]r2.Vec
		for k, p := range s {
			d := r3.Sub(p, at)
			seg[k] = r2.Vec{X: r3.Dot(d, way.x), Y: r3.Dot(d, way.y)}
		}
		cut = append(cut, seg)
	}
	if len(cut) == 0 {
		return nil, fmt.Errorf("its plane does not meet the %s that it follows; move it, or turn it by facing", f.Follow.Piece)
	}
	return closedAlong(ring, cut, f.Follow.Piece)
}

// closedAlong closes a ring's last side along the farthest of a section's segments,
// seen from the section's middle.
func closedAlong(ring []r2.Vec, cut [][2]r2.Vec, piece string) ([]r2.Vec, error) {
	var pts []r2.Vec
	for _, s := range cut {
		pts = append(pts, s[0], s[1])
	}
	middle := geom.Centroid(hull(pts))
	first, last := r2.Sub(ring[0], middle), r2.Sub(ring[len(ring)-1], middle)
	turned := math.Atan2(r2.Cross(last, first), r2.Dot(last, first)) // the way back, seen from the middle
	if total := geom.Area(ring); total > 0 && turned > 0 {
		turned -= 2 * math.Pi // the part lies outside what it follows
	} else if total < 0 && turned < 0 {
		turned += 2 * math.Pi
	}
	out := append([]r2.Vec(nil), ring...)
	n := max(int(math.Ceil(math.Abs(turned)/followStep)), 1)
	start := math.Atan2(last.Y, last.X)
	met := 0
	for i := range n + 1 {
		if p, ok := farthestOn(cut, middle, direction(start+turned*float64(i)/float64(n))); ok {
			out = append(out, p)
			met++
		}
	}
	if met < 2 {
		return nil, fmt.Errorf("between its last point and its first there is nothing of the %s to follow; move them, or write its points the other way round", piece)
	}
	return geom.Distinct(out), nil
}

// farthestOn is where a ray last crosses some segments.
func farthestOn(cut [][2]r2.Vec, from, dir r2.Vec) (r2.Vec, bool) {
	best, found := 0.0, false
	for _, s := range cut {
		a, b := r2.Sub(s[0], from), r2.Sub(s[1], from)
		ca, cb := r2.Cross(dir, a), r2.Cross(dir, b)
		if (ca > 0) == (cb > 0) {
			continue
		}
		t := ca / (ca - cb)
		if d := r2.Dot(dir, r2.Add(a, r2.Scale(t, r2.Sub(b, a)))); d > best {
			best, found = d, true
		}
	}
	return r2.Add(from, r2.Scale(best, dir)), found
}
