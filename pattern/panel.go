// Package pattern turns a template and a body form into flat panels whose
// seams meet: limits and shells in three dimensions, then seams, then panels.
//
// Lengths are millimetres. A flat panel is seen from its show face (the
// outside of the piece) and its outline runs counter-clockwise.
package pattern

import (
	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Set is everything that was made of a costume's pieces.
type Set struct {
	Pieces   []Piece
	Dressing []string // names of the pieces in an order to put them on
	kept     []kept   // of each order, for Remake
}

// Piece is one piece of the costume, ready to be laid on pages.
type Piece struct {
	Name      string // as the maker named it: "left vambrace"
	Template  string // the template's name: "vambrace"
	Title     string // in the trade's words: "Vambrace"
	About     string
	Code      string       // one or two letters that stand on every panel: "V"
	Flat      bool         // one flat panel of a traced outline, which goes round no part of the body
	Segment   body.Segment // that it moves with; "" if it moves with none, or floats
	Free      bool         // it stands free: it is kept clear of no body, and nothing is said of its clearance
	Joint     string       // that it floats over, on its own strap: it turns by half of what the joint does; "" if it moves with Segment
	Through   float64      // rad that its run of lames bends as a whole; 0 if it has none
	Overlap   float64      // mm that one of its lames lies over the next when straight
	Covers    Widths       // of the foam of one of its lames, what the next lies over when straight, measured on the flat panels; of a run on a curve, or repeated, none
	Chain     [][]string   // labels of the panels of each part of its run of lames, and of the bands that it meets: each part lies over the one before it
	Mirror    bool         // it is its own mirror image about x = 0 of its frame
	With      []string     // templates of the pieces that it lies over, is fastened to or follows
	Side      body.Side
	Copies    int        // 2 when a mirrored pair is made of one set of templates
	Thickness float64    // of its foam
	MockUp    bool       // in card instead of foam
	K         float64    // where the neutral line lies: 0 inner face, 1 outer face
	Traced    Face       // at which the line to cut is
	Frame     geom.Frame // bodyFromPiece
	Panels    []Panel
	Seams     []Seam
	Governs   []Governing
	Units     units.Unit // how the sizes it hangs on are written to the maker; None is mm
	Draft     bool       // one of the governing sizes is not known well enough
	DraftWhy  string     // and which one to measure, in a sentence
	Clearance float64    // least distance of the inner face from body and what is worn, mm; checked
	Asked     float64    // the least clearance that was asked for, mm
	Askings   []Asking   // and by the way that the foam looks; none: the same all round
	Passing   float64    // least distance of the inner face from the parts of the body that it passes, mm; checked
	PassAsked float64    // what was asked for of that, mm; 0 if it passes none
	Gap       float64    // of a piece that lies over others: least distance of its inner face from their outer one, mm; checked
	GapAsked  float64    // what was asked for of that, mm
	Deviation float64    // how far bent panels stand outside the smooth surface that was asked for at most, mm
	PushedOut float64    // how far the shell was pushed out so that bent panels clear, mm
	Weight    float64    // of its panels' foam, all copies, kg: arithmetic from the material's density; 0 in card or when no density is set
	Settings  []Setting
	Notes     []string // short lines for the piece's title block
	Straps    []Strap
	Laid      []Laid    // flat parts that are glued on each other, face to face
	Sheets    []Sheet   // parts that have no template
	Bought    []Bought  // what it needs beside foam
	stands    *standing // how it was built; nil of a traced one

	stood *stand
}

// Carried tells whether the piece is held, or cut out flat, rather than worn.
func (p *Piece) Carried() bool { return p.Flat || p.Free && p.Segment == "" }

// Sheet is a rectangle of cloth that is cut by its size, not by a template.
type Sheet struct {
	Name, Of    string // "tongue", of "strong cloth or thin foam"
	Count       int
	Long, Broad float64 // mm
}

// Bought is a thing that a piece needs beside foam, as a rod that it is built on.
type Bought struct {
	Name, Text        string // "rod of wood or fibreglass"; what it is for
	Count             int
	Thick, Wide, Long float64 // mm; 0: not said
}

// Governing is a measurement that sizes the piece.
type Governing struct {
	body.Measurement
	Changed string  // what a fitting changed it by, as typed; Origin tells of the size before that
	PerMM   float64 // how many mm the piece's girth or length moves for each mm of it
	Good    bool    // known well enough to cut by
}

// EdgeKind tells what happens at an edge of a panel.
type EdgeKind int

// The kinds of edge.
const (
	Rim        EdgeKind = iota // a free edge of the piece
	Butt                       // glued edge to edge with its partner
	Lap                        // lies over or under its partner
	Closure                    // meets its partner when the piece is closed; opens to put it on
	Opening                    // the edge of an eye slot, a face opening, a hole
	Hinge                      // crosses the groove of a fold: cut, joined to nothing
	ClothHinge                 // meets its partner when closed, and a strip of cloth holds the two
)

// String is the word that stands on a page.
func (k EdgeKind) String() string {
	return [...]string{"rim", "butt", "lap", "closure", "opening", "hinge", "hinge of cloth"}[k]
}

// Panel is one flat template.
type Panel struct {
	Number  int // within its piece, from 1
	Role    Role
	Label   string       // "V1"
	Name    string       // "outer side", "gore 3"
	Lame    int          // which of a run of lames it is of, from 1 at the run's lower end; 0: it is of the rigid rest
	Copies  int          // to cut of this template, over the whole costume
	Thick   float64      // of its foam, mm, where it is another than the piece's; 0: the piece's
	Flipped int          // how many of them with the template turned over
	Edges   []Edge       // counter-clockwise, each starts where the one before ends
	Outline []r2.Vec     // the line to cut, closed, counter-clockwise, last point not repeated
	Holes   [][]r2.Vec   // clockwise, closed
	holeOf  []string     // names of the openings that they are
	alike   []geom.Frame // where its further copies stand that are not turned over
	Folds   []Fold
	Marks   []Mark
	padded  [][]r2.Vec // outlines of the pads on its inner face
	behind  [][]r2.Vec // convex outlines of where a lame lies on its inner face
	Up      r2.Vec     // unit vector: towards the top of the piece when worn (also the grain arrow)
	Surface Surface
	Formed  *Formed // nil: it is only bent
	Notes   []string
}

// Role is what a panel is to its piece.
type Role int

// The roles.
const (
	OfShell  Role = iota // one of those that make up the shell
	FlatPart             // stays flat: a fin, a strap, a disc
	Strip                // a raised strip on the outer face, along an edge
	Pad                  // a block of soft foam on the inner face
)

// Foam is how thick a panel's foam is.
func (p *Piece) Foam(panel *Panel) float64 {
	if panel.Thick > 0 {
		return panel.Thick
	}
	return p.Thickness
}

// Edge is a stretch of a panel's border with one fate.
type Edge struct {
	Kind      EdgeKind
	Seam      int       // number of the seam, 0 if Rim or Opening
	Span      int       // which stretch of that seam, from 1
	Line      []r2.Vec  // the seam line (neutral line), in the outline's direction
	Beyond    []float64 // how far outside the seam line the traced face is cut, mm, at equal distances from end to end; below 0: inside it; nil: on it
	Length    float64   // along Line
	Notches   []Notch
	Allowance float64 // how far the outline stands outside Line
	Bevel     Bevel
	Along     bool   // Line runs in the direction of the seam's own polyline
	Gap       bool   // a free edge at the gap where the piece opens
	Drawn     bool   // a free edge where the piece was cut off along a drawn curve
	Of        string // of a free edge: name of the template's ring, rim or opening that it is
	Partner   string // label of the panel on the other side, "" if none
}

// Notch is a registration mark on a seam line.
type Notch struct {
	At   float64 // mm from the start of the seam's span, in the seam's own direction
	P    r2.Vec  // on the edge's Line
	In   r2.Vec  // unit vector into the panel
	Rank int     // 1, 2, 3 … along the span: drawn as that many strokes or a number
}

// Bevel is how the edge is cut off square so that a fold closes.
type Bevel struct {
	Min, Max float64 // rad from a square cut, over the edge; both sides of the seam get the same
	Undercut bool    // true: the inner face is cut back (a convex joint); false: the outer face is
}

// Fold is a line along which a panel is folded, not cut through.
type Fold struct {
	Line  []r2.Vec
	Kind  string  // "grooved inside", "scored outside", "bent"; in card "scored"
	Angle float64 // rad, how far it is folded from flat (mean)
	Name  string
}

// Mark is something drawn inside a panel for the maker.
type Mark struct {
	Kind   string // "fastening", "pad", "text", "line" (where something is glued), MarkRest, MarkCovered, MarkStretch, MarkGather
	Line   []r2.Vec
	Text   string
	Close  bool     // Line is a closed outline
	Only   string   // of several copies, which it is on, as Text says it; "": on all
	Covers bool     // of a "line": the part covers what is at the line's left
	Axis   []r2.Vec // of the end of a strap: its middle line to where the strap leaves, with the anchor in its middle; the anchor alone where its way is not known
}

// MarkCovered is the kind of a line up to which another part lies over the panel: it
// covers what is at the left of the line.
const MarkCovered = "covered"

// Surface is the panel before it was flattened: triangles that lie both in the
// plane and on the neutral surface of the piece. Of a bent panel every triangle
// has the same side lengths in both; of a formed one only the sides along its
// border do, and Formed tells by how much the others differ.
type Surface struct {
	Flat []r2.Vec
	Bent []r3.Vec // piece axes
	T    [][3]int
}

// Seam is where two edges meet.
type Seam struct {
	Number int
	Kind   EdgeKind
	Line   []r3.Vec // the shared polyline on the neutral surface, piece axes
	Length float64
	Spans  []Span
}

// Span is an uninterrupted stretch of a seam that joins exactly two edges.
type Span struct {
	From, To float64 // arc length along the seam's Line
	Sides    [2]EdgeRef
}

// EdgeRef points at an edge of a panel of the piece.
type EdgeRef struct {
	Panel, Edge int // indices
}
