package sheet

import (
	"fmt"
	"math"

	"tasset/body/photo"
	"tasset/internal/draw"
	"tasset/internal/draw/leaf"

	"gonum.org/v1/gonum/spatial/r2"
)

// markRadius is that of a corner mark of the scale card, mm.
const markRadius = 8

// Card is the scale card to print at 100 %: four marks whose middles stand in a
// rectangle of photo.CardWidth by photo.CardHeight, a test square, and how to hold
// it.
func Card(paper Paper) (draw.Page, error) {
	const around = 2 * (markRadius + 5)
	if err := paper.fits("the scale card", photo.CardWidth+around, photo.CardHeight+around); err != nil {
		return draw.Page{}, err
	}
	page := paper.blank("Scale card")
	low := at((paper.Width-photo.CardWidth)/2, (paper.Height-photo.CardHeight)/2)
	corners := [4]r2.Vec{r2.Add(low, at(0, photo.CardHeight)), r2.Add(low, at(photo.CardWidth, photo.CardHeight)), r2.Add(low, at(photo.CardWidth, 0)), low}
	for i, c := range corners {
		page.Items = append(page.Items, cornerMark(c, i)...)
	}
	const edge = markRadius + 3
	page.Items = append(page.Items, &draw.Path{
		Subpaths: [][]r2.Vec{{r2.Add(corners[3], at(-edge, -edge)), r2.Add(corners[2], at(edge, -edge)), r2.Add(corners[1], at(edge, edge)), r2.Add(corners[0], at(-edge, edge))}},
		Closed:   true, Stroke: draw.Style{Width: 0.2, Dash: []float64{3, 2}}, Layer: "cut",
	})
	c := &leaf.Column{Page: &page, X: low.X + 12, Y: corners[0].Y - 6, Width: photo.CardWidth - 24}
	c.Say(9, true, "Scale card")
	c.Say(3.4, false, fmt.Sprintf("1. Print this page at 100 %% / \"actual size\". With a steel ruler, from the middle of mark 1 to the middle of mark 2 must be %.0f mm, from 1 to 4 %.0f mm. Half a millimetre off is too much: what it is off here, every size read off the pictures is off by the same part.", photo.CardWidth, photo.CardHeight))
	c.Say(3.4, false, "2. Glue it flat on stiff board and cut along the dashed line. A card that bends or curls measures wrong.")
	square := r2.Vec{X: low.X + 30, Y: c.Y - 104}
	page.Items = append(page.Items, leaf.TestSquare(square)...)
	c.Y = square.Y - 7
	c.Say(3.4, false, "3. In the picture: upright, marks to the camera, square to the view, the whole card in frame. Front view: beside the head, level with the ears, not in front of the shoulder. Side view: in front of the face or behind the head, level with the nose (the middle of the head). Never nearer to the camera than the head.")
	c.Say(3.4, false, "4. Write the middles of the marks in pixels, in the order of their numbers:  card: [[x, y], [x, y], [x, y], [x, y]]. The marks give size, tilt and distance; a ruler in the same picture is not needed.")
	return page.Stretched(paper.Across, paper.Down), nil
}

// cornerMark is a disc in four quarters, two of them black, whose lines cross at
// the corner; its number stands beside it, and the first has a ring, so that the
// card cannot be read upside down.
func cornerMark(c r2.Vec, i int) []draw.Item {
	quarter := func(from float64) *draw.Path {
		return filled(black, append(arc(c, markRadius, from, from+math.Pi/2), c)...)
	}
	items := []draw.Item{quarter(0), quarter(math.Pi), line(0.3, black, arc(c, markRadius, 0, 2*math.Pi)...)}
	if i == 0 {
		items = append(items, line(1, black, arc(c, markRadius+1.8, 0, 2*math.Pi)...))
	}
	in := [4]r2.Vec{at(1, -1), at(-1, -1), at(-1, 1), at(1, 1)}[i]
	number := r2.Add(c, r2.Add(r2.Scale(markRadius+4, at(in.X, 0)), at(0, 0)))
	number.Y += in.Y*5 - 5*draw.CapHeight/2
	return append(items, &draw.Text{At: number, Size: 5, Align: draw.Centre, Bold: true, S: fmt.Sprint(i + 1), Layer: "text"})
}
