package tile

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

var labelOffsets = []float64{1, 2.5, 4.6, 7, 10}

// label sets all labels of a fragment. Seams come first, at their edges, then what
// stands at a mark; if then no room is left for all that must be known of the
// fragment, its title comes before that, small, in the fullest form that leaves
// the seams their places. Where to heat comes last: hatching is wide.
func (d *drawing) label(r *room) {
	try := r.copy()
	items, missing := d.seamLabels(try)
	items = append(items, d.foldLabels(try)...)
	marks := d.markLabels(try, isPlace)
	items = append(items, marks.items...)
	title, complete := d.title(try, d.titleBlocks(), titleSizes)
	items = append(items, title...)
	if len(missing) > 0 || !complete {
		if tight, at, ok := d.titleFirst(r); ok {
			items, try, missing, complete = tight, at, nil, true
			marks = d.markLabels(try, isPlace)
			items = append(items, marks.items...)
		}
	}
	if len(missing) > 0 {
		if pointed, at, lost, ok := d.pointedAt(r); ok {
			items, try, missing, complete = pointed, at, lost, true
			marks = d.markLabels(try, isPlace)
			items = append(items, marks.items...)
		}
	}
	if !complete {
		if along, at, lost, ok := d.alongStrip(r); ok {
			items, try, missing = along, at, lost
			marks = d.markLabels(try, isPlace)
			items = append(items, marks.items...)
		} else {
			missing = append(missing, d.titleAside(try))
		}
	}
	heat := d.markLabels(try, isHeat)
	items = append(items, heat.items...)
	*r = *try
	d.items = append(d.items, items...)
	d.items = append(d.items, d.upArrow(r, r.spots())...)
	items, missing = r.asides(slices.Concat(missing, marks.lost, heat.lost))
	d.items, d.missing = append(d.items, items...), append(d.missing, missing...)
}

// titleFirst sets a small complete title and then the seams' labels, if there is
// a form of it with which all of them fit.
func (d *drawing) titleFirst(r *room) (items []draw.Item, at *room, ok bool) {
	blocks := d.titleBlocks()
	for _, b := range blocks[:len(blocks)-1] {
		try := r.copy()
		title, ok := d.title(try, []block{b, {}}, titleSizes[len(titleSizes)-2:])
		if !ok {
			continue
		}
		if seams, missing := d.seamLabels(try); len(missing) == 0 {
			return append(append(title, seams...), d.foldLabels(try)...), try, true
		}
	}
	return nil, nil, false
}

// pointedAt sets the seams' labels, those that have no place at their edge farther
// in with a line to it, and then the title, if all that leaves it room.
func (d *drawing) pointedAt(r *room) (items []draw.Item, at *room, missing []lost, ok bool) {
	at = r.copy()
	items, missing = d.seamLabels(at)
	more, missing := at.asides(missing)
	items = append(append(items, more...), d.foldLabels(at)...)
	title, ok := d.title(at, d.titleBlocks(), titleSizes)
	return append(items, title...), at, missing, ok
}

// alongStrip sets the seams' labels and then a title whose lines stand one
// behind the other.
func (d *drawing) alongStrip(r *room) (items []draw.Item, at *room, missing []lost, ok bool) {
	at = r.copy()
	items, missing = d.seamLabels(at)
	items = append(items, d.foldLabels(at)...)
	title, ok := d.titleAlong(at)
	return append(items, title...), at, missing, ok
}

// seamLabels puts the seam's number and its partner beside each seam edge that
// a fragment shows enough of, and names those that found no place.
func (d *drawing) seamLabels(r *room) (items []draw.Item, missing []lost) {
	for _, e := range d.panel.Edges {
		if e.Seam == 0 {
			continue
		}
		for _, stretch := range atCorners(d.w.PageFromPanel.ApplyAll(besideText(e))) {
			parts := d.shown(stretch)
			for _, part := range parts {
				label, ok := d.seamLabel(e, part, r)
				items = append(items, label...)
				if !ok {
					missing = append(missing, d.seamAside(e, part))
				}
			}
			if len(parts) == 0 && d.w.Grid == nil { // too short for a label
				missing = append(missing, d.seamAside(e, stretch))
			}
		}
	}
	return items, missing
}

// shown are the stretches of a line that a fragment shows, long enough for a
// label. A line longer than 250 mm is labelled more than once.
func (d *drawing) shown(line []r2.Vec) [][]r2.Vec {
	var out [][]r2.Vec
	for _, part := range within(line, d.visible()) {
		n := int(math.Ceil(geom.Length(part) / 250))
		for k := range n {
			l := geom.Length(part)
			out = append(out, geom.Between(part, l*float64(k)/float64(n), l*float64(k+1)/float64(n)))
		}
	}
	return out
}

// visible is where labels may stand.
func (d *drawing) visible() draw.Rect {
	if d.w.Grid == nil {
		return draw.Rect{Min: r2.Vec{X: -1e6, Y: -1e6}, Max: r2.Vec{X: 1e6, Y: 1e6}}
	}
	return d.w.labelArea()
}

// within are the stretches of a line inside a rectangle, at least 6 mm long.
func within(line []r2.Vec, box draw.Rect) [][]r2.Vec {
	fine := geom.Resample(line, max(2, int(geom.Length(line)/2)+1))
	if box.Max.X > 1e5 {
		fine = line
	}
	var out [][]r2.Vec
	var run []r2.Vec
	end := func() {
		if len(run) > 1 && geom.Length(run) >= 6 {
			out = append(out, run)
		}
		run = nil
	}
	for _, p := range fine {
		if p.X < box.Min.X || p.Y < box.Min.Y || p.X > box.Max.X || p.Y > box.Max.Y {
			end()
			continue
		}
		run = append(run, p)
	}
	end()
	return out
}

func (d *drawing) seamLabel(e pattern.Edge, part []r2.Vec, r *room) ([]draw.Item, bool) {
	others := d.besides(part)
	for _, b := range d.seamBlocks(e) {
		places := func(w, h float64) []place { return alongLine(part, labelOffsets, w, h) }
		clear := func(head r2.Vec) bool { return clearlyBeside(head, part, others) && !d.inPatch(head) }
		if items, ok := r.putIf(b, []float64{3.2, 2.7, 2.2, 1.8}, places, clear); ok {
			return items, true
		}
	}
	return nil, false
}

// inPatch tells whether a place on the page lies in the patch of a strap: a text there
// seems to be the strap's.
func (d *drawing) inPatch(p r2.Vec) bool {
	if d.patches == nil {
		d.patches = [][]r2.Vec{}
		for _, m := range d.panel.Marks {
			if len(m.Axis) > 0 {
				d.patches = append(d.patches, d.w.PageFromPanel.ApplyAll(m.Line))
			}
		}
	}
	return slices.ContainsFunc(d.patches, func(patch []r2.Vec) bool { return geom.Inside(patch, p) })
}

// besides are the stretches of the panel's joined edges but one that is part of
// one of them.
func (d *drawing) besides(part []r2.Vec) (out [][]r2.Vec) {
	middle := geom.At(part, geom.Length(part)/2)
	for _, e := range d.panel.Edges {
		if e.Seam == 0 {
			continue
		}
		for _, stretch := range atCorners(d.w.PageFromPanel.ApplyAll(besideText(e))) {
			if away(stretch, middle) > geom.Detail {
				out = append(out, stretch)
			}
		}
	}
	return out
}

// besideText is the line of an edge that its text stands beside, within the panel: its
// seam line, or the line to cut inside that.
func besideText(e pattern.Edge) []r2.Vec {
	return geom.OffsetLineBy(e.Line, func(share float64) float64 { return min(e.BeyondAt(share), 0) })
}

// clearlyBeside tells whether anyone sees which of some lines a text stands at.
func clearlyBeside(text r2.Vec, part []r2.Vec, others [][]r2.Vec) bool {
	least := 1.4*away(part, text) + 1.1 // common practice, no source
	return !slices.ContainsFunc(others, func(line []r2.Vec) bool { return away(line, text) < least })
}

func away(line []r2.Vec, p r2.Vec) float64 {
	d := math.Inf(1)
	for i := 0; i+1 < len(line); i++ {
		q, _ := geom.NearestOnSegment(p, line[i], line[i+1])
		d = min(d, geom.Dist(p, q))
	}
	return d
}

// atCorners parts a line where anyone sees a corner: there, an edge seems to end.
func atCorners(line []r2.Vec) (out [][]r2.Vec) {
	start := 0
	for i := 1; i+1 < len(line); i++ {
		u, v := r2.Sub(line[i], line[i-1]), r2.Sub(line[i+1], line[i])
		if math.Abs(math.Atan2(r2.Cross(u, v), r2.Dot(u, v))) > seenCorner {
			out = append(out, line[start:i+1])
			start = i
		}
	}
	return append(out, line[start:])
}

// seenCorner is the least turn that may look like a corner; an end bar stands where
// there is less than a clear one.
const seenCorner = 12 * math.Pi / 180

// seamBlocks are the labels for a seam edge, the fullest first.
func (d *drawing) seamBlocks(e pattern.Edge) []block {
	head := []row{{d.meets(e), 1, true}}
	kind := ""
	if e.Kind != pattern.Butt {
		kind = e.Kind.String()
	}
	if e.Allowance > 0 {
		kind = fmt.Sprintf("%s + %s", e.Kind, units.Format(e.Allowance, d.piece.Units))
	}
	full := head
	if to := d.piece.ToItself(d.panel, e); to != "" && !d.otherHand(e) { // as the facets of a head meet
		head = append(head, row{"to " + to, 0.75, false})
		full = head
	}
	if kind != "" {
		full = append(full[:len(full):len(full)], row{kind, 0.75, false})
	}
	if d.piece.MockUp { // card is cut square
		return []block{{rows: full}, {rows: head}}
	}
	if e.Bevel.Max < pattern.SquareBelow {
		squared := append(full[:len(full):len(full)], row{"square cut", 0.75, false})
		return []block{{rows: squared}, {rows: full}, {rows: head}}
	}
	bevelled := append(full[:len(full):len(full)], row{bevelText(e.Bevel), 0.75, false})
	return []block{{rows: bevelled, icon: bevelIcon(e.Bevel)}, {rows: bevelled}, {rows: full}, {rows: head}}
}

func bevelText(b pattern.Bevel) string {
	face := "outside"
	if b.Undercut {
		face = "inside"
	}
	if b.Even() {
		return "bevel " + degrees(b.Middle()) + " " + face
	}
	return fmt.Sprintf("bevel %.0f–%s %s", units.Deg(b.Min), degrees(b.Max), face)
}

// bevelIcon is a section through the edge: the show face is the thick line on
// top, and the cut slopes back on the face that is undercut.
func bevelIcon(b pattern.Bevel) func(at r2.Vec, size, angle float64) []draw.Item {
	return func(at r2.Vec, size, angle float64) []draw.Item {
		half, height := size/2, size*0.45
		back := min(height*math.Tan(b.Max), size*0.7)
		top, bottom := half, half
		if b.Undercut {
			bottom -= back
		} else {
			top -= back
		}
		m := geom.Turned(angle, at)
		ring := m.ApplyAll([]r2.Vec{{X: -half, Y: -height / 2}, {X: bottom, Y: -height / 2}, {X: top, Y: height / 2}, {X: -half, Y: height / 2}})
		light := draw.Color{R: 225, G: 225, B: 225}
		return []draw.Item{
			&draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Fill: &light, Stroke: draw.Style{Width: 0.12}, Layer: "text"},
			&draw.Path{Subpaths: [][]r2.Vec{{ring[3], ring[2]}}, Stroke: draw.Style{Width: 0.45}, Layer: "text"},
		}
	}
}

// foldLabels says along each fold how far it is folded and on which side it is
// cut into.
func (d *drawing) foldLabels(r *room) []draw.Item {
	var items []draw.Item
	for _, f := range d.panel.Folds {
		if len(f.Line) < 2 {
			continue
		}
		for _, part := range d.shown(d.w.PageFromPanel.ApplyAll(f.Line)) {
			items = append(items, foldLabel(f, part, r)...)
		}
	}
	return items
}

func foldLabel(f pattern.Fold, part []r2.Vec, r *room) []draw.Item {
	what := "fold " + degrees(math.Abs(f.Angle))
	full := what + ", " + f.Kind
	if f.Name != "" {
		full = f.Name + ": " + full
	}
	for _, b := range []block{{rows: []row{{full, 1, false}}}, {rows: []row{{what, 1, false}, {f.Kind, 1, false}}}, {rows: []row{{what, 1, false}}}} {
		items, ok := r.put(b, []float64{2.6, 2.2, 1.8}, func(w, h float64) []place {
			sides := alongLine(part, []float64{0.6, 2}, w, h)
			return append(sides, alongLine(geom.Reversed(part), []float64{0.6, 2}, w, h)...)
		})
		if ok {
			return items
		}
	}
	return nil
}
