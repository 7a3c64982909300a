package booklet

import (
	"math"
	"slices"

	"tasset/internal/geom"
	"tasset/internal/view"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// What foam, the cut through it at a rim, and the body under it are painted
// with.
var (
	foamTone = view.Tone{Dark: 70, Light: 235}
	rimTone  = view.Tone{Dark: 150, Light: 255}
	skinTone = view.Tone{Dark: 215, Light: 250}
)

// Portrait is a piece as it is worn, shaded, with its free edges as thick as
// its foam; of a pair the left one alone.
func Portrait(p *pattern.Piece) view.Scene { return pieceScene(p).shaded() }

// shaded is a piece's scene with tones and the cuts at its free edges.
func (s labelledScene) shaded() view.Scene {
	out := view.Scene{Lines: slices.Concat(s.scene.Lines, s.cuts.Lines)}
	for _, f := range s.scene.Faces {
		f.Tone = foamTone
		out.Faces = append(out.Faces, f)
	}
	out.Faces = append(out.Faces, s.cuts.Faces...)
	return out
}

// paired tells whether a piece stands for a left and a right one.
func paired(p *pattern.Piece) bool { return p.Copies > 1 && p.Side.String() == "" && !p.Flat }

// Both is the scene of a pair: what one of its sides shows, and its mirror image
// on the other side of the body. Of any other piece it is the scene itself.
func Both(p *pattern.Piece, s view.Scene) view.Scene {
	if !paired(p) {
		return s
	}
	both := view.Scene{Faces: append([]view.Face(nil), s.Faces...), Lines: append([]view.Line(nil), s.Lines...)}
	for _, f := range s.Faces {
		f.Mesh = f.Mesh.MirroredX()
		both.Faces = append(both.Faces, f)
	}
	for _, l := range s.Lines {
		points := make([]r3.Vec, len(l.Points))
		for i, q := range l.Points {
			points[i] = r3.Vec{X: -q.X, Y: q.Y, Z: q.Z}
		}
		both.Lines = append(both.Lines, view.Line{Points: points, Weight: l.Weight})
	}
	return both
}

// addCuts adds the cut through the foam at free edges: a strip that stands inwards
// from the surface, and its inner edge.
func (w worn) addCuts(s *view.Scene, thickness float64) {
	for _, l := range w.lines {
		if l.cut {
			w.addCut(s, l, thickness)
		}
	}
}

func (w worn) addCut(s *view.Scene, l lifting, thickness float64) {
	var strip geom.Mesh
	var inner []r3.Vec
	for i := range l.at {
		p := w.place(l.at[i])
		in := r3.Sub(p, r3.Scale(thickness, w.dir(l.out[i])))
		inner = append(inner, in)
		strip.V = append(strip.V, p, in)
		if i > 0 {
			strip.T = append(strip.T, [3]int{2*i - 2, 2*i - 1, 2 * i}, [3]int{2*i - 1, 2*i + 1, 2 * i})
		}
	}
	strip.T = w.outwards(strip.T)
	s.Faces = append(s.Faces, view.Face{Mesh: strip, Tone: rimTone, Joined: true})
	s.Lines = append(s.Lines, view.Line{Points: inner, Weight: view.Seam})
}

// Facing is where to stand to see a piece's outside best: to one side of the way
// that most of it looks, on the side of the wearer's front.
func Facing(s view.Scene) view.Camera {
	const pitch, level = math.Pi / 12, math.Pi / 36
	beside := math.Pi / 5
	var sum r3.Vec // of areas, by the way they look
	var area, sideways float64
	for _, f := range s.Faces {
		for _, t := range f.Mesh.T {
			n := r3.Cross(r3.Sub(f.Mesh.V[t[1]], f.Mesh.V[t[0]]), r3.Sub(f.Mesh.V[t[2]], f.Mesh.V[t[0]]))
			sum, area, sideways = r3.Add(sum, n), area+r3.Norm(n), sideways+math.Abs(n.X)
		}
	}
	looks := 0.0 // a piece that goes all round looks forward
	if math.Hypot(sum.X, sum.Z) > 0.25*area {
		looks = math.Atan2(sum.X, sum.Z)
	} else if sideways > 0.75*area {
		beside = math.Pi / 3 // plates at the sides
	}
	if looks < -math.Pi+level {
		looks += 2 * math.Pi // straight back: seen from behind left, whatever rounding says
	}
	switch {
	case looks > beside:
		looks -= beside
	case looks < -beside:
		looks += beside
	default:
		looks = beside
	}
	return view.Camera{Yaw: looks, Pitch: pitch}
}

// TurnedTo is a camera that sees a piece's front, turned so that it also sees what
// is at an angle from the front: towards its side, if that is not straight behind.
func TurnedTo(cam view.Camera, angle float64) view.Camera {
	const aside = 5 * math.Pi / 18
	switch {
	case math.Abs(cam.Yaw) > math.Pi/2:
	case math.Abs(angle) > 5*math.Pi/6:
		cam.Yaw = aside
	default:
		cam.Yaw = math.Copysign(min(aside, math.Abs(angle)), angle)
	}
	return cam
}
