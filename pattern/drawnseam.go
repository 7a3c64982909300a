package pattern

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// drawnSeam are the lines of a drawn seam, and of its image on a piece that is
// its own mirror image.
func (b *builder) drawnSeam(s *sketch, w *walls) ([]cutout, error) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range s.line {
		if p, ok := w.seen(s.eye, q); ok {
			low, high = min(low, p.X), max(high, p.X)
		}
	}
	even := b.template.Mirror && !s.AsSeen
	switch {
	case low > high:
		return nil, fmt.Errorf("none of its curve lies on the piece; look whether it was drawn on the right photograph, and for the right piece")
	case even && low < -acrossMiddle && high > acrossMiddle:
		return nil, fmt.Errorf("its curve goes across the middle of a piece that is its own mirror image; draw it on one side")
	case even && low > -acrossMiddle && high < acrossMiddle:
		return nil, fmt.Errorf("its curve runs along the middle of a piece that is its own mirror image; a seam there is for the template to have, at 0 deg or 180 deg")
	}
	c := seamFrom(s.eye, s.Name, carriedOn(s.line))
	if even || s.Mirror && !b.stand.paired() {
		return []cutout{c, c.reflected()}, nil
	}
	return []cutout{c}, nil
}

// carriedOn is an open line made longer straight at both ends.
func carriedOn(line []r2.Vec) []r2.Vec {
	past := func(end, before r2.Vec) r2.Vec {
		return r2.Add(end, r2.Scale(seamEnd, r2.Unit(r2.Sub(end, before))))
	}
	line = geom.Distinct(line)
	n := len(line)
	out := append([]r2.Vec{past(line[0], line[1])}, line...)
	return append(out, past(line[n-1], line[n-2]))
}

// dropped is a seam of the template that a drawn one takes the place of.
type dropped struct {
	band  int
	angle float64
}

// dropSeams finds which seams of the template drawn ones take the place of. They
// are named by the numbers that they have without any drawn seam.
func (b *builder) dropSeams() error {
	var rest []Drawn
	numbers := map[int]Drawn{}
	for _, d := range b.order.Drawn {
		if d.Kind != DrawnSeam {
			rest = append(rest, d)
			continue
		}
		name := strings.TrimSpace(strings.TrimPrefix(strings.ToLower(d.Name), "seam"))
		if name == "" || name == "new" {
			continue
		}
		n, err := strconv.Atoi(name)
		if err != nil {
			return placed{d.Where, fmt.Errorf("seam %q: write the number of the seam whose place it takes, as it stands on the piece without drawn seams, or \"new\"", d.Name)}
		}
		numbers[n] = d
	}
	if len(numbers) == 0 {
		return nil
	}
	plain := *b
	plain.order.Drawn = rest
	if _, _, err := plain.raise(0); err != nil {
		return err
	}
	for _, d := range b.order.Drawn { // in the maker's order
		for n, of := range numbers {
			if of.Where != d.Where || of.Name != d.Name || d.Kind != DrawnSeam {
				continue
			}
			drop, err := plain.made.uprightSeam(n)
			if err != nil {
				return placed{d.Where, fmt.Errorf("seam %q: %w", d.Name, err)}
			}
			b.dropped = append(b.dropped, drop...)
		}
	}
	return nil
}

// uprightSeam finds the places of the seam of a number, on both sides of a
// mirrored piece.
func (a *assembly) uprightSeam(number int) ([]dropped, error) {
	c := a.blanks.from[0]
	var out []dropped
	numbered := func(seam int) bool { return seam >= 0 && a.number[a.class[c.first+seam]] == number }
	for bi, row := range c.upright {
		for k, seam := range row {
			if !numbered(seam) {
				continue
			}
			if c.bands[bi].along {
				return nil, fmt.Errorf("it stands between panels that bend along it, where only the template can move it; name the drawn one \"new\" to have it besides")
			}
			if a.blanks.seams[c.first+seam].kind == Closure {
				return nil, fmt.Errorf("it is where the piece opens, and only the template can move it")
			}
			out = append(out, dropped{bi, c.keys[k].angle})
		}
	}
	if out != nil {
		return out, nil
	}
	for _, row := range c.around {
		for _, seam := range row {
			if numbered(seam) {
				return nil, fmt.Errorf("it runs round the piece, where only the template can move it; name the drawn one \"new\" to have it besides")
			}
		}
	}
	return nil, fmt.Errorf("the piece has no seam of that number; it has 1 to %d", len(a.number))
}

// drop takes a seam out of the plan; the panel on its two sides is called like
// the band.
func (p *plan) drop(d dropped) {
	b := &p.bands[d.band]
	for i, angle := range b.seams {
		if math.Abs(turn(angle)-d.angle) > sameAngle {
			continue
		}
		b.seams = append(append([]float64(nil), b.seams[:i]...), b.seams[i+1:]...)
		if n := len(b.panels); i < n {
			names := append([]string(nil), b.panels...)
			names[(i+n-1)%n] = b.name
			b.panels = append(names[:i], names[i+1:]...)
		}
		return
	}
}
