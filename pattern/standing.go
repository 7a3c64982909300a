package pattern

import (
	"slices"

	"tasset/internal/geom"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// link is a fastening whose other part is on another piece.
type link struct {
	fastened
	to           string           // template of that piece
	at           []anchor         // in this piece
	angle, level template.Formula // of the other part; stations in them are those of the other piece's frame
	env          template.Env
}

// standing is what joining a piece to others needs of how it was built.
type standing struct {
	ray    func(angle, level float64) (from, dir r3.Vec, ok bool) // piece axes
	around func() geom.Mesh                                       // what it goes round, body axes
	levels map[string]float64                                     // of the frame's stations
	links  []link
	parts  []partEnd
	count  int      // of its fastenings so far
	after  []string // templates of what is put on before it
	hung   []string // templates of what it is fastened to
	file   string   // of its template
}

// stands notes how the piece was built.
func (b *builder) stands(s *shape) *standing {
	out := &standing{levels: b.stand.levels, around: func() geom.Mesh { return b.inPlace(b.inBody) }, after: b.template.After, hung: goesWith(b.template), file: b.template.File}
	if b.template.Frame.Over != "" {
		out.after = append(slices.Clone(out.after), b.template.Frame.Over)
	}
	out.ray = func(angle, level float64) (from, dir r3.Vec, ok bool) {
		from, dir, ok = b.ray(s, angle, level, anyLame)
		if b.stand.mirrored { // the piece was turned over when it was finished
			from.X, dir.X = -from.X, -dir.X
		}
		return from, dir, ok
	}
	return out
}

// inPlace is what the piece goes round, body axes. A right limb's piece is built
// in the mirror, and turned over when it is finished.
func (b *builder) inPlace(at func(r3.Vec) r3.Vec) geom.Mesh {
	m := geom.Mesh{T: b.stand.around.T, V: make([]r3.Vec, len(b.stand.around.V))}
	for i, v := range b.stand.around.V {
		m.V[i] = at(v)
	}
	return m
}
