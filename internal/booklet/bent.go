package booklet

import (
	"fmt"

	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// bent is what is drawn of a panel, in piece axes: it is lifted off the flat panel
// once, however many copies are worn.
type bent struct {
	mesh   geom.Mesh
	lines  []lifting
	labels []label
}

// lifting is a line of a panel on its bent surface.
type lifting struct {
	at, out []r3.Vec // and the normals there
	weight  view.Weight
	cut     bool // there the foam ends
}

// smallHole is the length round a hole that a heavy line would fill, mm.
const smallHole = 60.0

func lifted(panel *pattern.Panel) *bent {
	b := &bent{mesh: view.Joined(panel.Trimmed())}
	on := panel.Surface.Lifter()
	for _, e := range panel.Edges {
		cut := e.Kind == pattern.Rim || e.Kind == pattern.Opening || e.Kind == pattern.Closure
		b.add(on, e.Line, weight(e.Kind), cut)
		if e.Seam > 0 && e.Kind != pattern.Hinge {
			b.labels = append(b.labels, seamLabel(on, e))
		}
	}
	for _, h := range panel.Holes {
		ring := append(append([]r2.Vec(nil), h...), h[0])
		weight := view.Outline
		if geom.Perimeter(h) < smallHole {
			weight = view.Seam
		}
		b.add(on, ring, weight, true)
	}
	for _, f := range panel.Folds {
		// Straight between its ends: in the groove there is no surface to follow.
		b.add(on, []r2.Vec{f.Line[0], f.Line[len(f.Line)-1]}, view.Fold, false)
	}
	l := label{text: panel.Label}
	for _, r := range roomy(panel) {
		l.stand(on, r.at, r.room)
	}
	if panel.Role == pattern.FlatPart {
		l.rim = rimOf(on, panel)
	}
	b.labels = append(b.labels, l)
	return b
}

// rimOf are places on a panel's edges: of a layer between others, all that may be seen.
func rimOf(on pattern.Lifter, panel *pattern.Panel) (out []r3.Vec) {
	const each = 8
	for _, e := range panel.Edges {
		for k := range each {
			at, _ := on.LiftWithNormal(geom.At(e.Line, geom.Length(e.Line)*(float64(k)+0.5)/each))
			out = append(out, at)
		}
	}
	return out
}

func (b *bent) add(on pattern.Lifter, line []r2.Vec, w view.Weight, cut bool) {
	l := lifting{weight: w, cut: cut}
	for _, q := range line {
		at, out := on.LiftWithNormal(q)
		l.at, l.out = append(l.at, at), append(l.out, out)
	}
	b.lines = append(b.lines, l)
}

func weight(k pattern.EdgeKind) view.Weight {
	switch k {
	case pattern.Butt, pattern.Lap, pattern.Hinge:
		return view.Seam
	}
	return view.Outline
}

// stand lets a label stand at a place of the panel.
func (l *label) stand(on pattern.Lifter, at r2.Vec, worth float64) {
	p, n := on.LiftWithNormal(at)
	if n == (r3.Vec{}) {
		return
	}
	l.at, l.faces, l.worth = append(l.at, p), append(l.faces, n), append(l.worth, worth)
}

func seamLabel(on pattern.Lifter, e pattern.Edge) label {
	l := label{text: fmt.Sprint(e.Seam), seam: true}
	for i, share := range []float64{0.5, 0.38, 0.62, 0.25, 0.75, 0.12, 0.88} {
		l.stand(on, geom.At(e.Line, share*geom.Length(e.Line)), 1/float64(i+1))
	}
	return l
}

// spot is a place inside a panel and how far it is from any border, mm.
type spot struct {
	at   r2.Vec
	room float64
}

// roomy lists places of a grid over a panel that are inside it. More room than
// a label needs is worth no more.
func roomy(p *pattern.Panel) []spot {
	const n, enough = 12, 40.0
	ring := p.Border()
	box := geom.Bounds(ring)
	centre := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	size := r2.Norm(r2.Sub(box.Max, box.Min))
	var out []spot
	for i := 1; i < n; i++ {
		for j := 1; j < n; j++ {
			q := r2.Vec{X: box.Min.X + (box.Max.X-box.Min.X)*float64(i)/n, Y: box.Min.Y + (box.Max.Y-box.Min.Y)*float64(j)/n}
			if room := roomAt(q, ring, p); room > 0 {
				nearCentre := 1 - 0.3*geom.Dist(q, centre)/size
				out = append(out, spot{q, min(room, enough) * nearCentre})
			}
		}
	}
	return out
}

// roomAt is how far a place is from any border or fold, 0 where there is no
// foam.
func roomAt(q r2.Vec, ring []r2.Vec, p *pattern.Panel) float64 {
	if !geom.Inside(ring, q) {
		return 0
	}
	room := geom.DistToRing(ring, q)
	for _, h := range p.Holes {
		if geom.Inside(h, q) {
			return 0
		}
		room = min(room, geom.DistToRing(h, q))
	}
	for _, f := range p.Folds {
		room = min(room, geom.DistToRing(f.Line, q))
	}
	return room
}
