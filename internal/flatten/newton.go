package flatten

import "math"

const (
	// stiffness is the weight of the squared length errors beside the energy.
	// Any large value gives the same answer; 1e2 to 1e4 take the fewest steps.
	stiffness = 1e4
	// anchor keeps a panel from drifting: shifts and turns cost nothing. It is
	// 1e-7 of what a distortion costs.
	anchor = 4e-7
	// maxSteps: ordinary panels take 3 to 5, the hardest that can be flattened
	// at all take 8.
	maxSteps = 12
	// sweeps of the multipliers with one factor.
	sweeps = 3
	// lengthLeft (rounding) is the error of a border edge, as a part of its
	// length, below which it is met; forceLeft the same for the balance of
	// forces, as a part of the mean edge.
	lengthLeft = 1e-9
	forceLeft  = 1e-7
	// leastStep is the shortest part of a step that is tried.
	leastStep = 1e-4
)

// solver looks for the flat places z that distort the triangles least while
// every border edge has its length: Newton's method on
//
//	E = Σ area·[(s₁-1)² + (s₂-1)²],  s₁ and s₂ flat over shell,
//
// with a multiplier for each border edge. A free border is the same without
// edges.
//
// Sources: the energy is that of Liu, Zhang, Xu, Gotsman and Gortler, "A
// local/global approach to mesh parameterization", 2008; the equalities follow
// the augmented Lagrangian in Nocedal and Wright, Numerical Optimization, ch. 17.
type solver struct {
	tri   []element
	loop  []int // border edges run from loop[k] to the next; empty if free
	want  []float64
	bend  *brace
	edge  float64 // the mean edge of the triangles
	z     []complex128
	trial []complex128
	force []complex128 // the gradient of energy and bending
	pull  []float64    // multipliers; dE/d(want) = -pull
	dir   []complex128 // of border edges
	long  []float64    // present lengths of border edges
	m     *matrix
	dx    []float64

	steps     int
	settled   bool
	certified bool // the last factor was that of the full second derivatives
}

func newSolver(env *envelope, tri []element, loop []int, want []float64, z []complex128) *solver {
	n, b := len(z), len(loop)
	s := &solver{
		tri: tri, loop: loop, want: want, m: newMatrix(env), dx: make([]float64, 2*n),
		z: append([]complex128(nil), z...), trial: make([]complex128, n), force: make([]complex128, n),
		pull: make([]float64, b), dir: make([]complex128, b), long: make([]float64, b),
	}
	for k := range tri {
		s.edge += math.Sqrt(tri[k].area * 4 / math.Sqrt(3))
	}
	s.edge /= float64(len(tri))
	return s
}

// run steps until forces balance and lengths are met, or the cap is reached.
func (s *solver) run() {
	for {
		s.look()
		if s.settled = s.balanced(); s.settled || s.steps == maxSteps {
			break
		}
		s.certified = s.factor()
		s.step()
	}
	if s.settled && !s.certified { // away from the answer a free turn can look unstable
		s.certified = s.factor()
	}
}

// ends are the places of border edge k.
func (s *solver) ends(k int) (a, b int) {
	if k+1 == len(s.loop) {
		return s.loop[k], s.loop[0]
	}
	return s.loop[k], s.loop[k+1]
}

// look computes the forces and the border at z.
func (s *solver) look() {
	clear(s.force)
	for k := range s.tri {
		e := &s.tri[k]
		a, b := e.parts(s.z)
		d, _ := direction(a)
		ga, gb := a-d, b
		w := complex(2*e.area, 0)
		for i, at := range e.at {
			s.force[at] += w * (ga*e.g[i] + gb*conj(e.g[i]))
		}
	}
	if s.bend != nil {
		s.bend.addForce(s.z, s.force)
	}
	for k := range s.loop {
		a, b := s.ends(k)
		s.dir[k], s.long[k] = direction(s.z[b] - s.z[a])
	}
}

// direction is a unit vector and the length; of nothing, some direction and a
// length that can be divided by.
func direction(z complex128) (complex128, float64) {
	l := abs(z)
	if !(l > 1e-12) {
		return 1, 1e-12
	}
	return complex(real(z)/l, imag(z)/l), l
}

// balanced tells whether the stop rule holds.
func (s *solver) balanced() bool {
	for k, l := range s.long {
		if !(math.Abs(l-s.want[k]) < lengthLeft*s.want[k]) {
			return false
		}
	}
	copy(s.trial, s.force)
	for k, p := range s.pull {
		a, b := s.ends(k)
		f := complex(p*real(s.dir[k]), p*imag(s.dir[k]))
		s.trial[a] -= f
		s.trial[b] += f
	}
	for _, f := range s.trial {
		if !(abs(f) < forceLeft*s.edge) {
			return false
		}
	}
	return true
}

// factor factors the second derivatives; if they are not positive definite, it
// takes those parts that are, and says false.
func (s *solver) factor() bool {
	s.assemble(false)
	if s.m.factor() {
		return true
	}
	s.assemble(true)
	s.m.factor()
	return false
}

// step finds the next multipliers and places with the factor in m.
func (s *solver) step() {
	for range max(1, min(sweeps, sweeps*len(s.loop))) {
		s.aim()
		s.m.solve(s.dx)
		for k := range s.pull {
			a, b := s.ends(k)
			d := complex(s.dx[2*b]-s.dx[2*a], s.dx[2*b+1]-s.dx[2*a+1])
			s.pull[k] += stiffness * (s.long[k] - s.want[k] + dot(s.dir[k], d))
		}
	}
	before := s.merit(s.z)
	t := 1.0
	for {
		for i, z := range s.z {
			s.trial[i] = z + complex(t*s.dx[2*i], t*s.dx[2*i+1])
		}
		if t /= 2; t < leastStep || s.merit(s.trial) <= before {
			break
		}
	}
	s.z, s.trial = s.trial, s.z
	s.steps++
}

// aim writes the right-hand side: minus the forces with the pull of the border.
func (s *solver) aim() {
	for i, f := range s.force {
		s.dx[2*i], s.dx[2*i+1] = -real(f), -imag(f)
	}
	for k, p := range s.pull {
		a, b := s.ends(k)
		f := p + stiffness*(s.long[k]-s.want[k])
		x, y := f*real(s.dir[k]), f*imag(s.dir[k])
		s.dx[2*a] += x
		s.dx[2*a+1] += y
		s.dx[2*b] -= x
		s.dx[2*b+1] -= y
	}
}

// merit is what a step must lower.
func (s *solver) merit(z []complex128) float64 {
	sum := energy(s.tri, z)
	if s.bend != nil {
		sum += s.bend.energy(z)
	}
	for k, p := range s.pull {
		a, b := s.ends(k)
		c := abs(z[b]-z[a]) - s.want[k]
		sum += p*c + stiffness/2*c*c
	}
	return sum
}

// energy is E at z, in mm².
func energy(tri []element, z []complex128) float64 {
	sum := 0.0
	for k := range tri {
		a, b := tri[k].parts(z)
		d := abs(a) - 1
		sum += 2 * tri[k].area * (d*d + dot(b, b))
	}
	return sum
}
