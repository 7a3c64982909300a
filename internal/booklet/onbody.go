package booklet

import (
	"math"

	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// sunk is how far a ghost is moved away from the viewer, mm, so that a skin that a
// piece rests on does not come before it.
const sunk = 25.0

// What goes with a piece, and the body round it, are painted with, so that the
// piece itself stands out.
var (
	otherTone = view.Tone{Dark: 165, Light: 245}
	ghostTone = view.Tone{Dark: 200, Light: 250}
)

// Among adds to a piece's scene, behind and within it, the pieces that go with
// it and the body's skin, each lighter than the one before. What the drawing must
// show stays the piece. The scene is one to be seen from that camera.
func Among(s view.Scene, others []pattern.Piece, skin geom.Mesh, cam view.Camera) view.Scene {
	out := view.Scene{Faces: append([]view.Face(nil), s.Faces...), Lines: append([]view.Line(nil), s.Lines...), Focus: s.Focus}
	for _, f := range s.Faces {
		out.Focus = append(out.Focus, f.Mesh.V...)
	}
	for i := range others {
		o := Both(&others[i], Portrait(&others[i]))
		for _, f := range o.Faces {
			if f.Tone == foamTone {
				f.Tone, f.Silhouette = otherTone, view.Ghost
			}
			out.Faces = append(out.Faces, f)
		}
		for _, l := range o.Lines {
			if l.Weight != view.Fold {
				out.Lines = append(out.Lines, view.Line{Points: l.Points, Weight: view.Ghost})
			}
		}
	}
	ghost := view.Scene{Faces: []view.Face{{Mesh: skin, Silhouette: view.Ghost, Tone: ghostTone}}}
	out.Faces = append(out.Faces, moved(ghost, r3.Scale(-sunk, cam.Eye())).Faces...)
	return out
}

// Carried stands what is carried beside a figure: on the floor, or a short one as
// high as a hand hangs.
func Carried(s view.Scene, skin geom.Mesh) view.Scene {
	const hand = 0.44 // of the figure's height
	figure := view.Scene{Faces: []view.Face{{Mesh: skin, Silhouette: view.Ghost, Tone: ghostTone}}}
	_, top := extent(figure)
	one := beside(s, figure)
	if _, high := extent(one); high.Y/2 < hand*top.Y {
		one = moved(one, r3.Vec{Y: hand*top.Y - high.Y/2})
	}
	figure.Faces, figure.Lines = append(figure.Faces, one.Faces...), one.Lines
	return figure
}

// Length is how far a scene reaches along the longest of its axes, mm.
func Length(s view.Scene) float64 {
	low, high := extent(s)
	return max(high.X-low.X, high.Y-low.Y, high.Z-low.Z)
}

// Closing is where a piece opens to be put on, as seen from its middle: radians
// from the front towards the wearer's left.
func Closing(p *pattern.Piece) (angle float64, ok bool) {
	var at, all r3.Vec
	n, vertices := 0, 0
	for i := range p.Panels {
		panel := &p.Panels[i]
		if len(panel.Surface.T) == 0 {
			continue
		}
		for _, v := range panel.Surface.Bent {
			all = r3.Add(all, v)
			vertices++
		}
		for _, e := range panel.Edges {
			if !e.Gap && e.Kind != pattern.Closure {
				continue
			}
			for _, q := range e.Line {
				at = r3.Add(at, panel.Surface.Lift(q))
				n++
			}
		}
	}
	if n == 0 {
		return 0, false
	}
	d := p.Frame.Dir(r3.Sub(r3.Scale(1/float64(n), at), r3.Scale(1/float64(vertices), all)))
	return math.Atan2(d.X, d.Z), true
}

// Within is a scene painted and drawn over, with its focus as large as a share of a
// box allows.
func Within(s view.Scene, cam view.Camera, box draw.Rect, share, pxPerMM float64) []draw.Item {
	v := view.Scaled(s, cam, box, share*view.Scale(s, cam, box))
	return append([]draw.Item{v.Shade(pxPerMM)}, v.Items()...)
}
