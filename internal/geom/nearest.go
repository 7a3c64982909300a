package geom

import "gonum.org/v1/gonum/spatial/r3"

// nearestOnTriangle is the point of triangle abc nearest to p, by the regions
// of corners, edges and face. Source: Ericson, "Real-Time Collision Detection",
// 2005, section 5.1.5.
func nearestOnTriangle(p, a, b, c r3.Vec) r3.Vec {
	ab, ac, ap := r3.Sub(b, a), r3.Sub(c, a), r3.Sub(p, a)
	d1, d2 := r3.Dot(ab, ap), r3.Dot(ac, ap)
	if d1 <= 0 && d2 <= 0 {
		return a
	}
	bp := r3.Sub(p, b)
	d3, d4 := r3.Dot(ab, bp), r3.Dot(ac, bp)
	if d3 >= 0 && d4 <= d3 {
		return b
	}
	cp := r3.Sub(p, c)
	d5, d6 := r3.Dot(ab, cp), r3.Dot(ac, cp)
	if d6 >= 0 && d5 <= d6 {
		return c
	}
	va, vb, vc := d3*d6-d5*d4, d5*d2-d1*d6, d1*d4-d3*d2
	switch {
	case vc <= 0 && d1 >= 0 && d3 <= 0:
		return r3.Add(a, r3.Scale(d1/(d1-d3), ab))
	case vb <= 0 && d2 >= 0 && d6 <= 0:
		return r3.Add(a, r3.Scale(d2/(d2-d6), ac))
	case va <= 0 && d4 >= d3 && d5 >= d6:
		return r3.Add(b, r3.Scale((d4-d3)/((d4-d3)+(d5-d6)), r3.Sub(c, b)))
	}
	whole := 1 / (va + vb + vc)
	return r3.Add(a, r3.Add(r3.Scale(vb*whole, ab), r3.Scale(vc*whole, ac)))
}

// Barycentric gives the weights of a, b, c that make a point of their plane.
func Barycentric(p, a, b, c r3.Vec) [3]float64 {
	n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	n2 := r3.Norm2(n)
	wb := r3.Dot(n, r3.Cross(r3.Sub(p, a), r3.Sub(c, a))) / n2
	wc := r3.Dot(n, r3.Cross(r3.Sub(b, a), r3.Sub(p, a))) / n2
	return [3]float64{1 - wb - wc, wb, wc}
}
