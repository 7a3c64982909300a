package tile

import (
	"math"
	"slices"
	"sync"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// lost is a text that found no room on its panel.
type lost struct {
	says   string // how a finding names it
	blocks []block
	on     string   // its panel, told where the text stands off it; "" if it tells that itself
	at     r2.Vec   // what it is about, page axes
	or     []r2.Vec // other places that serve as well
	within bool     // it may stand on its panel too, farther from what it is about
}

// How a text beside its panel stands: in a thin frame, with a line to a dot at
// what it is about.
var (
	asideLine  = draw.Style{Width: 0.13}
	asideSizes = []float64{2.6, 2.2, 1.8}
)

const (
	asidePad  = 1.0 // mm, between a text and its frame
	asideDot  = 0.5 // mm, radius
	asideFar  = 70  // mm, how far from the panel's place a text may stand
	asideTurn = 72  // directions that are tried

	asideSmall = 120.0 // mm: a panel no larger gets room at its right for texts
	asideTiny  = 40.0  // and one no larger than that all round
	asideWide  = 30.0  // how much, and below and above
	asideHigh  = 10.0
)

// aside sets the texts of whole panels that found no room on them beside them,
// and gives back those for which the sheet has no room either, by window.
func (p *Plan) aside(sheet int, texts [][]lost) (missing [][]string) {
	s := &p.Sheets[sheet]
	missing = make([][]string, len(s.Windows))
	var page *room
	var on textBoxes
	for i, list := range texts {
		for _, l := range list {
			l = l.named()
			if page == nil {
				page, on = p.besidePanels(sheet), s.texts()
			}
			items, ok := page.aside(l, func(from, to r2.Vec) bool { return !on.crossed(from, to) && page.reaches(from, to) })
			if !ok {
				items, ok = page.aside(l, page.reaches)
			}
			if !ok {
				missing[i] = append(missing[i], l.says)
				continue
			}
			s.Windows[i].drawn, on = append(s.Windows[i].drawn, items...), on.with(items)
		}
	}
	return missing
}

// named says on which panel it is about something.
func (l lost) named() lost {
	if l.on == "" {
		return l
	}
	blocks := slices.Clone(l.blocks)
	for i, b := range blocks {
		blocks[i].rows = append([]row{{"on " + l.on, 0.75, false}}, b.rows...)
	}
	l.blocks = blocks
	return l
}

// textBoxes are the corners of texts on a sheet.
type textBoxes [][4]r2.Vec

// texts are those on the sheet's panels.
func (s *Sheet) texts() (out textBoxes) {
	for _, w := range s.Windows {
		out = out.with(w.drawn)
	}
	return out
}

func (t textBoxes) with(items []draw.Item) textBoxes {
	for _, it := range items {
		if text, ok := it.(*draw.Text); ok {
			t = append(t, text.Corners())
		}
	}
	return t
}

// crossed tells whether a line runs through one.
func (t textBoxes) crossed(from, to r2.Vec) bool {
	return slices.ContainsFunc(t, func(box [4]r2.Vec) bool { return leaf.Touches(box, from, to) })
}

// footprint is the outline for which a panel takes room on a sheet: a small one
// whose texts have no room on it is laid with room for them at its side.
func (p *Plan) footprint(w Window) []r2.Vec {
	outline := p.panel(w).Extent()
	box := geom.Bounds(outline)
	if s := size(box); max(s.X, s.Y) > asideSmall {
		return outline
	}
	w.PageFromPanel, w.Clip = geom.Turned(0, r2.Vec{}), p.Paper.Area()
	if _, missing := p.drawPanel(w); len(missing) == 0 {
		return outline
	}
	low, high := box.Min, r2.Vec{X: box.Max.X + asideWide, Y: max(box.Max.Y, box.Min.Y+2*asideHigh)}
	if s := size(box); max(s.X, s.Y) < asideTiny {
		low, high = r2.Sub(low, r2.Vec{X: asideWide, Y: asideHigh}), r2.Add(high, r2.Vec{Y: asideHigh})
	}
	ring := []r2.Vec{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}
	if !fits(ring, p.Paper.Area()) {
		return outline
	}
	return ring
}

// besidePanels is the room between the panels of a sheet.
func (p *Plan) besidePanels(sheet int) *room {
	area := p.Paper.Area()
	area.Max.Y = min(area.Max.Y, p.Sheets[sheet].Height-Margin)
	var panels [][]r2.Vec
	for _, w := range p.Sheets[sheet].Windows {
		panels = append(panels, w.PageFromPanel.ApplyAll(p.panel(w).Extent()))
	}
	return newRoom([]r2.Vec{area.Min, {X: area.Max.X, Y: area.Min.Y}, area.Max, {X: area.Min.X, Y: area.Max.Y}}, panels)
}

// aside sets a text at the nearest free place from which a line reaches what it
// is about without crossing anything else.
func (r *room) aside(l lost, reaches func(from, to r2.Vec) bool) ([]draw.Item, bool) {
	for _, at := range l.or {
		one := l
		one.at, one.or = at, nil
		if items, ok := r.aside(one, reaches); ok {
			return items, true
		}
	}
	whole := geom.Bounds(r.ring)
	for _, b := range l.blocks {
		for _, size := range asideSizes {
			w, h := b.measure(size)
			w, h = w+2*asidePad, h+2*asidePad
			if room := r2.Sub(whole.Max, whole.Min); w > room.X || h > room.Y {
				continue
			}
			for away := 2.0; away < asideFar; away += 2 {
				for _, d := range asideWays() {
					c := r2.Add(l.at, r2.Vec{X: d.X * (away + w/2), Y: d.Y * (away + h/2)})
					box, round := upright(c, w, h), upright(c, w+2, h+2)
					if !inBounds(round, whole) || !r.free(round) {
						continue
					}
					from := nearestOn(box, l.at)
					if reaches(from, l.at) {
						r.taken = append(r.taken, box)
						r.lines = append(r.lines, [2]r2.Vec{from, l.at})
						r.wall([]r2.Vec{from, l.at}, false)
						return append(b.draw(c, size, 0), pointer(box, from, l.at)...), true
					}
				}
			}
		}
	}
	return nil, false
}

// asideWays are the directions in which places are looked for.
var asideWays = sync.OnceValue(func() (out []r2.Vec) {
	for k := range asideTurn {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / asideTurn)
		out = append(out, r2.Vec{X: cos, Y: sin})
	}
	return out
})

// upright has its centre at c.
func upright(c r2.Vec, width, height float64) [4]r2.Vec {
	x, y := width/2, height/2
	return [4]r2.Vec{{X: c.X - x, Y: c.Y - y}, {X: c.X + x, Y: c.Y - y}, {X: c.X + x, Y: c.Y + y}, {X: c.X - x, Y: c.Y + y}}
}

// inBounds tells whether an upright box lies in another.
func inBounds(b [4]r2.Vec, whole r2.Box) bool {
	return b[0].X >= whole.Min.X && b[0].Y >= whole.Min.Y && b[2].X <= whole.Max.X && b[2].Y <= whole.Max.Y
}

// nearestOn is the place on a rectangle's border that is nearest to a point.
func nearestOn(box [4]r2.Vec, p r2.Vec) r2.Vec {
	best, at := math.Inf(1), box[0]
	for i := range box {
		q, _ := geom.NearestOnSegment(p, box[i], box[(i+1)%4])
		if d := geom.Dist(p, q); d < best {
			best, at = d, q
		}
	}
	return at
}

// reaches tells whether a straight line from a free place reaches a place in a
// panel, or comes from outside to one on its outline, through nothing but that
// outline.
func (r *room) reaches(from, to r2.Vec) bool {
	for _, t := range r.taken {
		if leaf.Touches(t, from, to) {
			return false
		}
	}
	for _, l := range r.lines {
		if geom.SegmentsMeet(l[0], l[1], from, to) {
			return false
		}
	}
	box := geom.Bounds([]r2.Vec{from, to})
	box.Min, box.Max = r2.Sub(box.Min, r2.Vec{X: geom.Detail, Y: geom.Detail}), r2.Add(box.Max, r2.Vec{X: geom.Detail, Y: geom.Detail})
	for i, ring := range r.holes {
		if len(r.sides[i+1].Near(box, nil)) > 0 && !reachesIn(ring, from, to) {
			return false
		}
	}
	return true
}

// asides sets texts of edges and marks on the panel itself, farther off, with a line
// to what they are about, and gives back the others.
func (r *room) asides(texts []lost) (items []draw.Item, missing []lost) {
	for _, l := range texts {
		if l.within {
			if more, ok := r.aside(l, r.reachesWithin); ok {
				items = append(items, more...)
				continue
			}
		}
		missing = append(missing, l)
	}
	return items, missing
}

// reachesWithin tells whether a line within a panel reaches a place at a wall.
func (r *room) reachesWithin(from, to r2.Vec) bool {
	to = r2.Add(to, r2.Scale(2*geom.Detail, r2.Unit(r2.Sub(from, to)))) // just short of it
	for _, t := range r.taken {
		if leaf.Touches(t, from, to) {
			return false
		}
	}
	for _, w := range r.walls {
		if geom.SegmentsMeet(w[0], w[1], from, to) {
			return false
		}
	}
	return true
}

// reachesIn tells whether a line passes a panel, or ends in it or on its outline.
func reachesIn(ring []r2.Vec, from, to r2.Vec) bool {
	crossed, on := 0, geom.DistToRing(ring, to) < geom.Detail
	if on { // stop just short of it
		to = r2.Add(to, r2.Scale(2*geom.Detail, r2.Unit(r2.Sub(from, to))))
		if geom.Inside(ring, to) {
			return false
		}
	}
	for i, a := range ring {
		if geom.SegmentsMeet(a, ring[(i+1)%len(ring)], from, to) {
			crossed++
		}
	}
	return crossed == 0 || crossed == 1 && geom.Inside(ring, to)
}

// pointer is a text's frame, the line from it, and the dot at its end.
func pointer(box [4]r2.Vec, from, to r2.Vec) []draw.Item {
	black := draw.Color{}
	var dot []r2.Vec
	for k := range 12 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 12)
		dot = append(dot, r2.Add(to, r2.Vec{X: asideDot * cos, Y: asideDot * sin}))
	}
	return []draw.Item{
		&draw.Path{Subpaths: [][]r2.Vec{box[:]}, Closed: true, Stroke: asideLine, Layer: "aside"},
		&draw.Path{Subpaths: [][]r2.Vec{{from, to}}, Stroke: asideLine, Layer: "aside"},
		&draw.Path{Subpaths: [][]r2.Vec{dot}, Closed: true, Fill: &black, Layer: "text"},
	}
}

// seamAside is the text of a stretch of a seam edge that stands beside its panel.
// Its line ends where the stretch is clearest of others.
func (d *drawing) seamAside(e pattern.Edge, stretch []r2.Vec) lost {
	at, best, others := r2.Vec{}, -1.0, d.besides(stretch)
	for _, share := range []float64{0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2} {
		p, clear := geom.At(stretch, share*geom.Length(stretch)), 10.0
		for _, o := range others {
			clear = min(clear, away(o, p))
		}
		if clear > best+geom.Detail {
			at, best = p, clear
		}
	}
	return lost{says: `"` + d.meets(e) + `"`, blocks: d.seamBlocks(e), on: d.panel.Label, at: at, within: true}
}

// titleAside is the title of a panel that stands beside it.
func (d *drawing) titleAside(r *room) lost {
	blocks := d.titleBlocks()
	l := lost{says: "its title", blocks: blocks[:len(blocks)-1], at: r.ring[0]}
	if spots := r.spots(); len(spots) > 0 {
		l.at = spots[0].p
	} else { // anywhere on its outline
		for i, a := range r.ring {
			l.or = append(l.or, a, geom.Lerp(a, r.ring[(i+1)%len(r.ring)], 0.5))
		}
	}
	return l
}
