package photo

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"tasset/internal/geom"
)

// TracePoint is a point of an outline traced over a laid picture.
type TracePoint struct {
	At     Pixel // of the laid picture
	Corner bool  // the outline turns sharply here
}

// Traced is a traced outline at true size. It runs counter-clockwise and is
// smooth but at its corners (geom.SmoothRing). Its origin is the middle of the
// laid picture, X along the picture to the right and Y up, whichever way it was
// turned.
type Traced struct {
	Name          string
	Points        []r2.Vec // mm
	Corner        []bool   // of each point
	Width, Height float64  // of the smooth curve, mm
	Share         float64  // 95 % error of its size, as a share of it
	Checked       bool     // the size comes from a known length on the picture
	Where         string   // place in the maker's file
}

// Limits of what can be traced: detail below, a sheet of foam's worth above.
const (
	leastTraced  = 3.0    // mm
	mostTraced   = 6000.0 // mm
	mostPoints   = 2000
	tracedStep   = 1.5 // mm: chords of the smooth curve, as panels are drawn
	closestTrace = .05 // mm between neighbouring points
)

// Trace gives an outline its true size. Its first point is not repeated at the
// end. The error says which points are wrong: outside the picture, on one
// place, or where the smooth curve crosses itself.
func (l *Laid) Trace(outline []TracePoint, where string) (*Traced, error) {
	t := &Traced{Name: l.Name, Share: 1.96 * l.Share, Checked: l.Checked, Where: where}
	if len(outline) < 3 || len(outline) > mostPoints {
		return nil, at(where, l.Name+", outline", fmt.Errorf("it has %d points; it takes 3 at least, and %d at most", len(outline), mostPoints))
	}
	for i, p := range outline {
		if err := inPicture(p.At, l.Width, l.Height, l.Picture); err != nil {
			return nil, at(where, fmt.Sprintf("%s, outline, point %d", l.Name, i+1), err)
		}
		t.Points, t.Corner = append(t.Points, l.mm(p.At)), append(t.Corner, p.Corner)
	}
	if err := t.simple(); err != nil {
		return nil, at(where, l.Name+", outline", err)
	}
	return t, nil
}

// simple checks that the smooth curve bounds one area of a size that can be
// cut, measures it and turns it counter-clockwise.
func (t *Traced) simple() error {
	n := len(t.Points)
	for i, p := range t.Points {
		if j := (i + 1) % n; geom.Dist(p, t.Points[j]) < closestTrace {
			return fmt.Errorf("points %d and %d are one place; leave one out (the outline closes by itself)", i+1, j+1)
		}
	}
	if onOneLine(t.Points) {
		return fmt.Errorf("all its points lie on one line; draw it round the part")
	}
	box := geom.Bounds(t.Points)
	if size := r2.Sub(box.Max, box.Min); max(size.X, size.Y) > mostTraced || max(size.X, size.Y) < leastTraced {
		return fmt.Errorf("it would be %s wide and %s high; %.0f mm to %.0f m can be traced: look at the scale or the known length", metres(size.X), metres(size.Y), leastTraced, mostTraced/1000)
	}
	ring := geom.SmoothRing(t.Points, t.Corner, tracedStep)
	if i, j, bad := geom.Crossing(ring); bad {
		a, b := t.stretch(ring, i), t.stretch(ring, j)
		return fmt.Errorf("it crosses or touches itself: from point %d to %d and from point %d to %d", a+1, (a+1)%n+1, b+1, (b+1)%n+1)
	}
	box = geom.Bounds(ring)
	t.Width, t.Height = box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	if geom.Area(ring) < 0 {
		slices.Reverse(t.Points)
		slices.Reverse(t.Corner)
	}
	return nil
}

// onOneLine tells whether points leave a straight line by no more than they may
// stand apart.
func onOneLine(pts []r2.Vec) bool {
	far := slices.MaxFunc(pts, func(a, b r2.Vec) int { return cmp.Compare(geom.Dist(a, pts[0]), geom.Dist(b, pts[0])) })
	along := r2.Unit(r2.Sub(far, pts[0]))
	return !slices.ContainsFunc(pts, func(p r2.Vec) bool {
		return math.Abs(r2.Cross(along, r2.Sub(p, pts[0]))) > closestTrace
	})
}

// metres writes a size that may be out of all measure.
func metres(mm float64) string {
	if mm < 1000 {
		return fmt.Sprintf("%.3g mm", mm)
	}
	return fmt.Sprintf("%.1f m", mm/1000)
}

// stretch is the point of the outline after which an edge of its smooth curve
// lies: its points are vertices of the curve.
func (t *Traced) stretch(ring []r2.Vec, edge int) int {
	after := -1
	for _, v := range ring[:edge+1] {
		if after+1 < len(t.Points) && v == t.Points[after+1] {
			after++
		}
	}
	return after
}
