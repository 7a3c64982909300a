package flatten

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Formed is a patch laid flat. Foam cut to it is heated and stretched over a
// form until it has the shape in space.
type Formed struct {
	// Flat is where each vertex lies. The border's first edge starts at the
	// origin and runs along +x.
	Flat []r2.Vec
	// Strain of each triangle, and what it comes to over the whole panel.
	Strain          []Strain
	Stretch, Gather Spread
	// Pull is, for each border edge, by how many mm² the energy falls for each
	// mm that the edge is made longer; negative where a shorter one would help.
	Pull []float64
	// Energy is Σ area·[(Long-1)² + (Short-1)²] over the triangles, mm².
	Energy float64
	// Swell is the largest |u|, u being the logarithm of flat over shell when
	// angles are kept, and SwellAt the vertex it is at: there a cut helps most.
	Swell   float64
	SwellAt int
	// Steps that the solver took. Certified means that the second derivatives
	// are positive there: no flattening near it is better.
	Steps     int
	Certified bool
	// Braced: a part of the border is in compression and was kept from
	// crinkling, which costs some strain.
	Braced bool
}

// Strain is how a triangle differs between the plane and space. Long and Short
// are the largest and least of flat length over length in space, in
// directions that are square to each other.
type Strain struct {
	Long, Short float64
	Along       r2.Vec // the flat direction of Short: the one that is stretched most
}

// Stretch is by what part of its flat length the foam is stretched in direction
// Along; 0 if nowhere.
func (s Strain) Stretch() float64 { return max(0, 1/s.Short-1) }

// Gather is by what part of its flat length the foam is squeezed across Along; 0
// if nowhere.
func (s Strain) Gather() float64 { return max(0, 1-1/s.Long) }

// Spread is what 95 and 99 % of a panel's area stay below. The maximum is not
// told: at corners it grows with ever finer triangles.
type Spread struct{ P95, P99 float64 }

// Solve flattens the patch with its vertices at v so that every border edge has
// the length given (in the order of Border) and the triangles are distorted
// least. Both panels at a seam are to be given the same lengths, taken once from
// the seam; lengths nil means the edges' own.
//
// A *Refusal says that there is no such panel, and why.
func (p *Patch) Solve(v []r3.Vec, lengths []float64) (*Formed, error) {
	tri, err := p.atRest(v)
	if err != nil {
		return nil, err
	}
	if lengths == nil {
		lengths = p.BorderLengths(v)
	}
	if err := p.checkLengths(lengths); err != nil {
		return nil, err
	}
	return p.flatten(v, tri, p.loop, lengths)
}

// SolveFree flattens the patch with the triangles distorted least, whatever
// lengths its border takes.
func (p *Patch) SolveFree(v []r3.Vec) (*Formed, error) {
	tri, err := p.atRest(v)
	if err != nil {
		return nil, err
	}
	return p.flatten(v, tri, nil, p.BorderLengths(v))
}

// flatten holds the border edges of loop at their lengths.
func (p *Patch) flatten(v []r3.Vec, tri []element, loop []int, lengths []float64) (*Formed, error) {
	st, ok := p.begin(tri, lengths)
	if !ok {
		return nil, &Refusal{NotFlat, v[p.border[0]]}
	}
	s := p.settle(tri, loop, lengths, st)
	f := p.formed(tri, st, s)
	if err := p.refuse(v, f, st, s); err != nil {
		return nil, err
	}
	return f, nil
}

// settle runs the solver, braced if its first step finds compression.
func (p *Patch) settle(tri []element, loop []int, lengths []float64, st start) *solver {
	s := newSolver(p.plain, tri, loop, lengths, st.z)
	if len(loop) > 0 {
		s.look()
		if !s.balanced() {
			s.assemble(true)
			s.m.factor()
			s.step()
			if b := stiffBorder(loop, lengths, st.turn, s.pull, totalArea(tri), s.edge); b != nil {
				s = newSolver(p.bent, tri, loop, lengths, st.z)
				s.bend = b
			}
		}
	}
	s.run()
	return s
}

func totalArea(tri []element) float64 {
	sum := 0.0
	for k := range tri {
		sum += tri[k].area
	}
	return sum
}

// formed gathers the result.
func (p *Patch) formed(tri []element, st start, s *solver) *Formed {
	f := &Formed{
		Flat: make([]r2.Vec, len(s.z)), Strain: make([]Strain, len(tri)),
		Pull: s.pull, Energy: energy(tri, s.z),
		Steps: s.steps, Certified: s.certified, Braced: s.bend != nil,
	}
	origin := s.z[p.loop[0]]
	along, _ := direction(s.z[p.loop[1]] - origin)
	for i, at := range p.place {
		z := (s.z[at] - origin) * conj(along)
		f.Flat[i] = r2.Vec{X: real(z), Y: imag(z)}
		if u := math.Abs(st.u[at]); u > f.Swell {
			f.Swell, f.SwellAt = u, i
		}
	}
	for k := range tri {
		a, b := tri[k].parts(s.z)
		f.Strain[k] = strain(a*conj(along), b*conj(along))
	}
	f.Stretch = spread(tri, f.Strain, Strain.Stretch)
	f.Gather = spread(tri, f.Strain, Strain.Gather)
	return f
}

// strain is that of a map with parts a and b.
func strain(a, b complex128) Strain {
	la, lb := abs(a), abs(b)
	s := Strain{Long: la + lb, Short: la - lb, Along: r2.Vec{Y: 1}}
	if lb > 0 {
		// The long axis lies at half the sum of both angles in the plane.
		half := (math.Atan2(imag(a), real(a)) + math.Atan2(imag(b), real(b))) / 2
		sin, cos := math.Sincos(half)
		s.Along = r2.Vec{X: -sin, Y: cos}
	}
	return s
}

func spread(tri []element, strains []Strain, of func(Strain) float64) Spread {
	type part struct{ is, area float64 }
	parts := make([]part, len(tri))
	whole := 0.0
	for k := range tri {
		parts[k] = part{of(strains[k]), tri[k].area}
		whole += tri[k].area
	}
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Compare(a.is, b.is) })
	at := func(share float64) float64 {
		sum := 0.0
		for _, p := range parts {
			if sum += p.area; sum >= share*whole {
				return p.is
			}
		}
		return parts[len(parts)-1].is
	}
	return Spread{at(0.95), at(0.99)}
}
