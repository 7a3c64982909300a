package sheet

import (
	"fmt"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"

	"gonum.org/v1/gonum/spatial/r2"
)

// Whole is the sheet on one large page at true size, all views side by side:
// for a wide printer, and as a picture or a drawing to open elsewhere.
func (s *Sheet) Whole() draw.Page {
	const edge, top, gap = 12.0, 16.0, 6.0
	page := draw.Page{Width: edge, Title: s.title}
	height := 0.0
	for _, v := range s.views {
		page.Width += v.outer(1).X + gap
		height = max(height, v.outer(1).Y)
	}
	page.Width += edge - gap
	notes := len(leaf.Fill("", 1, false, 1)) // at least a line
	for _, n := range s.notes {
		notes += len(leaf.Fill(n, noteSize, false, page.Width-2*edge))
	}
	foot := edge + float64(notes)*noteSize*2
	page.Height = foot + height + top
	x := edge
	for _, v := range s.views {
		page.Items = append(page.Items, s.draw(v, 1, at(x, foot))...)
		x += v.outer(1).X + gap
	}
	heading := text(at(edge, page.Height-12), 8, draw.Start, black, s.title+", true size (1 : 1)")
	heading.Bold = true
	page.Items = append(page.Items, heading)
	s.say(&leaf.Column{Page: &page, X: edge, Y: foot - 2, Width: page.Width - 2*edge})
	return page
}

const noteSize = 3.0

func (s *Sheet) say(c *leaf.Column) {
	for _, n := range s.notes {
		c.Say(noteSize, false, n)
	}
}

// Pages is the sheet at true size over pages of some paper, view by view: first
// a page that says how to read it, then the pages of each view, which overlap and
// are glued at their marks. Pages on which nothing but background would be are
// left out.
func (s *Sheet) Pages(p Paper) ([]draw.Page, error) {
	if err := p.fits("a sheet at true size", 148, 180); err != nil {
		return nil, err
	}
	first := p.blank(s.title)
	area := leaf.Area(p.Width, p.Height)
	c := &leaf.Column{Page: &first, X: area.Min.X + 3, Y: area.Max.Y - 2, Width: area.Max.X - area.Min.X - 6}
	c.Say(6, true, s.title+", true size")
	c.Say(3.2, false, "Print at 100 % / \"actual size\" and measure the bars of each page: 100 mm across and up. Trim a page at the thin line where it says so, lay it over its neighbour's strip until the diamonds with the same number are whole, and glue.")
	s.say(c)
	pages := []draw.Page{first}
	var maps []*windows
	for _, v := range s.views {
		w := newWindows(v, area)
		pages = append(pages, w.pages(s, p, len(pages)+1)...)
		maps = append(maps, w)
	}
	pages[0].Items = append(pages[0].Items, mapped(maps, at(c.X, c.Y-4), area)...)
	for i := range pages {
		says := pages[i].Title
		if i == 0 {
			says = "how to read it"
		}
		pages[i] = p.framed(pages[i], []string{s.title, fmt.Sprintf("page %d of %d", i+1, len(pages))}, says)
	}
	return pages, nil
}

// clipped is what of a drawing shows in a window. A text shows only whole; the
// strip that two windows share is wider than any text of a ruler.
func clipped(items []draw.Item, area draw.Rect) []draw.Item {
	var out []draw.Item
	for _, it := range items {
		switch it := it.(type) {
		case *draw.Path:
			if it.Layer == plateLayer && !holds(area, it.Subpaths[0]) {
				continue
			}
			it.Clip = &area
		case *draw.Picture:
			it.Clip = &area
		case *draw.Text:
			if c := it.Corners(); !holds(area, c[:]) {
				continue
			}
		}
		out = append(out, it)
	}
	return out
}

func holds(area draw.Rect, b []r2.Vec) bool {
	for _, p := range b {
		if p.X < area.Min.X || p.Y < area.Min.Y || p.X > area.Max.X || p.Y > area.Max.Y {
			return false
		}
	}
	return true
}

// lightened puts light ground under lines and words, so that they show on a
// photograph.
func lightened(items []draw.Item) []draw.Item {
	var out []draw.Item
	for _, it := range items {
		switch it := it.(type) {
		case *draw.Path:
			under := *it
			under.Stroke.Width += 0.5
			under.Stroke.Color = white
			out = append(out, &under)
		case *draw.Text:
			k := it.Corners()
			out = append(out, filled(white, k[:]...))
		}
	}
	return append(out, items...)
}

func texts(items []draw.Item) []draw.Item {
	var out []draw.Item
	for _, it := range items {
		if t, ok := it.(*draw.Text); ok {
			out = append(out, t)
		}
	}
	return out
}

// scales are those that a sheet is made smaller to, finer where it is larger.
func scales() []float64 {
	var out []float64
	for n := 1.0; n <= 50; {
		out = append(out, n)
		switch {
		case n < 5:
			n += 0.25
		case n < 10:
			n += 0.5
		default:
			n++
		}
	}
	return out
}

// Fitted is the sheet on one page, as large as it fits at a plain scale, which it
// states.
func (s *Sheet) Fitted(p Paper) (draw.Page, error) {
	if err := p.fits("a sheet", 148, 180); err != nil {
		return draw.Page{}, err
	}
	area := leaf.Area(p.Width, p.Height)
	const head = 14.0
	room := r2.Sub(r2.Sub(area.Max, area.Min), at(0, head))
	most := scales()
	for _, n := range most {
		for cols := 1; cols <= len(s.views); cols++ {
			if items, ok := s.arranged(1/n, cols, area, room); ok {
				page := p.blank(fmt.Sprintf("%s, 1 : %g", s.title, n))
				page.Items = items
				c := &leaf.Column{Page: &page, X: area.Min.X + 2, Y: area.Max.Y + 2, Width: room.X - 4}
				c.Say(6, true, page.Title)
				c.Say(2.4, false, fmt.Sprintf("1 mm here is %g mm. True on the plane through the middle only; what is nearer to the camera reads larger. Heights are over %s.", n, s.from))
				return p.framed(page, []string{page.Title}, "rulers and grid are true mm of the wearer"), nil
			}
		}
	}
	return draw.Page{}, fmt.Errorf("the sheet does not fit %s even at 1 : %g", p.Name, most[len(most)-1])
}

// arranged lays the views in columns at a scale, if they have room.
func (s *Sheet) arranged(scale float64, cols int, area draw.Rect, room r2.Vec) ([]draw.Item, bool) {
	const gap = 2.0
	var items []draw.Item
	y := area.Min.Y + room.Y
	for i := 0; i < len(s.views); i += cols {
		row := s.views[i:min(i+cols, len(s.views))]
		x, deep := area.Min.X, 0.0
		for _, v := range row {
			size := v.outer(scale)
			deep = max(deep, size.Y)
			items = append(items, s.draw(v, scale, at(x, y-size.Y))...)
			x += size.X + gap
		}
		y -= deep + gap
		if x-gap > area.Max.X || y+gap < area.Min.Y {
			return nil, false
		}
	}
	return items, true
}
