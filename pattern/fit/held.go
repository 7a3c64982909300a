package fit

import (
	"sync"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"
)

// held is a piece as it is held against the body and other pieces, with what is
// asked of it more than once.
type held struct {
	*pattern.Piece
	parts   []*worn                             // none if it takes no part in movement
	trimmed func() map[*pattern.Panel]geom.Mesh // of each panel, piece axes
	walls   func() geom.Mesh                    // its inner and its outer face, body axes
	middle  func() geom.Mesh                    // its middle, body axes
	whole   func() geom.Mesh                    // its middle as if nothing had been cut out of it, body axes
	puts    func() []report.Finding             // on putting it on
}

// hold takes a piece, which must not be changed afterwards.
func hold(p pattern.Piece, form *body.Form) *held {
	h := &held{Piece: &p}
	h.trimmed = sync.OnceValue(h.trim)
	h.walls = sync.OnceValue(h.makeWalls)
	h.middle = sync.OnceValue(func() geom.Mesh { return h.face(0) })
	h.whole = sync.OnceValue(h.untrimmed)
	h.puts = sync.OnceValue(func() []report.Finding { return putOn(h.Piece, form) })
	h.parts = h.wornParts()
	return h
}

// trim is all that is left of the panels.
func (h *held) trim() map[*pattern.Panel]geom.Mesh {
	out := make(map[*pattern.Panel]geom.Mesh, len(h.Panels))
	for i := range h.Panels {
		out[&h.Panels[i]] = h.Panels[i].Trimmed()
	}
	return out
}

// wornParts are the rigid parts of the piece on either side of the body: what is cut
// flat, moves with no part of the body, or is held in a hand has none.
func (h *held) wornParts() []*worn {
	p := h.Piece
	if p.Flat || p.Segment == "" && p.Joint == "" || p.Segment == body.Hand && p.Free {
		return nil
	}
	if p.Copies == 2 && p.Side == body.Both {
		return append(h.rigidParts(body.Left, false), h.rigidParts(body.Right, true)...)
	}
	return h.rigidParts(p.Side, false)
}

// rigidParts are the piece, or what of it is rigid and each of its lames.
func (h *held) rigidParts(side body.Side, mirror bool) []*worn {
	lames, rest := 0, false
	for i := range h.Panels {
		lames, rest = max(lames, h.Panels[i].Lame), rest || h.Panels[i].Lame == 0
	}
	var out []*worn
	for n := range lames + 1 {
		if n > 0 || rest {
			w := h.worn(side, mirror, n, lames)
			if n > 0 && rest {
				w.rest = out[0]
			}
			out = append(out, w)
		}
	}
	return out
}

// makeWalls are the inner and the outer face: a thick edge hides more than a line.
func (h *held) makeWalls() geom.Mesh {
	return geom.Together(h.face(-h.K*h.Thickness), h.face((1-h.K)*h.Thickness))
}

// face is the piece's foam at d outside its neutral surface, body axes.
func (h *held) face(d float64) geom.Mesh {
	trimmed := h.trimmed()
	return placed(h.Piece, faces(h.Piece, d, func(p *pattern.Panel) geom.Mesh { return trimmed[p] }))
}

func (h *held) untrimmed() geom.Mesh {
	return placed(h.Piece, faces(h.Piece, 0, func(panel *pattern.Panel) geom.Mesh {
		return geom.Mesh{V: panel.Surface.Bent, T: panel.Surface.T}
	}))
}

// together is a mesh of several pieces.
func together(pieces []*held, of func(*held) geom.Mesh) geom.Mesh {
	var all []geom.Mesh
	for _, h := range pieces {
		all = append(all, of(h))
	}
	return geom.Together(all...)
}

// placed is a mesh in piece axes brought into body axes.
func placed(p *pattern.Piece, m geom.Mesh) geom.Mesh {
	for i, v := range m.V {
		m.V[i] = p.Frame.Point(v)
	}
	return m
}
