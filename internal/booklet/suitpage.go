package booklet

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// suitPixels is how finely the picture on the costume's page is painted, pixels
// a mm: as fine as a home printer's greys.
const suitPixels = 6

// Overviews are the pages that show the costume on its wearer, if it has more
// than one piece, and each of its pieces, in an order to put them on. The figure
// is the wearer's body.
func Overviews(set *pattern.Set, figure geom.Mesh, width, height float64, u units.Unit) []draw.Page {
	pieces := inTurn(set)
	plain := scenes(pieces)
	pages := make([][]draw.Page, 1+len(pieces))
	var bought []entry // of a lone piece, which has no page of the costume
	if len(pieces) == 1 {
		bought = shopping(pieces, u)
	}
	var all sync.WaitGroup
	if len(pieces) > 1 {
		all.Go(func() {
			pages[0] = suitPages(pieces, suitOf(pieces, plain, figure), width, height, u)
		})
	}
	for i := range pieces {
		all.Go(func() { pages[i+1] = overview(&pieces[i], plain[i], bought, width, height, u) })
	}
	all.Wait()
	return slices.Concat(pages...)
}

// inTurn are the pieces in the order in which they are put on.
func inTurn(set *pattern.Set) []pattern.Piece {
	pieces := slices.Clone(set.Pieces)
	slices.SortStableFunc(pieces, func(a, b pattern.Piece) int {
		return slices.Index(set.Dressing, a.Name) - slices.Index(set.Dressing, b.Name)
	})
	return pieces
}

// suitPages are of the whole costume: how it looks on its wearer, what its pieces
// weigh, and what is bought. It is one page, or more where the lists are long.
func suitPages(pieces []pattern.Piece, scene view.Scene, width, height float64, u units.Unit) []draw.Page {
	c := column{left: margin, right: width - margin, y: height - margin, size: textSize}
	c.heading(6, "The costume")
	c.space(2)
	blocks := []block{{title: piecesTitle(pieces), entries: weights(pieces, u)}}
	if list := shopping(pieces, u); len(list) > 0 {
		blocks = append(blocks, block{title: buyTitle, entries: list, fresh: true})
	} else {
		blocks = halves(blocks[0])
	}
	table := column{left: margin, right: width/2 - between/2}
	rows := 0
	for _, b := range blocks { // each has a column
		n := 0
		for _, e := range b.entries {
			n += len(e.lines(&table))
		}
		rows = max(rows, n)
	}
	room := max(min(float64(rows+1)*leading*textSize+leading*headingSize+4, mostListed*height), leastColumn+5)
	box := draw.Rect{Min: r2.Vec{X: margin, Y: margin + room}, Max: r2.Vec{X: width - margin, Y: c.y}}
	items, below := suitViewsIn(scene, box, suitPixels)
	return listed(append(c.items, items...), below-4, blocks, suitTitle, width, height)
}

// piecesTitle heads the list of pieces: what is only carried is not put on.
func piecesTitle(pieces []pattern.Piece) string {
	for i := range pieces {
		if !pieces[i].Carried() {
			return "Pieces, in an order to put them on"
		}
	}
	return "Pieces"
}

func suitTitle(page int) string {
	if page > 1 {
		return "The costume, continued"
	}
	return "The costume"
}

// mostListed is how much of the page's height the lists take under the drawings.
const mostListed = 0.5

// halves divides a block over two columns, unless it is short.
func halves(b block) []block {
	if len(b.entries) < 8 {
		return []block{b}
	}
	n := (len(b.entries) + 1) / 2
	return []block{{title: b.title, entries: b.entries[:n]}, {title: "Pieces, continued", entries: b.entries[n:], fresh: true}}
}

// weights lists the pieces with the weight of their foam, where its density is
// known, and all of them together.
func weights(pieces []pattern.Piece, u units.Unit) []entry {
	var out []entry
	var total float64
	for i := range pieces {
		p := &pieces[i]
		var tells []string
		if paired(p) {
			tells = append(tells, "a pair")
		}
		if p.Carried() {
			tells = append(tells, "carried")
		}
		if p.Weight > 0 {
			tells = append(tells, units.FormatLight(p.Weight, u))
			total += p.Weight
		}
		said := strings.Join(tells, ", ")
		if p.Draft {
			said += " (draft)"
		}
		if others := hiddenBuckles(p); others != "" {
			said = strings.TrimPrefix(said+"; ", "; ") + "buckle it to the " + others + " before you put them on: the buckles are inside"
		}
		out = append(out, entry{fmt.Sprintf("%d  %s · %s", i+1, p.Code, p.Name), said})
	}
	if total > 0 {
		out = append(out, entry{"Together", fmt.Sprintf("about %s of foam, without paint and straps (reckoned from the panels' area and the density that you gave)", units.FormatLight(total, u))})
	}
	return out
}

// hiddenBuckles names the pieces that a piece hangs on by buckles that nobody reaches
// when both are worn.
func hiddenBuckles(p *pattern.Piece) string {
	var others []string
	for _, s := range p.Straps {
		if s.Hidden && !slices.Contains(others, s.Other) {
			others = append(others, s.Other)
		}
	}
	return strings.Join(others, " and the ")
}
