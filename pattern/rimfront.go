package pattern

import (
	"math"
	"slices"
	"sort"
)

// even makes a path on the front or the back its own mirror image: half way
// between left and right where both were drawn, else as the one that was. It
// says by how much they differ; ok is false for a path that turns back on itself.
func (r *rimPath) even() (differ float64, ok bool) {
	for i := 1; i < len(r.at); i++ {
		if r.at[i].angle <= r.at[i-1].angle {
			return 0, false
		}
	}
	n := len(r.at)
	middle := math.Pi * math.Round((r.at[0].angle+r.at[n-1].angle)/(2*math.Pi))
	var angles []float64
	for _, b := range r.at {
		angles = append(angles, math.Abs(b.angle-middle))
	}
	sort.Float64s(angles)
	var half []bearing
	for _, a := range slices.Compact(angles) {
		left, onLeft := r.where(middle + a)
		right, onRight := r.where(middle - a)
		switch {
		case onLeft && onRight:
			differ = max(differ, math.Abs(left.level-right.level))
			left.level, left.out = (left.level+right.level)/2, (left.out+right.out)/2
		case onRight:
			left = right
		}
		half = append(half, bearing{a, left.level, left.out})
	}
	r.at = nil
	for i := len(half) - 1; i >= 0; i-- {
		r.at = append(r.at, bearing{middle - half[i].angle, half[i].level, half[i].out})
	}
	for _, b := range half {
		r.at = append(r.at, bearing{middle + b.angle, b.level, b.out})
	}
	return differ, true
}

// where is the path at an angle, if it reaches there.
func (r *rimPath) where(angle float64) (bearing, bool) {
	for i := 0; i+1 < len(r.at); i++ {
		a, b := r.at[i], r.at[i+1]
		if angle >= a.angle && angle <= b.angle {
			t := (angle - a.angle) / (b.angle - a.angle)
			return bearing{angle, a.level + t*(b.level-a.level), a.out + t*(b.out-a.out)}, true
		}
	}
	return bearing{}, false
}

// toRim is how far the piece reaches past the path at one of its points, mm.
func (r *rimPath) toRim(i int, lower bool) float64 {
	step := 1.0
	if lower {
		step = -1
	}
	d := 0.0
	for ; d < farthestRim; d++ {
		if _, ok := r.walls.out(r.eye, r.at[i].angle, r.at[i].level+step*(d+1)); !ok {
			break
		}
	}
	return d
}

// Beyond a path that does not go all round, it is closed at a slope of steep,
// where there is no piece.
const (
	steep     = 20.0
	closeStep = math.Pi / 6
)

// back (detail) is how far a path that ends at the outline of what is seen is
// cut back, mm: the outline may be a seam, along which no cut can run.
const back = 0.5

func (r *rimPath) cutBack() {
	n := len(r.at)
	first, ok := r.where(r.at[0].angle + back/r.at[0].out)
	last, ok2 := r.where(r.at[n-1].angle - back/r.at[n-1].out)
	if !ok || !ok2 || first.angle >= last.angle {
		return
	}
	in := slices.DeleteFunc(r.at, func(b bearing) bool { return b.angle <= first.angle || b.angle >= last.angle })
	r.at = append(append([]bearing{first}, in...), last)
}

// closeBeyond closes a path that was drawn on one side only, past the rim of the
// rest.
func (r *rimPath) closeBeyond(lower bool) {
	slope := steep
	if lower {
		slope = -steep
	}
	r.cutBack()
	first, last := r.at[0].angle, r.at[len(r.at)-1].angle
	round := first + 2*math.Pi - last
	steps := int(math.Ceil(round / closeStep))
	for k := range steps + 1 {
		r.at = append(r.at, bearing{last + round*float64(k)/float64(steps), r.eye.at.Y + 100*slope, 100})
	}
}
