package geom

import "gonum.org/v1/gonum/spatial/r2"

// SmoothRing runs a closed curve through points, with the tangent of the points
// on either side of each (Catmull and Rom 1974), and turns sharply at corners.
// It comes back as a ring whose edges are about as long as step; the points are
// vertices of it. corner has an entry for each point.
func SmoothRing(points []r2.Vec, corner []bool, step float64) []r2.Vec {
	var out []r2.Vec
	for i, p := range points {
		j := (i + 1) % len(points)
		q := points[j]
		// Tangents are scaled to this chord, so that points far apart on one
		// side do not make the curve overshoot on the other.
		chord := r2.Norm(r2.Sub(q, p))
		leave, arrive := scaledTo(tangent(points, corner, i, true), chord), scaledTo(tangent(points, corner, j, false), chord)
		steps := max(int(chord/step), 1)
		for k := range steps {
			out = append(out, hermite(p, q, leave, arrive, float64(k)/float64(steps)))
		}
	}
	return out
}

// tangent is the direction of a smooth ring at a point; at a corner it is that
// of the chord on the side asked for.
func tangent(points []r2.Vec, corner []bool, i int, leaving bool) r2.Vec {
	n := len(points)
	before, at, after := points[(i+n-1)%n], points[i], points[(i+1)%n]
	switch {
	case !corner[i]:
		return r2.Sub(after, before)
	case leaving:
		return r2.Sub(after, at)
	}
	return r2.Sub(at, before)
}

func scaledTo(v r2.Vec, l float64) r2.Vec {
	if n := r2.Norm(v); n > 0 {
		return r2.Scale(l/n, v)
	}
	return v
}

// hermite is the cubic from p0 to p1 with tangents t0 and t1.
func hermite(p0, p1, t0, t1 r2.Vec, t float64) r2.Vec {
	t2, t3 := t*t, t*t*t
	v := r2.Scale(2*t3-3*t2+1, p0)
	v = r2.Add(v, r2.Scale(t3-2*t2+t, t0))
	v = r2.Add(v, r2.Scale(3*t2-2*t3, p1))
	return r2.Add(v, r2.Scale(t3-t2, t1))
}
