package costume

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/tile"

	"gonum.org/v1/gonum/spatial/r3"
)

// The demonstration's pieces as someone reads them who has only the pages:
// every edge that says it is joined has exactly one partner, of the same
// length, with the same notches at the same distances, and so the piece closes.
// Lines, texts and strokes come from the printed pages; panels are used only to
// bend what was read.
func TestPages_readByAStranger(t *testing.T) {
	plan := demoOnLargePaper(t)
	pages := plan.Pages()
	reading := readPages(plan, pages)
	for _, err := range reading.faults {
		t.Error(err)
	}
	if reading.edges < 40 {
		t.Errorf("read only %d edges that are joined", reading.edges)
	}
	t.Logf("%d edges: partners differ by at most %.1e mm in length or notches and meet within %.1e mm", reading.edges, reading.unlike, reading.gap)
	t.Run("spoilt", func(t *testing.T) { spoiltPages(t, plan, pages) })
}

// reading is what comes of reading pages.
type reading struct {
	faults      []error
	edges       int     // joined edges of all copies
	unlike, gap float64 // mm, the worst of partners that were found
}

func (r *reading) fault(format string, args ...any) {
	r.faults = append(r.faults, fmt.Errorf(format, args...))
}

func (r *reading) says(what string) bool {
	for _, err := range r.faults {
		if strings.Contains(err.Error(), what) {
			return true
		}
	}
	return false
}

func readPages(plan *tile.Plan, pages []draw.Page) *reading {
	r := &reading{}
	byLabel := map[string]readTemplate{}
	for i, page := range pages[len(pages)-len(plan.Sheets):] {
		read, faults := inkOf(page).templates()
		r.faults = append(r.faults, faults...)
		if len(read) != len(plan.Sheets[i].Windows) {
			r.fault("sheet %d: read %d templates, %d were laid on it", i, len(read), len(plan.Sheets[i].Windows))
		}
		blank := 0 // strips that are too narrow for any text, as a finding says
		for _, w := range plan.Sheets[i].Windows {
			if !joined(plan.Set.Pieces[w.Piece].Panels[w.Panel]) {
				blank++
			}
		}
		for _, one := range read {
			if one.label == "" && one.copies == 0 && len(one.edges) == 0 && blank > 0 {
				blank--
				continue
			}
			if _, twice := byLabel[one.label]; twice || one.label == "" || one.copies == 0 && joins(plan, one.label) {
				r.fault("sheet %d: a template says it is %q, cut %d", i, one.label, one.copies)
			}
			byLabel[one.label] = one
		}
	}
	for i, p := range plan.Set.Pieces {
		if !p.Flat {
			r.checkPiece(plan, i, byLabel)
		}
	}
	return r
}

// joined tells whether a panel is of the shell or a flat part that meets others edge to
// edge.
func joined(p pattern.Panel) bool {
	return p.Role == pattern.OfShell || slices.ContainsFunc(p.Edges, func(e pattern.Edge) bool { return e.Seam > 0 })
}

// joins tells whether a label is of a panel that is joined by its edges; strips, pads and
// most flat parts are not, and narrow ones say only their label.
func joins(plan *tile.Plan, label string) bool {
	for _, p := range plan.Set.Pieces {
		for _, panel := range p.Panels {
			if panel.Label == label {
				return joined(panel)
			}
		}
	}
	return true
}

// cutOut is one copy of a template, cut out: as drawn or flipped.
type cutOut struct {
	*readTemplate
	flipped bool
	bend    func(e readEdge, share float64) r3.Vec // a place on an edge, bent; piece axes
}

// side is an edge of a copy.
type side struct {
	*cutOut
	edge int
}

func (s side) read() readEdge { return s.edges[s.edge] }

func (s side) String() string {
	e := s.read()
	name := s.label
	if s.flipped {
		name += " flipped"
	}
	return fmt.Sprintf("%s, edge %s ▸ %s of %.2f mm", name, e.seam, e.partner, e.length)
}

// meets tells whether the pages say that two sides meet.
func (s side) meets(o side) bool {
	a, b := s.read(), o.read()
	return a.seam == b.seam && a.partner == o.label && b.partner == s.label && s.accepts(o) && o.accepts(s)
}

// accepts: "3 ▸ V2 flipped" meets a copy of the other hand, "3 ▸ V2" one of the
// same hand if there are both.
func (s side) accepts(o side) bool {
	if s.read().flipped {
		return s.flipped != o.flipped
	}
	return s.flipped == o.flipped || !o.bothHands()
}

// bothHands tells whether one piece has the template as drawn and flipped; of a
// pair, the left piece is as drawn and the right one flipped.
func (r *readTemplate) bothHands() bool {
	if r.pair {
		return r.copies > 2
	}
	return r.flipped > 0 && r.flipped < r.copies
}

// checkPiece holds one piece to what the pages say of it.
func (r *reading) checkPiece(plan *tile.Plan, piece int, byLabel map[string]readTemplate) {
	sides := sidesOf(r.cutOuts(plan, piece, byLabel))
	r.edges += len(sides)
	if want := joinedEdges(&plan.Set.Pieces[piece]); len(sides) != want {
		r.fault("%s: %d edges say that they are joined, it has %d", plan.Set.Pieces[piece].Name, len(sides), want)
	}
	for i, s := range sides {
		var partners []side
		for j, o := range sides {
			if i != j && s.meets(o) {
				partners = append(partners, o)
			}
		}
		if len(partners) == 0 || slices.ContainsFunc(partners, func(o side) bool { return !o.same(partners[0]) }) {
			r.fault("%v has %d partners: %v", s, len(partners), partners)
			continue
		}
		// Copies of one template are alike: whichever is taken, it is one of them.
		nearest := slices.MinFunc(partners, func(a, b side) int { return cmp.Compare(s.gapTo(a), s.gapTo(b)) })
		r.checkAlike(s, nearest)
		r.checkMeet(s, nearest)
	}
}

// joinedEdges is how many edges of one piece are joined, all copies; of a pair,
// those of the left one.
func joinedEdges(p *pattern.Piece) int {
	n := 0
	for i := range p.Panels {
		for _, e := range p.Panels[i].Edges {
			if e.Seam > 0 {
				n += p.Panels[i].Copies / p.Copies
			}
		}
	}
	return n
}

// cutOuts are the copies that make up one piece; of a pair, the left one.
func (r *reading) cutOuts(plan *tile.Plan, piece int, byLabel map[string]readTemplate) []cutOut {
	var out []cutOut
	for _, sheet := range plan.Sheets {
		for _, w := range sheet.Windows {
			if w.Piece != piece {
				continue
			}
			panel := &plan.Set.Pieces[piece].Panels[w.Panel]
			if !joined(*panel) {
				continue // to nothing by its edges
			}
			one, ok := byLabel[panel.Label]
			if !ok {
				r.fault("no template is labelled %s", panel.Label)
				continue
			}
			n := one.copies
			if one.pair {
				n /= 2
			}
			copies := plan.Set.Pieces[piece].CopiesOf(panel)
			if len(copies) != n {
				r.fault("template %s says cut %d for one piece, which has %d of it", panel.Label, n, len(copies))
			}
			for _, c := range copies {
				out = append(out, cutOut{&one, c.Mirrored || one.flipped == one.copies, bent(panel, w, c)})
			}
		}
	}
	return out
}

// bent takes a place on a page to where it is on the piece. A flipped copy is
// the mirror image about the piece's middle plane, x = 0.
func bent(panel *pattern.Panel, w tile.Window, c pattern.Copy) func(readEdge, float64) r3.Vec {
	back := w.PageFromPanel.Inverse()
	return func(e readEdge, share float64) r3.Vec {
		return c.Point(panel.Surface.Lift(back.Apply(geom.At(e.line, share*e.length))))
	}
}

func sidesOf(copies []cutOut) []side {
	var out []side
	for i := range copies {
		for e := range copies[i].edges {
			out = append(out, side{&copies[i], e})
		}
	}
	return out
}

// checkAlike: partners are as long along the seam line and have the same
// notches at the same distances. Seen from outside, copies of one hand run
// along their seam in opposite directions.
func (r *reading) checkAlike(s, o side) {
	const most = 0.05 // mm, what a stranger may find
	a, b := s.read(), o.read()
	d := math.Abs(a.length - b.length)
	r.unlike = max(r.unlike, d)
	if d > most {
		r.fault("%v and %v differ in length by %.3f mm", s, o, d)
	}
	if len(a.notches) != len(b.notches) {
		r.fault("%v has %d notches, %v has %d", s, len(a.notches), o, len(b.notches))
		return
	}
	for i, n := range a.notches {
		m := b.notches[i]
		if s.flipped == o.flipped {
			m = b.notches[len(b.notches)-1-i]
			m.at = b.length - m.at
		}
		d := math.Abs(n.at - m.at)
		r.unlike = max(r.unlike, d)
		if n.rank != m.rank || d > most {
			r.fault("%v: notch %d stands at %.3f mm, on %v notch %d stands at %.3f mm", s, n.rank, n.at, o, m.rank, m.at)
		}
	}
}

// checkMeet: bent to the piece, partners lie on each other.
func (r *reading) checkMeet(s, o side) {
	const most = 0.5 // mm
	widest := s.gapTo(o)
	r.gap = max(r.gap, widest)
	if widest > most {
		r.fault("%v and %v stand %.2f mm apart when the piece is closed", s, o, widest)
	}
}

// same tells whether two sides are of alike copies.
func (s side) same(o side) bool { return s.label == o.label && s.flipped == o.flipped }

// gapTo is how far two sides stand apart at most, bent to the piece.
func (s side) gapTo(o side) float64 {
	widest := 0.0
	for i := range 21 {
		u := float64(i) / 20
		v := u
		if s.flipped == o.flipped {
			v = 1 - u
		}
		widest = max(widest, geom.Dist(s.bend(s.read(), u), o.bend(o.read(), v)))
	}
	return widest
}
