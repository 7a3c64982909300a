package booklet

import (
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

// labelled adds to a drawing the labels of panels and the numbers of seams
// that are seen from outside and have room; panels go first.
func labelled(v *view.View, cam view.Camera, labels []label, box draw.Rect) []draw.Item {
	items := v.Items()
	var taken []r2.Box
	var placed []label
	for _, seams := range []bool{false, true} {
		for _, l := range labels {
			if l.seam != seams {
				continue
			}
			t, ok := stand(v, cam, l, box, taken, placed)
			if !ok {
				continue
			}
			items = append(items, backing(t), t)
			taken = append(taken, boxOf(t))
			placed = append(placed, l)
		}
	}
	return items
}

// stand finds the first place for a label that is seen, inside the box, and
// free. A seam is numbered once for both its sides.
func stand(v *view.View, cam view.Camera, l label, box draw.Rect, taken []r2.Box, placed []label) (*draw.Text, bool) {
	const facing = 0.25 // seen more sideways than this, a place is too narrow
	if l.seam && isPlaced(l, placed) {
		return nil, false
	}
	for i, p := range l.at {
		if !v.Visible(p) || r3.Dot(l.faces[i], cam.Eye()) < facing {
			continue
		}
		size := panelSize
		if l.seam {
			size = seamSize
		}
		at := v.At(p)
		t := &draw.Text{At: r2.Vec{X: at.X, Y: at.Y - draw.CapHeight*size/2}, Size: size, Align: draw.Centre, Bold: !l.seam, S: l.text, Layer: "text"}
		b := boxOf(t)
		if b.Min.X < box.Min.X || b.Min.Y < box.Min.Y || b.Max.X > box.Max.X || b.Max.Y > box.Max.Y || covered(b, taken) {
			continue
		}
		return t, true
	}
	return nil, false
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
func backing(t *draw.Text) draw.Item {
	b := boxOf(t)
	white := draw.Color{R: 255, G: 255, B: 255}
	return &draw.Path{
		Subpaths: [][]r2.Vec{{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}},
		Closed:   true, Fill: &white, Layer: "text",
	}
}
