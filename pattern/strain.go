package pattern

import (
	"math"

	"tasset/internal/flatten"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Formed tells of a panel that is heated and formed how foam that is cut to its
// outline must change. Its border keeps its length; within, foam stretches in
// some places and gathers in others. Shares are of the foam's length when flat.
type Formed struct {
	Stretch, Gather Spread
	Certified       bool // no way near this one to lay it flat distorts it less
}

// Spread is what 95 and 99 % of a panel's area stay below.
type Spread struct{ P95, P99 float64 }

// forming is what is told of a raw panel that is formed, nil of another.
func (p *rawPanel) forming() *Formed {
	if p.formed == nil {
		return nil
	}
	spread := func(s flatten.Spread) Spread { return Spread{s.P95, s.P99} }
	return &Formed{Stretch: spread(p.formed.Stretch), Gather: spread(p.formed.Gather), Certified: p.formed.Certified}
}

// creaseFolds draws the creases of a formed panel, as far as they lie in the
// trimmed outline. They are formed with it, so nothing is cut into.
func (p *rawPanel) creaseFolds(outline []r2.Vec) []Fold {
	var out []Fold
	for _, column := range p.creases {
		angle := p.foldAlong(column)
		if angle < flatCrease {
			continue
		}
		open := false
		for i := 0; i+1 < len(column); i++ {
			for _, part := range geom.ClipLine(p.surf.Flat[column[i]], p.surf.Flat[column[i+1]], outline) {
				if n := len(out); open && geom.Dist(out[n-1].Line[len(out[n-1].Line)-1], part[0]) < geom.Coincident {
					out[n-1].Line = append(out[n-1].Line, part[1])
					continue
				}
				out, open = append(out, Fold{Line: part[:], Kind: "bent", Angle: angle}), true
			}
		}
	}
	return out
}

// flatCrease (common practice, no source): a crease that folds less is not seen.
const flatCrease = 3 * math.Pi / 180

// foldAlong is the mean angle between the triangles on either side of a line of
// vertices.
func (p *rawPanel) foldAlong(line []int) float64 {
	beside := map[[2]int]int{}
	for ti, t := range p.surf.T {
		for k := range 3 {
			beside[[2]int{t[k], t[(k+1)%3]}] = ti
		}
	}
	sum, n := 0.0, 0.0
	for i := 0; i+1 < len(line); i++ {
		a, okA := beside[[2]int{line[i], line[i+1]}]
		b, okB := beside[[2]int{line[i+1], line[i]}]
		if okA && okB {
			sum, n = sum+foldAngle(p.surf.normal(a), p.surf.normal(b)), n+1
		}
	}
	return sum / max(n, 1)
}
