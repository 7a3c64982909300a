package booklet

import (
	"cmp"
	"slices"

	"tasset/internal/draw"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A piece that is so many times as long as it is broad is drawn small. Panels along it
// that are short beside it crowd there; a heap of them with so many seams is drawn by
// itself where that is so many times larger (judgement).
const (
	slender    = 3.5
	shortPanel = 0.2  // of the piece's length
	nextPanel  = 0.01 // of the piece's length, between two of one heap
	manySeams  = 4
	leastGain  = 2.5
)

// heap are panels that lie close together along a slender piece.
type heap struct {
	panels []int // indices, in their order
	scene  labelledScene
}

// heaps are those of a piece, from its lower end.
func heaps(p *pattern.Piece) (out []heap) {
	boxes := make([]r3.Box, len(p.Panels))
	var all []r3.Vec
	for i := range p.Panels {
		if at := reached(p, &p.Panels[i]); len(at) > 0 {
			boxes[i], all = boxAround(at), append(all, at...)
		}
	}
	if len(all) == 0 || len(boxesOf(p)) > 0 {
		return nil
	}
	whole := sidesOf(boxAround(all))
	axis := slices.Index(whole[:], max(whole[0], whole[1], whole[2]))
	long, broad := whole[axis], max(whole[(axis+1)%3], whole[(axis+2)%3])
	if long < slender*broad {
		return nil
	}
	var short []reach
	for i, b := range boxes {
		low, high := along(b.Min, axis), along(b.Max, axis)
		if b != (r3.Box{}) && high-low < shortPanel*long {
			short = append(short, reach{i, low, high})
		}
	}
	for _, panels := range joined(short, nextPanel*long) {
		s := heapScene(p, panels)
		sides := sidesOf(boxAround(placesOf(s)))
		if seamsIn(s.labels) >= manySeams && leastGain*max(sides[0], sides[1], sides[2]) < long {
			out = append(out, heap{panels, s})
		}
	}
	return out
}

// reached are places as far as the surface of a panel goes, on all its copies, as worn.
func reached(p *pattern.Piece, panel *pattern.Panel) (out []r3.Vec) {
	if len(panel.Edges) == 0 {
		return nil
	}
	for _, c := range p.CopiesOf(panel) {
		w := worn{frame: p.Frame, copy: c}
		for _, v := range panel.Surface.Bent {
			out = append(out, w.place(v))
		}
	}
	return out
}

// heapScene are all copies of some panels of a piece, as they are worn.
func heapScene(p *pattern.Piece, panels []int) (s labelledScene) {
	for i := range p.Panels {
		if panel := &p.Panels[i]; slices.Contains(panels, i) && len(panel.Surface.T) > 0 && len(panel.Edges) > 0 {
			l := lifted(panel)
			for _, c := range p.CopiesOf(panel) {
				w := worn{bent: l, frame: p.Frame, copy: c}
				w.addTo(&s)
			}
		}
	}
	return s
}

// seamsIn is how many seams have a number among labels.
func seamsIn(labels []label) int {
	numbers := map[string]bool{}
	for _, l := range labels {
		if l.seam {
			numbers[l.text] = true
		}
	}
	return len(numbers)
}

// reach is how far a panel goes along a piece.
type reach struct {
	panel     int
	low, high float64
}

// joined are the panels of reaches that lie no farther apart than so.
func joined(of []reach, apart float64) (out [][]int) {
	slices.SortStableFunc(of, func(a, b reach) int { return cmp.Compare(a.low, b.low) })
	for i, top := 0, 0.0; i < len(of); i++ {
		if i == 0 || of[i].low > top+apart {
			out, top = append(out, nil), of[i].high
		}
		last := &out[len(out)-1]
		*last, top = append(*last, of[i].panel), max(top, of[i].high)
	}
	for _, heap := range out {
		slices.Sort(heap)
	}
	return out
}

// without are labels but for the seams' that are drawn larger in heaps.
func without(of []heap, labels []label) []label {
	var larger []label
	for _, h := range of {
		larger = append(larger, h.scene.labels...)
	}
	return slices.DeleteFunc(slices.Clone(labels), func(l label) bool {
		return l.seam && isPlaced(l, larger)
	})
}

// closeUps are heaps by themselves, some in a row: from the front, and from behind where
// that shows more seams.
func closeUps(c *column, p *pattern.Piece, of []heap) (items []draw.Item) {
	const inRow, caption, high, air = 3, 2.6, 46.0, 0.9
	wide := (c.right - c.left - (inRow-1)*between) / inRow
	n := 0
	for _, h := range of {
		var shown []label
		for i, from := range standpoints(h.scene.labels) {
			x := c.left + float64(n%inRow)*(wide+between)
			b := draw.Rect{Min: r2.Vec{X: x, Y: c.y - high}, Max: r2.Vec{X: x + wide, Y: c.y}}
			d := labelled(view.Scaled(h.scene.scene, from.cam, b, air*view.Scale(h.scene.scene, from.cam, b)), from.cam, h.scene.labels, b)
			d.besides(p, h.panels)
			if both := append(slices.Clone(shown), d.placed...); i > 0 && seamsIn(both) == seamsIn(shown) {
				continue
			}
			shown = append(shown, d.placed...)
			items = append(items, d.items...)
			for line, said := range []string{boxSays(p, h.panels) + ", larger", from.says} {
				items = append(items, &draw.Text{
					At:   r2.Vec{X: (b.Min.X + b.Max.X) / 2, Y: b.Min.Y - 1.5 - caption - float64(line)*leading*caption},
					Size: caption, Align: draw.Centre, Color: grey, S: said, Layer: "text",
				})
			}
			if n++; n%inRow == 0 {
				c.y = b.Min.Y - 1.5 - 2*leading*caption - 5
			}
		}
	}
	if n%inRow > 0 {
		c.y -= high + 1.5 + 2*leading*caption + 5
	}
	return items
}

// besides writes beside the drawing the labels of its panels that found no room in it.
func (d *lettering) besides(p *pattern.Piece, panels []int) {
	for _, i := range panels {
		name := p.Panels[i].Label
		if !slices.ContainsFunc(d.placed, func(l label) bool { return !l.seam && panelOf(l) == name }) {
			d.beside(name)
		}
	}
}

func placesOf(s labelledScene) (out []r3.Vec) {
	for _, f := range s.scene.Faces {
		out = append(out, f.Mesh.V...)
	}
	return out
}

func boxAround(at []r3.Vec) r3.Box {
	b := r3.Box{Min: at[0], Max: at[0]}
	for _, q := range at {
		b.Min = r3.Vec{X: min(b.Min.X, q.X), Y: min(b.Min.Y, q.Y), Z: min(b.Min.Z, q.Z)}
		b.Max = r3.Vec{X: max(b.Max.X, q.X), Y: max(b.Max.Y, q.Y), Z: max(b.Max.Z, q.Z)}
	}
	return b
}

func sidesOf(b r3.Box) [3]float64 {
	d := r3.Sub(b.Max, b.Min)
	return [3]float64{d.X, d.Y, d.Z}
}

// along is a point's coordinate on an axis: 0 x, 1 y, 2 z.
func along(q r3.Vec, axis int) float64 { return [3]float64{q.X, q.Y, q.Z}[axis] }
