package photo

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
)

// Length is a size read off photographs.
type Length struct {
	Name    string // a measurement of body's catalogue, or one that only photographs give
	HowTo   string // what it is, in one sentence
	Value   float64
	SD      float64
	Checked bool // every landmark that it hangs on is checked by others
}

// HalfWidth is half the width of the 95 % interval.
func (l Length) HalfWidth() float64 { return 1.96 * l.SD }

// measure is a length as a function of the unknowns: its value, the landmarks
// that must have been marked, and its derivatives.
type measure struct {
	name   string
	howTo  string
	needs  []string
	length func(at func(name string) r3.Vec) (value float64, by map[string]r3.Vec)
	own    float64 // standard deviation of what photographs cannot tell, mm
}

// between is the distance of two landmarks.
func between(a, b string) func(func(string) r3.Vec) (float64, map[string]r3.Vec) {
	return func(at func(string) r3.Vec) (float64, map[string]r3.Vec) {
		d := r3.Sub(at(a), at(b))
		n := r3.Norm(d)
		return n, map[string]r3.Vec{a: r3.Scale(1/n, d), b: r3.Scale(-1/n, d)}
	}
}

// along is the distance of two landmarks, b the further, along an axis.
func along(dir r3.Vec, a, b string) func(func(string) r3.Vec) (float64, map[string]r3.Vec) {
	return func(at func(string) r3.Vec) (float64, map[string]r3.Vec) {
		return r3.Dot(dir, r3.Sub(at(b), at(a))), map[string]r3.Vec{a: r3.Scale(-1, dir), b: dir}
	}
}

// lengths are the measures whose landmarks were marked, each name once, and
// their covariance.
func (s *Subject) lengths(measures []measure) ([]Length, *mat.SymDense) {
	var out []Length
	var slopes [][]float64
	var own []float64
	at := func(name string) r3.Vec { return s.model.landmark(s.best.x)(s.model.fig.must(name)) }
	for _, q := range measures {
		l := Length{Name: q.name, HowTo: q.howTo, Checked: true}
		seen := !slices.ContainsFunc(out, func(o Length) bool { return o.Name == q.name })
		for _, n := range q.needs {
			p, ok := s.Point(n)
			seen, l.Checked = seen && ok, l.Checked && p.Checked
		}
		if !seen {
			continue
		}
		value, by := q.length(at)
		l.Value = value
		out, slopes, own = append(out, l), append(slopes, s.gradient(by)), append(own, q.own)
	}
	if len(out) == 0 {
		return nil, nil
	}
	cov := s.spreadOf(slopes)
	for i := range out {
		cov.SetSym(i, i, cov.At(i, i)+own[i]*own[i])
		out[i].SD = math.Sqrt(cov.At(i, i))
	}
	return out, cov
}

func (s *Subject) gradient(by map[string]r3.Vec) []float64 {
	g := make([]float64, s.model.n)
	for name, d := range by {
		i := 3 * s.model.fig.must(name)
		g[i], g[i+1], g[i+2] = d.X, d.Y, d.Z
	}
	return g
}

// spreadOf is the covariance of functions with the given slopes.
func (s *Subject) spreadOf(slopes [][]float64) *mat.SymDense {
	cov := mat.NewSymDense(len(slopes), nil)
	for i, a := range slopes {
		var w mat.VecDense
		w.MulVec(s.best.cov, mat.NewVecDense(len(a), a))
		for j := i; j < len(slopes); j++ {
			cov.SetSym(i, j, mat.Dot(&w, mat.NewVecDense(len(slopes[j]), slopes[j])))
		}
	}
	return cov
}

// seen gives what body's catalogue knows of lengths, with their covariance.
func seen(lengths []Length, cov *mat.SymDense) *body.Seen {
	var of []int
	out := &body.Seen{}
	for i, l := range lengths {
		if _, ok := body.Describe(body.Name(l.Name)); ok {
			of = append(of, i)
			out.Names, out.Values = append(out.Names, body.Name(l.Name)), append(out.Values, l.Value)
		}
	}
	for _, i := range of {
		for _, j := range of {
			out.Covariance = append(out.Covariance, cov.At(i, j))
		}
	}
	if len(of) == 0 {
		return nil
	}
	return out
}
