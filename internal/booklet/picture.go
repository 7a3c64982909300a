package booklet

import (
	"math"
	"sort"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/view"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of labels in a drawing, mm of font height.
const (
	panelSize = 3.2
	seamSize  = 2.2
)

// lettering is a drawing with what was written on it so far.
type lettering struct {
	v      *view.View
	cam    view.Camera
	box    draw.Rect
	labels []label
	items  []draw.Item
	taken  []r2.Box
	placed []label
	leads  [][2]r2.Vec // lines to labels beside the drawing
}

// labelled adds to a drawing the labels of panels and the numbers of seams
// that are seen from outside and have room; panels go first.
func labelled(v *view.View, cam view.Camera, labels []label, box draw.Rect) *lettering {
	d := &lettering{v: v, cam: cam, box: box, labels: labels, items: v.Items()}
	for _, seams := range []bool{false, true} {
		for _, l := range labels {
			if l.seam != seams {
				continue
			}
			if t, ok := stand(v, cam, l, box, d.taken, d.placed); ok {
				d.write(t, l)
			}
		}
	}
	return d
}

func (d *lettering) write(t *draw.Text, l label) {
	d.items = append(d.items, backing(t), t)
	d.taken = append(d.taken, boxOf(t))
	d.placed = append(d.placed, l)
}

// stand finds the best place for a label that is seen, inside the box, and
// free. A seam is numbered once for both its sides.
func stand(v *view.View, cam view.Camera, l label, box draw.Rect, taken []r2.Box, placed []label) (*draw.Text, bool) {
	if l.seam && isPlaced(l, placed) {
		return nil, false
	}
	for _, i := range byWorth(l, cam) {
		t := l.onPaper(v.At(l.at[i]))
		if room := l.worth[i] * r3.Dot(l.faces[i], cam.Eye()) * v.Scale(); !l.seam && room < 0.35*t.Width() {
			break // it would seem to belong to the next panel
		}
		if b := boxOf(t); within(b, box) && !covered(b, taken) && v.Visible(l.at[i]) {
			return t, true
		}
	}
	return nil, false
}

// byWorth orders the places of a label that face the viewer, the best first.
func byWorth(l label, cam view.Camera) []int {
	const facing = 0.25 // seen more sideways than this, a place is too narrow
	worth := make([]float64, len(l.at))
	var order []int
	for i, n := range l.faces {
		if turned := r3.Dot(n, cam.Eye()); turned > facing {
			// To a thousandth, so that rounding does not choose among equals.
			worth[i] = math.Round(1000 * l.worth[i] * turned)
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return worth[order[a]] > worth[order[b]] })
	return order
}

// onPaper is the label with its middle at a place on paper.
func (l label) onPaper(at r2.Vec) *draw.Text {
	size := panelSize
	if l.seam {
		size = seamSize
	}
	return &draw.Text{At: r2.Vec{X: at.X, Y: at.Y - draw.CapHeight*size/2}, Size: size, Align: draw.Centre, Bold: !l.seam, S: l.text, Layer: "text"}
}

func within(b r2.Box, box draw.Rect) bool {
	return b.Min.X >= box.Min.X && b.Min.Y >= box.Min.Y && b.Max.X <= box.Max.X && b.Max.Y <= box.Max.Y
}

// isPlaced tells whether the other side of a seam's edge has the number
// already: their middles are one place.
func isPlaced(l label, placed []label) bool {
	for _, o := range placed {
		if o.seam && o.text == l.text && len(o.at) > 0 && len(l.at) > 0 && geom.Dist(o.at[0], l.at[0]) < 1 {
			return true
		}
	}
	return false
}

// boxOf is the room that a label takes, with some air.
func boxOf(t *draw.Text) r2.Box {
	const air = 0.35
	c := t.Corners()
	b := geom.Bounds(c[:])
	b.Min.Y += draw.Descent * t.Size // numbers and capitals hang nowhere
	b.Min, b.Max = r2.Sub(b.Min, r2.Vec{X: air, Y: air}), r2.Add(b.Max, r2.Vec{X: air, Y: air})
	return b
}

func covered(b r2.Box, taken []r2.Box) bool {
	for _, o := range taken {
		if b.Min.X < o.Max.X && o.Min.X < b.Max.X && b.Min.Y < o.Max.Y && o.Min.Y < b.Max.Y {
			return true
		}
	}
	return false
}

// backing is white behind a label, so that lines do not cross it.
func backing(t *draw.Text) draw.Item { return whiteBox(boxOf(t), "text") }

func whiteBox(b r2.Box, layer string) draw.Item {
	white := draw.Color{R: 255, G: 255, B: 255}
	return &draw.Path{
		Subpaths: [][]r2.Vec{{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}},
		Closed:   true, Fill: &white, Layer: layer,
	}
}
