package pattern

import (
	"math"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// A curve has many chords and a panel many triangles, and few of them meet. What
// is apart in the eye's picture is told from there; the rest is cut in space.

// view is where a chord of a curve stands in the picture: in a box, or from
// within, where a chord is no line of the picture, between two angles.
type view struct {
	box        r2.Box
	mid, reach float64 // the middle of the angles, and how far they go from it
}

// aside (rounding) is how far apart, in mm or rad, two things stand in a picture
// that surely do not meet.
const aside = 1e-6

// views are the chords of a curve in the picture, sorted into upright strips of it.
type views struct {
	chords []view
	round  bool // seen from within: strips are of angles, all round
	from   float64
	wide   float64 // of a strip
	strips [strips][]int
	found  []int // those near the last triangle
	turn   int   // its number, and
	last   []int // the last one that each chord was looked at for
}

// strips (detail) is how many there are.
const strips = 64

func (c *cutout) views() *views {
	n := len(c.curve)
	out := &views{chords: make([]view, n), last: make([]int, n), round: c.eye.kind == within, from: -math.Pi, wide: 2 * math.Pi / strips}
	if !out.round {
		box := boxOf(c.region)
		out.from, out.wide = box.Min.X, (box.Max.X-box.Min.X)/strips
	}
	for i := range n {
		a, b := c.curve[i], c.curve[(i+1)%n]
		v := &out.chords[i]
		if out.round {
			from, to := c.eye.round(a).X, c.eye.round(b).X
			half := math.Remainder(to-from, 2*math.Pi) / 2
			v.mid, v.reach = from+half, math.Abs(half)+aside
			out.each(v.mid-v.reach, v.mid+v.reach, func(strip *[]int) { *strip = append(*strip, i) })
			continue
		}
		v.box = boxOf([]r2.Vec{c.eye.see(a), c.eye.see(b)})
		out.each(v.box.Min.X, v.box.Max.X, func(strip *[]int) { *strip = append(*strip, i) })
	}
	return out
}

// each visits the strips that a stretch of the picture lies in.
func (v *views) each(low, high float64, visit func(*[]int)) {
	first, last := int(math.Floor((low-v.from)/v.wide)), int(math.Floor((high-v.from)/v.wide))
	if !v.round {
		first, last = min(max(first, 0), strips-1), min(max(last, 0), strips-1)
	}
	for k := first; k <= min(last, first+strips-1); k++ {
		visit(&v.strips[(k%strips+strips)%strips])
	}
}

// near are the numbers of the first so many chords that a triangle of the picture
// may meet.
func (v *views) near(tri [3]r2.Vec, of int) []int {
	v.found = v.found[:0]
	v.turn++
	axis := v.round && holdsAxis(tri)
	low, high := min(tri[0].X, tri[1].X, tri[2].X), max(tri[0].X, tri[1].X, tri[2].X)
	if v.round {
		a, b := turned(tri[1].X-tri[0].X), turned(tri[2].X-tri[0].X)
		if low, high = tri[0].X+min(a, b, 0), tri[0].X+max(a, b, 0); high-low > math.Pi-aside {
			low, high = v.from, v.from+2*math.Pi
		}
	}
	v.each(low-aside, high+aside, func(strip *[]int) {
		for _, s := range *strip {
			if v.last[s] == v.turn || s >= of {
				continue
			}
			v.last[s] = v.turn
			if axis || !v.chords[s].misses(tri, v.round) {
				v.found = append(v.found, s)
			}
		}
	})
	return v.found
}

// picture is where a panel's vertices stand in the picture.
func (p *rawPanel) picture(e eye) []r2.Vec {
	out := make([]r2.Vec, len(p.surf.Bent))
	for i, v := range p.surf.Bent {
		if e.kind == within {
			out[i] = e.round(v)
		} else {
			out[i] = e.see(v)
		}
	}
	return out
}

func boxOf(pts []r2.Vec) r2.Box {
	box := geom.Bounds(pts)
	box.Min, box.Max = r2.Sub(box.Min, r2.Vec{X: aside, Y: aside}), r2.Add(box.Max, r2.Vec{X: aside, Y: aside})
	return box
}

func apart(a, b r2.Box) bool {
	return a.Max.X < b.Min.X || a.Min.X > b.Max.X || a.Max.Y < b.Min.Y || a.Min.Y > b.Max.Y
}

// misses tells whether a triangle of the picture surely does not meet the chord.
// Seen from within it must not hold the upright through the eye.
func (v *view) misses(tri [3]r2.Vec, round bool) bool {
	if !round {
		low, high := v.box.Min, v.box.Max
		return max(tri[0].X, tri[1].X, tri[2].X) < low.X || min(tri[0].X, tri[1].X, tri[2].X) > high.X ||
			max(tri[0].Y, tri[1].Y, tri[2].Y) < low.Y || min(tri[0].Y, tri[1].Y, tri[2].Y) > high.Y
	}
	if v.farRound(tri) {
		return true
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range tri {
		d := math.Remainder(q.X-v.mid, 2*math.Pi)
		if math.Abs(d) <= v.reach {
			return false
		}
		low, high = min(low, d), max(high, d)
	}
	return low > 0 || high < 0 || high-low > math.Pi // on one side, or across the back
}

// farRound tells whether a triangle stands clear of the chord by the circles that
// hold their angles, which costs little and settles most.
func (v *view) farRound(tri [3]r2.Vec) bool {
	a, b := turned(tri[1].X-tri[0].X), turned(tri[2].X-tri[0].X)
	low, high := min(a, b, 0), max(a, b, 0)
	if high-low > math.Pi-aside {
		return false
	}
	return math.Abs(turned(tri[0].X+(low+high)/2-v.mid)) > (high-low)/2+v.reach+aside
}

// turned is an angle of a few turns at most as one from -π to π.
func turned(a float64) float64 {
	for a > math.Pi {
		a -= 2 * math.Pi
	}
	for a < -math.Pi {
		a += 2 * math.Pi
	}
	return a
}

// holdsAxis tells whether a triangle seen from within goes all round the upright
// through the eye, or nearly.
func holdsAxis(tri [3]r2.Vec) bool {
	for i := range 3 {
		a, b := math.Remainder(tri[(i+1)%3].X-tri[i].X, 2*math.Pi), math.Remainder(tri[(i+2)%3].X-tri[i].X, 2*math.Pi)
		if spread := max(a, b, 0) - min(a, b, 0); spread < math.Pi-aside {
			return false
		}
	}
	return true
}
