package body

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"tasset/internal/report"
)

// asymmetry is how much a limb's size differs from that of the other limb of
// the same person, as a share of it (standard deviation). Common practice, no
// source.
const asymmetry = 0.015

// observed is what was measured on one person, each name once.
type observed struct {
	names  []Name
	values []float64            // mm, kg
	cov    *mat.SymDense        // of their errors
	origin map[Name]Measurement // origin, what it was over and where it stands, for Both
	sides  map[place]Measurement
}

// observe brings tape and photographs together: one value for each name, the
// precision-weighted mean of its own observations and of nothing else.
func observe(entries []Entry, seen *Seen) (observed, []report.Finding, error) {
	o := observed{origin: map[Name]Measurement{}, sides: map[place]Measurement{}}
	taped, findings := o.tape(entries)
	for _, m := range taped {
		o.origin[m.Name] = m
	}
	if seen == nil || len(seen.Names) == 0 {
		o.setTaped(taped)
		return o, findings, nil
	}
	if err := checkSeen(seen); err != nil {
		return o, nil, err
	}
	findings = append(findings, disagreements(o.origin, seen)...)
	return o, findings, o.fuse(taped, seen)
}

// tape takes the entries name by name: a value for both sides, and left and
// right where they stand apart.
func (o *observed) tape(entries []Entry) ([]Measurement, []report.Finding) {
	var taped []Measurement
	var findings []report.Finding
	for _, d := range catalogue {
		var of [3][]Entry
		for _, e := range entries {
			if e.Name == d.Name {
				of[e.Side] = append(of[e.Side], e)
			}
		}
		all := append(append(append([]Entry(nil), of[Both]...), of[Left]...), of[Right]...)
		if len(all) == 0 {
			continue
		}
		for _, same := range of {
			findings = append(findings, repeats(same)...)
		}
		taped = append(taped, mean(all, Both))
		o.setSides(of)
	}
	return taped, findings
}

// setSides keeps left and right where they were taken apart and differ by more
// than the tape's deviation. Of a limb taken on one side only, the other is an
// estimate.
func (o *observed) setSides(of [3][]Entry) {
	left, right := of[Left], of[Right]
	switch {
	case len(left) > 0 && len(right) > 0:
		l, r := mean(left, Left), mean(right, Right)
		if math.Abs(l.Value-r.Value) > max(l.SD, r.SD) {
			o.sides[place{l.Name, Left}], o.sides[place{r.Name, Right}] = l, r
		}
	case len(of[Both]) > 0: // one side beside a value for both: the mean of all stands
	case len(left) > 0:
		o.sides[place{left[0].Name, Right}] = mirrored(mean(left, Left), Right)
	case len(right) > 0:
		o.sides[place{right[0].Name, Left}] = mirrored(mean(right, Right), Left)
	}
}

func mirrored(m Measurement, s Side) Measurement {
	return Measurement{Name: m.Name, Side: s, Value: m.Value, SD: math.Hypot(m.SD, asymmetry*m.Value), Origin: Estimated}
}

// mean is the precision-weighted mean of entries of one name. It says where the
// first of them stands.
func mean(entries []Entry, s Side) Measurement {
	var sum, weight float64
	for _, e := range entries {
		w := 1 / (e.SD * e.SD)
		sum, weight = sum+w*e.Value, weight+w
	}
	first := entries[0]
	if len(entries) == 1 { // to the last bit as it was typed
		return Measurement{Name: first.Name, Side: s, Value: first.Value, SD: first.SD,
			Origin: Taped, Over: first.Over, Where: first.Where}
	}
	return Measurement{Name: first.Name, Side: s, Value: sum / weight, SD: math.Sqrt(1 / weight),
		Origin: Taped, Over: first.Over, Where: first.Where}
}

// repeats doubts a size written down twice with values that a tape's deviation
// does not explain.
func repeats(same []Entry) []report.Finding {
	var findings []report.Finding
	for i, e := range same {
		for _, f := range same[:i] {
			if math.Abs(e.Value-f.Value) > 3*math.Hypot(e.SD, f.SD) {
				g := report.Doubtf(subject(e.Name, e.Side), "It is given as %s and as %s; the mean of both is used.", typed(f), typed(e))
				g.Where, g.Perhaps = e.Where, "Measure it again and keep one."
				findings = append(findings, g)
			}
		}
	}
	return findings
}

// disagreements doubts what tape and photographs tell differently.
func disagreements(taped map[Name]Measurement, seen *Seen) []report.Finding {
	var findings []report.Finding
	for i, n := range seen.Names {
		m, ok := taped[n]
		sd := math.Sqrt(seen.Covariance[i*len(seen.Names)+i])
		if ok && math.Abs(m.Value-seen.Values[i]) > 3*math.Hypot(m.SD, sd) {
			f := report.Doubtf(string(n), "The tape says %.0f mm, the photographs say %.0f mm ± %.0f; their weighted mean is used.", m.Value, seen.Values[i], 1.96*sd)
			f.Where = m.Where
			f.Perhaps = fmt.Sprintf("Measure it again, or look at the marks on the photographs, or at the rulers: if the lengths of all of them are wrong by the same share, it is %.0f %%.", 100*math.Abs(seen.Values[i]/m.Value-1))
			findings = append(findings, f)
		}
	}
	return findings
}

func checkSeen(seen *Seen) error {
	k := len(seen.Names)
	if len(seen.Values) != k || len(seen.Covariance) != k*k {
		return fmt.Errorf("the photographs give %d names, %d values and %d covariances", k, len(seen.Values), len(seen.Covariance))
	}
	var errs []error
	for i, n := range seen.Names {
		v, variance := seen.Values[i], seen.Covariance[i*k+i]
		if _, ok := Describe(n); !ok {
			errs = append(errs, fmt.Errorf("the photographs give %q, which is no measurement", n))
		} else if !(v > 0) || math.IsInf(v, 0) || !(variance > 0) || math.IsInf(variance, 0) {
			errs = append(errs, fmt.Errorf("the photographs give %s as %g mm with variance %g; both must be above zero", n, v, variance))
		}
	}
	return errors.Join(errs...)
}

func (o *observed) setTaped(taped []Measurement) {
	o.cov = nil
	if len(taped) > 0 {
		o.cov = mat.NewSymDense(len(taped), nil)
	}
	for i, m := range taped {
		o.names, o.values = append(o.names, m.Name), append(o.values, m.Value)
		o.cov.SetSym(i, i, m.SD*m.SD)
	}
}

// fuse adds the information of tape and of photographs: weighted least squares
// over all observations, photographs with their full covariance. A value of
// which both speak counts as taped.
func (o *observed) fuse(taped []Measurement, seen *Seen) error {
	index := map[Name]int{}
	add := func(n Name) {
		if _, ok := index[n]; !ok {
			index[n] = len(o.names)
			o.names = append(o.names, n)
		}
	}
	for _, m := range taped {
		add(m.Name)
	}
	for _, n := range seen.Names {
		add(n)
	}
	var photo mat.Cholesky
	k := len(seen.Names)
	if !photo.Factorize(mat.NewSymDense(k, append([]float64(nil), seen.Covariance...))) {
		return errors.New("the photographs' covariance is not positive definite")
	}
	var weight mat.SymDense
	if err := photo.InverseTo(&weight); err != nil {
		return fmt.Errorf("the photographs' covariance cannot be inverted: %w", err)
	}
	info := mat.NewSymDense(len(o.names), nil)
	rhs := mat.NewVecDense(len(o.names), nil)
	for i, m := range taped {
		w := 1 / (m.SD * m.SD)
		info.SetSym(i, i, w)
		rhs.SetVec(i, w*m.Value)
	}
	for a, na := range seen.Names {
		i := index[na]
		for b, nb := range seen.Names {
			if j := index[nb]; a <= b {
				info.SetSym(i, j, info.At(i, j)+weight.At(a, b))
			}
			rhs.SetVec(i, rhs.AtVec(i)+weight.At(a, b)*seen.Values[b])
		}
		if _, ok := o.origin[na]; !ok {
			o.origin[na] = Measurement{Name: na, Origin: Photographed, Over: seen.over(a)}
		}
	}
	return o.solve(info, rhs)
}

func (o *observed) solve(info *mat.SymDense, rhs *mat.VecDense) error {
	var c mat.Cholesky
	if !c.Factorize(info) {
		return errors.New("tape and photographs together do not determine the sizes")
	}
	var v mat.VecDense
	if err := c.SolveVecTo(&v, rhs); err != nil {
		return fmt.Errorf("bringing tape and photographs together: %w", err)
	}
	o.values = mat.Col(nil, 0, &v)
	o.cov = mat.NewSymDense(len(o.names), nil)
	return c.InverseTo(o.cov)
}
