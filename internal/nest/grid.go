package nest

import "math/bits"

// grid is the pixels of a sheet that are taken, a bit each, row by row from
// the bottom.
type grid struct {
	width int
	rows  [][]uint64 // they are added as they are needed
}

func (g *grid) words() int { return (g.width + 63) / 64 }

// grow makes sure that rows up to (not including) y exist.
func (g *grid) grow(y int) {
	for len(g.rows) < y {
		g.rows = append(g.rows, make([]uint64, g.words()))
	}
}

// take marks a mask's pixels, shifted; what lies off the grid is left out.
func (g *grid) take(m mask, x, y int) {
	g.grow(y + len(m.rows))
	for k, runs := range m.rows {
		if y+k < 0 {
			continue
		}
		row := g.rows[y+k]
		for _, r := range runs {
			for p := max(x+r.from, 0); p < min(x+r.to, g.width); p++ {
				row[p/64] |= 1 << (p % 64)
			}
		}
	}
}

// lastTaken is the rightmost taken pixel in [from, to) of a row, -1 if none is.
func lastTaken(row []uint64, from, to int) int {
	w := (to - 1) / 64
	word := row[w] << (63 - (to-1)%64) >> (63 - (to-1)%64)
	for ; ; w-- {
		if w == from/64 {
			word = word >> (from % 64) << (from % 64)
		}
		if word != 0 {
			return w*64 + 63 - bits.LeadingZeros64(word)
		}
		if w == from/64 {
			return -1
		}
		word = row[w-1]
	}
}

// lowest finds the lowest, then leftmost, free place for a mask, at most maxX
// to the right and maxY up; none if that is negative.
func (g *grid) lowest(m mask, maxX, maxY int) (x, y int, ok bool) {
	for y = 0; maxX >= 0 && y <= maxY; y++ {
		if x, ok = g.leftmost(m, y, maxX); ok {
			return x, y, true
		}
	}
	return 0, 0, false
}

// leftmost finds the leftmost free place for a mask at row y. When a run meets
// a taken pixel, no place before that pixel has gone by can be free.
func (g *grid) leftmost(m mask, y, maxX int) (x int, ok bool) {
	for x <= maxX {
		next := g.blocked(m, x, y)
		if next == x {
			return x, true
		}
		x = next
	}
	return 0, false
}

// blocked gives x if the mask is free at (x, y), and else a larger x before
// which it cannot be free.
func (g *grid) blocked(m mask, x, y int) int {
	for k, runs := range m.rows {
		if y+k >= len(g.rows) {
			return x // nothing is taken up there
		}
		row := g.rows[y+k]
		for _, r := range runs {
			if p := lastTaken(row, x+r.from, x+r.to); p >= 0 {
				return p + 1 - r.from
			}
		}
	}
	return x
}
