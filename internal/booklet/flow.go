package booklet

import (
	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// block is a heading with its entries; it may run on from column to column.
type block struct {
	title   string
	entries []entry
	fresh   bool // begins a column, if there is a further one
}

// entry is one item of a block: what it is about, in bold, and what is said.
type entry struct{ head, text string }

// Sizes of running text on the pages of the booklet, mm.
const (
	textSize    = 2.9
	headingSize = 3.5
	headIndent  = 5.0 // an entry's further lines stand in
)

// flow sets blocks into columns, one after the other, and returns what found
// no room. A heading is never left alone at the foot of a column.
func flow(blocks []block, columns []*column, bottom float64) (rest []block) {
	c := 0
	for bi, b := range blocks {
		if b.fresh && c+1 < len(columns) && columns[c].started() {
			c++
		}
		for ei := range b.entries {
			lines := b.entries[ei].lines(columns[c])
			need := float64(len(lines)) * leading * textSize
			if ei == 0 {
				need += leading*headingSize + 2.5
			}
			for columns[c].y-need < bottom && columns[c].started() {
				c++
				if c == len(columns) {
					return append([]block{b.from(ei)}, blocks[bi+1:]...)
				}
			}
			if ei == 0 || !columns[c].started() {
				columns[c].blockHeading(b.title, ei > 0)
			}
			columns[c].entry(b.entries[ei], lines)
		}
	}
	return nil
}

// from is what is left of a block.
func (b block) from(i int) block { return block{b.title, b.entries[i:], b.fresh} }

func (c *column) started() bool { return len(c.items) > 0 }

func (c *column) blockHeading(title string, continued bool) {
	if c.started() {
		c.space(2.5)
	}
	if continued {
		title += ", continued"
	}
	c.heading(headingSize, title)
}

// lines are an entry's text, wrapped behind its head.
func (e entry) lines(c *column) []string {
	width := c.right - c.left
	if e.head == "" {
		return wrap(e.text, width, textSize, false)
	}
	first := draw.TextWidth(e.head+" ", textSize, true)
	if e.text == "" {
		return []string{""} // its head alone
	}
	return wrapBehind(e.text, first, width, width-headIndent)
}

// wrapBehind wraps a text whose first line starts behind a head, and whose
// further lines are as wide as given.
func wrapBehind(s string, head, width, further float64) []string {
	all := wrap(s, width-head, textSize, false)
	if len(all) < 2 {
		return all
	}
	rest := s[len(all[0]):]
	return append(all[:1:1], wrap(rest, further, textSize, false)...)
}

func (c *column) entry(e entry, lines []string) {
	c.size = textSize
	for i, l := range lines {
		switch {
		case e.head == "":
			c.line(0, l)
		case i == 0:
			c.items = append(c.items, &draw.Text{
				At: r2.Vec{X: c.left, Y: c.y - 0.8*c.size}, Size: c.size, Bold: true, S: e.head, Layer: "text",
			})
			c.line(draw.TextWidth(e.head+" ", textSize, true), l)
		default:
			c.line(headIndent, l)
		}
	}
}
