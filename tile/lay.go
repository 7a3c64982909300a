package tile

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/nest"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// between is the least room between two panels on a page, mm: scissors pass.
const between = 6

// Plan is which panel lies where on which page.
type Plan struct {
	Set    *pattern.Set
	Paper  Paper
	Title  string      // of the costume; stands on every page
	Front  []draw.Page // pages to go between the print check and the index
	Sheets []Sheet
}

// Sheet is a page with panels.
type Sheet struct {
	Windows []Window
	Height  float64 // mm; less than the paper's on a roll
}

// Window is a panel, or the part of a large one, that is printed on a sheet.
type Window struct {
	Piece, Panel  int        // indices
	PageFromPanel geom.Rigid // never a stretch: pages are at 100 %
	Clip          draw.Rect  // page axes: the part of the page that shows it
	Grid          *Grid      // nil if it is whole
	Row, Col      int        // of the grid, from 0 at the lower left

	drawn []draw.Item // all of the panel that shows
	rev   string      // of the panel
}

func (p *Plan) piece(w Window) *pattern.Piece { return &p.Set.Pieces[w.Piece] }
func (p *Plan) panel(w Window) *pattern.Panel { return &p.Set.Pieces[w.Piece].Panels[w.Panel] }

// Lay lays every panel of a set on pages. Panels that fit lie together, whole;
// each larger one has a grid of its own, turned for the fewest pages. Panels
// that a previous plan for the same paper holds unchanged stay on their pages.
// It is an error when the set has no panels, or ctx ends.
func Lay(ctx context.Context, set *pattern.Set, paper Paper, prev *Plan) (*Plan, []report.Finding, error) {
	plan := &Plan{Set: set, Paper: paper}
	var whole, large []Window
	for i, piece := range set.Pieces {
		for j := range piece.Panels {
			w := Window{Piece: i, Panel: j, rev: Revision(&piece, &piece.Panels[j])}
			if fits(plan.panel(w).Extent(), paper.Area()) {
				whole = append(whole, w)
			} else {
				large = append(large, w)
			}
		}
	}
	if len(whole)+len(large) == 0 {
		return nil, nil, fmt.Errorf("there is nothing to print: the costume has no panels")
	}
	tight, err := plan.pack(ctx, whole, prev)
	if err != nil {
		return nil, nil, err
	}
	over := map[int][]string{} // labels by how many pages they go on
	for _, w := range append(large, tight...) {
		if g := plan.split(w); g.pages > 1 {
			over[g.pages] = append(over[g.pages], plan.panel(w).Label)
		}
	}
	plan.trimRoll()
	return plan, append(largerThan(paper, over), plan.draw()...), nil
}

// largerThan tells which panels go on several pages, in one note for each number
// of pages.
func largerThan(paper Paper, over map[int][]string) (found []report.Finding) {
	for _, n := range slices.Sorted(maps.Keys(over)) {
		is, goes, each := "is", "goes", ""
		if len(over[n]) > 1 {
			is, goes, each = "are", "go", " each"
		}
		found = append(found, report.Notef(strings.Join(over[n], ", "), "%s larger than a page of %s and %s on %d pages%s, to be joined at the marks.", is, paper.Name, goes, n, each))
	}
	return found
}

// draw draws every window. The findings name what has no room on a panel or
// beside it; of a panel in a grid, another page may have it.
func (p *Plan) draw() (found []report.Finding) {
	missing := make([][][]string, len(p.Sheets))
	var all sync.WaitGroup
	for i := range p.Sheets {
		all.Go(func() { missing[i] = p.drawSheet(i) })
	}
	all.Wait()
	for i := range p.Sheets {
		for j, texts := range missing[i] {
			if len(texts) == 0 {
				continue
			}
			panel, tell := p.panel(p.Sheets[i].Windows[j]), report.Doubtf
			if panel.Role == pattern.Strip { // narrow by nature, and joined to nothing
				tell = report.Notef
			}
			found = append(found, tell(panel.Label, "is too small for all of its texts; write on it by hand: %s.", strings.Join(texts, ", ")))
		}
	}
	return found
}

// drawSheet draws the windows of a sheet, and gives for each the texts that have
// no room.
func (p *Plan) drawSheet(i int) [][]string {
	windows := p.Sheets[i].Windows
	texts := make([][]lost, len(windows))
	for j := range windows {
		items, missing := p.drawPanel(windows[j])
		windows[j].drawn = items
		if windows[j].Grid == nil {
			texts[j] = missing
		}
	}
	return p.aside(i, texts)
}

// quarter turns first, so that panels lie straight where they can.
func turns() []float64 {
	out := []float64{0, units.Rad(90), units.Rad(180), units.Rad(270)}
	for d := 15; d < 360; d += 15 {
		if d%90 != 0 {
			out = append(out, units.Rad(float64(d)))
		}
	}
	return out
}

func size(b r2.Box) r2.Vec { return r2.Sub(b.Max, b.Min) }

func turned(outline []r2.Vec, angle float64) r2.Box {
	return geom.Bounds(geom.Turned(angle, r2.Vec{}).ApplyAll(outline))
}

func fits(outline []r2.Vec, area draw.Rect) bool { return len(fitting(outline, area)) > 0 }

// fitting are the turns in which an outline fits, the quarter turns alone if one
// of them does.
func fitting(outline []r2.Vec, area draw.Rect) []float64 {
	room := r2.Sub(area.Max, area.Min)
	var out []float64
	for i, a := range turns() {
		if i == 4 && len(out) > 0 {
			break
		}
		if s := size(turned(outline, a)); s.X <= room.X && s.Y <= room.Y {
			out = append(out, a)
		}
	}
	return out
}

// pack lays whole panels together and gives back those that only just fit a
// page, for which the packing's pixels are too coarse.
func (p *Plan) pack(ctx context.Context, whole []Window, prev *Plan) (tight []Window, err error) {
	area := p.Paper.Area()
	room := r2.Sub(area.Max, area.Min)
	rest, blocked := p.keep(whole, prev)
	parts := make([]nest.Part, len(rest))
	var all sync.WaitGroup
	for i, w := range rest {
		all.Go(func() {
			outline := p.footprint(w)
			parts[i] = nest.Part{Outline: outline, Turns: fitting(outline, area)}
		})
	}
	all.Wait()
	places, err := nest.Pack(ctx, parts, nest.Sheet{Width: room.X, Height: room.Y}, between, blocked...)
	if err != nil {
		return nil, fmt.Errorf("laying panels on pages: %w", err)
	}
	for i, place := range places {
		if !place.OK {
			tight = append(tight, rest[i])
			continue
		}
		w := rest[i]
		w.PageFromPanel = place.Rigid().Then(geom.Turned(0, area.Min))
		w.Clip = area
		p.put(place.Sheet, w)
	}
	return tight, nil
}

func (p *Plan) put(sheet int, w Window) {
	for len(p.Sheets) <= sheet {
		p.Sheets = append(p.Sheets, Sheet{Height: p.Paper.Height})
	}
	p.Sheets[sheet].Windows = append(p.Sheets[sheet].Windows, w)
}

// keep puts panels that have not changed where the previous plan had them, and
// gives the rest, and what is taken. Sheets that would stand empty are left out.
func (p *Plan) keep(whole []Window, prev *Plan) (rest []Window, blocked []nest.Blocked) {
	if prev == nil || prev.Paper != p.Paper {
		return whole, nil
	}
	old := map[string]Window{}
	sheetOf := map[string]int{}
	for i, s := range prev.Sheets {
		for _, w := range s.Windows {
			if w.Grid == nil {
				key := prev.key(w)
				old[key], sheetOf[key] = w, i
			}
		}
	}
	kept := map[int]int{} // old sheet → new
	area := p.Paper.Area()
	for _, w := range whole {
		was, ok := old[p.key(w)]
		if !ok {
			rest = append(rest, w)
			continue
		}
		from := sheetOf[p.key(w)]
		if _, ok := kept[from]; !ok {
			kept[from] = len(kept)
		}
		w.PageFromPanel, w.Clip = was.PageFromPanel, was.Clip
		p.put(kept[from], w)
		back := w.PageFromPanel.Then(geom.Turned(0, r2.Scale(-1, area.Min)))
		blocked = append(blocked, nest.Blocked{Sheet: kept[from], Outline: back.ApplyAll(p.footprint(w))})
	}
	return rest, blocked
}

// trimRoll ends the pages of a roll a margin above what lies on them.
func (p *Plan) trimRoll() {
	if !p.Paper.Roll {
		return
	}
	for i := range p.Sheets {
		top := float64(minRoll)
		for _, w := range p.Sheets[i].Windows {
			box := geom.Bounds(w.PageFromPanel.ApplyAll(p.panel(w).Extent()))
			top = max(top, min(box.Max.Y, w.Clip.Max.Y)+Margin)
		}
		p.Sheets[i].Height = min(top, p.Paper.Height)
	}
}

const minRoll = 180 // mm: the bars need that much
