package pattern

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
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

// anchor is where one end of a fastening stands.
type anchor struct {
	piece *Piece
	panel int
	q     r2.Vec
	moved *geom.Frame // on a further copy of the panel: where that stands
	image bool        // on the mirror image that is cut from the same template
	glued float64     // how long the patch of a strap is, mm
	asked r2.Vec      // where the template asks for it
	mark  int         // of the panel, that shows it
}

func (a anchor) on() *Panel { return &a.piece.Panels[a.panel] }

// place is the anchor in body axes, and the way that the piece looks there.
func (a anchor) place() (at, out r3.Vec) {
	at, out = a.on().Surface.LiftWithNormal(a.q)
	if a.moved != nil {
		at, out = a.moved.Point(at), a.moved.Dir(out)
	}
	if a.image {
		at.X, out.X = -at.X, -out.X
	}
	return a.piece.Frame.Point(at), a.piece.Frame.Dir(out)
}

// at is an end of a fastening before it is settled.
func (p *Piece) at(place placeOn) anchor {
	return anchor{piece: p, panel: place.panel, q: place.q, moved: place.moved, image: place.image}
}

// mirrored is the anchor on the copy that is turned over.
func (a anchor) mirrored() anchor {
	a.image = !a.image
	return a
}

// fastened is a fastening with its formulas evaluated.
type fastened struct {
	kind, name    string
	number        int
	width, length float64 // of a strap or strip, mm; a strap is as long as its path asks for
	girth         float64 // of what a strap goes round behind the piece, mm; 0: not said
	w, h          float64 // of the mark; of a strap's, across and along the strap
	mirror        bool    // also on the other side
	face          string  // that this part is on
	there         string  // and the other one
	part          string  // flat part of this piece that the other one is on; "": none
	by            *r3.Vec // place on the body by way of which a strap goes, body axes; nil: none
}

func (e *evaluator) fastened(f template.Fastening, number int) fastened {
	out := fastened{kind: f.Kind, name: f.Name, number: number, width: e.size(f.Width, "width of the "+f.Kind), length: e.size(f.Length, "length of the "+f.Kind), girth: e.girth(f.Girth), mirror: f.Mirror}
	if out.name == "" {
		out.name = f.Kind
	}
	out.face, out.there = faces(f)
	out.part = f.Part
	switch {
	case out.strapped():
		if out.width == 0 {
			out.width = strapWidth
		}
		out.w, out.h = out.width, out.width+patchMargin
	case f.Diameter.Set():
		out.w = max(e.size(f.Diameter, "diameter of the "+f.Kind), leastMark)
		out.h = out.w
	case f.Kind == "magnet pair" || f.Kind == "snap" || f.Kind == "pivot":
		out.w, out.h = buttonSize, buttonSize
	default:
		out.w, out.h = max(out.width, leastMark), max(out.length, leastMark)
	}
	return out
}

// faces are those that the two parts of a fastening are on. Hook-and-loop that is
// placed holds one thing on another: it is outside on the one that lies under.
func faces(f template.Fastening) (here, there string) {
	here = f.Face
	if here == "" {
		here = "inside"
		if f.Kind == "hook-and-loop" {
			here = "outside"
		}
	}
	switch {
	case f.Kind != "hook-and-loop":
		return here, here
	case here == "inside":
		return here, "outside"
	}
	return here, "inside"
}

// mostGirth is the girth of the largest thing that a strap goes round, mm: more is
// a slip.
const mostGirth = 2000.0

func (e *evaluator) girth(f template.Formula) float64 {
	v := e.num(f)
	if e.err == nil && !(v >= 0 && v <= mostGirth) {
		e.err = wrong(f, "what the strap goes round is %.4g mm round; it can be from 0 to %g mm", v, mostGirth)
	}
	return v
}

// strapped tells whether it is a band between two anchors.
func (f *fastened) strapped() bool {
	return f.kind == "strap and buckle" || f.kind == pullStrap || f.kind == "elastic"
}

// pullStrap is a strap that opens by a pull: one end is fixed, the other one holds by
// hook-and-loop.
const pullStrap = "strap with hook-and-loop"

// ends are what the marks of its two parts say. A magnet's faces are turned so
// that the two parts draw each other.
func (f *fastened) ends() (one, other string) {
	said := fmt.Sprintf("%s %d", f.name, f.number)
	switch f.kind {
	case "magnet pair":
		return said + ", + out", said + ", - out"
	case "snap":
		return said + ", stud", said + ", socket"
	case "strap and buckle":
		return said + ", strap, " + f.face, said + ", buckle, " + f.there
	case pullStrap:
		return said + ", strap, " + f.face, said + ", loops for the hooks at its end, " + f.there
	case "elastic":
		return said + ", " + f.face, said + ", " + f.there
	case "hook-and-loop":
		return said + ", hooks, " + f.face, said + ", loops, " + f.there
	}
	return said, said
}

// onBothCopies is what the mark of both parts says that is cut twice, once turned over.
func (f *fastened) onBothCopies() string {
	one, other := f.ends()
	if one == other {
		return one
	}
	return one + "; on the copy turned over: " + strings.TrimPrefix(other, fmt.Sprintf("%s %d, ", f.name, f.number))
}

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

// pullsOpen holds what goes round a neck to fastenings that open by a pull
// (common practice, no source).
func (b *builder) pullsOpen(e *evaluator) {
	if s := b.stand.segment; s != body.Head && s != body.Neck {
		return
	}
	for _, f := range b.template.Fastenings {
		if (f.Kind == "strap and buckle" || f.Kind == "lacing") && e.on(f.When) {
			b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
				Said:    fmt.Sprintf("it is closed by %s; whatever goes round the neck must open by a pull.", f.Kind),
				Perhaps: fmt.Sprintf("Use hook-and-loop, snaps, a magnet pair or elastic instead, in %s:%d.", b.template.File, f.Line)})
		}
	}
}

// perPiece is how many of the panel one piece has.
func (panel *Panel) perPiece(p *Piece) int { return max(panel.Copies/max(p.Copies, 1), 1) }

// end is one part of a fastening where the template asks for it.
type end struct {
	placeOn
	text  string // of its mark
	along r2.Vec // the way of a strap, in the flat panel; zero: not known
	anew  bool   // the panel has its mark already, which is drawn anew
	mark  int    // that one
}

// mark draws the parts of a fastening and notes their places. A strap's keep off
// the rims and off each other.
func (p *Piece) mark(ends []end, f fastened) []anchor {
	var out []anchor
	for len(ends) > 0 {
		n := 1
		if len(ends) > 1 && ends[0].panel == ends[1].panel && ends[0].image == ends[1].image && ends[0].moved == ends[1].moved {
			n = 2
		}
		out = append(out, p.markOn(ends[:n], f)...)
		ends = ends[n:]
	}
	return out
}

// markOn is mark for one end, or for two that mirror each other on one panel.
func (p *Piece) markOn(ends []end, f fastened) []anchor {
	on := &p.Panels[ends[0].panel]
	var patches []patch
	var own []int
	for _, e := range ends {
		patches = append(patches, f.patch(e.q, e.along))
		if e.anew {
			own = append(own, e.mark)
		}
	}
	if f.strapped() {
		settle := on.settle
		if f.face == "inside" && f.kind != "elastic" { // what goes round a foot gives way
			settle = on.settleShort
		}
		patches = settle(patches, on.taken(ends[0].only, own))
	}
	on.Marks = slices.Clone(on.Marks)
	var out []anchor
	for i, e := range ends {
		m := Mark{Kind: "fastening", Text: e.text, Only: e.only, Close: true, Line: around(e.q, f.w, f.h, true)}
		if !e.anew && e.only != "" {
			m.Text += ", " + e.only
		}
		if f.strapped() {
			m.Line, m.Axis = patches[i].outline(), patches[i].axis()
			if m.Text = strings.TrimSuffix(m.Text, riveted); patches[i].long < f.w+patchMargin {
				m.Text += riveted
			}
		}
		if !e.anew {
			e.mark = len(on.Marks)
			on.Marks = append(on.Marks, m)
		}
		on.Marks[e.mark] = m
		out = append(out, anchor{piece: p, panel: e.panel, q: patches[i].at, moved: e.moved, image: e.image, glued: patches[i].long, asked: e.q, mark: e.mark})
	}
	return out
}

// shortest is how long the shortest patch of some ends is, mm.
func shortest(ends []anchor) float64 {
	least := math.Inf(1)
	for _, a := range ends {
		least = min(least, a.glued)
	}
	return least
}

// mostShorter is how often ends are drawn anew for one of them that is shorter: each
// has its own way, which they change.
const mostShorter = 4

// again has ends drawn anew that are marked.
func again(ends []end, marked []anchor) {
	for i, a := range marked {
		ends[i].anew, ends[i].mark, ends[i].text = true, a.mark, a.on().Marks[a.mark].Text
	}
}

// riveted is what the mark of a short patch says, which glue alone does not hold
// (judgement).
const riveted = ", stitch or rivet it too"

// offTheEdges moves the middle of a patch inwards, until the patch lies inside every
// free edge by an inset and keeps off the seams, as far as the panel has room.
func (p *Panel) offTheEdges(t patch, inset float64) r2.Vec {
	for range 4 { // edges that meet in a corner
		by := p.short(t, inset)
		if by == (r2.Vec{}) || !p.Covers(r2.Add(t.at, by)) {
			break
		}
		t.at = r2.Add(t.at, by)
	}
	return t.at
}

// short is the move that a patch is short of most, to lie inside one of the edges by
// an inset.
func (p *Panel) short(t patch, inset float64) (by r2.Vec) {
	most := geom.Coincident
	for _, e := range p.Edges {
		clear := inset
		if e.Kind == Butt {
			clear = min(inset, offSeam)
		}
		if e.Kind == Hinge {
			continue
		}
		for i := 0; i+1 < len(e.Line); i++ {
			near, away := p.inFrom(t.at, e.Line[i], e.Line[i+1])
			room := clear + t.long/2*math.Abs(r2.Dot(away, t.along)) + t.wide/2*math.Abs(r2.Cross(away, t.along))
			if d := r2.Dot(r2.Sub(t.at, near), away); away != (r2.Vec{}) && room-d > most {
				most, by = room-d, r2.Scale(room-d, away)
			}
		}
	}
	return by
}

// offSeam is how far a patch that is glued on stays off a seam, mm (judgement).
const offSeam = 2.0

// inFrom is the nearest place to q of an edge's segment and the unit way from
// there into the panel: to q, or of one that lies on the segment, square to it.
func (p *Panel) inFrom(q, a, b r2.Vec) (near, away r2.Vec) {
	near, _ = geom.NearestOnSegment(q, a, b)
	if d := geom.Dist(q, near); d > geom.Detail {
		return near, r2.Scale(1/d, r2.Sub(q, near))
	}
	if geom.Dist(a, b) < geom.Coincident {
		return near, r2.Vec{}
	}
	return near, quarterTurn(r2.Unit(r2.Sub(b, a)))
}

// fasten marks the other parts of fastenings that go from piece to piece, and
// measures their straps.
func (set *Set) fasten() ([]report.Finding, error) {
	var found []report.Finding
	for i := range set.Pieces { // what a piece is by itself stays as it was made
		p := &set.Pieces[i]
		p.Panels, p.Straps = slices.Clone(p.Panels), slices.Clone(p.Straps)
	}
	for _, straps := range []bool{false, true} { // straps' patches are moved off what is there
		for i := range set.Pieces {
			more, err := set.fastenPiece(&set.Pieces[i], straps)
			if err != nil {
				return nil, err
			}
			found = append(found, more...)
		}
	}
	return found, nil
}

// fastenPiece is fasten for one piece's straps, or for its other fastenings.
func (set *Set) fastenPiece(p *Piece, straps bool) (found []report.Finding, err error) {
	if p.stands == nil {
		return nil, nil
	}
	for _, l := range p.stands.links {
		if l.strapped() != straps {
			continue
		}
		q := set.other(p, l.to)
		if q == nil {
			p.untied(l)
			found = append(found, report.Finding{Level: report.Doubt, Subject: p.Name,
				Said:    fmt.Sprintf("its %s goes to the %s, and the costume has none for it.", l.name, l.to),
				Perhaps: fmt.Sprintf("Add the %s, or fasten it to what you wear below.", l.to)})
			continue
		}
		tied, err := p.tie(q, l)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.Name, err)
		}
		if !tied {
			p.untied(l)
			found = append(found, report.Finding{Level: report.Doubt, Subject: p.Name,
				Said:    fmt.Sprintf("its %s goes to a place of the %s where that has no panel, so that end is not marked and no length is known.", l.name, q.Name),
				Perhaps: fmt.Sprintf("Hold both where they are worn and mark it there, or move the place in %s.", p.stands.file)})
		}
	}
	return found, nil
}

// untied notes a strap whose other end is on no piece: nothing is known of how long it is.
func (p *Piece) untied(l link) {
	if !l.strapped() || len(l.at) == 0 {
		return
	}
	a := l.at[0]
	a.piece = p
	count := p.Copies * max(len(l.at), a.on().perPiece(p))
	p.Straps = append(p.Straps, Strap{Kind: l.kind, Name: l.name, Number: l.number, Count: count, Width: l.width, From: a.on().Label})
}

// other is the piece of a template that a piece is fastened to: on its own side,
// or on no side.
func (set *Set) other(p *Piece, name string) *Piece {
	for i := range set.Pieces {
		q := &set.Pieces[i]
		if q != p && q.Template == name && q.stands != nil && (q.Side == p.Side || q.Side == body.Both || p.Side == body.Both) {
			return q
		}
	}
	return nil
}

// tie marks the other part of a fastening on the piece that it goes to: of a
// pair, or of a fastening on both sides, on both sides of that piece. It tells
// whether there is a panel at that place.
func (p *Piece) tie(q *Piece, l link) (bool, error) {
	e := evaluator{env: maps.Clone(l.env)}
	maps.Copy(e.env, q.stands.levels)
	toAngle, toLevel := e.num(l.angle), e.num(l.level)
	if e.err != nil {
		return false, e.err
	}
	_, text := l.ends()
	text = fmt.Sprintf("%s, of the %s", text, p.Name)
	angles := []float64{toAngle}
	if paired := limb(q.Segment); !paired && p.Side == body.Right {
		angles[0] = -toAngle
	} else if l.mirror || !paired && p.Copies == 2 {
		angles = append(angles, -toAngle)
	}
	var ends []end
	for _, angle := range angles {
		on, ok := q.standsOn(angle, toLevel, len(ends) == 0)
		if ok && (len(ends) == 0 || ends[0].panel != on.panel || geom.Dist(ends[0].q, on.q) > samePlace) {
			ends = append(ends, end{placeOn: on, text: text})
		}
	}
	for i := 0; i < len(angles) && len(ends) == 0 && l.strapped(); i++ {
		if on, ok := q.nearestTo(angles[i], toLevel); ok {
			ends = []end{{placeOn: on, text: text}}
		}
	}
	if len(ends) == 0 {
		return false, nil
	}
	if !l.strapped() {
		q.mark(ends, l.fastened)
		return true, nil
	}
	l.at = p.alongStraps(q, l, ends)
	there := q.mark(ends, l.fastened)
	for range mostShorter { // as long at either end
		short := min(shortest(l.at), shortest(there))
		if short >= l.h {
			break
		}
		l.h = short
		again(ends, there)
		l.at = p.alongStraps(q, l, ends)
		there = q.mark(ends, l.fastened)
	}
	p.strapTo(q, l, there[0])
	return true, nil
}

// standsOn is the place of the piece's panels at an angle and level, or if that may be
// on the half that is cut from the same template as its image.
func (p *Piece) standsOn(angle, level float64, orImage bool) (placeOn, bool) {
	from, dir, ok := p.stands.ray(angle, level)
	if !ok {
		return placeOn{}, false
	}
	on, ok := p.pierced(from, dir, anyLame)
	if !ok && orImage {
		from.X, dir.X = -from.X, -dir.X
		on, ok = p.pierced(from, dir, anyLame)
	}
	return on, ok
}

// nearestTo is the place nearest to an angle and level that has a panel: a strap that
// finds none goes there.
func (p *Piece) nearestTo(angle, level float64) (placeOn, bool) {
	for _, m := range nearMoves() {
		if on, ok := p.standsOn(angle+m.X/nearReach, level+m.Y, true); ok {
			return on, true
		}
	}
	return placeOn{}, false
}

// alongStraps gives the ends of straps on the piece that they go to their way, and
// draws those on this one anew along it.
func (p *Piece) alongStraps(q *Piece, l link, ends []end) []anchor {
	var there []anchor
	for _, e := range ends {
		there = append(there, q.at(e.placeOn))
	}
	var here []anchor
	var again []end
	for _, a := range l.at {
		a.piece, a.q = p, a.asked
		here = append(here, a)
		m := a.on().Marks[a.mark]
		to, out := a.nearest(there)
		again = append(again, end{placeOn: placeOn{panel: a.panel, q: a.asked, moved: a.moved, image: a.image, only: m.Only}, text: m.Text, along: a.along(to, out, r3.Vec{}), anew: true, mark: a.mark})
	}
	for i := range ends {
		to, out := there[i].nearest(here)
		ends[i].along = there[i].along(to, out, r3.Vec{})
	}
	return p.mark(again, l.fastened)
}

// strapTo measures the strap of a fastening from its first end on the piece to one on
// the piece that it goes to.
func (p *Piece) strapTo(q *Piece, l link, z anchor) {
	a := l.at[0]
	a.piece = p
	if z.on().Flipped > 0 { // the end on the same side
		other := z
		other.image = true
		from, _ := a.place()
		here, _ := z.place()
		there, _ := other.place()
		z.image = geom.Dist(from, there) < geom.Dist(from, here)
	}
	count := p.Copies * max(len(l.at), a.on().perPiece(p))
	p.strap(l.fastened, count, a, z, pathOver(a, z, p.stands.around(), q.stands.around()))
	s := &p.Straps[len(p.Straps)-1]
	s.Hidden = l.kind == "strap and buckle" && s.hidden(a, z)
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

// samePlace is how near two places on one template are one, mm: on halves that are
// cut from one, both sides' marks fall together but for what their shape is uneven
// by (detail).
const samePlace = 1.0
