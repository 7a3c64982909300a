package pattern

import (
	"fmt"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// lameShells raises the lames, from the innermost outwards: each is kept clear of
// the one that it covers, and the first one of bands, if it covers some. They are
// given from the lower end up. limit gives what a shell goes round that stands
// further out by an amount at each level.
func (p *plan) lameShells(bands *shell, gap float64, limit func(lift func(level float64) float64) *limit) ([]*shell, error) {
	l := p.lames
	out := make([]*shell, l.count)
	var under geom.Mesh
	if l.upperOut && l.below {
		under = bands.outside(gap, l.from)
	} else if !l.upperOut && l.above {
		under = bands.outside(gap, l.to)
	}
	for n := range out {
		i, covering := n, 0
		if !l.upperOut {
			i, covering = len(out)-1-n, 1
		}
		plan, err := p.lame(i, gap)
		if err != nil {
			return nil, err
		}
		if out[i], err = newShell(plan, limit(p.lifted(i, gap))); err == nil {
			out[i], err = out[i].clearOf(under, covering)
		}
		if err != nil {
			return nil, fmt.Errorf("lame %d: %w", i+1, err)
		}
		out[i].lame = i + 1
		under = out[i].outside(gap, covering)
	}
	return out, nil
}

// coverRun keeps the bands clear of the lame that one of them covers.
func (p *plan) coverRun(bands *shell, lames []*shell, gap float64) (*shell, error) {
	switch l := p.lames; {
	case l.upperOut && l.above:
		return bands.clearOf(lames[len(lames)-1].outside(gap, 0), l.to)
	case !l.upperOut && l.below:
		return bands.clearOf(lames[0].outside(gap, 0), l.from)
	}
	return bands, nil
}

// clearOf keeps a shell clear of what one of its rings covers. A band that wraps
// the axis is moved out at that ring alone, so that a run of lames does not grow
// from lame to lame; one that follows its limit goes round both.
func (s *shell) clearOf(m geom.Mesh, ring int) (*shell, error) {
	if len(m.V) == 0 {
		return s, nil
	}
	under := limitOf(m, false)
	for i, b := range s.bands {
		if b.from != ring && b.to != ring {
			continue
		}
		if b.rails != nil {
			s.limit.add(m)
			return newShell(s.plan, s.limit)
		}
		most := 0.0
		own := s.limit
		s.limit = under
		for _, n := range s.needs(s.bands[i]) {
			share := n.t // of what the ring moves
			if b.from == ring {
				share = 1 - n.t
			}
			if share > leastShare {
				most = max(most, n.inside/share)
			}
		}
		s.limit = own
		s.moveOut(ring, most)
	}
	return s, nil
}

// leastShare is how near the ring across a band what it covers counts, as a share
// of the band (detail: lames reach no nearer).
const leastShare = 0.2

// outside are the bands at a ring, moved out by d.
func (s *shell) outside(d float64, ring int) geom.Mesh {
	var m geom.Mesh
	for _, b := range s.bands {
		if b.from != ring && b.to != ring {
			continue
		}
		var lines [][]r3.Vec // from column to column
		if b.rails == nil {
			lower, upper := s.ringPoints(b.from), s.ringPoints(b.to)
			for i := range lower {
				lines = append(lines, []r3.Vec{lower[i], upper[i]})
			}
		}
		for _, rail := range b.rails {
			if rail != nil {
				lines = append(lines, rail)
			}
		}
		m.Append(netOf(lines, !s.open()))
	}
	for i, n := range geom.VertexNormals(m) {
		m.V[i] = r3.Add(m.V[i], r3.Scale(d, n))
	}
	return m
}

func (s *shell) ringPoints(i int) []r3.Vec {
	var out []r3.Vec
	for _, q := range s.line(s.rings[i]) {
		out = append(out, s.rings[i].point(q))
	}
	return out
}

// netOf joins neighbouring lines, each run from below, by triangles that look
// outwards; closed joins the last to the first as well.
func netOf(lines [][]r3.Vec, closed bool) geom.Mesh {
	var m geom.Mesh
	for _, l := range lines {
		m.V = append(m.V, l...)
	}
	n := len(lines)
	if !closed {
		n--
	}
	for i := range n {
		rows, next := len(lines[i]), (i+1)%len(lines)
		for j := range rows - 1 {
			a, b := i*rows+j, next*rows+j
			m.T = append(m.T, [3]int{a, b, b + 1}, [3]int{a, b + 1, a + 1})
		}
	}
	return m
}
