package flatten

// assemble writes the second derivatives of the energy, the bending and the
// border into the matrix. Clamped, it leaves out what could make them
// indefinite: triangles squeezed beyond their turn, border edges in
// compression.
func (s *solver) assemble(clamped bool) {
	clear(s.m.val)
	for k := range s.tri {
		e := &s.tri[k]
		a, _ := e.parts(s.z)
		d, l := direction(a)
		h := 1 - 1/l
		if clamped {
			h = max(h, 0)
		}
		s.addElement(e, d, h)
	}
	if s.bend != nil {
		s.bend.addTo(s.m)
	}
	for k, d := range s.dir {
		across := s.pull[k] / s.long[k]
		if clamped {
			across = max(across, 0)
		}
		s.addEdge(k, d, across)
	}
	for i := range s.z {
		s.m.add(i, i, anchor, 0, 0, anchor)
	}
}

// addElement adds a triangle whose map turns by d. Its derivatives are
// 4·area·[dd' + h·(I-dd')] in a and 4·area in b; h is how stiff the turn is.
// A block maps dz to p·dz + q·conj(dz).
func (s *solver) addElement(e *element, d complex128, h float64) {
	d2 := d * d
	half := (1 - h) / 2
	flip := complex(half*real(d2), half*imag(d2))
	straight, turned := (3+h)/2, (h-1)/2
	for n, jk := range pairs {
		p, q := e.turn[n], flip*e.skew[n]
		pr, pi := straight*real(p), turned*imag(p)
		qr, qi := real(q), imag(q)
		s.m.add(e.at[jk[0]], e.at[jk[1]], pr+qr, qi-pi, qi+pi, pr-qr)
	}
}

// addEdge adds border edge k: stiff along d, and across it by its pull.
func (s *solver) addEdge(k int, d complex128, across float64) {
	a, b := s.ends(k)
	x, y := real(d), imag(d)
	w := stiffness - across
	xx, xy, yy := across+w*x*x, w*x*y, across+w*y*y
	s.m.add(a, a, xx, xy, xy, yy)
	s.m.add(b, b, xx, xy, xy, yy)
	s.m.add(max(a, b), min(a, b), -xx, -xy, -xy, -yy)
}
