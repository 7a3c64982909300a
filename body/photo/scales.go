package photo

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"tasset/internal/report"
)

// scaled is a ruler or card with the size that it gives the subject, as a share
// of the mean one: rough, because nothing is solved yet.
type scaled struct {
	shot int
	card bool
	size float64
}

// Limits on sizes that are not solved yet, as factors. Judgement: proportions,
// and what stands nearer than the ruler, make up to a fifth.
const (
	roughly = 1.25 // sizes of one person agree within this
	grossly = 1.4  // and one that is further from the others is left out
	corner  = 1.5  // how much a card's corners may be squeezed by a slant of 48°
)

// screenScales leaves rulers and cards out that cannot be right before they
// spoil the solve: cards whose corners were begun at a wrong mark, and what gives
// a size that most others contradict, or that nobody has.
func (f *figure) screenScales(shots []Shot) ([]Shot, []report.Finding) {
	shots = slices.Clone(shots)
	var out []report.Finding
	var all []scaled
	for i := range shots {
		s := &shots[i]
		if s.Card != nil && !s.begunRight() {
			out = append(out, s.wrongStart())
			s.Card = nil
		}
		for _, card := range []bool{false, true} {
			if !card && s.Ruler != nil || card && s.Card != nil {
				all = append(all, scaled{i, card, f.sizeBy(s, card)})
			}
		}
	}
	agreed, many := f.agreed(all)
	for _, q := range all {
		off := math.Abs(math.Log(q.size / agreed))
		if off > math.Log(grossly) && (many || !f.possible(q.size)) {
			out = append(out, f.wrongScale(shots, q, agreed, many))
			shots[q.shot].leaveOut(q.card)
		}
	}
	return shots, out
}

// leaveOut takes the ruler or the card out of a shot.
func (s *Shot) leaveOut(card bool) {
	if card {
		s.Card = nil
	} else {
		s.Ruler = nil
	}
}

// sizeBy is how large the subject is by a shot's ruler or card.
func (f *figure) sizeBy(s *Shot, card bool) float64 {
	_, px := f.misfit(s, s.View, false)
	if card {
		return px / math.Sqrt(math.Abs(quadArea(s.Card.Corners))/(CardWidth*CardHeight))
	}
	return px * s.Ruler.Length / math.Hypot(s.Ruler.To.X-s.Ruler.From.X, s.Ruler.To.Y-s.Ruler.From.Y)
}

// possible tells whether people have a size.
func (f *figure) possible(size float64) bool { return size > f.smallest && size < f.largest }

// agreed is the size that most of the possible ones agree on; where nothing is
// in the majority, that of the only possible one, or the mean person's.
func (f *figure) agreed(all []scaled) (size float64, many bool) {
	var best []float64
	rival := 0
	for _, q := range all {
		var like []float64
		for _, r := range all {
			if math.Abs(math.Log(r.size/q.size)) < math.Log(roughly) {
				like = append(like, r.size)
			}
		}
		switch {
		case !f.possible(q.size) || len(like) < len(best):
		case len(like) > len(best):
			best, rival = like, 0
		case math.Abs(math.Log(q.size/best[0])) > math.Log(grossly):
			rival++
		}
	}
	if len(best) == 0 || rival > 0 {
		return 1, false
	}
	sort.Float64s(best)
	return best[len(best)/2], len(best) > 1
}

// wrongScale tells of a ruler or card that is left out.
func (f *figure) wrongScale(shots []Shot, q scaled, agreed float64, many bool) report.Finding {
	s, ratio := shots[q.shot], agreed/q.size
	by := "the size of people"
	if many || agreed != 1 {
		by = "the other pictures"
	}
	if q.card {
		g := s.problem("By %s it is %.1f times as large as the card that Tasset prints. It is left out.", by, ratio)
		g.Subject, g.Where = "card in "+s.Name, s.Card.Where
		g.Perhaps = "Look at its corner marks, and print it at 100 %, without fitting it to the page."
		return g
	}
	l := s.Ruler.Length
	g := s.problem("Its length is given as %.4g mm, but by %s it is about %.0f mm between its marks. It is left out.", l, by, twoFigures(l*ratio))
	g.Subject, g.Where = "ruler in "+s.Name, s.Ruler.Where
	g.Perhaps = "Read the two marked figures again."
	if unit := wrongUnit(l, ratio); unit != "" {
		g.Perhaps = unit + " Or read the two marked figures again."
	} else if usual := usualLength(l*ratio, .15*l*ratio); usual != "" {
		g.Perhaps = "Read the two marked figures again; it may be " + usual + "."
	}
	return g
}

// twoFigures rounds to what a rough size is worth.
func twoFigures(v float64) float64 {
	unit := math.Pow(10, math.Floor(math.Log10(v))-1)
	return math.Round(v/unit) * unit
}

// units that are taken for each other: a length in one, written down as if it
// were in the other, is so many times too short.
var confused = []struct {
	factor     float64
	right, was string
	mm         float64 // of the right one
}{
	{10, "cm", "mm", 10}, {.1, "mm", "cm", 1}, {25.4, "in", "mm", 25.4}, {1 / 25.4, "mm", "in", 1}, {2.54, "in", "cm", 25.4}, {1 / 2.54, "cm", "in", 10},
}

// wrongUnit names the unit that a length was probably meant in; "" if none makes
// up for the ratio.
func wrongUnit(length, ratio float64) string {
	for _, c := range confused {
		if math.Abs(math.Log(ratio/c.factor)) < math.Log(roughly) {
			return fmt.Sprintf("The unit is probably wrong: was %.4g %s meant, not %.4g %s?", length*c.factor/c.mm, c.right, length*c.factor/c.mm, c.was)
		}
	}
	return ""
}

// squeezed is how broad the card looks for its height, against how it was
// printed: 1 if it is held square to the camera.
func squeezed(c [4]Pixel) float64 {
	side := func(i, j int) float64 { return math.Hypot(c[i].X-c[j].X, c[i].Y-c[j].Y) }
	return (side(0, 1) + side(2, 3)) / (side(1, 2) + side(3, 0)) * CardHeight / CardWidth
}

// begunRight tells whether a card's corners can begin at its mark 1. Begun at
// mark 3 it is the same rectangle.
func (s *Shot) begunRight() bool {
	as := squeezed(s.Card.Corners)
	const turned = CardHeight / CardWidth * CardHeight / CardWidth
	return as < corner || as > turned*corner
}

func (s *Shot) wrongStart() report.Finding {
	c := s.Card.Corners
	g := s.problem("The card is higher than broad, but from the first corner given to the second it is longer than from the second to the third. It is left out.")
	g.Subject, g.Where = "card in "+s.Name, s.Card.Where
	g.Perhaps = fmt.Sprintf("Begin at mark 1: %v, %v, %v, %v.", c[3], c[0], c[1], c[2])
	return g
}
