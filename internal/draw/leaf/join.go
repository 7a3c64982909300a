package leaf

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Strip is how far neighbouring pages of a sheet overlap, mm: the strip to glue.
const Strip = 10

// Border is one that a page shares with its neighbour.
type Border struct {
	At      float64 // its x if it is upright, else its y
	Upright bool
	Over    bool // this page is trimmed here and laid over the neighbour's strip
	Number  int  // the same on both pages

	Crossed []float64 // where lines of the drawing cross the border, mm along it from its start
}

// Join is the line along a shared border with its diamonds, half on each page.
// Its texts keep clear of what is drawn already, if they can.
func Join(area draw.Rect, drawn []draw.Item, b Border) []draw.Item {
	at, upright, over := b.At, b.Upright, b.Over
	point := func(along, across float64) r2.Vec {
		if upright {
			return r2.Vec{X: at + across, Y: along}
		}
		return r2.Vec{X: along, Y: at + across}
	}
	from, to := area.Min.Y, area.Max.Y
	if !upright {
		from, to = area.Min.X, area.Max.X
	}
	inward, says, depth := -1.0, "glue strip – the next page lies over it", []float64{Strip / 2, 2.2, Strip - 2.2}
	if over {
		inward, says, depth = 1, "trim here, lay over the strip", []float64{2.2, 4.5}
	}
	line := &draw.Path{Subpaths: [][]r2.Vec{{point(from, 0), point(to, 0)}}, Stroke: draw.Style{Width: 0.15, Color: grey}, Layer: "frame"}
	marks := &draw.Path{Stroke: draw.Style{Width: 0.2}, Clip: &area, Layer: "frame"}
	items := []draw.Item{line, marks}
	for k, f := range MarkPlaces {
		s := from + clearOf(b.Crossed, f*(to-from), to-from)
		marks.Subpaths = append(marks.Subpaths,
			[]r2.Vec{point(s-4, 0), point(s, 4), point(s+4, 0), point(s, -4), point(s-4, 0)},
			[]r2.Vec{point(s, -4), point(s, 4)})
		var tries []*draw.Text
		for _, off := range []float64{0, -4, 4, -8, 8} {
			tries = append(tries, note(point(s+off, 6.6*inward), 2.6, upright, fmt.Sprintf("%d%c", b.Number, 'a'+k), true))
		}
		items = append(items, firstClear(tries, drawn))
	}
	var tries []*draw.Text
	for _, d := range depth {
		for _, f := range []float64{0.5, 0.38, 0.62, 0.08, 0.92} {
			half := draw.TextWidth(says, 2, false)/2 + 1
			along := min(max(from+f*(to-from), from+half), to-half)
			tries = append(tries, note(point(along, d), 2, upright, says, false))
		}
	}
	return append(items, firstClear(tries, append(drawn[:len(drawn):len(drawn)], items...)))
}

// firstClear is the first text that nothing drawn runs through, or the first of
// all.
func firstClear(tries []*draw.Text, drawn []draw.Item) *draw.Text {
	for _, t := range tries {
		if !Struck(t.Corners(), drawn) {
			return t
		}
	}
	return tries[0]
}

// Struck tells whether anything drawn runs through a rectangle.
func Struck(b [4]r2.Vec, drawn []draw.Item) bool {
	for _, it := range drawn {
		switch it := it.(type) {
		case *draw.Text:
			if c := it.Corners(); crossedBy(b, c[:], true) {
				return true
			}
		case *draw.Path:
			for _, sub := range it.Subpaths {
				if crossedBy(b, sub, it.Closed) {
					return true
				}
			}
		}
	}
	return false
}

func crossedBy(b [4]r2.Vec, line []r2.Vec, closed bool) bool {
	for i := 0; i+1 < len(line); i++ {
		if Touches(b, line[i], line[i+1]) {
			return true
		}
	}
	n := len(line)
	return closed && n > 2 && Touches(b, line[n-1], line[0])
}

// clearOf is the place nearest to one along a border at which no line crosses a
// diamond, so that a line to cut by is seen; that itself if there is none.
func clearOf(crossed []float64, at, long float64) float64 {
	const half, step, far = 5.5, 1.0, 30.0 // mm
	for off := 0.0; off <= far; off += step {
		for _, s := range []float64{at - off, at + off} {
			if s < half || s > long-half || slices.ContainsFunc(crossed, func(c float64) bool { return math.Abs(c-s) < half }) {
				continue
			}
			return s
		}
	}
	return at
}

// MarkPlaces are where the diamonds stand along a border, as parts of it, unless a
// line of the drawing crosses it there.
var MarkPlaces = []float64{0.2, 0.8}

func note(at r2.Vec, size float64, upright bool, s string, bold bool) *draw.Text {
	t := &draw.Text{At: at, Size: size, Align: draw.Centre, S: s, Bold: bold, Layer: "frame"}
	if upright {
		t.Angle = rightAngle
		t.At.X += size * draw.CapHeight / 2
	} else {
		t.At.Y -= size * draw.CapHeight / 2
	}
	return t
}

// Touches tells whether a line touches a rectangle (its corners counter-clockwise).
func Touches(b [4]r2.Vec, p, q r2.Vec) bool {
	pIn, qIn := true, true
	for i := range b {
		side := r2.Sub(b[(i+1)%4], b[i])
		pOut, qOut := r2.Cross(side, r2.Sub(p, b[i])) < 0, r2.Cross(side, r2.Sub(q, b[i])) < 0
		if pOut && qOut { // most lines: all of it lies past one side
			return false
		}
		pIn, qIn = pIn && !pOut, qIn && !qOut
	}
	if pIn || qIn {
		return true
	}
	for i := range b {
		if geom.SegmentsMeet(b[i], b[(i+1)%4], p, q) {
			return true
		}
	}
	return false
}

// InBox tells whether a point lies in a rectangle.
func InBox(b [4]r2.Vec, p r2.Vec) bool {
	for i := range b {
		if r2.Cross(r2.Sub(b[(i+1)%4], b[i]), r2.Sub(p, b[i])) < 0 {
			return false
		}
	}
	return true
}

var grey = draw.Color{R: 110, G: 110, B: 110}
