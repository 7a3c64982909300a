package booklet

import (
	"fmt"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// Sizes of the picture of the whole path, mm.
const (
	pathWidth, pathHeight = 250.0, 92.0
	pathCaption           = 3.2
	pathAir               = 5.0
	pathArrow             = 11.0
)

// Path is the picture of the whole way: the body with a piece on it and the
// sizes that it was made for, the piece, its flat templates, and a page of
// them.
func Path(p *pattern.Piece, skin geom.Mesh, sheet draw.Page) draw.Page {
	out := draw.Page{Width: pathWidth, Height: pathHeight, Title: "From a body's sizes to pages"}
	out.Items = append(out.Items, whiteBox(r2.Box{Max: r2.Vec{X: pathWidth, Y: pathHeight}}, "frame")) // on dark screens too
	one := pieceScene(p)
	scene, labels := one.scene, one.labels
	boxes := pathBoxes([]float64{1.0, 1.05, 1.25, 0.9})
	out.Items = append(out.Items, bodyPane(OnBody(scene, skin), skin, boxes[0])...)
	out.Items = append(out.Items, labelled(view.New(scene, fromFront, boxes[1]), fromFront, labels, boxes[1]).items...)
	out.Items = append(out.Items, flatPane(p, boxes[2])...)
	out.Items = append(out.Items, pagePane(sheet, boxes[3])...)
	says := []string{sizesLine(p), "a piece that fits it", "flat templates whose seams meet", "pages at exactly 100 %"}
	for i, b := range boxes {
		out.Items = append(out.Items, &draw.Text{
			At:   r2.Vec{X: (b.Min.X + b.Max.X) / 2, Y: pathAir},
			Size: pathCaption, Align: draw.Centre, S: says[i], Layer: "text",
		})
		if i > 0 {
			out.Items = append(out.Items, arrow(r2.Vec{X: b.Min.X - pathArrow/2, Y: (b.Min.Y + b.Max.Y) / 2}))
		}
	}
	return out
}

func sizesLine(p *pattern.Piece) string {
	for _, g := range p.Governs {
		return fmt.Sprintf("%s %s", g.Name, units.Format(g.Value, units.MM))
	}
	return "a body's sizes"
}

// pathBoxes divides the picture into panes of given shares, with room for an
// arrow between.
func pathBoxes(shares []float64) []draw.Rect {
	sum := 0.0
	for _, s := range shares {
		sum += s
	}
	per := (pathWidth - 2*pathAir - pathArrow*float64(len(shares)-1)) / sum
	x := pathAir
	var out []draw.Rect
	for _, s := range shares {
		out = append(out, draw.Rect{
			Min: r2.Vec{X: x, Y: 2*pathAir + pathCaption},
			Max: r2.Vec{X: x + per*s, Y: pathHeight - pathAir},
		})
		x += per*s + pathArrow
	}
	return out
}

func arrow(at r2.Vec) draw.Item {
	const l, h = 3.0, 1.8
	return &draw.Path{
		Subpaths: [][]r2.Vec{
			{r2.Add(at, r2.Vec{X: -l}), r2.Add(at, r2.Vec{X: l})},
			{r2.Add(at, r2.Vec{X: l - h, Y: h}), r2.Add(at, r2.Vec{X: l}), r2.Add(at, r2.Vec{X: l - h, Y: -h})},
		},
		Stroke: draw.Style{Width: 0.6, Color: grey}, Layer: "frame",
	}
}

// bodyPane is the whole body with the piece where it is worn.
func bodyPane(s view.Scene, skin geom.Mesh, box draw.Rect) []draw.Item {
	s.Focus = append(append(s.Focus[:0:0], s.Focus...), skin.V...)
	for i := range s.Faces {
		if s.Faces[i].Silhouette == view.Outline {
			s.Faces[i].Silhouette = view.Seam // small
		}
	}
	for i := range s.Lines {
		s.Lines[i].Weight = min(s.Lines[i].Weight, view.Seam)
	}
	return view.New(s, fromFront, box).Items()
}

// flatPane lays the piece's templates in rows, as large as they fit.
func flatPane(p *pattern.Piece, box draw.Rect) []draw.Item {
	scale := 1.0
	at, ok := shelves(p.Panels, box, scale)
	for !ok && scale > 0.01 {
		scale *= 0.97
		at, ok = shelves(p.Panels, box, scale)
	}
	var items []draw.Item
	for i, panel := range p.Panels {
		move := func(q r2.Vec) r2.Vec { return r2.Add(at[i], r2.Scale(scale, q)) }
		items = append(items, lines(panel.Holes, move, true, view.Seam), lines([][]r2.Vec{panel.Outline}, move, true, view.Outline))
		for _, f := range panel.Folds {
			items = append(items, lines([][]r2.Vec{f.Line}, move, false, view.Fold))
		}
		best := spot{}
		for _, r := range roomy(&panel) {
			if r.room > best.room+geom.Detail {
				best = r
			}
		}
		items = append(items, label{text: panel.Label}.onPaper(move(best.at)))
	}
	return items
}

func lines(rings [][]r2.Vec, move func(r2.Vec) r2.Vec, closed bool, w view.Weight) draw.Item {
	path := &draw.Path{Closed: closed, Stroke: w.Stroke(), Layer: "cut"}
	for _, r := range rings {
		moved := make([]r2.Vec, len(r))
		for i, q := range r {
			moved[i] = move(q)
		}
		path.Subpaths = append(path.Subpaths, moved)
	}
	return path
}

// shelves puts panels side by side in rows from the top, and tells where each
// one's origin goes and whether there was room.
func shelves(panels []pattern.Panel, box draw.Rect, scale float64) (at []r2.Vec, ok bool) {
	const gap = 3.0
	x, y, high := box.Min.X, box.Max.Y, 0.0
	for _, p := range panels {
		b := geom.Bounds(p.Outline)
		size := r2.Scale(scale, r2.Sub(b.Max, b.Min))
		if x+size.X > box.Max.X && x > box.Min.X {
			x, y, high = box.Min.X, y-high-gap, 0
		}
		at = append(at, r2.Vec{X: x - scale*b.Min.X, Y: y - scale*b.Max.Y})
		if x+size.X > box.Max.X {
			return at, false
		}
		x, high = x+size.X+gap, max(high, size.Y)
		if y-high < box.Min.Y {
			return at, false
		}
	}
	return at, true
}

// pagePane is a page made small, with its paper's edge.
func pagePane(page draw.Page, box draw.Rect) []draw.Item {
	scale := min((box.Max.X-box.Min.X)/page.Width, (box.Max.Y-box.Min.Y)/page.Height)
	size := r2.Vec{X: scale * page.Width, Y: scale * page.Height}
	low := r2.Scale(0.5, r2.Sub(r2.Add(box.Min, box.Max), size))
	move := func(q r2.Vec) r2.Vec { return r2.Add(low, r2.Scale(scale, q)) }
	edge := []r2.Vec{{}, {X: page.Width}, {X: page.Width, Y: page.Height}, {Y: page.Height}}
	items := []draw.Item{lines([][]r2.Vec{edge}, move, true, view.Seam)}
	for _, it := range page.Items {
		items = append(items, shrunk(it, scale, move))
	}
	return items
}

func shrunk(it draw.Item, scale float64, move func(r2.Vec) r2.Vec) draw.Item {
	switch it := it.(type) {
	case *draw.Text:
		t := *it
		t.At, t.Size = move(t.At), t.Size*scale
		return &t
	case *draw.Path:
		p := *it
		p.Subpaths = nil
		for _, s := range it.Subpaths {
			moved := make([]r2.Vec, len(s))
			for i, q := range s {
				moved[i] = move(q)
			}
			p.Subpaths = append(p.Subpaths, moved)
		}
		p.Stroke.Width *= scale
		p.Stroke.Dash = nil
		for _, d := range it.Stroke.Dash {
			p.Stroke.Dash = append(p.Stroke.Dash, d*scale)
		}
		if it.Clip != nil {
			p.Clip = &draw.Rect{Min: move(it.Clip.Min), Max: move(it.Clip.Max)}
		}
		return &p
	}
	return it
}
