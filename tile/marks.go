package tile

import (
	"math"
	"slices"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// marked are the texts of what is marked on a panel, and those that found no place
// where they are clear.
type marked struct {
	items []draw.Item
	lost  []lost
}

// The sizes of such texts, and how many letters a line may have.
var (
	markSizes = []float64{2.6, 2.2, 1.8}
	markWraps = []int{24, 16, 11}
)

// isHeat tells whether a mark is hatching where foam is heated, and isPlace whether
// it is anything else.
func isHeat(m pattern.Mark) bool {
	return m.Kind == pattern.MarkStretch || m.Kind == pattern.MarkGather
}
func isPlace(m pattern.Mark) bool { return !isHeat(m) }

// markLabels sets the texts of some of the marks in a fragment: in a patch or right
// beside it, along a line, and near any other mark.
func (d *drawing) markLabels(r *room, which func(pattern.Mark) bool) (out marked) {
	said := map[string]bool{}
	var without []int
	for i, m := range d.panel.Marks {
		if m.Text == "" || len(m.Line) == 0 || !which(m) {
			continue
		}
		line := d.w.PageFromPanel.ApplyAll(m.Line)
		if !d.first(r, placesOn(m, line)) {
			continue
		}
		if items, ok := d.markLabel(i, line, r); ok {
			out.items = append(out.items, items...)
			said[m.Text] = true
		} else {
			without = append(without, i)
		}
	}
	for _, i := range without {
		m := d.panel.Marks[i]
		if isLine(m) && said[m.Text] {
			continue // another part of the line has it
		}
		out.lost = append(out.lost, d.markAside(m, d.w.PageFromPanel.ApplyAll(m.Line), r))
	}
	return out
}

// placesOn are places all over a patch, or along a line.
func placesOn(m pattern.Mark, line []r2.Vec) []r2.Vec {
	if !m.Close {
		return line
	}
	out := []r2.Vec{middleOf(line)}
	for _, at := range inPatch(line) {
		out = append(out, at.c)
	}
	return append(out, line...)
}

// first tells whether a fragment is the first that holds any of some places.
func (d *drawing) first(r *room, places []r2.Vec) bool {
	for _, o := range d.rooms {
		if slices.ContainsFunc(places, o.inside) {
			return &o.ring[0] == &r.ring[0]
		}
	}
	return false
}

// says is a mark's text. What is glued over foam that is formed waits until then.
func (d *drawing) says(m pattern.Mark) string {
	if d.panel.Formed != nil && (m.Kind == "pad" || m.Kind == "line") {
		return m.Text + ", after forming"
	}
	return m.Text
}

func (d *drawing) markLabel(i int, line []r2.Vec, r *room) ([]draw.Item, bool) {
	m, others := d.panel.Marks[i], d.otherMarks(i)
	if items, ok := d.markAt(m, line, r, func(head r2.Vec) bool { return clearlyOf(m, line, head, others) }); ok || bound(m) {
		return items, ok
	}
	return d.markAt(m, line, r, nil)
}

// bound tells whether a mark is a patch or a line, which a text must not seem to
// belong to unless it does.
func bound(m pattern.Mark) bool { return m.Close || isLine(m) }

func isLine(m pattern.Mark) bool { return m.Kind == "line" || m.Kind == pattern.MarkCovered }

func (d *drawing) markAt(m pattern.Mark, line []r2.Vec, r *room, may func(head r2.Vec) bool) ([]draw.Item, bool) {
	places := func(w, h float64) []place {
		switch {
		case m.Close:
			return append(inPatch(line), besideSides(line, w, h)...)
		case m.Kind == pattern.MarkCovered: // on the side that it speaks of
			return alongLine(line, []float64{0.6, 2, 4}, w, h)
		case isLine(m):
			offsets := []float64{0.6, 2}
			return append(alongLine(line, offsets, w, h), alongLine(geom.Reversed(line), offsets, w, h)...)
		}
		return around(middleOf(line), w, h)
	}
	for _, size := range markSizes {
		for _, letters := range markWraps {
			if items, ok := r.putIf(textBlock(wrap(d.says(m), letters)), []float64{size}, places, may); ok {
				return items, true
			}
		}
	}
	return nil, false
}

func textBlock(lines []string) (b block) {
	for _, s := range lines {
		b.rows = append(b.rows, row{s, 1, false})
	}
	return b
}

// markOnPage is a mark on the page.
type markOnPage struct {
	line  []r2.Vec
	close bool
}

// otherMarks are the patches and lines marked on a panel but for one.
func (d *drawing) otherMarks(but int) (out []markOnPage) {
	for i, m := range d.panel.Marks {
		if i == but || len(m.Line) < 2 || isHeat(m) {
			continue
		}
		line := d.w.PageFromPanel.ApplyAll(m.Line)
		if m.Close {
			line = append(line, line[0])
		}
		out = append(out, markOnPage{line, m.Close})
	}
	return out
}

// clearlyOf tells whether anyone sees that a text is that of a mark: it stands in
// no other patch; and that of a patch or a line stands in it, or nearer to it than
// to any other.
func clearlyOf(m pattern.Mark, line []r2.Vec, text r2.Vec, others []markOnPage) bool {
	in := !bound(m) || m.Close && geom.Inside(line, text)
	own := line
	if m.Close {
		own = append(slices.Clone(line), line[0])
	}
	least := 1.4*away(own, text) + 1.1 // as at seams
	for _, o := range others {
		if o.close && geom.Inside(o.line[:len(o.line)-1], text) || !in && away(o.line, text) < least {
			return false
		}
	}
	return true
}

func middleOf(line []r2.Vec) r2.Vec {
	b := geom.Bounds(line)
	return geom.Lerp(b.Min, b.Max, 0.5)
}

// inPatch are places in a patch of four corners, its middle first, upright and
// along its sides.
func inPatch(c []r2.Vec) (out []place) {
	if len(c) != 4 {
		return []place{{middleOf(c), 0}, {middleOf(c), math.Pi / 2}}
	}
	u, v := r2.Sub(c[1], c[0]), r2.Sub(c[3], c[0])
	angles := []float64{0, math.Pi / 2, readable(math.Atan2(u.Y, u.X)), readable(math.Atan2(v.Y, v.X))}
	for _, a := range angles {
		for _, s := range [][2]float64{{0.5, 0.5}, {0.5, 0.3}, {0.5, 0.7}, {0.3, 0.5}, {0.7, 0.5}, {0.5, 0.15}, {0.5, 0.85}, {0.2, 0.2}, {0.8, 0.2}, {0.2, 0.8}, {0.8, 0.8}} {
			out = append(out, place{r2.Add(c[0], r2.Add(r2.Scale(s[0], u), r2.Scale(s[1], v))), a})
		}
	}
	return out
}

// besideSides are places outside a patch, at the middle of each of its sides and
// to either hand of it.
func besideSides(c []r2.Vec, w, h float64) (out []place) {
	const gap = 1.0
	ring := geom.CCW(slices.Clone(c))
	for _, share := range []float64{0.5, 0.2, 0.8} {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			d := r2.Sub(b, a)
			if r2.Norm(d) < geom.Coincident {
				continue
			}
			d = r2.Unit(d)
			at := r2.Add(geom.Lerp(a, b, share), r2.Scale(gap+h/2, r2.Vec{X: d.Y, Y: -d.X}))
			out = append(out, place{at, readable(math.Atan2(d.Y, d.X))})
		}
	}
	return out
}

// markAside is the text of a mark that stands farther off, with a line to it: to
// any of its sides.
func (d *drawing) markAside(m pattern.Mark, line []r2.Vec, r *room) lost {
	l := lost{says: `"` + d.says(m) + `"`, on: d.panel.Label, within: true}
	for _, at := range ends(m, line) {
		if r.inside(at) {
			l.or = append(l.or, at)
		}
	}
	if l.at = middleOf(line); len(l.or) > 0 {
		l.at = l.or[0]
	}
	for _, letters := range markWraps {
		l.blocks = append(l.blocks, textBlock(wrap(d.says(m), letters)))
	}
	return l
}

// ends are places at which a line from a mark's text may end.
func ends(m pattern.Mark, line []r2.Vec) (out []r2.Vec) {
	if !m.Close {
		for _, share := range []float64{0.5, 0.25, 0.75} {
			if m.Kind == pattern.MarkCovered { // on the side that it speaks of
				out = append(out, strokeAt(line, share)[1])
				continue
			}
			out = append(out, geom.At(line, share*geom.Length(line)))
		}
		return out
	}
	for i, a := range line {
		out = append(out, geom.Lerp(a, line[(i+1)%len(line)], 0.5))
	}
	return out
}

// around are places on rings round a point, nearest first.
func around(at r2.Vec, w, h float64) []place {
	out := []place{{at, 0}, {at, math.Pi / 2}}
	for ring := 1; ring <= 8; ring++ {
		for k := range 8 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 4)
			reach := float64(ring) * 0.75
			out = append(out, place{r2.Add(at, r2.Vec{X: cos * reach * (w/2 + 1.5), Y: sin * reach * (h/2 + 1.5)}), 0})
		}
	}
	return out
}
