package tile

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

const rightAngle = math.Pi / 2

// Pages draws the whole plan: the print check, the caller's own front pages,
// the index, and the pages with panels. Nothing is computed that Lay has not
// fixed; the same plan gives the same pages.
func (p *Plan) Pages() []draw.Page {
	index := p.index(0, 0)
	before := 1 + len(p.Front) + len(index)
	of := before + len(p.Sheets)
	pages := append([]draw.Page{p.check(of)}, p.Front...)
	pages = append(pages, p.index(2+len(p.Front), of)...)
	for i := range p.Sheets {
		pages = append(pages, p.corrected(p.sheet(i, before+i+1, of)))
	}
	return pages
}

// blank is an empty page of the plan's paper.
func (p *Plan) blank(title string) draw.Page {
	height := p.Paper.Height
	if p.Paper.Roll {
		height = p.Paper.Width * math.Sqrt2
	}
	return draw.Page{Width: p.Paper.Width, Height: height, Title: title}
}

// sheet draws one page with panels.
func (p *Plan) sheet(i, n, of int) draw.Page {
	s := p.Sheets[i]
	page := p.blank(fmt.Sprintf("Page %d: %s", n, strings.Join(p.on(i), ", ")))
	page.Height = s.Height
	says := "sheet rev " + p.Revision(i)
	for _, w := range s.Windows {
		page.Items = append(page.Items, w.drawn...)
		page.Items = append(page.Items, join(w, w.drawn)...)
		page.Items = append(page.Items, smallMap(w, r2.Vec{X: p.Paper.Width - Margin - mapSide, Y: Margin + 1})...)
		if w.Grid != nil {
			says = fmt.Sprintf("%s: row %d of %d from the top, column %d of %d · %s", p.panel(w).Label, w.Grid.Rows-w.Row, w.Grid.Rows, w.Col+1, w.Grid.Cols, says)
		}
	}
	if why := p.draft(s); why != "" {
		says = "DRAFT: " + why + " · " + says
	}
	p.frame(&page, n, of, says)
	return page
}

// draft names the draft pieces on a sheet.
func (p *Plan) draft(s Sheet) string {
	var names []string
	for _, w := range s.Windows {
		if piece := p.piece(w); piece.Draft && !contains(names, piece.Name) {
			names = append(names, piece.Name)
		}
	}
	return strings.Join(names, ", ")
}

func contains(ss []string, s string) bool {
	for _, t := range ss {
		if t == s {
			return true
		}
	}
	return false
}

// on are the labels of the panels on a sheet.
func (p *Plan) on(sheet int) []string {
	var labels []string
	for _, w := range p.Sheets[sheet].Windows {
		l := p.panel(w).Label
		if w.Grid != nil {
			l += fmt.Sprintf(" (row %d, column %d)", w.Grid.Rows-w.Row, w.Col+1)
		}
		labels = append(labels, l)
	}
	return labels
}

// corrected stretches a page about its middle by the printer's correction.
func (p *Plan) corrected(page draw.Page) draw.Page {
	c := p.Paper.Correct
	if c == (Correction{}) {
		return page
	}
	return page.Stretched(c.X, c.Y)
}
