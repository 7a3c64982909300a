package pattern

import (
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// Strap is a strap or band that goes from one place of a piece to another, of the
// same piece or of one that it hangs on.
type Strap struct {
	Kind, Name string
	Number     int     // that stands at both its ends
	Count      int     // of them, all copies of the piece
	Width      float64 // mm
	Round      float64 // how far round is what it goes round behind the piece, mm; 0: the limb, or what lies between
	Path       float64 // from the middle of one anchor to that of the other, over what lies between, mm: measured on the drawn shape
	Patch      float64 // of it lies glued under the mark at either end, mm: half of that beyond the Path
	Length     float64 // to cut, mm: arithmetic from Path and what the trade adds
	From, To   string  // labels of the panels; To "": its other end is on no piece, and then nothing is said of how long it is
	Hidden     bool    // its buckle lies behind the foam of both pieces when they are worn
	OnCopy     bool    // To is From's copy that is turned over
	Other      string  // name of the other piece; "": the same
}

// What straps need (common practice, no source).
const (
	strapWidth   = 25.0  // webbing for limbs, mm
	patchMargin  = 25.0  // an anchor patch is so much longer than its strap is wide, mm
	buckleSpare  = 80.0  // of 60 to 100 mm, to pull a buckle tight
	pullSpare    = 40.0  // to set a strap that holds by hook-and-loop, and to take hold of, mm (judgement)
	elasticShare = 0.875 // elastic is cut 10 to 15 % shorter than its way between what is glued on
	leastMark    = 10.0  // a mark that a maker sees, mm
	buttonSize   = 15.0  // of a magnet, snap or pivot, mm
)

// strap notes a strap between two anchors, which a path joins.
func (p *Piece) strap(f fastened, count int, a, z anchor, path float64) {
	s := Strap{Kind: f.kind, Name: f.name, Number: f.number, Count: count, Width: f.width, Round: f.girth, From: a.on().Label, To: z.on().Label}
	if z.piece != a.piece {
		s.Other = z.piece.Name
	}
	s.Path, s.Patch = path, f.h
	s.OnCopy = s.From == s.To && a.image != z.image
	s.Length = s.Path + f.h + buckleSpare // half of a patch at either end lies beyond the path
	switch f.kind {
	case "elastic":
		s.Length = elasticShare*(s.Path-f.h) + 2*f.h // what is glued on does not stretch
	case pullStrap:
		s.Length = s.Path + f.h + pullSpare
	}
	p.Straps = append(p.Straps, s)
}

// behindFoam is how far inside the line between its ends a buckle is taken to lie, mm
// (judgement).
const behindFoam = 15.0

// hidden tells whether the buckle of a strap has foam of either of its pieces before it:
// nobody reaches it when both are worn. It hangs just past the patch of its own end.
func (s *Strap) hidden(a, z anchor) bool {
	from, out := a.place()
	to, other := z.place()
	way := r3.Add(out, other)
	off := r3.Sub(from, to)
	if r3.Norm(off) < geom.Coincident || r3.Norm(way) < geom.Coincident {
		return false
	}
	at := r3.Add(to, r3.Scale(min(1, (s.Patch/2+buckleRoom*s.Width/2)/r3.Norm(off)), off))
	at = r3.Sub(at, r3.Scale(behindFoam, r3.Unit(way))) // the straight line may lie before a hollow of the foam
	return a.piece.before(at, way) || z.piece.before(at, way)
}

// before tells whether a piece has foam on the way outwards from a place, body axes.
func (p *Piece) before(at, way r3.Vec) bool {
	from, dir := p.Frame.Local(at), p.Frame.LocalDir(way)
	_, ok := p.pierced(from, dir, anyLame)
	if !ok { // on the half that is the image
		from.X, dir.X = -from.X, -dir.X
		_, ok = p.pierced(from, dir, anyLame)
	}
	return ok
}
