package costume

import (
	"fmt"

	"tasset/internal/draw"
	"tasset/tile"

	"gonum.org/v1/gonum/spatial/r2"
)

// The measuring sheet, mm.
const (
	sheetMargin = 14.0
	rowHeight   = 10.5
	headHeight  = 24.0
	valueWidth  = 26.0
)

// MeasuringSheet is a form to print and fill in by hand: every measurement that
// a maker takes, how to take it, what is known so far, and room for a left and
// a right value.
func (f *Folder) MeasuringSheet(rows []Row, paper string) ([]byte, error) {
	p, err := f.paper(paper)
	if err != nil {
		return nil, err
	}
	p.Height = min(p.Height, 420) // a roll is cut into sheets
	var wanted []Row
	last := ""
	for _, r := range rows {
		if !r.Rare && r.Name != last {
			wanted = append(wanted, r)
		}
		last = r.Name
	}
	perPage := int((p.Height - 2*sheetMargin - headHeight) / rowHeight)
	var pages []draw.Page
	for len(wanted) > 0 {
		n := min(perPage, len(wanted))
		pages = append(pages, f.sheetPage(wanted[:n], p, len(pages)+1))
		wanted = wanted[n:]
	}
	return document("Measuring sheet: "+f.Wearer.Name, pages)
}

func (f *Folder) sheetPage(rows []Row, p tile.Paper, number int) draw.Page {
	page := draw.Page{Width: p.Width, Height: p.Height, Title: fmt.Sprintf("Measuring sheet %d", number)}
	top := p.Height - sheetMargin
	right := p.Width - sheetMargin
	put := func(x, y, size float64, bold bool, s string) {
		page.Items = append(page.Items, &draw.Text{At: r2.Vec{X: x, Y: y}, Size: size, Bold: bold, S: s, Layer: "text"})
	}
	put(sheetMargin, top-6, 5.5, true, "Measurements of "+orBlank(f.Wearer.Name))
	put(sheetMargin, top-12, 2.8, false, fmt.Sprintf("Tape flat and just touching, over what is worn under the armour (say what). Write each size with its unit (%s). Sheet %d.", f.Units(), number))
	put(right-2*valueWidth+2, top-headHeight+3, 2.8, true, "left or both")
	put(right-valueWidth+2, top-headHeight+3, 2.8, true, "right")
	for i, r := range rows {
		y := top - headHeight - float64(i+1)*rowHeight
		put(sheetMargin, y+6.2, 3.2, true, r.Name)
		known := ""
		switch r.Origin {
		case "tape":
			known = "so far " + r.Shown
		case "photograph":
			known = fmt.Sprintf("photographs %s ± %s", r.Shown, r.ShownPM)
		}
		put(sheetMargin+48, y+6.2, 2.8, false, known)
		for j, s := range wrap(r.HowTo, 2.5, right-2*valueWidth-sheetMargin-2) {
			put(sheetMargin, y+3.4-2.7*float64(j), 2.5, false, s)
		}
		page.Items = append(page.Items, rule(sheetMargin, y-1, right), box(right-2*valueWidth, y-1, valueWidth), box(right-valueWidth, y-1, valueWidth))
	}
	return page
}

func orBlank(name string) string {
	if name == "" {
		return "______________________"
	}
	return name
}

var thin = draw.Style{Width: 0.15}

func rule(x, y, to float64) draw.Item {
	return &draw.Path{Subpaths: [][]r2.Vec{{{X: x, Y: y}, {X: to, Y: y}}}, Stroke: thin, Layer: "frame"}
}

func box(x, y, w float64) draw.Item {
	return &draw.Path{Subpaths: [][]r2.Vec{{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + rowHeight}, {X: x, Y: y + rowHeight}}},
		Closed: true, Stroke: thin, Layer: "frame"}
}
