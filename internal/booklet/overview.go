package booklet

import (
	"fmt"
	"slices"
	"strings"

	"tasset/internal/draw"
	"tasset/internal/units"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// between is the room between columns and between drawings, mm.
const between = 8.0

// leastColumn is how high a column under the drawings must be to be begun, mm.
const leastColumn = 30.0

// Overview is what a maker needs to see of a piece before and while it is put
// together: two drawings with panels and seams marked, the sizes it was made
// for, what was checked, its panels, and the order of joining. It is one page,
// or more where the lists are long. Lengths are written in u.
func Overview(p *pattern.Piece, width, height float64, u units.Unit) []draw.Page {
	return overview(p, pieceScene(p), shopping([]pattern.Piece{*p}, u), width, height, u)
}

// overview has a list of what is bought, unless that is on the costume's page.
func overview(p *pattern.Piece, s labelledScene, bought []entry, width, height float64, u units.Unit) []draw.Page {
	head := column{left: margin, right: width - margin, y: height - margin, size: textSize}
	overviewHead(&head, p)
	items := head.items
	if p.Flat {
		items = append(items, flatDrawing(&head, p, u)...)
	} else {
		items = append(items, drawings(&head, p, s)...)
	}
	blocks := withBought(facts(p, u), p, bought, u)
	if lames := lamesOf(p); len(lames) > 0 {
		blocks = append(blocks, block{title: "Lames, in an order to put them on each other", entries: lames})
	}
	return listed(items, head.y, blocks, func(page int) string { return title(p, page) }, width, height)
}

// withBought puts what is bought before the lists that a piece is put together by: all
// of it, or where the costume's page has that, what the piece is built on.
func withBought(blocks []block, p *pattern.Piece, bought []entry, u units.Unit) []block {
	list := block{title: buyTitle, entries: bought}
	if len(bought) == 0 {
		list = block{title: "Built on or filled with", entries: builtOn(p, u)}
	}
	if len(list.entries) == 0 {
		return blocks
	}
	i := slices.IndexFunc(blocks, func(b block) bool { return b.fresh })
	if i < 0 {
		i = len(blocks)
	}
	return slices.Insert(blocks, i, list)
}

// listed are a page with items, and blocks in two columns from y downwards, or on
// further pages what finds no room there.
func listed(items []draw.Item, y float64, blocks []block, title func(page int) string, width, height float64) (pages []draw.Page) {
	for {
		columns := twoColumns(width, y)
		if y > margin+leastColumn {
			columns, blocks = flowed(blocks, width, y)
		}
		page := draw.Page{Width: width, Height: height, Title: title(len(pages) + 1), Items: items}
		for _, c := range columns {
			page.Items = append(page.Items, c.items...)
		}
		pages = append(pages, page)
		if len(blocks) == 0 {
			return pages
		}
		head := column{left: margin, right: width - margin, y: height - margin, size: textSize}
		head.heading(headingSize, title(len(pages)+1))
		head.space(2)
		items, y = head.items, head.y
	}
}

// flowed sets blocks into two columns, and gives what found no room. None begins a
// column afresh if only so all of them find room.
func flowed(blocks []block, width, y float64) (columns []*column, rest []block) {
	columns = twoColumns(width, y)
	if rest = flow(blocks, columns, margin); len(rest) == 0 {
		return columns, nil
	}
	running := slices.Clone(blocks)
	for i := range running {
		running[i].fresh = false
	}
	full := twoColumns(width, y)
	if left := flow(running, full, margin); len(left) == 0 {
		return full, nil
	}
	return columns, rest
}

func title(p *pattern.Piece, page int) string {
	if page > 1 {
		return fmt.Sprintf("%s, page %d", p.Name, page)
	}
	return p.Name
}

func twoColumns(width, y float64) []*column {
	mid := width / 2
	return []*column{
		{left: margin, right: mid - between/2, y: y},
		{left: mid + between/2, right: width - margin, y: y},
	}
}

// overviewHead sets the piece's name, what it is, and the draft warning.
func overviewHead(c *column, p *pattern.Piece) {
	c.heading(6, p.Code+" · "+p.Name)
	c.space(0.5)
	about := p.Title
	if p.About != "" {
		about = strings.TrimSuffix(about, ".") + ". " + p.About
	}
	c.paragraph(0, about)
	if p.Draft {
		c.space(1.5)
		warning(c, "Draft: do not cut. "+sentence(p.DraftWhy))
	}
	c.space(2)
}

// sentence begins with a capital and ends with a stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + strings.TrimSuffix(s[1:], ".") + "."
}

// warning sets a bold text in a heavy frame.
func warning(c *column, s string) {
	const pad = 1.8
	top := c.y
	in := column{left: c.left + pad, right: c.right - pad, y: top - pad, size: 3.4, bold: true}
	in.paragraph(0, s)
	c.y = in.y - pad + (leading-1)*in.size
	c.items = append(c.items, in.items...)
	c.items = append(c.items, &draw.Path{
		Subpaths: [][]r2.Vec{{{X: c.left, Y: c.y}, {X: c.right, Y: c.y}, {X: c.right, Y: top}, {X: c.left, Y: top}}},
		Closed:   true, Stroke: draw.Style{Width: 0.7}, Layer: "frame",
	})
}

// drawings are the two views side by side, at one scale, with what they show
// under them. A piece of flats only has none.
func drawings(c *column, p *pattern.Piece, s labelledScene) []draw.Item {
	larger := heaps(p)
	scene, labels := s.scene, without(larger, s.labels)
	if len(scene.Faces) == 0 {
		return nil
	}
	const caption = 2.6
	wide := (c.right - c.left - between) / 2
	high := 0.95 * wide
	if len(larger) > 0 {
		high = 0.65 * wide
	}
	box := func(i int) draw.Rect {
		x := c.left + float64(i)*(wide+between)
		return draw.Rect{Min: r2.Vec{X: x, Y: c.y - high}, Max: r2.Vec{X: x + wide, Y: c.y}}
	}
	const air = 0.97 // heavy lines stay inside the box
	from := standpoints(labels)
	inner, behind, ok := backView(p)
	if ok {
		from[1] = behind
	}
	scale := air * min(view.Scale(scene, from[0].cam, box(0)), view.Scale(scene, from[1].cam, box(1)))
	var items []draw.Item
	var both [2]*lettering
	first := view.Scaled(scene, from[0].cam, box(0), scale)
	for i, f := range from {
		b := box(i)
		v, texts := first.From(f.cam, b, scale), labels
		if i == 1 && ok {
			v, texts = view.Scaled(inner.scene, f.cam, b, scale), inner.labels
		}
		both[i] = labelled(v, f.cam, texts, b)
		items = append(items, &draw.Text{
			At:   r2.Vec{X: (b.Min.X + b.Max.X) / 2, Y: b.Min.Y - 1.5 - caption},
			Size: caption, Align: draw.Centre, Color: grey, S: f.says + shownSide(p), Layer: "text",
		})
	}
	c.y = box(0).Min.Y - 1.5 - leading*caption - 5
	writeBeside(p, both)
	items = slices.Concat(both[0].items, both[1].items, items)
	items = append(items, boxDrawings(c, p)...)
	return append(items, closeUps(c, p, larger)...)
}

// shownSide tells which one of a pair is drawn.
func shownSide(p *pattern.Piece) string {
	if p.Copies > 1 && p.Side.String() == "" {
		return " (the left one)"
	}
	return ""
}
