package costume

import (
	"fmt"
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// What a person sees on paper: two lines join where their ends are nearer than
// touching, and one edge ends where the line turns by more than aCorner.
const touching = 0.05 // mm

var aCorner = 12 * math.Pi / 180

// A seam line that is not cut lies no farther from the line to cut, on either side of
// it, or inside its allowance.
const aside = 6.0 // mm

// readLines joins the strokes of ink on the template to lines as they look and
// parts these at corners, so that nothing hangs on how they were drawn. What is
// thick must be on the line to cut.
func (r *readTemplate) readLines(ink sheetInk) (errs []error) {
	var parts [][]r2.Vec
	for _, line := range ink.joined {
		if mid := geom.At(line, geom.Length(line)/2); geom.DistToRing(r.outline, mid) >= touching && !geom.Inside(r.outline, mid) {
			continue
		}
		parts = append(parts, r.ccw(line))
		for _, p := range line {
			if d := geom.DistToRing(r.outline, p); d > touching {
				errs = append(errs, fmt.Errorf("a joined edge leaves the line to cut by %.2f mm", d))
			}
		}
	}
	for _, line := range ink.seams {
		mid := geom.At(line, geom.Length(line)/2)
		if geom.Inside(r.outline, mid) || geom.DistToRing(r.outline, mid) < aside && !nearer(ink.outlines, mid, r.outline) {
			parts = append(parts, r.ccw(line))
		}
	}
	for _, line := range chained(parts) {
		for _, edge := range parted(line, ink.ends) {
			r.edges = append(r.edges, readEdge{line: edge, length: geom.Length(edge)})
		}
	}
	return errs
}

// nearer tells whether another of some outlines lies nearer to a place than one does,
// or round it.
func nearer(outlines [][]r2.Vec, p r2.Vec, one []r2.Vec) bool {
	for _, o := range outlines {
		if o[0] != one[0] && (geom.Inside(o, p) || geom.DistToRing(o, p) < geom.DistToRing(one, p)) {
			return true
		}
	}
	return false
}

// ccw turns a line that starts and ends at the outline so that it runs with it: past the
// stretch that its middle lies beside or, where a flap is between, the shorter way round.
func (r *readTemplate) ccw(line []r2.Vec) []r2.Vec {
	ring := append(append([]r2.Vec(nil), r.outline...), r.outline[0])
	cum := geom.Lengths(ring)
	total := cum[len(cum)-1]
	from, to := along(ring, line[0]), along(ring, line[len(line)-1])
	if mid := geom.At(line, geom.Length(line)/2); geom.DistToRing(r.outline, mid) < aside {
		if m := along(ring, mid); math.Mod(m-from+total, total) > math.Mod(to-from+total, total) {
			return geom.Reversed(line)
		}
		return line
	}
	if math.Mod(to-from+total, total) > total/2 {
		return geom.Reversed(line)
	}
	return line
}

// along is where on a line a point lies nearest.
func along(line []r2.Vec, p r2.Vec) float64 {
	cum := geom.Lengths(line)
	best, at := math.Inf(1), 0.0
	for i := 0; i+1 < len(line); i++ {
		q, _ := geom.NearestOnSegment(p, line[i], line[i+1])
		if d := geom.Dist(p, q); d < best {
			best, at = d, cum[i]+geom.Dist(line[i], q)
		}
	}
	return at
}

func distToLine(line []r2.Vec, p r2.Vec) float64 { return geom.Dist(p, geom.At(line, along(line, p))) }

// chained joins lines end to start.
func chained(lines [][]r2.Vec) [][]r2.Vec {
	lines = append([][]r2.Vec(nil), lines...)
	for i := 0; i < len(lines); i++ {
		for j := 0; j < len(lines); j++ {
			if i != j && geom.Dist(lines[i][len(lines[i])-1], lines[j][0]) < touching {
				lines[i] = append(append([]r2.Vec(nil), lines[i]...), lines[j][1:]...)
				lines = append(lines[:j], lines[j+1:]...)
				if j < i {
					i--
				}
				j = -1
			}
		}
	}
	return lines
}

// parted parts a line where it turns sharply and at end bars.
func parted(line, ends []r2.Vec) [][]r2.Vec {
	line = geom.Distinct(line)
	n := len(line)
	if geom.Dist(line[0], line[n-1]) < touching { // all round: begin at a corner
		ring := line[:n-1]
		for i := range ring {
			if turn(ring[(i+n-2)%(n-1)], ring[i], ring[(i+1)%(n-1)]) > aCorner {
				line = append(append(append([]r2.Vec(nil), ring[i:]...), ring[:i]...), ring[i])
				break
			}
		}
	}
	var out [][]r2.Vec
	start := 0
	for i := 1; i+1 < len(line); i++ {
		if turn(line[i-1], line[i], line[i+1]) > aCorner || isEnd(ends, line[i]) {
			out = append(out, line[start:i+1])
			start = i
		}
	}
	return append(out, line[start:])
}

func isEnd(ends []r2.Vec, p r2.Vec) bool {
	for _, q := range ends {
		if geom.Dist(p, q) < touching {
			return true
		}
	}
	return false
}

func turn(a, b, c r2.Vec) float64 {
	u, v := r2.Sub(b, a), r2.Sub(c, b)
	return math.Abs(math.Atan2(r2.Cross(u, v), r2.Dot(u, v)))
}
