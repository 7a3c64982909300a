package booklet

import (
	"math"
	"slices"
	"sync"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The views of the whole costume, side by side at one scale.
var suitViews = []struct {
	caption string
	cam     view.Camera
}{
	{"front", view.Camera{}},
	{"the wearer's left", view.Camera{Yaw: math.Pi / 2}},
	{"back", view.Camera{Yaw: math.Pi}},
}

const captionSize = 3.0

// Suit is a costume on its wearer: both sides of every pair, on the body in a
// lighter tone.
func Suit(pieces []pattern.Piece, skin geom.Mesh) view.Scene {
	return suitOf(pieces, scenes(pieces), skin)
}

// scenes are those of all pieces, each made on its own.
func scenes(pieces []pattern.Piece) []labelledScene {
	out := make([]labelledScene, len(pieces))
	var all sync.WaitGroup
	for i := range pieces {
		all.Go(func() { out[i] = pieceScene(&pieces[i]) })
	}
	all.Wait()
	return out
}

func suitOf(pieces []pattern.Piece, plain []labelledScene, skin geom.Mesh) view.Scene {
	s := view.Scene{Faces: []view.Face{{Mesh: skin, Silhouette: view.Ghost, Tone: skinTone}}}
	for i := range pieces {
		p := &pieces[i]
		one := Both(p, plain[i].shaded())
		if p.Carried() {
			one = beside(one, s)
		}
		s.Faces = append(s.Faces, one.Faces...)
		s.Lines = append(s.Lines, one.Lines...)
	}
	return s
}

// beside stands what is carried on the floor, at the right of a scene.
func beside(one, scene view.Scene) view.Scene {
	const apart = 60.0 // mm
	low, high := extent(one)
	most, _ := extent(scene)
	shift := r3.Vec{X: most.X - apart - high.X, Y: -low.Y, Z: -(low.Z + high.Z) / 2}
	return moved(one, shift)
}

// moved is a scene somewhere else.
func moved(s view.Scene, by r3.Vec) view.Scene {
	all := func(pts []r3.Vec) []r3.Vec {
		out := make([]r3.Vec, len(pts))
		for i, p := range pts {
			out[i] = r3.Add(p, by)
		}
		return out
	}
	out := view.Scene{Focus: all(s.Focus)}
	for _, f := range s.Faces {
		f.Mesh.V = all(f.Mesh.V)
		out.Faces = append(out.Faces, f)
	}
	for _, l := range s.Lines {
		out.Lines = append(out.Lines, view.Line{Points: all(l.Points), Weight: l.Weight})
	}
	return out
}

func extent(s view.Scene) (low, high r3.Vec) {
	inf := math.Inf(1)
	low, high = r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	for _, f := range s.Faces {
		for _, v := range f.Mesh.V {
			low = r3.Vec{X: min(low.X, v.X), Y: min(low.Y, v.Y), Z: min(low.Z, v.Z)}
			high = r3.Vec{X: max(high.X, v.X), Y: max(high.Y, v.Y), Z: max(high.Z, v.Z)}
		}
	}
	return low, high
}

// SuitViews draws a costume from the front, from the wearer's left and from
// behind, at one scale, in a box.
func SuitViews(s view.Scene, box draw.Rect, pxPerMM float64) []draw.Item {
	items, _ := suitViewsIn(s, box, pxPerMM)
	return items
}

// SuitHeight is how high a box is that the views of a costume fill, mm: so wide, and
// no higher than most.
func SuitHeight(s view.Scene, wide, most float64) float64 {
	scale, _, high := suitScale(s, wide, most)
	return scale*high + 2*captionSize
}

// suitScale is the scale of the views in a box, how wide each is at a scale of 1, and
// how high the highest.
func suitScale(s view.Scene, boxWide, boxHigh float64) (scale float64, wide []float64, high float64) {
	total := 0.0
	for _, v := range suitViews {
		size := view.Size(s, v.cam)
		wide, high = append(wide, size.X), max(high, size.Y)
		total += size.X
	}
	gaps := between * float64(len(suitViews)-1)
	return min((boxHigh-2*captionSize)/high, (boxWide-gaps)/total), wide, high
}

// suitViewsIn draws the views at the top of a box, and tells where they end.
func suitViewsIn(s view.Scene, box draw.Rect, pxPerMM float64) (items []draw.Item, below float64) {
	scale, wide, high := suitScale(s, box.Max.X-box.Min.X, box.Max.Y-box.Min.Y)
	x := (box.Min.X + box.Max.X - between*float64(len(wide)-1)) / 2
	for _, w := range wide {
		x -= scale * w / 2
	}
	first := view.Scaled(s, suitViews[0].cam, box, scale)
	drawn := make([][]draw.Item, len(suitViews))
	var all sync.WaitGroup
	for i, v := range suitViews {
		b := draw.Rect{Min: r2.Vec{X: x, Y: box.Max.Y - scale*high}, Max: r2.Vec{X: x + scale*wide[i], Y: box.Max.Y}}
		x = b.Max.X + between
		all.Go(func() { drawn[i] = suitView(first.From(v.cam, b, scale), v.caption, b, pxPerMM) })
	}
	all.Wait()
	return slices.Concat(drawn...), box.Max.Y - scale*high - 2*captionSize
}

// suitView is one of the views with what it is seen from below.
func suitView(v *view.View, caption string, b draw.Rect, pxPerMM float64) []draw.Item {
	return append(v.Painted(pxPerMM), &draw.Text{At: r2.Vec{X: (b.Min.X + b.Max.X) / 2, Y: b.Min.Y - 2*captionSize},
		Size: captionSize, Align: draw.Centre, Color: grey, S: caption, Layer: "text"})
}
