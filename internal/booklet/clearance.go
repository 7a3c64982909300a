package booklet

import (
	"fmt"
	"strings"

	"tasset/pattern"
)

// clearanceOf says how near a piece comes to the body as it is estimated, and
// how far a real one lies from that.
func clearanceOf(p *pattern.Piece, mm func(float64) string) string {
	asked := askedOf(p, mm)
	if p.Reserve() > 0 {
		asked += fmt.Sprintf(" and %s more because an estimated body may be that wrong there", mm(p.Reserve()))
	}
	said := fmt.Sprintf("%s at least between the inner face and the body as estimated, with what is worn, of %s (checked on the drawn shape, as if foam were rigid).", mm(p.Clearance), asked)
	if p.PassAsked > 0 {
		said += fmt.Sprintf(" It passes the next part of the body at %s or more, of %s asked.", mm(p.Passing), mm(p.PassAsked))
	}
	if s := p.Scatter(); s.Mean > 0 {
		return said + fmt.Sprintf(" A real body lies about ± %s from the estimated one there, and more than %s in one place of twenty (measured on two bodies): try it on in card", mm(s.Mean), mm(s.Tail))
	}
	return said + " How far a real body lies from the estimated one there was not measured: try it on in card"
}

// ways are where foam is that looks some way.
var ways = map[string]string{"front": "in front", "back": "behind", "left": "on the left", "right": "on the right", "top": "above", "bottom": "below", "outer": "outside", "inner": "inside"}

// askedOf says which clearance was asked for, and where, if it is not the same all round.
func askedOf(p *pattern.Piece, mm func(float64) string) string {
	if len(p.Askings) == 0 {
		return mm(p.Asked) + " asked"
	}
	said := ""
	for i, a := range p.Askings {
		var at []string
		for _, w := range a.Ways {
			at = append(at, ways[w])
		}
		where := strings.Replace(strings.Join(at, " and "), "on the left and on the right", "at the sides", 1)
		switch i {
		case 0:
			said = mm(a.Room) + " asked " + where
		case len(p.Askings) - 1:
			said += " and " + mm(a.Room) + " elsewhere, in between where the foam looks aslant"
		default:
			said += ", " + mm(a.Room) + " " + where
		}
	}
	return said
}
