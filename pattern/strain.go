package pattern

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"tasset/internal/flatten"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Formed tells of a panel that is heated and formed how foam that is cut to its
// outline must change. Its border keeps its length; within, foam stretches in
// some places and gathers in others. Shares are of the foam's length when flat.
type Formed struct {
	Stretch, Gather Spread
	Worst           r2.Vec  // the place on the flat panel that strains it most
	Shrink          float64 // by what part of its length it gets shorter when heated; it is drawn larger by that
	Dart            int     // number of the seam that closes its dart, 0 if it has none
	Certified       bool    // no way near this one to lay it flat distorts it less
}

// OnlyBends tells whether the foam stretches and gathers by less than is told.
func (f *Formed) OnlyBends() bool { return max(f.Stretch.P95, f.Gather.P95) < units.LeastStrain }

// Spread is what 95 and 99 % of a panel's area stay below.
type Spread struct{ P95, P99 float64 }

// forming is what is told of a raw panel that is formed, nil of another.
func (p *rawPanel) forming() *Formed {
	if p.formed == nil {
		return nil
	}
	spread := func(s flatten.Spread) Spread { return Spread{s.P95, s.P99} }
	return &Formed{Stretch: spread(p.formed.Stretch), Gather: spread(p.formed.Gather), Worst: p.surf.Flat[p.formed.SwellAt], Shrink: p.shrink, Certified: p.formed.Certified}
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

// overstrained says that a panel can be laid flat but not formed of it.
type overstrained struct {
	shape *flatten.Formed
	at    r3.Vec // the worst place
}

func (o *overstrained) Error() string {
	return fmt.Sprintf("its foam would have to %s, even with a dart", strained(o.shape.Stretch.P95, o.shape.Gather.P95))
}

func strained(stretch, gather float64) string {
	return fmt.Sprintf("stretch by %s and gather by %s", units.FormatStrain(stretch), units.FormatStrain(gather))
}

// notFormed says of a panel that cannot be formed why, where, and what to change.
func (c *cutter) notFormed(p *rawPanel, err error) error {
	var refusal *flatten.Refusal
	var over *overstrained
	why, at := "", r3.Vec{}
	switch {
	case errors.As(err, &refusal):
		at = refusal.At
		why = map[flatten.Reason]string{
			flatten.NotFlat:  "it curves too much to be laid flat with its edges at their lengths",
			flatten.Folded:   "laid flat with its edges at their lengths, a part of it would have to be turned over",
			flatten.Overlaps: "laid flat, it would lie on itself",
			flatten.Crinkled: "laid flat, its edges would have to crumple to keep their lengths",
		}[refusal.Reason]
	case errors.As(err, &over):
		at = over.at
		l := c.plan.strain
		why = fmt.Sprintf("%s; the most is to stretch by %s and gather by %s (a rule of thumb)", over, units.FormatShare(mostEasy*l.stretch), units.FormatShare(mostEasy*l.gather))
	default:
		return fmt.Errorf("panel %q cannot be formed: %w", p.name, err)
	}
	level, axis := at.Y, ""
	if c.plan.turned {
		level = -level
	}
	if axis = fmt.Sprintf("%.0f°", units.Deg(turn(math.Atan2(at.X, at.Z)))); math.Hypot(at.X, at.Z) < geom.Detail {
		axis = "the axis"
	}
	mend := fmt.Sprintf("Give band %q more seams, or a ring with a seam there, or let it bend around or along instead", c.bands[p.band].name)
	if setting := c.bands[p.band].counted.setting; setting != "" {
		mend = fmt.Sprintf("Set %q to more. In a template of your own: %s", setting, strings.ToLower(mend[:1])+mend[1:])
	}
	return fmt.Errorf("panel %q cannot be formed in one piece: %s. It is worst near level %.0f mm at %s. %s", p.name, why, level, axis, mend)
}

// strains tells of formed panels that take more heat and patience than others.
func (b *builder) strains(p *Piece) {
	l := b.material.strainLimits()
	for i := range p.Panels {
		panel := &p.Panels[i]
		f := panel.Formed
		if f == nil {
			continue
		}
		if f.Dart > 0 {
			panel.Notes = append(panel.Notes, fmt.Sprintf("First glue its dart, seam %d.", f.Dart))
		}
		if f.OnlyBends() {
			panel.Notes = append(panel.Notes, "Heat it, bend it to shape and hold until cool (safety page, 6 and 7): it need not stretch or gather. Its edges keep their length."+shrinks(f.Shrink))
			continue
		}
		panel.Notes = append(panel.Notes, fmt.Sprintf("Heat and form, hold until cool (safety page, 6 and 7): stretch up to %s, gather up to %s (95 %% of its area stay below; by rule of thumb %s and %s go easily). Its edges keep their length.",
			units.FormatStrain(f.Stretch.P95), units.FormatStrain(f.Gather.P95), units.FormatShare(l.stretch), units.FormatShare(l.gather))+shrinks(f.Shrink))
		if l.load(f.Stretch.P95, f.Gather.P95) <= 1 {
			continue
		}
		b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
			Said: fmt.Sprintf("panel %s must %s when it is formed, most of all %s; foam easily does up to %s and %s (a rule of thumb).",
				panel.Label, strained(f.Stretch.P95, f.Gather.P95), panel.placeOf(f.Worst), units.FormatShare(l.stretch), units.FormatShare(l.gather)),
			Perhaps: "Heat it there again and again and form it in steps; or ask for more panels."})
	}
}

// placeOf says where a place of the flat panel lies, as seen on its page.
func (p *Panel) placeOf(at r2.Vec) string {
	box := geom.Bounds(p.Outline)
	third := func(x, low, high float64, names [3]string) string {
		return names[min(max(int(3*(x-low)/(high-low)), 0), 2)]
	}
	upright := third(at.Y, box.Min.Y, box.Max.Y, [3]string{"low", "half way up", "high"})
	across := third(at.X, box.Min.X, box.Max.X, [3]string{"on its left", "in the middle", "on its right"})
	if upright == "half way up" && across == "in the middle" {
		return "in its middle"
	}
	return upright + " " + across
}
