package tile

import (
	"math"
	"slices"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// titleAlong sets a title whose lines stand one behind the other along a strip
// that is too narrow for them to stand under each other.
func (d *drawing) titleAlong(r *room) ([]draw.Item, bool) {
	blocks := d.titleBlocks()
	rows := slices.Clone(blocks[len(blocks)-2].rows) // the last one is the label alone
	if d.panel.Name != "" {
		rows = slices.Insert(rows, 1, row{d.panel.Name, 1, false}) // it says what the strip is put on
	}
	places := r.middles()
	for _, size := range []float64{2.5, 2.1, 1.8} {
		try := r.copy()
		var items []draw.Item
		whole := true
		for _, text := range rows {
			line, ok := try.put(block{rows: []row{{text.s, 1, text.bold}}}, []float64{size}, func(w, h float64) []place { return places })
			if whole = ok; !ok {
				break
			}
			items = append(items, line...)
		}
		if whole {
			*r = *try
			return items, true
		}
	}
	return nil, false
}

// middles are places half way between the two sides of a strip, along it, the
// nearest to the middle of its outline's longer side first.
func (r *room) middles() []place {
	const step = 1.0
	ring := append(slices.Clone(r.ring), r.ring[0])
	cum := geom.Lengths(ring)
	total := cum[len(cum)-1]
	type sited struct {
		place
		from float64
	}
	var out []sited
	for s := 0.0; s < total; s += step {
		p := geom.AtLength(ring, cum, s)
		dir := r2.Sub(geom.AtLength(ring, cum, math.Min(s+step, total)), geom.AtLength(ring, cum, math.Max(s-step, 0)))
		if r2.Norm(dir) < geom.Coincident {
			continue
		}
		dir = r2.Unit(dir)
		in := r2.Vec{X: -dir.Y, Y: dir.X}
		if across, ok := r.across(p, in); ok {
			out = append(out, sited{place{r2.Add(p, r2.Scale(across/2, in)), readable(math.Atan2(dir.Y, dir.X))}, math.Abs(s - total/4)})
		}
	}
	slices.SortStableFunc(out, func(a, b sited) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	places := make([]place, len(out))
	for i, o := range out {
		places[i] = o.place
	}
	return places
}

// across is how far it is from a place on the outline straight to the other side.
func (r *room) across(p, in r2.Vec) (float64, bool) {
	const farthest = 60.0 // mm: what is wider has room for a title
	from, to := r2.Add(p, r2.Scale(0.05, in)), r2.Add(p, r2.Scale(farthest, in))
	best := math.Inf(1)
	for i, a := range r.ring {
		b := r.ring[(i+1)%len(r.ring)]
		if !geom.SegmentsMeet(from, to, a, b) {
			continue
		}
		side, d := r2.Sub(b, a), r2.Sub(to, from)
		if c := r2.Cross(d, side); math.Abs(c) > geom.Coincident {
			best = min(best, r2.Cross(r2.Sub(a, from), side)/c*r2.Norm(d))
		}
	}
	return best + 0.05, !math.IsInf(best, 1)
}
