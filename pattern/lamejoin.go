package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"
)

// rivetInset is how far a rivet of lames sits inside their ends, mm (common
// practice, no source).
const rivetInset = 20.0

// joinLames marks how the lames of a run hang together: on rivets at both sides,
// through neighbours at one place, or on three straps that are glued inside.
func (b *builder) joinLames(p *Piece, s *shape) {
	if s.lames == nil || s.lames.lames.count < 2 {
		return
	}
	if s.lames.lames.pivot {
		b.rivets(p, s)
	} else {
		b.lameStraps(p, s)
	}
}

// lameSpots are the places of lame n (from 1) at an angle and a level of the
// shell.
func (b *builder) lameSpots(p *Piece, s *shape, angle, level float64, n int) []placeOn {
	if b.template.Frame.Axis == "across" {
		level = -level
	}
	side := math.Sin(angle) > sameAngle
	if b.template.Mirror && math.Sin(angle) < -sameAngle { // comes with its image
		return nil
	}
	return b.spots(p, s, angle, level, b.template.Mirror && side, n)
}

func (b *builder) rivets(p *Piece, s *shape) {
	run, l := s.lames, s.lames.lames
	angles := []float64{math.Pi / 2, -math.Pi / 2}
	if sp := run.span; sp != nil && (turn(math.Pi/2-sp[0]) > sp[1]-sp[0] || turn(-math.Pi/2-sp[0]) > sp[1]-sp[0]) {
		in := rivetInset / max(farthestReach(s.shells[len(s.shells)-l.count:]), rivetInset)
		angles = []float64{sp[0] + in, sp[1] - in}
	}
	for i := range l.count - 1 {
		_, high := run.reach(i)
		low, _ := run.reach(i + 1)
		for _, angle := range angles {
			first := p.stands.count + 1
			marked := false
			for n := i + 1; n <= i+2; n++ {
				for _, at := range b.lameSpots(p, s, angle, (low+high)/2, n) {
					marked = true
					p.Panels[at.panel].Marks = append(p.Panels[at.panel].Marks, Mark{Kind: "fastening", Close: true,
						Line: around(at.q, leastMark, leastMark, true), Text: fmt.Sprintf("rivet %d", first)})
				}
			}
			if marked {
				p.stands.count++
			}
		}
	}
}

// lameStraps marks three straps down the run's inside. Each is as long as the
// run from the first lame's middle to the last one's, and as what the run grows
// by on its outer line when it bends, so that it hangs slack when straight.
func (b *builder) lameStraps(p *Piece, s *shape) {
	run, l := s.lames, s.lames.lames
	from, to := math.Pi, 3*math.Pi
	if run.gap != nil {
		from, to = run.gap.at, run.gap.at+2*math.Pi
	}
	if sp := run.span; sp != nil {
		from, to = sp[0], sp[1]
	}
	_, _, pitch := run.run()
	for _, share := range []float64{1. / 6, 1. / 2, 5. / 6} {
		number, angle := p.stands.count+1, from+share*(to-from)
		path, count := 0.0, 0
		var last anchor
		first := ""
		for i := range l.count {
			low, high := run.reach(i)
			for k, at := range b.lameSpots(p, s, angle, (low+high)/2, i+1) {
				panel := &p.Panels[at.panel]
				panel.Marks = append(panel.Marks, Mark{Kind: "fastening", Close: true, Line: around(at.q, strapWidth, pitch/2, true), Text: fmt.Sprintf("strap %d, inside", number)})
				if k > 0 {
					count = 2
					continue
				}
				next := anchor{piece: p, panel: at.panel, q: at.q}
				if first == "" {
					first, count = panel.Label, panel.perPiece(p)
				} else {
					path += geom.Dist(panel.Surface.Lift(at.q), last.on().Surface.Lift(last.q))
				}
				last = next
			}
		}
		if path == 0 {
			continue
		}
		p.stands.count = number
		r := farthestReach(s.shells[len(s.shells)-l.count:])
		p.Straps = append(p.Straps, Strap{Kind: "strap", Name: "strap", Number: number, Count: count, Width: strapWidth, Path: path,
			Length: path + pitch/2 + r*l.through, From: first, To: last.on().Label})
	}
}
