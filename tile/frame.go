package tile

import (
	"fmt"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
)

// frame is what stands round the panels of every page; n is 0 on a page that
// stands alone.
func (p *Plan) frame(page *draw.Page, n, of int, says string) {
	title := p.Title
	if title == "" {
		title = "Templates"
	}
	number := ""
	if n > 0 {
		number = fmt.Sprintf("page %d of %d", n, of)
	}
	corrected := leaf.Corrected(p.Paper.Correct.X, p.Paper.Correct.Y)
	page.Items = append(page.Items, leaf.Frame(p.Paper.Width-Margin-mapSide-2, []string{title, number, p.Paper.Name}, []string{corrected, says})...)
}
