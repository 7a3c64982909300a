package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// judge measures the finished piece and says whether it may be cut.
func (b *builder) judge(p *Piece) {
	if asked := p.Asked + p.Reserve(); !p.Free && p.Clearance < held*asked {
		b.doubtf("the foam comes within %s of the body or what is worn on it; %s were asked for.", units.FormatFine(p.Clearance, p.Units), units.FormatFine(asked, p.Units))
	}
	for _, n := range b.template.Governs {
		m, ok := b.form.Measurements().Get(n, b.partSide())
		if !ok {
			continue
		}
		g := Governing{Measurement: m, PerMM: 1, Changed: b.order.Adjust[string(n)].Typed}
		g.Good = m.Origin == body.Taped || m.HalfWidth() <= b.slack(n)/2
		p.Governs = append(p.Governs, g)
	}
	if !p.Free {
		b.judgeGap(p)
		b.judgePassing(p)
		b.neighbours(p)
	} else {
		b.bends(p)
	}
	b.draft(p)
	b.bevels(p)
	b.narrows(p)
	b.strains(p)
}

// freeSlack (common practice, no source): what a size may be off for a piece
// that goes round no part of the body.
const freeSlack = 20.0

// slack is how far a size may be off before the piece no longer fits: the room
// between body and foam, as the size counts it. Heights and lengths move a rim
// up or down, where 20 mm are borne (common practice, no source). What lies over
// another piece has the room of that one, with which it was made to fit.
func (b *builder) slack(n body.Name) float64 {
	d, _ := body.Describe(n)
	if b.stand.free {
		return freeSlack
	}
	room := max(b.asked, b.stand.room)
	switch d.Kind {
	case body.KindGirth, body.KindArc:
		return 2 * math.Pi * room
	case body.KindBreadth, body.KindDepth:
		return 2 * room
	}
	return max(2*room, 20)
}

func (b *builder) draft(p *Piece) {
	var missing []string
	for _, g := range p.Governs {
		if !g.Good {
			missing = append(missing, fmt.Sprintf("%s (%s %s ± %s)", g.Name, byWhat(g.Origin), units.Format(g.Value, p.Units), units.FormatDoubt(g.HalfWidth(), p.Units)))
		}
	}
	if len(missing) == 0 {
		return
	}
	p.Draft = true
	p.DraftWhy = "measure " + strings.Join(missing, ", ")
	b.findings = append(b.findings, report.Finding{Level: report.Problem, Subject: b.order.Name, Where: b.order.Where,
		Said:    "this piece is a draft, not fit to cut: a size that it hangs on is not known well enough.",
		Perhaps: "To make it ready, " + p.DraftWhy + "."})
}

// byWhat says where a size comes from that is not known well enough.
func byWhat(o body.Origin) string {
	if o == body.Photographed {
		return "by photographs"
	}
	return "estimated"
}

// bevels warns of edges that the maker's tool cannot cut.
func (b *builder) bevels(p *Piece) {
	most := b.material.Cut
	if most == 0 {
		most = math.Pi / 4 // a knife (common practice, no source)
	}
	seen := map[int]bool{}
	for _, panel := range p.Panels {
		for _, e := range panel.Edges {
			if math.Round(units.Deg(e.Bevel.Max)) <= math.Round(units.Deg(most)) || seen[e.Seam] { // as both are written
				continue
			}
			seen[e.Seam] = true
			b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
				Said:    fmt.Sprintf("seam %d needs a bevel of %.0f°, more than the %.0f° that the tool can cut.", e.Seam, units.Deg(e.Bevel.Max), units.Deg(most)),
				Perhaps: "Cut it in two passes with a rotary tool, or put another panel between."})
		}
	}
}

// clearance is the least distance of the inner face from the parts of the body
// that the piece goes round, and what is worn there, over the corners and middles
// of all triangles of the bent panels that openings have left.
func (b *builder) clearance(p *Piece) float64 {
	if p.Free {
		return 0
	}
	near := approach{parts: b.stand.parts, least: math.Inf(1)}
	b.innerFace(p, func(panel *Panel, tri int, w [3]float64, at r3.Vec, corner *known) {
		at = b.inBody(at)
		if near.passes(at) || corner.beyond(at, near.least) {
			return
		}
		d := near.measure(at)
		*corner = near.last
		if d < near.least && (!panel.opened() || panel.Covers(blend2(panel.Surface.Flat, panel.Surface.T[tri], w))) {
			near.least = d
		}
	})
	return near.least
}

// innerFace visits the inner face of the shell's panels in space, at the corners
// and in the middle of each triangle. A formed panel is smooth, so a corner of it
// is visited once, square to the triangles round it. What visit knows of a corner is
// there when it comes to it again, square to another triangle.
func (b *builder) innerFace(p *Piece, visit func(panel *Panel, tri int, w [3]float64, at r3.Vec, corner *known)) {
	corners := [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	middle := [3]float64{1. / 3, 1. / 3, 1. / 3}
	inner := p.K * p.Thickness
	for i := range p.Panels {
		panel := &p.Panels[i]
		if panel.Role != OfShell {
			continue
		}
		s := &panel.Surface
		var normals []r3.Vec
		if panel.Formed != nil {
			normals = geom.VertexNormals(geom.Mesh{V: s.Bent, T: s.T})
		}
		seen, corner := make([]bool, len(s.Bent)), make([]known, len(s.Bent))
		for ti, t := range s.T {
			flat := s.normal(ti)
			off := -inner
			if normals != nil {
				off += s.bulge(t, normals)
			}
			visit(panel, ti, middle, r3.Add(blend3(s.Bent, t, middle), r3.Scale(off, flat)), &known{})
			for k, v := range t {
				n := flat
				if normals != nil && seen[v] {
					continue
				} else if normals != nil {
					n, seen[v] = normals[v], true
				}
				visit(panel, ti, corners[k], r3.Sub(s.Bent[v], r3.Scale(inner, n)), &corner[v])
			}
		}
	}
}

// bulge is how far a smooth surface stands out of the middle of a triangle whose
// corners are on it, from the normals there: half of what the tangent plane does that is
// nearest to the middle, as on a sphere. At a crease, where a corner's normal is that of
// neither side, the other corner's plane decides. Source: the planes and their blending are
// those of Boubekeur and Alexa, "Phong tessellation", ACM Trans. Graph. 27(5), 2008.
func (s *Surface) bulge(t [3]int, normals []r3.Vec) float64 {
	middle, least := r3.Scale(1./3, r3.Add(r3.Add(s.Bent[t[0]], s.Bent[t[1]]), s.Bent[t[2]])), math.Inf(1)
	for _, v := range t {
		least = min(least, r3.Dot(normals[v], r3.Sub(s.Bent[v], middle)))
	}
	return least / 2
}

// rimRoom (common practice, no source): a rim nearer than this to the next part
// of the body rubs or pinches when it moves.
const rimRoom = 5.0

// neighbours warns of rims that come near a part of the body that the piece
// does not go round, such as a helmet's rim over the shoulders.
func (b *builder) neighbours(p *Piece) {
	room := rimRoom + p.K*p.Thickness
	others := slices.DeleteFunc(b.form.Parts(), func(part *body.Part) bool { return slices.Contains(b.stand.parts, part) })
	near := approach{parts: others, least: room}
	var where r3.Vec
	on := ""
	for i := range p.Panels {
		lifter := p.Panels[i].Surface.Lifter()
		for _, e := range p.Panels[i].Edges {
			if e.Kind != Rim || e.Gap || p.Panels[i].Role != OfShell {
				continue
			}
			for _, q := range e.Line {
				at := b.inBody(lifter.Lift(q))
				if near.passes(at) {
					continue
				}
				if d := near.measure(at); d < near.least {
					near.least, where, on = d, at, p.Panels[i].Label
				}
			}
		}
	}
	if near.least < room {
		b.rimNear(p, near.least-p.K*p.Thickness, nearestOf(others, where), on, where.Y)
	}
}

// rimNear says which rim comes near which part of the body and where, and what helps.
func (b *builder) rimNear(p *Piece, free float64, part *body.Part, on string, height float64) {
	how := "comes within " + units.FormatFine(free, p.Units) + " of"
	if free < geom.Detail {
		how = "touches"
	}
	b.doubtf("the rim of panel %s %s the %s, at about %s over the floor, in the rest pose; nearer than %s it rubs or pinches (common practice).",
		on, how, b.callsPart(part), units.Format(height, p.Units), units.FormatFine(rimRoom, p.Units))
	b.findings[len(b.findings)-1].Perhaps = "Let that rim end before it or lead away from it, by the settings of the piece that say where it ends, how it flares and its ease."
}

// nearestOf is the part of the body that a place is nearest to.
func nearestOf(parts []*body.Part, at r3.Vec) *body.Part {
	var nearest *body.Part
	least := math.Inf(1)
	for _, part := range parts {
		if d := part.Nearer(at, least); d < least {
			nearest, least = part, d
		}
	}
	return nearest
}

// callsPart names a part of the body as seen from the piece: of limbs, that of the other
// side is the other one, and to a piece of the trunk each has its side.
func (b *builder) callsPart(part *body.Part) string {
	switch own := b.partSide(); {
	case part.Side == body.Both || part.Side == own:
		return string(part.Segment)
	case own == body.Both:
		return part.Side.String() + " " + string(part.Segment)
	}
	return "other " + string(part.Segment)
}

func blend2(v []r2.Vec, t [3]int, w [3]float64) r2.Vec {
	return r2.Add(r2.Add(r2.Scale(w[0], v[t[0]]), r2.Scale(w[1], v[t[1]])), r2.Scale(w[2], v[t[2]]))
}

func blend3(v []r3.Vec, t [3]int, w [3]float64) r3.Vec {
	return r3.Add(r3.Add(r3.Scale(w[0], v[t[0]]), r3.Scale(w[1], v[t[1]])), r3.Scale(w[2], v[t[2]]))
}
