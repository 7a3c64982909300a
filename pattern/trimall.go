package pattern

import (
	"fmt"
	"sort"

	"tasset/internal/geom"
)

// trimmedPanel is what cuts leave of a panel, on one side of each drawn seam.
type trimmedPanel struct {
	raw   int
	loops []loop
	holes []chain
}

// trimAll trims every panel and cuts the borders of what is left into edges.
func (m *blanks) trimAll(cuts []cutout) ([]part, error) {
	var lefts []trimmedPanel
	borderSeams := len(m.seams)
	breaks := make([][]float64, borderSeams)
	for i := range m.panels {
		p := &m.panels[i]
		b := p.border()
		left, err := m.trimOne(i, cuts, b)
		if err != nil {
			return nil, err
		}
		lefts = append(lefts, left...)
		for _, s := range p.sides {
			if s.seam >= 0 {
				breaks[s.seam] = append(breaks[s.seam], s.at[0], s.at[len(s.at)-1])
			}
		}
		for _, t := range left {
			for _, l := range t.loops {
				for _, lp := range l.parts {
					if lp.chain == nil && !lp.whole {
						p.addBreak(breaks, b, lp.from)
						p.addBreak(breaks, b, lp.to)
					}
				}
			}
		}
	}
	for i := range breaks {
		breaks[i] = distinct(breaks[i])
	}
	var parts []part
	for _, l := range lefts {
		parts = append(parts, m.panels[l.raw].parts(l.raw, l.loops, l.holes, breaks)...)
	}
	return withoutChips(parts), nil
}

// trimOne trims a panel: once, or once for each side of each seam drawn across
// it.
func (m *blanks) trimOne(i int, cuts []cutout, b border) ([]trimmedPanel, error) {
	p := &m.panels[i]
	lines, err := p.cutLines(cuts, b)
	if err != nil || lines.gone {
		return nil, err
	}
	if len(lines.seams) > mostAcross {
		return nil, fmt.Errorf("%d drawn seams run across panel %q; %d are the most", len(lines.seams), p.name, mostAcross)
	}
	sides := make([][2]chain, len(lines.seams))
	for k, s := range lines.seams {
		sides[k] = m.addSeam(s)
	}
	var out []trimmedPanel
	for mask := range 1 << len(sides) {
		open := append([]chain(nil), lines.open...)
		for k := range sides {
			open = append(open, sides[k][mask>>k&1])
		}
		loops, holes, err := p.trim(b, open, lines.closed)
		if err != nil {
			return nil, err
		}
		out = append(out, trimmedPanel{i, loops, holes})
	}
	return out, nil
}

func (p *rawPanel) addBreak(breaks [][]float64, b border, at place) {
	s := p.sides[b.side[at.seg]]
	if s.seam >= 0 {
		breaks[s.seam] = append(breaks[s.seam], s.position(b.step[at.seg], at.t))
	}
}

func (s side) position(step int, t float64) float64 {
	return s.at[step] + t*(s.at[step+1]-s.at[step])
}

// distinct sorts and drops values nearer than rounding.
func distinct(v []float64) []float64 {
	sort.Float64s(v)
	var out []float64
	for _, x := range v {
		if len(out) == 0 || x-out[len(out)-1] > geom.Coincident {
			out = append(out, x)
		}
	}
	return out
}
