package pattern

import (
	"cmp"
	"math"
	"slices"

	"tasset/internal/flatten"
	"tasset/internal/geom"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// Where a formed panel is marked to be heated (judgement): where it strains by
// two thirds of what 99 % of it stay below, and by leastHeat at least. The
// regions are hatched with lines so far apart, mm, that end so far short of what
// bounds them; shorter ones are left out.
const (
	hotShare    = 2.0 / 3
	leastHeat   = 0.015
	hatchApart  = 5.0
	leastHatch  = 3.0
	hatchShort  = 2.0
	hatchAround = 1e-6 // rounding: ends nearer than this are one
)

// MarkStretch and MarkGather are the kinds of marks that hatch where foam must
// stretch and where it must gather.
const (
	MarkStretch = "stretch"
	MarkGather  = "gather"
)

// heatMarks hatches where a formed panel must be stretched and where gathered.
func (p *rawPanel) heatMarks(panel *Panel) []Mark {
	if p.formed == nil {
		return nil
	}
	out := p.hatched(panel, flatten.Strain.Stretch, p.formed.Stretch, MarkStretch, math.Pi/4, "heat and stretch here, up to ")
	return append(out, p.hatched(panel, flatten.Strain.Gather, p.formed.Gather, MarkGather, -math.Pi/4, "heat and gather here, up to ")...)
}

func (p *rawPanel) hatched(panel *Panel, of func(flatten.Strain) float64, spread flatten.Spread, kind string, angle float64, words string) []Mark {
	level := max(hotShare*spread.P99, leastHeat)
	if spread.P99 < leastHeat {
		return nil
	}
	values := p.atVertices(of)
	var out []Mark
	longest := -1
	for _, line := range p.hatchLines(values, level, angle) {
		for _, s := range panel.clipped(line) {
			if geom.Dist(s[0], s[1]) < leastHatch {
				continue
			}
			if longest < 0 || geom.Dist(s[0], s[1]) > geom.Length(out[longest].Line) {
				longest = len(out)
			}
			out = append(out, Mark{Kind: kind, Line: s[:]})
		}
	}
	if longest >= 0 {
		out[longest].Text = words + units.FormatStrain(spread.P99)
	}
	return out
}

// clipped are the stretches of a line that lie on the panel, short of its border:
// a line that ended there would look like a notch.
func (p *Panel) clipped(line [2]r2.Vec) [][2]r2.Vec {
	var ring []r2.Vec // along the seam lines, within any flap
	for _, e := range p.Edges {
		ring = append(ring, e.Line[:len(e.Line)-1]...)
	}
	var out [][2]r2.Vec
	for _, s := range geom.ClipLine(line[0], line[1], ring) {
		if geom.Dist(s[0], s[1]) < 2*hatchShort {
			continue
		}
		in := r2.Scale(hatchShort, r2.Unit(r2.Sub(s[1], s[0])))
		left := [][2]r2.Vec{{r2.Add(s[0], in), r2.Sub(s[1], in)}}
		for _, h := range p.Holes {
			var next [][2]r2.Vec
			for _, s := range left {
				next = append(next, outside(s, h)...)
			}
			left = next
		}
		out = append(out, left...)
	}
	return out
}

// outside are the stretches of a line outside a ring.
func outside(s [2]r2.Vec, ring []r2.Vec) [][2]r2.Vec {
	var out [][2]r2.Vec
	from := s[0]
	for _, in := range geom.ClipLine(s[0], s[1], ring) {
		out = append(out, [2]r2.Vec{from, in[0]})
		from = in[1]
	}
	return append(out, [2]r2.Vec{from, s[1]})
}

// atVertices is a strain at each vertex: the mean of the triangles round it, by
// their areas.
func (p *rawPanel) atVertices(of func(flatten.Strain) float64) []float64 {
	sum, area := make([]float64, len(p.surf.Flat)), make([]float64, len(p.surf.Flat))
	for ti, t := range p.surf.T {
		a, b, c := p.surf.Flat[t[0]], p.surf.Flat[t[1]], p.surf.Flat[t[2]]
		size := r2.Cross(r2.Sub(b, a), r2.Sub(c, a))
		for _, v := range t {
			sum[v] += size * of(p.formed.Strain[ti])
			area[v] += size
		}
	}
	for v := range sum {
		sum[v] /= area[v]
	}
	return sum
}

// hatchLines are the stretches of parallel lines on which values lie above a
// level.
func (p *rawPanel) hatchLines(values []float64, level, angle float64) [][2]r2.Vec {
	along, across := direction(angle), direction(angle+math.Pi/2)
	lines := map[int][][2]float64{} // number of the line: from and to along it
	for _, t := range p.surf.T {
		hot := hotPart(p.surf.Flat, values, t, level)
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range hot {
			low, high = min(low, r2.Dot(q, across)), max(high, r2.Dot(q, across))
		}
		for n := int(math.Ceil(low / hatchApart)); float64(n)*hatchApart <= high; n++ {
			if from, to, ok := chordOf(hot, along, across, float64(n)*hatchApart); ok {
				lines[n] = append(lines[n], [2]float64{from, to})
			}
		}
	}
	var numbers []int
	for n := range lines {
		numbers = append(numbers, n)
	}
	slices.Sort(numbers)
	var out [][2]r2.Vec
	for _, n := range numbers {
		foot := r2.Scale(float64(n)*hatchApart, across)
		for _, s := range joined(lines[n]) {
			out = append(out, [2]r2.Vec{r2.Add(foot, r2.Scale(s[0], along)), r2.Add(foot, r2.Scale(s[1], along))})
		}
	}
	return out
}

// hotPart is the part of a triangle where values, even over it, lie above a
// level: a convex ring, or nothing.
func hotPart(flat []r2.Vec, values []float64, t [3]int, level float64) []r2.Vec {
	var out []r2.Vec
	for k := range 3 {
		a, b := t[k], t[(k+1)%3]
		if values[a] >= level {
			out = append(out, flat[a])
		}
		if (values[a] >= level) != (values[b] >= level) {
			out = append(out, geom.Lerp(flat[a], flat[b], (level-values[a])/(values[b]-values[a])))
		}
	}
	return out
}

// chordOf is where a line across·q = at runs through a convex ring, along it.
func chordOf(ring []r2.Vec, along, across r2.Vec, at float64) (from, to float64, ok bool) {
	from, to = math.Inf(1), math.Inf(-1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := r2.Dot(a, across)-at, r2.Dot(b, across)-at
		if (da < 0) == (db < 0) {
			continue
		}
		x := r2.Dot(geom.Lerp(a, b, da/(da-db)), along)
		from, to = min(from, x), max(to, x)
	}
	return from, to, to > from
}

// joined puts stretches that follow each other together.
func joined(parts [][2]float64) [][2]float64 {
	slices.SortFunc(parts, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	for _, p := range parts {
		if n := len(out); n > 0 && p[0] <= out[n-1][1]+hatchAround {
			out[n-1][1] = max(out[n-1][1], p[1])
			continue
		}
		out = append(out, p)
	}
	return out
}
