package pattern

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Of flat parts that meet edge to edge.
const (
	leastJoin = 10.0 // the shortest edge that is joined, mm (judgement)
	joinNear  = 0.05 // edges that lie no further off each other meet, mm (detail)
)

// flatSide is one side of a seam between flat parts: a stretch of a segment of the
// outline of a panel.
type flatSide struct {
	panel, segment int
	from, to       float64 // mm along the segment
}

// flatSeam is where two flat parts meet.
type flatSeam struct {
	kind  EdgeKind
	sides [2]flatSide
	line  [2]r3.Vec // as the first side runs, piece axes
	says  int       // line of the template that says so
}

// joinFlats makes seams of the edges along which the template says that flat parts
// meet.
func (b *builder) joinFlats(p *Piece) error {
	var seams []flatSeam
	for _, j := range b.template.Joins {
		for _, to := range j.To {
			a, z := p.flatNamed(j.Part), p.flatNamed(to)
			if a < 0 || z < 0 {
				continue
			}
			s, err := p.joinOf(a, z)
			if err != nil {
				return fmt.Errorf("%s:%d: flat parts %q and %q: %w", b.template.File, j.Line, j.Part, to, err)
			}
			s.says = j.Line
			if s.kind = Butt; j.Cloth {
				s.kind = ClothHinge
			}
			seams = append(seams, s)
		}
	}
	if len(seams) == 0 {
		return nil
	}
	b.freeRests(p, seams)
	return b.sewFlats(p, seams)
}

// freeRests tells of joined edges that are longer than all that meets them, by more than
// the foam of a lid that lies on the lower one: as where one wall of a box is lower than
// the next. That can be meant, or a slip in a point.
func (b *builder) freeRests(p *Piece, seams []flatSeam) {
	for _, s := range seams {
		for k, side := range s.sides {
			rest := geom.Dist(p.Panels[side.panel].segment(side.segment))
			for _, o := range seams {
				for _, x := range o.sides {
					if x.panel == side.panel && x.segment == side.segment {
						rest -= x.to - x.from
					}
				}
			}
			if rest <= p.Foam(&p.Panels[side.panel])+joinNear {
				continue
			}
			long, short := p.Panels[side.panel].Name, p.Panels[s.sides[1-k].panel].Name
			b.findings = append(b.findings, report.Finding{Level: report.Note, Subject: b.order.Name, Where: fmt.Sprintf("%s:%d", b.template.File, s.says),
				Said:    fmt.Sprintf("the flat part %q ends %s before %q where they meet, so that much of that edge stays free.", short, units.FormatFine(rest, p.Units), long),
				Perhaps: "If they were to end together, give both edges one length."})
		}
	}
}

// flatNamed is the index of the flat part of that name, -1 if it is not there.
func (p *Piece) flatNamed(name string) int {
	return slices.IndexFunc(p.Panels, func(x Panel) bool { return x.Role == FlatPart && x.Name == name })
}

// joinOf is where two flat parts meet: along the longest stretch that a straight edge
// of either lies on.
func (p *Piece) joinOf(a, z int) (flatSeam, error) {
	one, other := &p.Panels[a], &p.Panels[z]
	if x, y := p.Foam(one), p.Foam(other); math.Abs(x-y) > geom.Detail {
		return flatSeam{}, fmt.Errorf("one is of %.3g mm foam and the other of %.3g mm; what is joined by its edges is of one thickness", x, y)
	}
	if one.Copies != other.Copies {
		return flatSeam{}, fmt.Errorf("of one %d are cut and of the other %d; give both the same count", one.Copies, other.Copies)
	}
	var best flatSeam
	longest, nearest := 0.0, math.Inf(1)
	var bad error
	for i := range one.Outline {
		for j := range other.Outline {
			s, off, long, err := sharedLine(one, other, i, j)
			if long < leastJoin {
				continue
			}
			if nearest = min(nearest, off); off > joinNear || long <= longest+geom.Detail {
				continue
			}
			longest, best, bad = long, s, err
		}
	}
	if longest == 0 {
		said := "no straight edge of one lies along one of the other"
		if !math.IsInf(nearest, 1) {
			said = fmt.Sprintf("no straight edge of one lies on one of the other; the nearest two run %.3g mm apart", nearest)
		}
		return flatSeam{}, fmt.Errorf("they do not meet: %s. Change their x, y, z or points so that two edges are one line in space", said)
	}
	best.sides[0].panel, best.sides[1].panel = a, z
	mine, theirs := one.Surface.normal(0), other.Surface.normal(0)
	if bad == nil && r3.Dot(theirs, r3.Cross(r3.Sub(best.line[1], best.line[0]), mine)) < -geom.Detail {
		bad = fmt.Errorf("their show faces look into the corner that they make; turn the facing of both round, so that they look out of it")
	}
	return best, bad
}

// sharedLine is the stretch that segment i of a panel and segment j of another share: how far
// off each other they are there, how long it is, and what is wrong with it.
func sharedLine(a, z *Panel, i, j int) (s flatSeam, off, long float64, err error) {
	a0, a1 := a.segment(i)
	z0, z1 := z.segment(j)
	la, lz := geom.Dist(a0, a1), geom.Dist(z0, z1)
	if min(la, lz) < leastJoin {
		return s, 0, 0, nil
	}
	way := r3.Scale(1/la, r3.Sub(a1, a0))
	at := func(p r3.Vec) float64 { return r3.Dot(way, r3.Sub(p, a0)) }
	from := func(p r3.Vec) float64 { return r3.Norm(r3.Cross(way, r3.Sub(p, a0))) }
	low, high := min(at(z0), at(z1)), max(at(z0), at(z1))
	// An end that differs by no more than a knife strays is the same.
	ends := [2]float64{max(low, 0), min(high, la)}
	if ends[0] < joinNear {
		ends[0] = 0
	}
	if ends[1] > la-joinNear {
		ends[1] = la
	}
	long, off = ends[1]-ends[0], max(from(z0), from(z1))
	s.sides[0] = flatSide{segment: i, from: ends[0], to: ends[1]}
	s.line = [2]r3.Vec{geom.Lerp(a0, a1, ends[0]/la), geom.Lerp(a0, a1, ends[1]/la)}
	other := flatSide{segment: j, from: max(0, high-ends[1]), to: min(lz, high-ends[0])} // the other runs against it
	if other.from < joinNear {
		other.from = 0
	}
	if other.to > lz-joinNear {
		other.to = lz
	}
	s.sides[1] = other
	switch {
	case at(z1) > at(z0):
		err = fmt.Errorf("their edges run the same way, so the show face of one looks into what they enclose and that of the other out of it; turn the facing of one round")
	case long < min(la, lz)-2*joinNear:
		err = fmt.Errorf("each sticks out past the other where their edges meet: the edges are %.4g and %.4g mm long and share %.4g mm; one of them must lie within the other", la, lz, long)
	}
	return s, off, long, err
}

// segment is a straight piece of a flat part's outline, piece axes.
func (p *Panel) segment(i int) (from, to r3.Vec) {
	return p.Surface.Bent[i], p.Surface.Bent[(i+1)%len(p.Surface.Bent)]
}

// sewFlats gives the panels their edges anew, and the piece the seams.
func (b *builder) sewFlats(p *Piece, seams []flatSeam) error {
	first := 0
	for _, s := range p.Seams {
		first = max(first, s.Number)
	}
	at := map[int][]sewn{} // by panel
	for n, s := range seams {
		for k, side := range s.sides {
			at[side.panel] = append(at[side.panel], sewn{side, flatEdge(p, s, k, first+n+1)})
		}
	}
	for i := range p.Panels {
		if len(at[i]) == 0 {
			continue
		}
		if err := p.Panels[i].edged(at[i]); err != nil {
			return fmt.Errorf("%s: flat part %q: %w", b.template.File, p.Panels[i].Name, err)
		}
	}
	for n, s := range seams {
		seam := Seam{Number: first + n + 1, Kind: s.kind, Line: s.line[:], Length: geom.Dist(s.line[0], s.line[1])}
		span := Span{To: seam.Length}
		for k, side := range s.sides {
			edges := p.Panels[side.panel].Edges
			span.Sides[k] = EdgeRef{side.panel, slices.IndexFunc(edges, func(e Edge) bool { return e.Seam == seam.Number })}
		}
		seam.Spans = []Span{span}
		p.Seams = append(p.Seams, seam)
		if s.kind == ClothHinge {
			p.hingeOf(seam)
		}
	}
	return nil
}

// sewn is a joined edge and where on the outline it is.
type sewn struct {
	flatSide
	edge Edge
}

// flatEdge is the edge of one side of a seam: a mitre. The line is on the show face, and
// the inner one is cut back by half of the angle between the parts.
func flatEdge(p *Piece, s flatSeam, k, number int) Edge {
	panel, partner := &p.Panels[s.sides[k].panel], &p.Panels[s.sides[1-k].panel]
	side := s.sides[k]
	from, to := panel.Outline[side.segment], panel.Outline[(side.segment+1)%len(panel.Outline)]
	way := r2.Unit(r2.Sub(to, from))
	e := Edge{Kind: s.kind, Seam: number, Span: 1, Along: k == 0, Partner: partner.Label,
		Line: []r2.Vec{r2.Add(from, r2.Scale(side.from, way)), r2.Add(from, r2.Scale(side.to, way))}}
	e.Length = geom.Length(e.Line)
	half := foldAngle(panel.Surface.normal(0), partner.Surface.normal(0)) / 2
	e.Bevel = Bevel{Min: half, Max: half, Undercut: true}
	e.Notches = notches(e, e.Length, false)
	return e
}

// edged gives a flat part its joined edges, and makes what is left of its outline
// between them free ones.
func (p *Panel) edged(joined []sewn) error {
	slices.SortStableFunc(joined, func(a, b sewn) int {
		return cmp.Or(cmp.Compare(a.segment, b.segment), cmp.Compare(a.from, b.from))
	})
	line := append(append([]r2.Vec(nil), p.Outline...), p.Outline[0])
	cum := geom.Lengths(line)
	round := append(append([]r2.Vec(nil), line...), p.Outline[1:]...) // once and nearly once more
	round = append(round, p.Outline[0])
	total := cum[len(cum)-1]
	var edges []Edge
	for i, s := range joined {
		edges = append(edges, s.edge)
		next := joined[(i+1)%len(joined)]
		end, start := cum[s.segment]+s.to, cum[next.segment]+next.from
		if i+1 == len(joined) {
			start += total
		}
		switch {
		case start < end-joinNear:
			return fmt.Errorf("the same stretch of its edge is joined to both %s and %s", s.edge.Partner, next.edge.Partner)
		case start > end+geom.Coincident:
			free := geom.Between(round, end, start)
			edges = append(edges, Edge{Kind: Rim, Line: free, Length: geom.Length(free)})
		}
	}
	p.Edges = edges
	p.Outline = outlineOf(edges)
	return nil
}
