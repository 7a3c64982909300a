package flatten

import (
	"math"
)

// start is the flattening that keeps angles and the border's lengths as nearly
// as both can be: boundary first, with scale 1 on the border.
//
// Source: Sawhney and Crane, "Boundary First Flattening", ACM Trans. Graph.
// 37(1), 2017, with u = 0 on the border.
type start struct {
	u    []float64 // logarithm of the scale, by place
	turn []float64 // turning at each border vertex of the shell, as laid flat
	z    []complex128
}

// conformal computes u, and how much the border turns at each of its vertices.
func (p *Patch) conformal(tri []element, lap *laplacian) (u, turn []float64) {
	excess := make([]float64, len(p.place)) // angle sum less a full turn
	for i := range excess {
		excess[i] = -2 * math.Pi
	}
	for k := range tri {
		for i, at := range tri[k].at {
			excess[at] += tri[k].angle[i]
		}
	}
	u = make([]float64, len(p.place))
	lap.solve(u, excess)
	flux := make([]float64, len(p.place))
	for k := range tri {
		e := &tri[k]
		for n, jk := range pairs[3:] {
			a, b := e.at[jk[0]], e.at[jk[1]]
			flux[a] += real(e.turn[3+n]) * (u[b] - u[a])
			flux[b] += real(e.turn[3+n]) * (u[a] - u[b])
		}
	}
	for _, at := range p.loop {
		turn = append(turn, -math.Pi-excess[at]+flux[at])
	}
	return u, turn
}

// begin lays the border out with the given lengths and fills in the inside.
func (p *Patch) begin(tri []element, length []float64) (start, bool) {
	lap := newLaplacian(tri, p.onBorder())
	if !lap.ok {
		return start{}, false
	}
	var s start
	s.u, s.turn = p.conformal(tri, lap)
	angle := make([]float64, len(length))
	for k := 1; k < len(angle); k++ {
		angle[k] = angle[k-1] + s.turn[k]
	}
	closeLoop(length, angle)
	x, y := make([]float64, len(p.place)), make([]float64, len(p.place))
	var z complex128
	for k, at := range p.loop {
		x[at], y[at] = real(z), imag(z)
		z += complex(length[k], 0) * unit(angle[k])
	}
	lap.solve(x, nil)
	lap.solve(y, nil)
	s.z = make([]complex128, len(x))
	for i := range s.z {
		s.z[i] = complex(x[i], y[i])
	}
	return s, true
}

func (p *Patch) onBorder() []bool {
	held := make([]bool, len(p.place))
	for _, at := range p.loop {
		held[at] = true
	}
	return held
}

// closing (rounding): a border is closed when its gap is this part of its
// length.
const closing = 1e-13

// closeLoop turns the edges of a border by the least Σ length·turn² that makes
// it close, by Newton's method.
func closeLoop(length, angle []float64) {
	whole := 0.0
	for _, l := range length {
		whole += l
	}
	for range 30 {
		var gap complex128
		var xx, xy, yy float64
		for k, l := range length {
			d := unit(angle[k])
			gap += complex(l, 0) * d
			n := 1i * d
			xx += l * real(n) * real(n)
			xy += l * real(n) * imag(n)
			yy += l * imag(n) * imag(n)
		}
		if abs(gap) <= closing*whole {
			return
		}
		det := xx*yy - xy*xy
		pull := complex((yy*real(gap)-xy*imag(gap))/det, (xx*imag(gap)-xy*real(gap))/det)
		for k := range angle {
			angle[k] -= dot(1i*unit(angle[k]), pull)
		}
	}
}
