package booklet

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/draw"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// boxesOf are the flat parts that are joined to each other by their edges, as the walls
// of a box: indices of panels, in their order.
func boxesOf(p *pattern.Piece) (out [][]int) {
	box := map[int]int{} // of a panel, the first panel of its box
	for i, panel := range p.Panels {
		if panel.Role == pattern.FlatPart {
			box[i] = i
		}
	}
	for _, s := range p.Seams {
		on := panelsAt(&s)
		a, flat := box[on[0]]
		z := box[on[len(on)-1]]
		for i := range p.Panels {
			if flat && box[i] == max(a, z) && p.Panels[i].Role == pattern.FlatPart {
				box[i] = min(a, z)
			}
		}
	}
	for i := range p.Panels {
		var walls []int
		for j := range p.Panels {
			if first, flat := box[j]; flat && first == i {
				walls = append(walls, j)
			}
		}
		if len(walls) > 1 {
			out = append(out, walls)
		}
	}
	return out
}

// boxSays names the walls of a box.
func boxSays(p *pattern.Piece, walls []int) string {
	first, last := p.Panels[walls[0]], p.Panels[walls[len(walls)-1]]
	if last.Number-first.Number+1 == len(walls) {
		return fmt.Sprintf("%s to %s", first.Label, last.Label)
	}
	var said string
	for i, w := range walls {
		switch {
		case i == 0:
		case i+1 == len(walls):
			said += " and "
		default:
			said += ", "
		}
		said += p.Panels[w].Label
	}
	return said
}

// boxScene is one box of a piece by itself, as drawn on its templates.
func boxScene(p *pattern.Piece, walls []int) (s labelledScene) {
	for i := range p.Panels {
		if panel := &p.Panels[i]; slices.Contains(walls, i) && len(panel.Surface.T) > 0 {
			w := worn{bent: lifted(panel), frame: p.Frame, copy: p.CopiesOf(panel)[0]}
			w.addTo(&s)
		}
	}
	return s
}

// cornerPitch is how steeply a box is looked at, so that three of its walls show.
const cornerPitch = math.Pi / 6

// corners are standpoints at opposite corners of a box, which together see all of its
// walls.
func corners(labels []label) [2]standpoint {
	var best [2]standpoint
	most := 0.0
	for i, yaw := range []float64{0.2, -0.2, 0.8, -0.8} {
		ends := [2]standpoint{
			{view.Camera{Yaw: yaw * math.Pi, Pitch: cornerPitch}, [...]string{"from the front, the wearer's left and above", "from the front, the wearer's right and above", "from behind, the wearer's left and above", "from behind, the wearer's right and above"}[i]},
			{view.Camera{Yaw: (yaw + 1) * math.Pi, Pitch: -cornerPitch}, [...]string{"from behind, the wearer's right and below", "from behind, the wearer's left and below", "from the front, the wearer's right and below", "from the front, the wearer's left and below"}[i]},
		}
		const clearly = 1.08
		if s := seen(labels, ends[0], ends[1]); s > clearly*most {
			best, most = ends, s
		}
	}
	return best
}

// boxDrawings are the boxes of a piece by themselves, each from two corners: among the
// rest, walls that look inwards or down are not seen.
func boxDrawings(c *column, p *pattern.Piece) (items []draw.Item) {
	const caption, high, air = 2.6, 0.62, 0.97
	wide := (c.right - c.left - between) / 2
	for _, walls := range boxesOf(p) {
		s := boxScene(p, walls)
		box := func(i int) draw.Rect {
			x := c.left + float64(i)*(wide+between)
			return draw.Rect{Min: r2.Vec{X: x, Y: c.y - high*wide}, Max: r2.Vec{X: x + wide, Y: c.y}}
		}
		from := corners(s.labels)
		scale := air * min(view.Scale(s.scene, from[0].cam, box(0)), view.Scale(s.scene, from[1].cam, box(1)))
		for i, f := range from {
			b := box(i)
			items = append(items, labelled(view.Scaled(s.scene, f.cam, b, scale), f.cam, s.labels, b).items...)
			items = append(items, &draw.Text{
				At:   r2.Vec{X: (b.Min.X + b.Max.X) / 2, Y: b.Min.Y - 1.5 - caption},
				Size: caption, Align: draw.Centre, Color: grey, S: boxSays(p, walls) + " " + f.says, Layer: "text",
			})
		}
		c.y = box(0).Min.Y - 1.5 - leading*caption - 5
	}
	return items
}

// boxNotes say how the walls of boxes go together.
func boxNotes(p *pattern.Piece) (out []entry) {
	for _, walls := range boxesOf(p) {
		said := boxSays(p, walls) + " are flat and meet edge to edge; they are drawn together by themselves too."
		if n := p.Panels[walls[0]].Copies; n > 1 {
			said += fmt.Sprintf(" There are %d such sets; keep them apart.", n)
		}
		out = append(out, entry{text: said + " Try the edges dry, and hold the corners square while the glue grabs."})
	}
	return out
}
