package flatten

import "math"

// brace keeps the border of a panel from crinkling. Where a panel curves like
// a saddle its border is too long for it; held at its length it is in
// compression and buckles, the sooner the finer its edges. The energy is
// b·Σ|r|²/l over the border's vertices, where r is how far the next edge's
// direction is from where the shell would turn it to, and l the length of border
// at the vertex.
type brace struct {
	at     [][3]int        // before, at and after each vertex of the border
	coef   [][3]complex128 // r = Σ coef·z
	weight []float64
}

// reach is the length over which a border may not crinkle, as a part of the
// square root of the panel's area.
const reach = 0.2

// stiffBorder is the brace that holds against the largest compression of the
// multipliers, nil if none is compressed. turn is how the border turns at its
// vertices when nothing bends it.
func stiffBorder(loop []int, want, turn, pull []float64, area, edge float64) *brace {
	push := 0.0
	for _, p := range pull {
		push = max(push, -p)
	}
	if push <= lengthLeft*edge {
		return nil
	}
	ell := reach * math.Sqrt(area) / (2 * math.Pi)
	return newBrace(loop, want, turn, push*ell*ell)
}

func newBrace(loop []int, want, turn []float64, b float64) *brace {
	n := len(loop)
	s := &brace{make([][3]int, n), make([][3]complex128, n), make([]float64, n)}
	for k, at := range loop {
		before := (k + n - 1) % n
		s.at[k] = [3]int{loop[before], at, loop[(k+1)%n]}
		in, out := unit(turn[k])/complex(want[before], 0), complex(1/want[k], 0)
		s.coef[k] = [3]complex128{in, -in - out, out}
		s.weight[k] = 4 * b / (want[before] + want[k]) // twice, for derivatives
	}
	return s
}

func (s *brace) energy(z []complex128) float64 {
	sum := 0.0
	for k := range s.at {
		r := s.at3(k, z)
		sum += s.weight[k] / 2 * dot(r, r)
	}
	return sum
}

// at3 is r at border vertex k.
func (s *brace) at3(k int, z []complex128) complex128 {
	at, c := &s.at[k], &s.coef[k]
	return c[0]*z[at[0]] + c[1]*z[at[1]] + c[2]*z[at[2]]
}

func (s *brace) addForce(z, force []complex128) {
	for k := range s.at {
		r := s.at3(k, z)
		w := complex(s.weight[k], 0)
		for i, c := range s.coef[k] {
			force[s.at[k][i]] += w * conj(c) * r
		}
	}
}

func (s *brace) addTo(m *matrix) {
	for k := range s.at {
		at, c := &s.at[k], &s.coef[k]
		for i := range 3 {
			for j := range 3 {
				if at[i] < at[j] {
					continue
				}
				p := complex(s.weight[k], 0) * conj(c[i]) * c[j]
				m.add(at[i], at[j], real(p), -imag(p), imag(p), real(p))
			}
		}
	}
}
