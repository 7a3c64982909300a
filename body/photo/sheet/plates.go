package sheet

import (
	"cmp"
	"math"
	"slices"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// plate is a word on a light ground that belongs to a place.
type plate struct {
	of     r2.Vec // what it names
	want   r2.Vec // where its middle would stand best
	says   string
	colour draw.Color
}

// named notes a word to be put beside a place when all else is drawn.
func (m *marked) named(of, off r2.Vec, says string, colour draw.Color) {
	m.plates = append(m.plates, plate{of, r2.Add(of, off), says, colour})
}

// How words are moved away from what they would cover, mm, detail: in steps of
// half a line upwards and of a few letters sideways.
const (
	plateUp    = labelSize / 2
	plateSide  = 3.0
	plateSteps = 40
	plateAir   = 1.5 // between words and what they keep clear of
	nearPlate  = 9.0 // a word further off has a line to what it names
)

// settle puts the words, each as near to its place as it covers no other word
// and nothing that is drawn; where there is no room, at its place.
func (m *marked) settle() {
	shifts := plateShifts()
	var stand []draw.Rect
	var words []draw.Item
	for _, p := range m.plates {
		t := &draw.Text{Size: labelSize, Align: draw.Centre, Bold: true, Color: p.colour, S: p.says, Layer: "text"}
		half := t.Width()/2 + 1
		put := func(shift r2.Vec) draw.Rect {
			c := r2.Add(p.want, shift)
			c.X = min(max(c.X, half), m.page.Width-half)
			t.At = r2.Add(c, at(0, -labelSize*draw.CapHeight/2))
			k := t.Corners()
			return draw.Rect{Min: k[0], Max: k[2]}
		}
		free := func(shift r2.Vec) bool {
			r := put(shift)
			wide := draw.Rect{Min: r2.Sub(r.Min, at(plateAir, plateAir)), Max: r2.Add(r.Max, at(plateAir, plateAir))}
			return wide.Min.Y > m.area.Min.Y && wide.Max.Y < m.page.Height-16 &&
				!slices.ContainsFunc(stand, func(o draw.Rect) bool { return overlap(wide, o) }) &&
				!slices.ContainsFunc(m.clear, func(s [2]r2.Vec) bool { return crosses(wide, s) })
		}
		i := slices.IndexFunc(shifts, free)
		r := put(shifts[max(i, 0)])
		stand = append(stand, r)
		near := at(min(max(p.of.X, r.Min.X), r.Max.X), min(max(p.of.Y, r.Min.Y), r.Max.Y))
		if r2.Norm(r2.Sub(near, p.of)) > nearPlate {
			m.add(onPhoto(0.2, p.colour, p.of, near)...)
			m.keepClear(p.of, near)
		}
		k := t.Corners()
		words = append(words, filled(white, k[:]...), t)
	}
	m.add(words...)
	m.plates = nil
}

// plateShifts are the ways to move a word, the shortest first.
func plateShifts() []r2.Vec {
	var out []r2.Vec
	for i := -plateSteps; i <= plateSteps; i++ {
		for j := -plateSteps; j <= plateSteps; j++ {
			out = append(out, at(plateSide*float64(i), plateUp*float64(j)))
		}
	}
	slices.SortStableFunc(out, func(a, b r2.Vec) int { return cmp.Compare(r2.Norm2(a), r2.Norm2(b)) })
	return out
}

// keepClear lets no word cover a line through some places.
func (m *marked) keepClear(pts ...r2.Vec) {
	for i := 0; i+1 < len(pts); i++ {
		m.clear = append(m.clear, [2]r2.Vec{pts[i], pts[i+1]})
	}
}

// overlap tells whether two upright rectangles do.
func overlap(a, b draw.Rect) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// crosses tells whether a stretch comes into an upright rectangle (slab method).
func crosses(r draw.Rect, s [2]r2.Vec) bool {
	from, to := 0.0, 1.0
	d := r2.Sub(s[1], s[0])
	for _, axis := range [][4]float64{{s[0].X, d.X, r.Min.X, r.Max.X}, {s[0].Y, d.Y, r.Min.Y, r.Max.Y}} {
		if axis[1] == 0 {
			if axis[0] <= axis[2] || axis[0] >= axis[3] {
				return false
			}
			continue
		}
		a, b := (axis[2]-axis[0])/axis[1], (axis[3]-axis[0])/axis[1]
		from, to = math.Max(from, math.Min(a, b)), math.Min(to, math.Max(a, b))
	}
	return from < to
}
