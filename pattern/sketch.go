package pattern

import (
	"fmt"
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// sketch is a drawn curve before a piece, in piece axes.
type sketch struct {
	Drawn
	eye  eye      // the lens; its picture stands where the middle of the piece does
	line []r2.Vec // the smooth curve in the picture; an opening's is closed
	turn []int    // which of its points are corners
}

// nearestLens is the least distance of a lens from the middle of a piece, mm: a
// camera nearer than that is a slip (judgement).
const nearestLens = 300.0

// widest is how far a curve may reach to the side of its middle as seen from
// the lens: more is no photograph of one piece (judgement).
const widest = math.Pi / 4

// sketch brings a drawn curve before the piece.
func (b *builder) sketch(d Drawn, w *walls) (*sketch, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	s := &sketch{Drawn: d}
	rays := b.intoPiece(s)
	var sum r3.Vec
	for _, r := range rays {
		sum = r3.Add(sum, r)
	}
	s.eye.kind, s.eye.toward = lens, r3.Scale(-1, r3.Unit(sum))
	s.eye.stand()
	s.eye.depth = -r3.Dot(r3.Sub(w.middle, s.eye.at), s.eye.toward)
	if s.eye.depth <= 0 {
		return nil, fmt.Errorf("the piece lies behind the lens of that photograph; look at the photograph's view and marks")
	}
	if s.eye.depth < nearestLens {
		return nil, fmt.Errorf("the lens of that photograph would stand %s from the middle of the piece; %s is the least. Look at the photograph's marks", units.Format(s.eye.depth, b.order.Units), units.Format(nearestLens, b.order.Units))
	}
	var points []r2.Vec
	for i, r := range rays {
		if -r3.Dot(r, s.eye.toward) < math.Cos(widest) {
			return nil, fmt.Errorf("point %d of the curve lies far off the others", i+1)
		}
		points = append(points, s.eye.see(r3.Add(s.eye.at, r)))
	}
	s.smooth(points)
	return s, nil
}

// stand turns the eye's picture upright: the piece's up is up, or in a view from
// above or below its forward.
func (e *eye) stand() {
	const steep = 0.9
	up := r3.Vec{Y: 1}
	if math.Abs(e.toward.Y) > steep {
		up = r3.Vec{Z: 1}
	}
	e.right = r3.Unit(r3.Cross(up, e.toward))
	e.up = r3.Cross(e.toward, e.right)
}

func (d Drawn) check() error {
	least := 3
	if d.Kind != DrawnOpening {
		least = 2
	}
	if len(d.Rays) < least {
		return fmt.Errorf("its curve has too few points: %d; %d are the least", len(d.Rays), least)
	}
	if d.Corner != nil && len(d.Corner) != len(d.Rays) {
		return fmt.Errorf("its curve has %d points, and of %d it is said whether they are corners", len(d.Rays), len(d.Corner))
	}
	for i, r := range append([]r3.Vec{d.Eye}, d.Rays...) {
		if l := r3.Norm(r); math.IsNaN(l) || math.IsInf(l, 0) || i > 0 && l == 0 {
			return fmt.Errorf("its photograph was not solved: a ray has no direction")
		}
	}
	return nil
}

// intoPiece brings lens and rays from body axes into the piece's, in which a
// right piece is the image of a left one. A curve drawn on the other limb of a
// pair is mirrored to this one.
func (b *builder) intoPiece(s *sketch) []r3.Vec {
	other := b.onOtherLimb(s.Drawn)
	local := func(p r3.Vec) r3.Vec {
		if other {
			p = mirrorX(p)
		}
		p = b.stand.frame.Local(p)
		if b.stand.mirrored {
			p = mirrorX(p)
		}
		return p
	}
	s.eye.at = local(s.Eye)
	var rays []r3.Vec
	for _, r := range s.Rays {
		rays = append(rays, r3.Unit(r3.Sub(local(r3.Add(s.Eye, r3.Unit(r))), s.eye.at)))
	}
	return rays
}

// onOtherLimb tells whether a curve was drawn on the other one of two limbs
// that are made alike.
func (b *builder) onOtherLimb(d Drawn) bool {
	if !b.stand.paired() || b.order.Side != body.Both {
		return false
	}
	off := func(side body.Side) float64 {
		part, ok := b.form.Part(b.stand.segment, side)
		if !ok {
			return math.Inf(1)
		}
		low, high := part.Range()
		to := r3.Sub(part.Frame.Point(part.Centre((low+high)/2)), d.Eye)
		sum := 0.0
		for _, r := range d.Rays {
			sum += r3.Norm(r3.Cross(r3.Unit(r), to))
		}
		return sum
	}
	if b.partSide() == body.Left {
		return off(body.Right) < off(body.Left)
	}
	return off(body.Left) < off(body.Right)
}

// smooth runs the curve through its points: closed for an opening, else from
// the first to the last.
func (s *sketch) smooth(points []r2.Vec) {
	corner := s.Corner
	if corner == nil {
		corner = make([]bool, len(points))
	}
	curve := geom.SmoothLine
	if s.Kind == DrawnOpening {
		curve = geom.SmoothRing
	}
	s.line = curve(points, corner, smoothStep)
	at := 0
	for i, p := range points { // the curve keeps them as vertices, in turn
		for s.line[at] != p {
			at++
		}
		if corner[i] {
			s.turn = append(s.turn, at)
		}
	}
}
