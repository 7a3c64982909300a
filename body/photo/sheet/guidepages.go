package sheet

import (
	"fmt"

	"tasset/body/photo"
	"tasset/internal/draw"
	"tasset/internal/draw/leaf"

	"gonum.org/v1/gonum/spatial/r2"
)

const guideMargin = 14.0

// Pages is the guide on paper: what to have and where to stand, the views with
// drawings, and what faults cost. Nothing on it is to scale.
func (g Guide) Pages(p Paper) ([]draw.Page, error) {
	if err := p.fits("the guide", 200, 270); err != nil {
		return nil, err
	}
	return []draw.Page{g.first(p), g.views(p), g.costPage(p)}, nil
}

func guideColumn(p Paper, title string) (*draw.Page, *leaf.Column) {
	page := p.blank(title)
	return &page, &leaf.Column{Page: &page, X: guideMargin, Y: p.Height - guideMargin, Width: p.Width - 2*guideMargin}
}

func (g Guide) first(p Paper) draw.Page {
	page, c := guideColumn(p, g.Title)
	c.Say(7, true, g.Title)
	c.Say(3.4, false, g.For)
	for _, s := range g.Sections {
		c.Y -= 2
		c.Say(4.4, true, s.Title)
		for _, l := range s.Lines {
			bullet(c, 3.4, l)
		}
	}
	return *page
}

func bullet(c *leaf.Column, size float64, s string) {
	c.Page.Items = append(c.Page.Items, text(at(c.X, c.Y-size*1.3), size, draw.Start, black, "•"))
	in := &leaf.Column{Page: c.Page, X: c.X + size, Y: c.Y, Width: c.Width - size}
	in.Say(size, false, s)
	c.Y = in.Y
}

// views are drawn in rows: the view, the same from above, and what to mind.
func (g Guide) views(p Paper) draw.Page {
	page, c := guideColumn(p, "The pictures")
	c.Say(7, true, "The pictures to take")
	c.Say(3, false, "Left: what the picture shows, the ruler in yellow. Middle: from above; the dashed line is as far from the lens as what is measured, and the ruler stands on it. Not to scale.")
	row := (c.Y - guideMargin) / float64(len(g.Poses))
	for i, pose := range g.Poses {
		top := c.Y - float64(i)*row
		middle := top - row/2
		page.Items = append(page.Items, line(0.15, pale, at(guideMargin, top), at(p.Width-guideMargin, top)))
		figure := at(guideMargin+27, middle)
		switch pose.View {
		case photo.HeadLeft:
			figure.X += 5 // room for the ruler before the face
		case photo.BodyFront:
			figure.Y -= 25
		}
		page.Items = append(page.Items, figureOf(pose.View, figure)...)
		page.Items = append(page.Items, planOf(pose.View, at(guideMargin+82, middle+3))...)
		words := &leaf.Column{Page: page, X: guideMargin + 112, Y: top - 3, Width: p.Width - 2*guideMargin - 112}
		words.Say(4.2, true, pose.View.String())
		for _, l := range pose.Lines {
			bullet(words, 3, l)
		}
	}
	return *page
}

func (g Guide) costPage(p Paper) draw.Page {
	page, c := guideColumn(p, "What faults cost")
	c.Say(7, true, "What faults cost")
	c.Say(3.2, false, costNote)
	const size, column, source = 3.0, 13.0, 32.0
	right := p.Width - guideMargin
	words := right - guideMargin - source - column*float64(len(g.Metres))
	x := func(i int) float64 { return guideMargin + words + column*(float64(i)+1) - 2 }
	put := func(bold bool, first string, cells []string, last string) {
		c.Page.Items = append(c.Page.Items, line(0.12, pale, at(guideMargin, c.Y), at(right, c.Y)))
		c.Y -= 1.2
		y := c.Y - size*1.3
		for i, s := range cells {
			t := text(r2.Vec{X: x(i), Y: y}, size, draw.End, black, s)
			t.Bold = bold
			page.Items = append(page.Items, t)
		}
		page.Items = append(page.Items, text(at(x(len(cells)-1)+4, y), 2.6, draw.Start, grey, last))
		in := &leaf.Column{Page: page, X: guideMargin, Y: c.Y, Width: words - 2}
		in.Say(size, bold, first)
		c.Y = in.Y
	}
	var heads []string
	for _, m := range g.Metres {
		heads = append(heads, fmt.Sprintf("%g m", m))
	}
	put(true, "mm, with the lens at", heads, "")
	fault := ""
	for _, cost := range g.Costs {
		if cost.Fault != "" {
			fault = cost.Fault
		}
		cells := make([]string, len(cost.MM))
		for i, v := range cost.MM {
			cells[i] = cell(v)
		}
		words := fmt.Sprintf("%s: on %s", fault, cost.On)
		if cost.Fault == "" {
			words = "the same: on " + cost.On
		}
		put(false, words, cells, cost.Source)
	}
	return *page
}
