package body

import (
	"fmt"
	"slices"
)

// onSkin is what photographs told with the layers that lengths were
// photographed over taken off. What is not known of a layer's thickness is
// common to all lengths over it.
func (s *Seen) onSkin(layers []Layer) (*Seen, error) {
	if s == nil || s.Over == nil {
		return s, nil
	}
	n := len(s.Names)
	if len(s.Over) != n || len(s.Values) != n || len(s.Covariance) != n*n {
		return nil, fmt.Errorf("the photographs give %d names, %d values, %d covariances and %d layers", n, len(s.Values), len(s.Covariance), len(s.Over))
	}
	out := &Seen{s.Names, slices.Clone(s.Values), slices.Clone(s.Covariance), s.Over}
	doubts := make([]float64, n) // of each length, mm
	for i, name := range s.Names {
		if s.Over[i] == "" || s.Over[i] == "skin" {
			continue
		}
		k := slices.IndexFunc(layers, func(l Layer) bool { return l.Name == s.Over[i] })
		if k < 0 {
			return nil, fmt.Errorf("%s was photographed over %q, which is not among the layers%s; add it with its thickness under \"wears\"", name, s.Over[i], layerNames(layers))
		}
		d, _ := Describe(name)
		takes := layerFactor(d, layers[k]) * layers[k].Thickness
		out.Values[i] -= takes
		doubts[i] = takes * layerDoubt
	}
	for i := range n {
		for j := range n {
			if s.Over[i] == s.Over[j] {
				out.Covariance[i*n+j] += doubts[i] * doubts[j]
			}
		}
	}
	return out, nil
}

// over is what a length was photographed over.
func (s *Seen) over(i int) string {
	if s.Over == nil {
		return ""
	}
	return s.Over[i]
}
