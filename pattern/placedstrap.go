package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// placedFastening marks a fastening at an angle and level, and its other part if
// that is on the same piece.
func (b *builder) placedFastening(e *evaluator, p *Piece, s *shape, f template.Fastening) {
	l := link{fastened: e.fastened(f, p.stands.count+1), to: f.To, angle: f.ToAngle, level: f.ToLevel, env: e.env}
	angle, level := e.num(f.Angle), e.num(f.Level)
	if e.err != nil {
		return
	}
	if f.To != "" {
		text, _ := l.ends()
		var ends []end
		for _, at := range b.spotsNear(p, s, angle, level, f.Mirror, l.strapped()) { // along the axis until it is joined
			ends = append(ends, end{placeOn: at, text: text + ", to the " + strings.ReplaceAll(f.To, "-", " "), along: p.at(at).alongAxis(b.stand.frame.Dir(b.axisOf(s)))})
		}
		l.at = p.mark(ends, l.fastened)
		if len(l.at) == 0 {
			b.nowhere(f, l.name)
			return
		}
		p.stands.links = append(p.stands.links, l)
		p.stands.count++
		return
	}
	from, to, second := b.spotsNear(p, s, angle, level, f.Mirror, l.strapped()), []placeOn(nil), false
	l.by = b.byWay(e, s, f)
	switch {
	case f.ToAngle.Set():
		second = true
		to = b.spotsNear(p, s, e.num(f.ToAngle), e.num(f.ToLevel), f.Mirror, l.strapped())
	case len(from) == 2 && l.strapped(): // from one side of the piece to the other
		from, to = from[:1], from[1:]
	}
	if e.err != nil {
		return
	}
	if len(from) == 0 || second && len(to) == 0 {
		b.nowhere(f, l.name)
		return
	}
	if f.Part != "" {
		b.notePart(p, s, l.fastened, angle, level, p.Panels[from[0].panel].Label)
	}
	onImage := l.strapped() && f.Mirror && len(to) == 0 && b.template.Mirror && p.Panels[from[0].panel].Flipped > 0
	b.fromTo(p, s, l.fastened, from, to, onImage, level)
	p.stands.count++
}

// nowhere says that a fastening stands where no panel is.
func (b *builder) nowhere(f template.Fastening, name string) {
	b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
		Said:    fmt.Sprintf("its %s is not marked: at one of its ends there is no panel.", name),
		Perhaps: fmt.Sprintf("Move it away from rims and openings, in %s:%d.", b.template.File, f.Line)})
}

// fromTo marks the two ends of a fastening on the same piece, and measures its
// strap: one from each place to the other that it has, or to its own image on the
// template turned over.
func (b *builder) fromTo(p *Piece, s *shape, f fastened, from, to []placeOn, onImage bool, level float64) {
	one, other := f.ends()
	switch {
	case onImage:
		one = f.onBothCopies()
	case f.kind == "hook-and-loop" && len(to) == 0 && f.part == "":
		one += "; the loops go on what it holds"
	}
	which := func(place placeOn) placeOn {
		if !onImage && !f.mirror {
			place.only = p.whichCopy(place)
		}
		return place
	}
	axis := b.stand.frame.Dir(b.axisOf(s))
	_, way, _ := b.openWay(s, level)
	along := func(here, there anchor) r2.Vec {
		if f.by != nil {
			_, out := here.place()
			return here.along(*f.by, out, r3.Vec{})
		}
		return here.alongTo(there, axis, way)
	}
	var ends []end
	for i, place := range from {
		e := end{placeOn: which(place), text: one}
		if len(to) > 0 {
			e.along = along(p.at(place), p.at(to[min(i, len(to)-1)]))
		} else if onImage {
			e.along = along(p.at(place), p.at(place).mirrored())
		}
		ends = append(ends, e)
	}
	for i, place := range to {
		ends = append(ends, end{placeOn: which(place), text: other, along: along(p.at(place), p.at(from[min(i, len(from)-1)]))})
	}
	all := p.mark(ends, f)
	if !f.strapped() {
		return
	}
	for range mostShorter { // as long at either end
		short := shortest(all)
		if short >= f.h {
			break
		}
		f.h = short
		again(ends, all)
		all = p.mark(ends, f)
	}
	at, there := all[:len(from)], slices.Clip(all[len(from):])
	if onImage {
		there = append(there, at[0].mirrored())
	}
	b.strapsBetween(p, s, f, at, there, onImage, level)
}

// strapsBetween are the straps from each place to the other that it has; one that has
// none is of a strap whose length is not known.
func (b *builder) strapsBetween(p *Piece, s *shape, f fastened, at, there []anchor, onImage bool, level float64) {
	for i, a := range at {
		if i >= len(there) {
			count := 1
			if f.mirror {
				count = a.on().perPiece(p)
			}
			p.Straps = append(p.Straps, Strap{Kind: f.kind, Name: f.name, Number: f.number, Count: count, Width: f.width, From: a.on().Label})
			continue
		}
		count := 1
		if f.mirror && !onImage && a.on().Flipped > 0 && there[i].on().Flipped > 0 { // the image has one, too
			count = a.on().perPiece(p)
		}
		path := 0.0
		from, _ := a.place()
		to, _ := there[i].place()
		switch {
		case f.girth > 0:
			path = pathBehind(geom.Dist(from, to), f.girth)
		case f.by != nil:
			way := r3.Sub(*f.by, r3.Scale(0.5, r3.Add(from, to)))
			path = pathRound(b.inPlace(b.stand.frame.Point), a, there[i], r3.Sub(*f.by, r3.Scale(justInside, r3.Unit(way))), way)
		default:
			path = b.pathOutside(s, a, there[i], level)
		}
		p.strap(f, count, a, there[i], path)
	}
}

// oneCopy is what a mark says that is on one of several copies, whichever.
const oneCopy = "on one copy only"

// whichCopy says on which of the copies of a panel that are cut from one template a
// place is.
func (p *Piece) whichCopy(place placeOn) string {
	panel := &p.Panels[place.panel]
	switch {
	case panel.perPiece(p) < 2:
		return ""
	case place.image:
		return onTheFlipped
	case panel.Flipped > 0 && panel.perPiece(p) == 2:
		return onTheOther
	}
	if way := p.copiesGo(panel); way != "" {
		n := len(panel.alike) + 1
		rule := fmt.Sprintf("each next one joins the one before it at its %s edge, seen on the outside with the arrow up.", way)
		if note := fmt.Sprintf("Number the %d copies: ", n) + rule; !slices.Contains(panel.Notes, note) {
			panel.Notes = append(slices.Clone(panel.Notes), note)
			p.Notes = append(p.Notes, fmt.Sprintf("Number the %d copies of %s: ", n, panel.Label)+rule)
		}
		return fmt.Sprintf(onNumber, panel.numberOf(place.moved), n)
	}
	return oneCopy
}

// pathOutside is how long a strap is that leaves the piece where that is open,
// and goes round what it stands on.
func (b *builder) pathOutside(s *shape, a, z anchor, level float64) float64 {
	body := b.inPlace(b.stand.frame.Point)
	in, way, ok := b.openWay(s, level)
	if !ok {
		return pathOver(a, z, body)
	}
	from, _ := a.place()
	to, _ := z.place()
	axis := b.stand.frame.Dir(b.axisOf(s))
	middle := r3.Scale(0.5, r3.Add(from, to)) // the strap's own level
	in = r3.Add(in, r3.Scale(r3.Dot(r3.Sub(middle, in), axis), axis))
	return pathRound(body, a, z, in, way)
}

// axisOf is the direction of the shell's axis, piece axes.
func (b *builder) axisOf(s *shape) r3.Vec { return s.pieceFromShell.Dir(r3.Vec{Y: 1}) }

// openWay is a point of the axis at a level and the way from there to the middle
// of where the piece is open, body axes; ok is false for a piece that is not.
func (b *builder) openWay(s *shape, level float64) (in, way r3.Vec, ok bool) {
	if len(s.shells) == 0 {
		return in, way, false
	}
	plan, angle := s.shells[0].plan, 0.0
	switch {
	case plan.span != nil && plan.span[1]-plan.span[0] < 2*math.Pi:
		angle = (plan.span[0]+plan.span[1])/2 + math.Pi
	case plan.gap != nil:
		angle = plan.gap.at
	case b.stand.out: // open below
		in, way, ok = b.ray(s, 0, level, anyLame)
		return b.stand.frame.Point(in), b.stand.frame.Dir(r3.Scale(-1, b.axisOf(s))), ok
	default:
		return in, way, false
	}
	in, way, ok = b.ray(s, angle, level, anyLame)
	return b.stand.frame.Point(in), b.stand.frame.Dir(way), ok
}
