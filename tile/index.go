package tile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// index are the pages that say what was made and where it lies: for each piece
// its sizes, settings, panels and seams, then a small map of the sheets. first
// is the number of the first of them.
func (p *Plan) index(first, of int) []draw.Page {
	ix := &indexer{plan: p, first: first, of: of}
	ix.say(6, true, "Index of panels")
	if order := worn(p.Set); len(order) > 1 {
		said := "Put on:"
		for i, name := range order {
			said += fmt.Sprintf(" %d. %s", i+1, name)
		}
		ix.say(3, false, said)
	}
	for i := range p.Set.Pieces {
		ix.piece(i)
	}
	ix.maps()
	return ix.finish()
}

// worn are the names of the pieces that are put on, in their order.
func worn(set *pattern.Set) []string {
	return slices.DeleteFunc(slices.Clone(set.Dressing), func(name string) bool {
		return slices.ContainsFunc(set.Pieces, func(p pattern.Piece) bool { return p.Name == name && p.Carried() })
	})
}

type indexer struct {
	plan      *Plan
	first, of int
	pages     []*draw.Page
	c         *leaf.Column
}

// need starts a new page unless there is room for some mm.
func (ix *indexer) need(mm float64) {
	area := ix.plan.Paper.Area()
	if ix.c != nil && ix.c.Y-mm > area.Min.Y {
		return
	}
	page := ix.plan.blank("")
	ix.pages = append(ix.pages, &page)
	ix.c = &leaf.Column{Page: &page, X: area.Min.X + 3, Y: page.Height - Margin - 2, Width: ix.plan.Paper.Width - area.Min.X - Margin - 6}
}

// finish numbers the pages and puts their frames round them.
func (ix *indexer) finish() []draw.Page {
	out := make([]draw.Page, len(ix.pages))
	for i, page := range ix.pages {
		n := ix.first + i
		page.Title = fmt.Sprintf("Page %d: index", n)
		ix.plan.frame(page, n, ix.of, "")
		out[i] = ix.plan.corrected(*page)
	}
	return out
}

func (ix *indexer) say(size float64, bold bool, s string) {
	for i, l := range leaf.Fill(s, size, bold, ix.width()) {
		ix.need(size * 2)
		if i > 0 {
			ix.c.Y += size * 0.7
		}
		ix.c.Say(size, bold, l)
	}
}

func (ix *indexer) width() float64 {
	area := ix.plan.Paper.Area()
	return area.Max.X - area.Min.X - 6
}

func (ix *indexer) piece(i int) {
	piece := &ix.plan.Set.Pieces[i]
	ix.need(40)
	ix.say(4.5, true, pieceTitle(piece.Name, piece.Title))
	if piece.Draft {
		ix.say(3.2, true, "DRAFT – "+piece.DraftWhy)
	}
	ix.say(2.5, false, built(piece))
	if len(piece.Governs) > 0 {
		ix.say(2.5, false, "Sized by: "+strings.Join(governing(piece), "; ")+".")
	}
	if len(piece.Settings) > 0 {
		ix.say(2.5, false, "Settings: "+strings.Join(settings(piece), "; ")+".")
	}
	for _, s := range piece.Notes {
		ix.say(2.5, false, s)
	}
	if said := byThickness(piece); said != "" {
		ix.say(2.5, false, said)
	}
	for j := range piece.Panels {
		ix.say(2.6, false, ix.panelLine(i, j))
	}
	for _, s := range piece.Seams {
		ix.say(2.4, false, seamLineText(piece, s))
	}
	ix.c.Y -= 3
}

// byThickness groups a piece's panels by the foam that they are cut of, the
// thickest first; "" if all are of one.
func byThickness(piece *pattern.Piece) string {
	of := map[string][]string{}
	var kinds []string
	var mm []float64
	for j := range piece.Panels {
		panel := &piece.Panels[j]
		kind := units.FormatFoam(piece.Foam(panel), piece.Units) + " foam"
		if panel.Role == pattern.Pad {
			kind = units.FormatFoam(piece.Foam(panel), piece.Units) + " soft foam"
		}
		if of[kind] == nil {
			kinds, mm = append(kinds, kind), append(mm, piece.Foam(panel))
		}
		of[kind] = append(of[kind], panel.Label)
	}
	if len(kinds) < 2 || piece.MockUp {
		return ""
	}
	order := make([]int, len(kinds))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(mm[b], mm[a]) })
	var out []string
	for _, i := range order {
		out = append(out, kinds[i]+": "+strings.Join(of[kinds[i]], ", "))
	}
	return "Cut of " + strings.Join(out, "; ") + "."
}

// fine writes a small length in the wearer's unit.
func fine(piece *pattern.Piece, mm float64) string { return units.FormatFine(mm, piece.Units) }

// built says in a line what a piece is made of and how near it comes to the body.
func built(piece *pattern.Piece) string {
	if piece.Flat {
		return fmt.Sprintf("Foam %s, flat.", units.FormatFoam(piece.Thickness, piece.Units))
	}
	s := fmt.Sprintf("Foam %s, k %.3g.", units.FormatFoam(piece.Thickness, piece.Units), piece.K)
	if piece.Clearance != 0 || piece.Asked != 0 {
		asked := fine(piece, piece.Asked) + " asked"
		if piece.Reserve() > 0 {
			asked += fmt.Sprintf(", %s more in reserve", fine(piece, piece.Reserve()))
		}
		s += fmt.Sprintf(" Clearance at least %s from the body as estimated, checked (%s).", fine(piece, piece.Clearance), asked)
	}
	if piece.PassAsked > 0 {
		s += fmt.Sprintf(" It passes the next part of the body at %s or more (%s asked).", fine(piece, piece.Passing), fine(piece, piece.PassAsked))
	}
	if piece.Deviation > 0 {
		s += fmt.Sprintf(" %d panels, stands off the rounded shape by %s at most.", piece.Count(), fine(piece, piece.Deviation))
	}
	if piece.PushedOut > 0 {
		s += fmt.Sprintf(" The shell was pushed out by %s so that they clear.", fine(piece, piece.PushedOut))
	}
	return s
}

func governing(piece *pattern.Piece) []string {
	var out []string
	for _, g := range piece.Governs {
		s := fmt.Sprintf("%s %s ± %s (%s)", strings.TrimSpace(g.Side.String()+" "+string(g.Name)),
			units.Format(g.Value, piece.Units), units.FormatDoubt(g.HalfWidth(), piece.Units), g.Origin)
		if g.Changed != "" {
			s += ", then changed by " + g.Changed
		}
		if !g.Good {
			s += " – measure this"
		}
		out = append(out, s)
	}
	return out
}

func settings(piece *pattern.Piece) []string {
	var out []string
	for _, s := range piece.Settings {
		origin := ""
		switch {
		case s.Asked != 0:
			origin = fmt.Sprintf(" (%g asked for)", s.Asked)
		case s.Typed:
			origin = " (yours)"
		}
		out = append(out, s.Name+" "+s.Said(piece.Units)+origin)
	}
	return out
}

func (ix *indexer) panelLine(i, j int) string {
	panel := &ix.plan.Set.Pieces[i].Panels[j]
	pages, rev := ix.pagesOf(i, j)
	return fmt.Sprintf("%s: %s – page %s – rev %s", strings.TrimSpace(panel.Label+"  "+panel.Name), copies(panel.Copies, panel.Flipped), pages, rev)
}

// pagesOf are the numbers of the pages that show a panel, and its revision.
func (ix *indexer) pagesOf(i, j int) (pages, rev string) {
	var out []string
	for k, s := range ix.plan.Sheets {
		for _, w := range s.Windows {
			if w.Piece == i && w.Panel == j {
				out, rev = append(out, fmt.Sprint(ix.sheetNumber(k))), w.rev
			}
		}
	}
	return strings.Join(out, ", "), rev
}

func (ix *indexer) sheetNumber(k int) int { return ix.of - len(ix.plan.Sheets) + k + 1 }

func seamLineText(piece *pattern.Piece, s pattern.Seam) string {
	var joins []string
	joined := 0.0 // what rims and openings have left of it
	for _, span := range s.Spans {
		joined += span.To - span.From
		a, b := piece.Panels[span.Sides[0].Panel], piece.Panels[span.Sides[1].Panel]
		join := a.Label + " to " + b.Label
		if !contains(joins, join) {
			joins = append(joins, join)
		}
	}
	return fmt.Sprintf("Seam %d (%s, %s): %s", s.Number, s.Kind, units.Format(joined, piece.Units), strings.Join(joins, ", "))
}

// maps draws all sheets small, with their numbers and panels.
func (ix *indexer) maps() {
	across := ix.across()
	scale, rowHeight := ix.small(across)
	ix.need(rowHeight + mapsHead)
	ix.say(3.2, true, "Where the panels lie")
	for k := range ix.plan.Sheets {
		if k%across == 0 {
			ix.need(rowHeight)
			ix.c.Y -= rowHeight
		}
		at := r2.Vec{X: ix.c.X + float64(k%across)*ix.width()/float64(across), Y: ix.c.Y}
		ix.smallSheet(k, at, scale)
	}
}

// mapsHead is the height that the maps' heading takes, mm.
const mapsHead = 12.0

// small is the scale at which so many sheets stand side by side, and how high their row is.
func (ix *indexer) small(across int) (scale, rowHeight float64) {
	tallest := 0.0
	for _, s := range ix.plan.Sheets {
		tallest = max(tallest, s.Height)
	}
	scale = min((ix.width()/float64(across)-4)/ix.plan.Paper.Width, 70/tallest)
	return scale, tallest*scale + 7
}

// across is how many sheets stand side by side: five, or more where that keeps the last
// row from standing alone on a page.
func (ix *indexer) across() int {
	const usual, most = 5, 8
	low := ix.plan.Paper.Area().Min.Y
	for n := usual; n <= most; n++ {
		_, rowHeight := ix.small(n)
		rows := (len(ix.plan.Sheets) + n - 1) / n
		here := max(int((ix.c.Y-mapsHead-low)/rowHeight), 0)
		if rows <= here {
			return n
		}
		page := max(int((ix.pages[0].Height-Margin-2-low)/rowHeight), 1)
		if last := (rows - here) % page; here > 0 && last != 1 {
			return n
		}
	}
	return usual
}

func (ix *indexer) smallSheet(k int, at r2.Vec, scale float64) {
	s := ix.plan.Sheets[k]
	to := func(q r2.Vec) r2.Vec { return r2.Add(at, r2.Scale(scale, q)) }
	border := []r2.Vec{to(r2.Vec{}), to(r2.Vec{X: ix.plan.Paper.Width}), to(r2.Vec{X: ix.plan.Paper.Width, Y: s.Height}), to(r2.Vec{Y: s.Height})}
	items := []draw.Item{
		&draw.Path{Subpaths: [][]r2.Vec{border}, Closed: true, Stroke: draw.Style{Width: 0.15}, Layer: "frame"},
		&draw.Text{At: r2.Vec{X: at.X, Y: border[3].Y + 1}, Size: 2.4, Bold: true, S: fmt.Sprintf("page %d", ix.sheetNumber(k)), Layer: "frame"},
	}
	for _, w := range s.Windows {
		panel := ix.plan.panel(w)
		ring := w.PageFromPanel.ApplyAll(panel.Outline)
		middle := geom.Lerp(geom.Bounds(ring).Min, geom.Bounds(ring).Max, 0.5)
		if w.Grid != nil {
			middle = geom.Lerp(w.Clip.Min, w.Clip.Max, 0.5)
		}
		for i := range ring {
			ring[i] = to(ring[i])
		}
		path := &draw.Path{Subpaths: [][]r2.Vec{ring}, Closed: true, Stroke: draw.Style{Width: 0.15}, Layer: "frame"}
		if w.Grid != nil {
			path.Clip = &draw.Rect{Min: to(w.Clip.Min), Max: to(w.Clip.Max)}
		}
		items = append(items, path, &draw.Text{At: to(middle), Size: 2, Align: draw.Centre, S: panel.Label, Layer: "frame"})
	}
	ix.c.Page.Items = append(ix.c.Page.Items, items...)
}
