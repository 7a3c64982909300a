package body

import (
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// layerOn is a layer on a part: how thick it lies at a point of the skin.
type layerOn struct {
	thickness float64
	share     func(skin r3.Vec) float64 // 0 to 1; nil is everywhere
}

// wear puts the layers that name the part's segment on it. Hair and wig lie
// only where hair grows; glasses stand in front of the eyes.
func (p *Part) wear(layers []Layer, f *face, pupil r3.Vec) {
	p.wornMesh = sync.OnceValue(p.makeWorn)
	p.wornNormals = sync.OnceValue(func() []r3.Vec { return geom.VertexNormals(p.Worn()) })
	for _, l := range layers {
		on := slices.Contains(l.Segments, p.Segment)
		switch l.Name {
		case "glasses":
			if p.Segment == Head {
				p.extra = append(p.extra, f.glasses(pupil, l.Thickness)...)
			}
		case "hair", "wig":
			if p.Segment == Head {
				p.layers = append(p.layers, layerOn{l.Thickness, f.hairy})
			}
		default:
			if on {
				p.layers = append(p.layers, layerOn{thickness: l.Thickness})
			}
		}
	}
}

// hairy is 1 where hair grows and 0 on the face, over a soft line 30 mm wide:
// from 45 mm above the brow in front, past the top of the ears, down to the
// nape behind. Judgement.
func (f *face) hairy(p r3.Vec) float64 {
	angle := math.Abs(math.Atan2(p.X, p.Z))
	const temple, behindEar = 75 * math.Pi / 180, 110 * math.Pi / 180
	front, ear, nape := f.browLevel+45, 10.0, menton*f.length
	var line float64
	switch {
	case angle < temple:
		line = lerp(front, ear, math.Pow(angle/temple, 3))
	case angle < behindEar:
		line = lerp(ear, nape, (angle-temple)/(behindEar-temple))
	default:
		line = nape
	}
	return min(1, max(0, (p.Y-line)/30+.5))
}

// glasses are a front, reaching forward of the pupils by the stand-off, and two
// temples back to the ears.
func (f *face) glasses(pupil r3.Vec, standOff float64) []geom.Mesh {
	half := .47 * f.ring.Breadth
	const sunk, tall = 6, 22 // mm
	front := blob(r3.Vec{Y: pupil.Y, Z: pupil.Z + (standOff-sunk)/2}, r3.Vec{X: half, Y: tall, Z: (standOff + sunk) / 2}, 5)
	out := []geom.Mesh{front}
	for _, side := range []float64{1, -1} {
		out = append(out, blob(r3.Vec{X: side * half, Y: pupil.Y + 8, Z: pupil.Z / 2}, r3.Vec{X: 4, Y: 4, Z: pupil.Z/2 + 5}, 4))
	}
	return out
}

// Worn is the skin with everything that is worn on it, in part coordinates: the
// layers by thickness along the normal, then, as closed solids of their own,
// ears and nose (under the layers that lie everywhere) and glasses. It is made
// once: the caller must not change it.
func (p *Part) Worn() geom.Mesh { return p.wornMesh() }

// WornNormals are the outward unit normals at the vertices of Worn, in the same
// coordinates; made once too.
func (p *Part) WornNormals() []r3.Vec { return p.wornNormals() }

func (p *Part) makeWorn() geom.Mesh {
	m := p.thicken(p.Mesh())
	for _, solid := range p.solids() {
		m.Append(solid)
	}
	return m
}

// solids are the closed solids that stand on the skin.
func (p *Part) solids() []geom.Mesh {
	var even float64
	for _, l := range p.layers {
		if l.share == nil {
			even += l.thickness
		}
	}
	var out []geom.Mesh
	for _, d := range p.details {
		out = append(out, offset(d, func(r3.Vec) float64 { return even }))
	}
	return append(out, p.extra...)
}

// thicken moves a skin out by what is worn on it.
func (p *Part) thicken(m geom.Mesh) geom.Mesh {
	if len(p.layers) == 0 {
		return m
	}
	return offset(m, func(skin r3.Vec) float64 {
		var t float64
		for _, l := range p.layers {
			if l.share == nil {
				t += l.thickness
			} else {
				t += l.thickness * l.share(skin)
			}
		}
		return t
	})
}

// offset moves each vertex along its normal.
func offset(m geom.Mesh, by func(r3.Vec) float64) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, n := range geom.VertexNormals(m) {
		out.V[i] = r3.Add(m.V[i], r3.Scale(by(m.V[i]), n))
	}
	return out
}
