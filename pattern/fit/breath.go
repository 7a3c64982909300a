package fit

import (
	"fmt"
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// Air is what is open for breathing in what is worn on the head together, mm².
type Air struct {
	Openings float64 // in front of mouth and nose and below the eyes, as seen from the mouth
	Rim      float64 // between foam and head where that is narrowest, from the mouth down
	Covered  float64 // share of what is in front of the mouth that is foam
}

// leastAir is the least open area for a mask that encloses the head, mm²: two
// round holes of 29 mm (as the toy safety standard is remembered to ask; its
// text was not seen, so a rule of thumb).
const leastAir = 1300.0

// air measures what is open. Air goes round a thick edge, so foam counts by its middle.
func (h headwear) air(form *body.Form) Air {
	head, ok := form.Part(body.Head, body.Both)
	if !ok {
		return Air{}
	}
	var a Air
	whole := together(h, func(p *held) geom.Mesh { return p.whole() })
	foam := together(h, func(p *held) geom.Mesh { return p.middle() })
	a.Openings, a.Covered = openArea(head, geom.NewLocator(whole), geom.NewLocator(foam))
	if a.Covered > 0 {
		a.Rim = rimArea(whole, form, head)
	}
	return a
}

// openArea casts rays from the mouth over the front, below the eyes. Where one
// gets out through an opening, it stands for the area of the innermost surface
// that it passes through: t²·dω/cos of the angle to that surface's normal.
func openArea(head *body.Part, whole, walls *geom.Locator) (open, covered float64) {
	const step = 1.25    // degrees: a hole of 6 mm at 60 mm is met by some 16 rays
	const highest = 60.0 // degrees up from the mouth: eyes are lower
	const flattest = 0.2
	mouth, eyes := mouthOf(head), levelOf(head, "eyes")
	m := whole.Mesh()
	hits, rays := 0.0, 0.0
	for pitch := -90 + step/2; pitch < highest; pitch += step {
		for yaw := -90 + step/2; yaw < 90; yaw += step {
			d := head.Frame.Dir(looking(yaw, pitch))
			weight := math.Cos(units.Rad(pitch))
			hit := walls.Blocks(mouth, d)
			if math.Hypot(yaw, pitch) < 60 {
				rays += weight
				if hit {
					hits += weight
				}
			}
			if hit {
				continue
			}
			t, tri, through := whole.Hit(mouth, d)
			if !through || head.Frame.Local(r3.Add(mouth, r3.Scale(t, d))).Y > eyes {
				continue
			}
			c := m.T[tri]
			n := r3.Unit(r3.Cross(r3.Sub(m.V[c[1]], m.V[c[0]]), r3.Sub(m.V[c[2]], m.V[c[0]])))
			open += t * t * weight * units.Rad(step) * units.Rad(step) / max(math.Abs(r3.Dot(n, d)), flattest)
		}
	}
	return open, hits / rays
}

// mouthOf is a place just before the lips, body axes.
func mouthOf(head *body.Part) r3.Vec {
	const before = 2.0 // mm
	p := head.Point(0, levelOf(head, "mouth"))
	p.Z += before
	return head.Frame.Point(p)
}

func levelOf(head *body.Part, station string) float64 {
	y, _ := head.Station(station)
	return y
}

// rimArea is the area inside the foam less that of head and neck, where it is
// least from the mouth down to the lowest ring that goes round.
func rimArea(whole geom.Mesh, form *body.Form, head *body.Part) float64 {
	foam := geom.Mesh{V: make([]r3.Vec, len(whole.V)), T: whole.T}
	for i, v := range whole.V {
		foam.V[i] = head.Frame.Local(v)
	}
	flesh := head.Worn()
	if neck, ok := form.Part(body.Neck, body.Both); ok {
		var both geom.Mesh // the parts' own meshes stay as they are: others measure by them
		both.Append(flesh)
		first := len(both.V)
		both.Append(neck.Worn())
		for i, v := range both.V[first:] {
			both.V[first+i] = head.Frame.Local(neck.Frame.Point(v))
		}
		flesh = both
	}
	low, _ := levels(foam)
	least := math.Inf(1)
	for y := levelOf(head, "mouth"); y > low+1; y -= 5 {
		round, within := section(foam, y), section(flesh, y)
		if len(round) < 3 || len(within) < 3 || !geom.Inside(round, geom.Centroid(within)) {
			break
		}
		least = min(least, geom.Area(round)-geom.Area(within))
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return max(least, 0)
}

// breathing says what is open for breathing where the mouth is behind foam.
func (h headwear) breathing(a Air) []report.Finding {
	const mostly = 0.4 // of what is in front of the mouth: below that, the mouth is free
	if a.Covered < mostly {
		return nil
	}
	u := h[0].Units
	f := report.Finding{Level: report.Note, Subject: h[0].Name,
		Said: fmt.Sprintf("air reaches the mouth through %s of openings below the eyes (checked), and past the neck through about %s at the narrowest (estimated)%s; %s is the least (a rule of thumb).",
			units.FormatArea(a.Openings, u), units.FormatArea(a.Rim, u), h.others(), units.FormatArea(leastAir, u))}
	switch {
	case a.Openings+a.Rim < leastAir:
		f.Level = report.Problem
		f.Perhaps = "Nobody can breathe in that: cut openings before the mouth, or give the piece more room at the neck."
	case a.Openings < leastAir:
		f.Perhaps = "Most air must come past the neck, where breath stays: more or larger holes before the mouth, or a small fan, help. Take it off at the first stuffy feeling."
	}
	return []report.Finding{f}
}
