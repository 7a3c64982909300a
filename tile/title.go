package tile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// title sets the first of some blocks that has room, and tells whether it is any
// but the last one: whether piece, panel, copies, face and revision all stand
// there.
func (d *drawing) title(r *room, blocks []block, sizes []float64) (items []draw.Item, complete bool) {
	spots := r.spots()
	if off := slices.DeleteFunc(slices.Clone(spots), func(s spot) bool { return d.inPatch(s.p) }); len(off) < len(spots) {
		for _, b := range blocks[:len(blocks)-1] { // where nobody takes it for a patch's
			if items, ok := r.putTitle(b, sizes, off); ok {
				return items, true
			}
		}
	}
	for i, b := range blocks {
		if items, ok := r.putTitle(b, sizes, spots); ok {
			return items, i < len(blocks)-1
		}
	}
	return nil, false
}

var titleSizes = []float64{4, 3.4, 2.9, 2.5, 2.1, 1.8}

// putTitle sets a title at the roomiest place, upright if that does not make it
// smaller.
func (r *room) putTitle(b block, sizes []float64, spots []spot) ([]draw.Item, bool) {
	return r.put(b, sizes, func(w, h float64) []place {
		var out []place
		need := math.Hypot(w, h) / 2
		tried := 0
		for _, angle := range []float64{0, math.Pi / 2, math.Pi / 4, -math.Pi / 4, math.Pi / 6, -math.Pi / 6, math.Pi / 3, -math.Pi / 3} {
			for i, s := range spots {
				if s.clear < min(w, h)/2 {
					break // the rest has less room still
				}
				out = append(out, place{s.p, angle})
				tried++
				if s.clear > need && i == 0 {
					return out // fits for certain
				}
			}
		}
		return out
	})
}

// titleBlocks are the title in a fuller and fewer lines.
func (d *drawing) titleBlocks() []block {
	name := d.panel.Label
	if d.panel.Name != "" {
		name += "  " + d.panel.Name
	}
	rev := "rev " + d.w.rev
	thick := units.FormatFoam(d.piece.Foam(d.panel), d.piece.Units) + " foam"
	switch {
	case d.panel.Role == pattern.Pad:
		thick = units.FormatFoam(d.piece.Foam(d.panel), d.piece.Units) + " soft foam"
	case d.piece.MockUp:
		thick = "mock-up in card"
	}
	cut := copies(d.panel.Copies, d.panel.Flipped)
	of := d.piece.Name
	if d.piece.Copies > 1 {
		of += " (pair)"
	}
	full := block{rows: []row{{name, 1.3, true}, {of, 1, false}, {cut + " · " + thick, 1, false}, {"show face up: this side is the OUTSIDE", 0.85, false}, {rev, 0.7, false}}}
	mid := block{rows: []row{{d.panel.Label, 1.3, true}, {of, 0.8, false}, {d.panel.Name, 0.8, false}, {cut, 0.8, false}, {thick, 0.8, false}, {"this side is", 0.8, false}, {"the OUTSIDE", 0.8, false}, {rev, 0.7, false}}}
	small := block{rows: []row{{d.panel.Label, 1.2, true}, {of, 0.9, false}, {cut, 0.9, false}, {thick, 0.9, false}, {"OUTSIDE up", 0.9, false}, {rev, 0.8, false}}}
	least := block{rows: []row{{d.panel.Label, 1, true}}}
	if n := len(d.piece.CopiesOf(d.panel)); d.panel.Flipped == 0 && n > 1 && d.panel.Role == pattern.OfShell {
		full.rows = append(full.rows, row{fmt.Sprintf("%d places alike:", n), 0.7, false}, row{"none of them is flipped", 0.7, false})
		mid.rows = append(mid.rows, row{fmt.Sprintf("%d places alike", n), 0.8, false})
	}
	if d.panel.Role == pattern.FlatPart {
		full.rows = append(full.rows, row{"stays flat; its place: see the drawing of the " + d.piece.Name, 0.7, false})
	}
	if d.panel.Formed != nil {
		mid.rows = append(mid.rows, row{"heat and form", 0.8, false})
	}
	for _, s := range d.panel.Notes {
		for _, l := range wrap(s, 40) {
			full.rows = append(full.rows, row{l, 0.7, false})
		}
	}
	if d.piece.Draft {
		full.rows = append(draftRows(d.piece.DraftWhy, 36), full.rows...)
		mid.rows = append(draftRows(d.piece.DraftWhy, 20), mid.rows...)
		smaller := block{rows: append([]row{{"DRAFT", 1, true}}, small.rows...)}
		small.rows = append(draftRows(d.piece.DraftWhy, 16), small.rows...)
		least.rows = append([]row{{"DRAFT", 1, true}}, least.rows...)
		return []block{full, mid, small, smaller, least}
	}
	return []block{full, mid, small, least}
}

func draftRows(why string, n int) []row {
	var out []row
	for _, l := range wrap("DRAFT – "+why, n) {
		out = append(out, row{l, 0.9, true})
	}
	return out
}

// copies says how many to cut: "cut 2, 1 of them flipped".
func copies(n, flipped int) string {
	s := fmt.Sprintf("cut %d", n)
	switch {
	case flipped == 0:
		return s
	case flipped == n:
		return s + ", flipped"
	default:
		return fmt.Sprintf("%s, %d flipped", s, flipped)
	}
}

// upArrow shows which way is up when worn.
func (d *drawing) upArrow(r *room, spots []spot) []draw.Item {
	up := d.w.PageFromPanel.Dir(d.panel.Up)
	if r2.Norm(up) < 0.5 {
		return nil
	}
	angle := math.Atan2(up.Y, up.X)
	for _, length := range []float64{26, 20, 14, 10} {
		for _, s := range spots {
			box := rectangle(s.p, length+1, 6, angle)
			if s.clear >= 2.5 && r.free(box) && !d.inPatch(s.p) {
				r.taken = append(r.taken, box)
				return arrow(geom.Turned(angle, s.p), length, upWord(d.panel))
			}
		}
	}
	return nil
}

// upWord is what the arrow points to: a panel that lies level when worn, such
// as the top of a helm, has a front but no up.
func upWord(p *pattern.Panel) string {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range p.Surface.Bent {
		low, high = min(low, v.Y), max(high, v.Y)
	}
	if len(p.Surface.Bent) > 0 && high-low < 1 {
		return "front"
	}
	return "up"
}

func arrow(m geom.Rigid, length float64, word string) []draw.Item {
	h := length / 2
	shaft := m.ApplyAll([]r2.Vec{{X: -h}, {X: h - 2.5}})
	head := m.ApplyAll([]r2.Vec{{X: h}, {X: h - 3}, {X: h - 3}})
	head[1] = m.Apply(r2.Vec{X: h - 3, Y: 1.3})
	head[2] = m.Apply(r2.Vec{X: h - 3, Y: -1.3})
	black := draw.Color{}
	angle := readable(m.Angle())
	middle := m.Apply(r2.Vec{X: -h + 3, Y: -1.6})
	down := r2.Vec{X: math.Sin(angle), Y: -math.Cos(angle)}
	text := &draw.Text{At: r2.Add(middle, r2.Scale(2.2*draw.CapHeight/2, down)), Size: 2.2, Angle: angle, Align: draw.Centre, S: word, Layer: "text"}
	return []draw.Item{
		&draw.Path{Subpaths: [][]r2.Vec{shaft}, Stroke: draw.Style{Width: 0.3}, Layer: "mark"},
		&draw.Path{Subpaths: [][]r2.Vec{head}, Closed: true, Fill: &black, Layer: "mark"},
		text,
	}
}

// pieceTitle is a piece as it is called on index and overview.
func pieceTitle(name, title string) string {
	if title == "" || strings.Contains(strings.ToLower(name), strings.ToLower(title)) {
		return name
	}
	return name + " (" + title + ")"
}
