package costume

import (
	"fmt"
	"math"
	"regexp"
	"sort"
	"strconv"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// This file reads templates off printed pages and knows nothing of panels but
// what the first page tells a maker: the outline is thin, what is joined is
// thick or dash-dotted and ends at a corner or a short thick bar, "3 ▸ V2" stands
// beside its edge, strokes are notches.

// sheetInk is what is printed on one page, by the look of it.
type sheetInk struct {
	outlines [][]r2.Vec // closed cut lines
	joined   [][]r2.Vec // thick cut lines
	seams    [][]r2.Vec // dash-dotted seam lines
	ends     []r2.Vec   // where a short thick bar ends an edge
	strokes  [][2]r2.Vec
	texts    []*draw.Text
	frames   [][]r2.Vec  // thin frames round texts that stand away from what they are about
	pointers [][2]r2.Vec // and lines from such a frame to it
}

// readTemplate is one template as read off a page; page axes.
type readTemplate struct {
	label, piece    string
	copies, flipped int
	pair            bool
	outline         []r2.Vec
	edges           []readEdge
}

// readEdge is a stretch of a template's seam line, counter-clockwise.
type readEdge struct {
	seam, partner string // "3b", "V2"; "" until its text is found
	flipped       bool   // it says that it meets a flipped copy
	line          []r2.Vec
	length        float64
	notches       []readNotch
}

type readNotch struct {
	at   float64 // mm from the start of the edge
	rank int
}

func inkOf(page draw.Page) sheetInk {
	var ink sheetInk
	for _, it := range page.Items {
		switch it := it.(type) {
		case *draw.Text:
			ink.texts = append(ink.texts, it)
		case *draw.Path:
			for _, sub := range it.Subpaths {
				ink.add(it, sub)
			}
		}
	}
	return ink
}

func (ink *sheetInk) add(p *draw.Path, line []r2.Vec) {
	switch {
	case p.Layer == "cut" && p.Closed:
		ink.outlines = append(ink.outlines, geom.CCW(line))
	case p.Layer == "seam" && p.Stroke.Dash == nil && p.Stroke.Width > 0.5:
		ink.ends = append(ink.ends, line[0])
	case p.Layer == "cut" && p.Stroke.Width > 0.5:
		ink.joined = append(ink.joined, line)
	case p.Layer == "seam":
		ink.seams = append(ink.seams, line)
	case p.Layer == "aside" && p.Closed:
		ink.frames = append(ink.frames, geom.CCW(line))
	case p.Layer == "aside":
		ink.pointers = append(ink.pointers, [2]r2.Vec{line[0], line[1]})
	case p.Layer == "mark" && !p.Closed && p.Stroke.Dash == nil && len(line) == 2:
		ink.strokes = append(ink.strokes, [2]r2.Vec{line[0], line[1]})
	}
}

// templates reads all that is on a page, and says what it cannot make out.
func (ink sheetInk) templates() (out []readTemplate, faults []error) {
	for i, ring := range ink.outlines {
		if ink.isHole(i) {
			continue
		}
		r := readTemplate{outline: ring}
		r.readTitle(ink)
		errs := r.readLines(ink)
		errs = append(errs, r.readSeamTexts(ink)...)
		for _, err := range append(errs, r.readNotches(ink)...) {
			faults = append(faults, fmt.Errorf("template %s: %w", r.label, err))
		}
		out = append(out, r)
	}
	return out, faults
}

func (ink sheetInk) isHole(i int) bool {
	for j, ring := range ink.outlines {
		if j != i && geom.Inside(ring, ink.outlines[i][0]) {
			return true
		}
	}
	return false
}

// written is a text and the place that it is about: beside it, or where the line
// from its frame points.
type written struct {
	*draw.Text
	at      r2.Vec
	pointed bool
}

// within are the texts on the template, and those that a line says belong to it.
func (r *readTemplate) within(ink sheetInk) []written {
	var out []written
	for _, text := range ink.texts {
		w := ink.about(text)
		if geom.Inside(r.outline, w.at) || w.pointed && geom.DistToRing(r.outline, w.at) < touching {
			out = append(out, w)
		}
	}
	return out
}

// about is what a text is about.
func (ink sheetInk) about(text *draw.Text) written {
	for _, frame := range ink.frames {
		if !geom.Inside(frame, text.At) {
			continue
		}
		for _, p := range ink.pointers {
			if geom.DistToRing(frame, p[0]) < touching {
				return written{text, p[1], true}
			}
		}
	}
	return written{text, text.At, false}
}

var (
	titleText = regexp.MustCompile(`^([A-Z][A-Za-z]*\d+)(  .+)?$`)
	cutText   = regexp.MustCompile(`^cut (\d+)(, (?:(\d+) )?flipped)?\b`)
	seamText  = regexp.MustCompile(`^(\d+[a-z]?) ▸ (\S+)( flipped)?$`)
	pairText  = regexp.MustCompile(`\(pair\b`)
)

func (r *readTemplate) readTitle(ink sheetInk) {
	for _, text := range r.within(ink) {
		if m := titleText.FindStringSubmatch(text.S); m != nil && text.Bold {
			r.label = m[1]
		}
		if m := cutText.FindStringSubmatch(text.S); m != nil {
			r.copies, _ = strconv.Atoi(m[1])
			if m[2] != "" {
				r.flipped = r.copies
			}
			if m[3] != "" {
				r.flipped, _ = strconv.Atoi(m[3])
			}
		}
		r.pair = r.pair || pairText.MatchString(text.S)
	}
}

// outside is how far a seam line lies outside the line to cut, which its text then
// stands beside; 0 for one inside it.
func (r *readTemplate) outside(e readEdge) float64 {
	mid := geom.At(e.line, e.length/2)
	if geom.Inside(r.outline, mid) {
		return 0
	}
	return geom.DistToRing(r.outline, mid)
}

// readSeamTexts gives each text "3 ▸ V2" to the edge it stands beside. It is
// an error if another edge is about as near, or an edge has none or two.
func (r *readTemplate) readSeamTexts(ink sheetInk) (errs []error) {
	for _, text := range r.within(ink) {
		m := seamText.FindStringSubmatch(text.S)
		if m == nil {
			continue
		}
		near, next := -1, math.Inf(1)
		best := math.Inf(1)
		for i, e := range r.edges {
			d := max(0, distToLine(e.line, text.at)-r.outside(e))
			if d < best {
				near, best, next = i, d, best
			} else {
				next = min(next, d)
			}
		}
		if text.pointed && best < touching && next > 0.5 { // the dot at the line's end is as large as that
			next = math.Inf(1)
		}
		if near < 0 || next < 1.3*best+1 {
			errs = append(errs, fmt.Errorf("%q stands %.1f mm from one edge and %.1f mm from another", text.S, best, next))
			continue
		}
		e := &r.edges[near]
		if e.seam != "" && (e.seam != m[1] || e.partner != m[2] || e.flipped != (m[3] != "")) {
			errs = append(errs, fmt.Errorf("an edge of %.1f mm says %s ▸ %s, flipped %t, and %q", e.length, e.seam, e.partner, e.flipped, text.S))
		}
		e.seam, e.partner, e.flipped = m[1], m[2], m[3] != ""
	}
	r.mergeEdges(ink.ends)
	for _, e := range r.edges {
		if e.seam == "" {
			errs = append(errs, fmt.Errorf("an edge of %.1f mm does not say what it meets", e.length))
		}
	}
	return errs
}

// mergeEdges makes one edge of neighbouring stretches that say the same with no bar
// between them: an edge that turns a corner says on both sides of it what it meets.
func (r *readTemplate) mergeEdges(ends []r2.Vec) {
	for i := 0; i < len(r.edges); i++ {
		for j := range r.edges {
			a, b := &r.edges[i], &r.edges[j]
			if i == j || a.seam == "" || a.seam != b.seam || a.partner != b.partner || a.flipped != b.flipped ||
				geom.Dist(a.line[len(a.line)-1], b.line[0]) > touching || isEnd(ends, b.line[0]) {
				continue
			}
			a.line = append(append([]r2.Vec(nil), a.line...), b.line[1:]...)
			a.length = geom.Length(a.line)
			r.edges = append(r.edges[:j], r.edges[j+1:]...)
			i = -1
			break
		}
	}
}

// readNotches finds the strokes that stand square on each edge and counts them.
func (r *readTemplate) readNotches(ink sheetInk) (errs []error) {
	for i := range r.edges {
		e := &r.edges[i]
		var feet []float64
		inner := map[float64]r2.Vec{}
		for _, s := range ink.strokes {
			if at, ok := e.foot(s); ok {
				feet = append(feet, at)
				inner[at] = s[1]
			}
		}
		sort.Float64s(feet)
		for len(feet) > 0 {
			n := 1
			for n < len(feet) && feet[n]-feet[n-1] < 2 { // strokes of one notch
				n++
			}
			rank, mean := n, (feet[0]+feet[n-1])/2
			if n == 1 {
				rank = r.notchNumber(ink, inner[feet[0]])
			}
			e.notches = append(e.notches, readNotch{mean, rank})
			feet = feet[n:]
		}
		if !countsUp(e.notches) {
			errs = append(errs, fmt.Errorf("the notches of %s ▸ %s do not count up: %v", e.seam, e.partner, e.notches))
		}
	}
	return errs
}

// foot is where on the edge a stroke stands, if it does and is square to it.
func (e *readEdge) foot(s [2]r2.Vec) (at float64, ok bool) {
	dir := r2.Unit(r2.Sub(s[1], s[0]))
	from := r2.Sub(s[0], r2.Scale(touching, dir))
	for i, c := 0, geom.Lengths(e.line); i+1 < len(e.line); i++ {
		a, b := e.line[i], e.line[i+1]
		if !geom.SegmentsMeet(from, s[1], a, b) {
			continue
		}
		side := r2.Unit(r2.Sub(b, a))
		if math.Abs(r2.Dot(side, dir)) > 0.35 { // not within 20° of square
			continue
		}
		t := r2.Cross(r2.Sub(from, a), dir) / r2.Cross(side, dir)
		return c[i] + t, true
	}
	return 0, false
}

// notchNumber is the number beside a stroke's inner end, 1 if there is none.
func (r *readTemplate) notchNumber(ink sheetInk, end r2.Vec) int {
	for _, text := range ink.texts {
		if n, err := strconv.Atoi(text.S); err == nil && geom.Dist(text.At, end) < 6 && geom.Inside(r.outline, text.At) {
			return n
		}
	}
	return 1
}

// countsUp tells whether ranks run 1, 2, 3 … in either direction.
func countsUp(ns []readNotch) bool {
	up, down := true, true
	for i, n := range ns {
		up = up && n.rank == i+1
		down = down && n.rank == len(ns)-i
	}
	return up || down
}
