package tile

import (
	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// check is page one: what to measure before anything is cut, and what the lines
// mean.
func (p *Plan) check(of int) draw.Page {
	page := p.blank("Page 1: print check")
	c := &leaf.Column{Page: &page, X: p.Paper.Area().Min.X + 4, Y: page.Height - Margin - 6, Width: p.Paper.Width - 2*Margin - leaf.Left - 8}
	c.Say(5, true, "Print check: measure this page first")
	c.Say(2.9, false, "Print this page alone, at 100 % or \"actual size\", never \"fit to page\". Measure the square below with a steel ruler, along its lower side (across) and its left side (down), from the middle of one line to the middle of the other. Both must read 100 mm; half a millimetre off is too much.")
	at := r2.Vec{X: c.X + 4, Y: c.Y - 106}
	page.Items = append(page.Items, leaf.TestSquare(at)...)
	right := &leaf.Column{Page: &page, X: at.X + 110, Y: c.Y - 6, Width: p.Paper.Width - Margin - at.X - 112}
	off := right
	c.Y = at.Y - 9
	if right.Width < 50 {
		off = c
	}
	off.Say(3.2, true, "If it is off")
	off.Say(2.5, false, "Far off (95 mm, 103 mm): the dialog scales. Choose 100 % or \"actual size\" and the right paper, and print again.")
	off.Say(2.5, false, "A little off (98.5 to 101.5 mm) though the dialog is right: the printer itself is off. Write both readings into costume.yaml, such as printer: {across: 99.6 mm, down: 100.2 mm}, and print again.")
	off.Say(2.5, false, "Every page has the same two bars, so that a page printed later can be checked too.")
	c.Say(3.2, true, "What the lines mean")
	legend(c)
	c.Say(2.5, false, "A number with an arrow, \"3 ▸ V2\", stands beside each edge that is joined: it is seam 3, and the other side of it is on panel V2; \"3 ▸ V2 flipped\" meets the flipped copy, or on a flipped copy the one as drawn. A seam in parts reads 5, 5b, 5c, in their order along it: each part meets the one of the same letter. A joined edge ends at a corner or at a short thick bar; where the same text, letter and all, stands on both sides of a corner without a bar, it is one edge that goes round it. A text in a thin frame belongs where the line from it ends. A short dash with words (front, outer side) tells where on the body that place sits. Strokes across a seam line are notches: one stroke meets one stroke, two meet two; from the fourth on, a number stands beside the stroke. All is drawn as seen on the OUTSIDE of the piece; \"flipped\" copies are cut with the template turned over. Page turned any way: the arrow points up when worn, or to the front where it says so.")
	p.frame(&page, 1, of, "")
	return p.corrected(page)
}

func legend(c *leaf.Column) {
	plain := func(s draw.Style) []draw.Item {
		return []draw.Item{&draw.Path{Subpaths: [][]r2.Vec{{{}, {X: 22}}}, Stroke: s, Layer: "frame"}}
	}
	for _, l := range []struct {
		sample []draw.Item
		high   float64
		s      string
	}{
		{plain(gluedTo), 0, "cut; this edge is joined to another (cut along the middle of the line)"},
		{plain(freeEdge), 0, "cut; a free edge, an opening, an allowance, or where the face ends of an edge that is bevelled"},
		{plain(seamLine), 0, "seam line where it is not the cut line: lengths and notches are taken here; do not cut"},
		{plain(foldLine), 0, "fold: do not cut through; which side is grooved or scored stands beside it"},
		{plain(markLine), 0, "where something sits: a fastening, a pad; do not cut"},
		{patchSample(), 3, "patch: glue the end of a strap on here; it leaves where the arrow points; the middle is its anchor"},
		{punchSample(), 1.5, "small box: a rivet, pivot, snap or magnet; punch or set it at the cross"},
		{coveredSample(), 3, "another part comes up to this line: it covers the side of the strokes"},
		{bevelSample(geom.Turned(0, r2.Vec{X: 11, Y: 0.1})), 1.2, "bevel: a section through the edge; the thick line is the OUTSIDE, the slope is the cut"},
	} {
		c.Y -= 4 + l.high
		c.Page.Items = append(c.Page.Items, placed(l.sample, r2.Vec{X: c.X, Y: c.Y + 0.9})...)
		c.Page.Items = append(c.Page.Items, &draw.Text{At: r2.Vec{X: c.X + 25, Y: c.Y}, Size: leaf.FitSize(l.s, 2.5, c.Width-25), S: l.s, Layer: "frame"})
	}
	c.Y -= 3
}

// patchSample is a strap's patch about the middle of the sample's line.
func patchSample() (out []draw.Item) {
	axis := []r2.Vec{{X: 2}, {X: 20}}
	box := []r2.Vec{{X: 2, Y: -2.2}, {X: 20, Y: -2.2}, {X: 20, Y: 2.2}, {X: 2, Y: 2.2}}
	out = append(out, &draw.Path{Subpaths: [][]r2.Vec{box}, Closed: true, Stroke: markLine, Layer: "frame"})
	return append(out, &draw.Path{Subpaths: leaving([][]r2.Vec{axis}), Stroke: strapWay, Layer: "frame"})
}

// punchSample is the box of a rivet about the middle of the sample's line.
func punchSample() (out []draw.Item) {
	box := []r2.Vec{{X: 9, Y: -2}, {X: 13, Y: -2}, {X: 13, Y: 2}, {X: 9, Y: 2}}
	out = append(out, &draw.Path{Subpaths: [][]r2.Vec{box}, Closed: true, Stroke: markLine, Layer: "frame"})
	return append(out, &draw.Path{Subpaths: punch(pattern.Mark{Kind: "fastening", Close: true, Line: box}), Stroke: fineLine, Layer: "frame"})
}

func coveredSample() (out []draw.Item) {
	line := []r2.Vec{{}, {X: 22}}
	out = append(out, &draw.Path{Subpaths: [][]r2.Vec{line}, Stroke: markLine, Layer: "frame"})
	for _, stroke := range coveredStrokes(line) {
		out = append(out, &draw.Path{Subpaths: [][]r2.Vec{stroke}, Stroke: fineLine, Layer: "frame"})
	}
	return out
}

// placed moves paths of a sample to their place.
func placed(items []draw.Item, at r2.Vec) []draw.Item {
	for _, it := range items {
		if p, ok := it.(*draw.Path); ok {
			for i, line := range p.Subpaths {
				p.Subpaths[i] = geom.Turned(0, at).ApplyAll(line)
			}
		}
	}
	return items
}
