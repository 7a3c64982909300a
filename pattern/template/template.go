// Package template reads piece templates: files in a small language that say
// how a piece of armour is shaped in terms of a body's measurements. Parse
// checks a file completely, so that the pattern stage works on names and
// formulas that are known to be good. The language is described in
// docs/templates.md.
//
// A level is a distance in mm along the axis of the piece's frame. Axis "up":
// levels rise with the frame's y; an angle is 0 forward (+z) and grows towards
// +x. On the head, neck and torso +x is the wearer's left; on limbs it is
// outwards. Axis "across": levels grow with the frame's x from the mid-plane;
// an angle is 0 forward (+z) and grows upwards (+y), so 90° is up and 180°
// backwards.
package template

import "tasset/body"

// Template is one piece as its file describes it, checked and compiled.
type Template struct {
	Name  string // the file's name without its ending: "open-helmet"
	Title string // in the trade's words: "Open-face helmet"
	About string // one sentence
	Code  string // one or two capital letters that stand on every panel
	File  string // as it was given to Parse, for messages

	Settings   []Setting
	Governs    []body.Name // sizes that the piece hangs on
	Thickness  Formula     // the foam's thickness by default, mm
	Ease       Directions  // clearance of the inner face from body and what is worn, along the surface normal, mm
	Padding    Formula     // mm more; unset is none
	After      []string    // templates of the pieces that are put on before this one
	Draw       string      // "": none; "down": drawn on from above, so each level also goes round what lies above it
	Mirror     bool        // the piece is its own mirror image about its frame's x = 0 plane
	Rims       []Rim
	Openings   []Opening
	Fastenings []Fastening
	Marks      []Mark
	Flats      []Flat
	Joins      []Join
	Layers     []Layer
	Pads       []Pad
	Buy        []Bought
	Doubts     []Doubt
	Repeat     *Repeat // the shape again for each of these; nil: once

	Shape // the only one, or after Resolve the layout's

	layouts []layout
	others  []other // templates that it names
}

// Shape is what may differ between the layouts of one template.
type Shape struct {
	Frame Frame
	Span  *Span  // the shell covers only these angles; nil: the whole turn
	Rings []Ring // in ascending order along the axis
	Bands []Band // between rings, in order
	Cap   *Cap   // at the last ring; nil: open
	Base  *Cap   // at the first ring; nil: open
	Gap   *Gap   // where the piece opens; nil: it does not
	Folds []FoldRule
	Lames *Lames // a run of overlapping bands; nil: none
}

// Frame says where a piece stands.
type Frame struct {
	Kind    string         // "segment", "joint", "over" or "free"
	Segment body.Segment   // Kind segment: whose frame it is. Others: what the piece moves with, or is held by; "" if not said
	Joint   string         // Kind joint: "shoulder", "elbow", "wrist", "hip", "knee", "ankle", "neck"
	Over    string         // Kind over: the template that it lies on; it stands in that one's frame
	Gap     Formula        // Kind over: mm from the other's outer face to this one's inner face
	Pair    bool           // Kind free: there is a left one, as written, and its mirror image
	Clear   []body.Segment // Kinds segment and joint: other parts that it passes or lies on, and is kept clear of by the ease
	Axis    string         // "up", "across", or with a joint "out": it points out of the joint
	Spine   []Step         // the axis is a smooth curve through these; none: straight
	Line    int
}

// Step is a place that a spine runs through, in the frame's axes. Its Ident is
// the level of the step: the length of the curve from the first one, mm.
type Step struct {
	Name, Ident string
	X, Y, Z     Formula // mm
	Tilt        Formula // rad that a ring there leans forward (towards +z) from square to the curve; unset: 0
	Line        int
}

// Span is the part of the turn that a shell covers, from From to To in the
// direction of growing angles.
type Span struct{ From, To Formula } // rad

// Directions are values by the direction that the surface looks in. An unset
// one is All.
type Directions struct {
	All, Front, Back Formula
	Left, Right      Formula // the wearer's
	Outer, Inner     Formula // away from and towards the body's mid-plane; limbs only
	Top, Bottom      Formula
}

// Ring is a section of the shell at one level.
type Ring struct {
	Name    string
	At      Formula    // level, mm
	Section Formula    // level whose section of the body the ring takes; unset: At
	Ease    Directions // added to the template's
	Creases []Crease
	Corners []Formula // angles, rad: the ring is straight between these corners; none: round
	Points  []Point   // drawn: x and z (axis up) of the inner face, round the axis from angle 0 on; the body is then not followed
	Size    *Size     // drawn as a rounded figure instead
	When    Condition
	Line    int
}

// Size is a ring drawn by its measures: the inner face is |2x/Width|^n +
// |2z/Depth|^n = 1 about (X, Z). With corners, it is the polygon round that.
type Size struct {
	Width, Depth Formula // mm, whole
	X, Z         Formula // mm, of its middle; unset: 0
	Full         Formula // the exponent n, from 1 (lozenge) over 2 (ellipse) to 8 (nearly a box); unset: 2
}

// Crease is a ridge that stands out of a ring.
type Crease struct {
	At   Formula // angle, rad
	Rise Formula // mm out of the smooth ring
}

// Band is the part of the shell between two rings.
type Band struct {
	Name     string
	From, To string // names of rings
	Bend     string // "around": wraps the axis, straight along it; "along": follows the profile, straight across it; "formed": follows both, by heat
	Seams    Seams
	When     Condition
	Line     int
}

// Seams cut a band along its axis into panels. No angles and no count: the
// band is one panel, between the gap's edges if there is a gap.
type Seams struct {
	At     []Formula // angles, rad
	Count  Formula   // or that many, evenly; a whole number
	Start  Formula   // with Count: the first one's angle; unset: 0
	Within Formula   // with Count: more panels, until they stand off by no more than this, mm; unset or 0: as many as Count says
	Most   Formula   // with Within: but no more than this
	Names  []string  // of the panels: the first lies between the first seam and the next; may be shorter or none
}

// Cap closes the shell at a ring.
type Cap struct {
	Kind   string  // "point": gores meet in a point; "plate": a flat panel; "ridge": two sides meet on a line; "dome": rings shrink on an elliptic profile round a plate
	Name   string  // of the plate
	At     Formula // level of the point, the ridge or the dome's plate, mm; unset: where the offset surface ends. A plate lies in its ring
	Along  Formula // of a ridge: angle of its direction, rad; unset: 0
	Across Formula // of a ridge: its length, mm; unset: that of the ring along it
	Rings  Formula // of a dome: bands between ring and plate; unset: 2
	Plate  Formula // of a dome: the plate's share of the ring's width; unset: 0.4
	When   Condition
	Line   int
}

// Gap is where the turn opens, so that the piece can be put on.
type Gap struct {
	At    Formula // angle of its middle, rad
	Width Formula // mm between the edges when worn; 0: they meet
	Lap   Formula // mm that the edge on the side of growing angles lies over the other; unset: none
	When  Condition
	Line  int
}

// Rim is a curve round the piece along which it is cut off: what lies below a
// lower rim, or above an upper one. Between its points the level runs evenly or
// smoothly, and from the last one on round to the first.
type Rim struct {
	Name   string
	Side   string // "lower" or "upper"
	Points []Bearing
	Smooth bool
	Mirror bool // the points lie at angles from 0 to 180 deg, and their images are meant too
	When   Condition
	Line   int
}

// Bearing is a place of a rim.
type Bearing struct {
	Angle Formula // rad, growing from point to point
	Level Formula // mm
}

// Opening is a closed curve, or a row of round holes, cut out of the shell. It
// is drawn as seen along an axis and lands on the side that is seen from there.
// Coordinates are mm in the frame: from "front" and "back" x towards the frame's
// +x and y up; from "left" and "right" x forward and y up; from "top" and
// "bottom" x towards the frame's +x and y forward. "left" and "right" are the wearer's; on limbs
// "outer" and "inner" stand in their place.
type Opening struct {
	Name   string
	View   string
	Points []Point // a closed curve; empty if Round is set
	Round  *Round
	Smooth bool    // the curve is smooth except at points marked as corners
	Mirror bool    // also its mirror image about x = 0
	Around Formula // cut so often, evenly along the longest ring, each seen square on, with x along the ring from its own place; unset: once
	Start  Formula // with Around: where the first stands after angle 0 (or the shell's first edge), as a share of the spacing; unset: 0
	When   Condition
	Line   int
}

// What formulas of an opening that is cut all round know besides: the angle of
// each, and how far they stand apart along the ring.
const (
	Turn    = "turn"    // rad
	Spacing = "spacing" // mm
)

// Point is a point of a drawn curve.
type Point struct {
	X, Y   Formula // mm
	Corner bool    // of a smooth curve: turns sharply here
}

// Round is a round hole, or rows of them: hole (i, j) stands at
// X + i·StepX, Y + j·StepY for i < Count and j < Rows.
type Round struct {
	X, Y, Radius Formula // mm
	Count, Rows  Formula // whole numbers; unset: 1
	StepX, StepY Formula // mm
}

// FoldRule says how the corner or crease at an angle is made where it lies
// inside a panel. Corners and creases without a rule are "grooved inside".
type FoldRule struct {
	At    Formula  // angle, rad
	Kind  string   // "grooved inside", "scored outside", "bent"
	Bands []string // names of bands; none: all
	When  Condition
	Line  int
}

// Fastening is how two edges, or a strap and a panel, are held together.
type Fastening struct {
	Kind     string    // one of FasteningKinds
	Name     string    // what the mark says; unset: the kind
	AtGap    bool      // along the gap's two edges
	Angle    Formula   // else: at this angle, rad
	Level    Formula   // and this level, mm; at a gap: of a single one
	Levels   []Formula // at a gap: these levels
	Count    Formula   // at a gap without levels: that many, evenly
	Width    Formula   // of strap or strip, mm
	Length   Formula   // of strip or strap, mm
	Diameter Formula   // of magnet, snap or pivot, mm
	To       string    // template of the piece that the other part is on; "": this one
	ToAngle  Formula   // place of the other part, in that piece's frame
	ToLevel  Formula
	Part     string  // flat part of this piece that the other part is on; "": none
	On       string  // flat part of this piece that this part is on, at (X, Y); "": it is on the shell
	X, Y     Formula // with On: of its place, as that part's points are given, mm
	Face     string  // that it is on, "inside" or "outside"; "": inside, and of hook-and-loop that is not at a gap outside
	ByAngle  Formula // place on the body by way of which a strap goes; unset: the way round the limb
	ByLevel  Formula
	Girth    Formula // of a strap with both ends on this piece: of what it goes round behind it, mm; unset: the limb that the piece stands on
	Mirror   bool    // also at the mirrored angle
	When     Condition
	Line     int
}

// FasteningKinds are the fastenings that a template may name.
var FasteningKinds = []string{
	"hook-and-loop", "strap and buckle", "strap with hook-and-loop", "snap", "elastic", "magnet pair", "lacing", "pivot",
}

// Mark is a note at a place on the shell, or on flat parts.
type Mark struct {
	Name  string
	Text  Said
	Angle Formula  // rad
	Level Formula  // mm
	On    []string // flat parts that it is on, at (X, Y) of each that is there; none: it is on the shell
	X, Y  Formula  // with On: as the points of those parts are given, mm
	When  Condition
	Line  int
}

// Bought is a thing that a piece needs beside foam: a rod that it is built on, a block
// that fills it.
type Bought struct {
	Name                     string  // in plain words: "rod of wood or fibreglass"
	Text                     Said    // what it is for
	Count                    Formula // for one piece; unset: 1
	Thickness, Width, Length Formula // mm; unset: not said
	When                     Condition
	Line                     int
}

// Doubt is what a maker is told where settings do not go together.
type Doubt struct {
	When    Condition // that they do not
	Text    Said      // what is wrong
	Perhaps Said      // what to do about it
	Line    int
}

// Setting is a choice that the maker has.
type Setting struct {
	Name     string  // as makers write it: "neck drop"
	Ident    string  // as formulas write it: neck_drop
	Unit     string  // "mm", "deg", "number", "count", "percent" or "choice"
	Default  Formula // mm, rad, a plain number, or the index of a choice
	Min, Max float64 // the same; both 0 for a choice
	About    string  // one sentence
	Choices  []string
	Line     int
}

// Lames are a run of bands between two rings that lie over each other like
// tiles, each a shell of its own.
type Lames struct {
	Name     string
	From, To string // names of rings
	Count    Formula
	Overlap  Formula // mm that one lies over the next when straight
	Through  Formula // rad that the whole run bends without a gap; unset: not checked
	UpperOut bool    // the upper one lies outside the lower one
	Pivot    bool    // they turn on rivets at both sides; else they hang on straps
	Bend     string  // of each: as Band.Bend
	Seams    Seams
	When     Condition
	Line     int
}

// Repeat builds the shape once for each copy (fingers).
type Repeat struct {
	As     string // prefix of the identifiers: "finger" makes finger_length of length
	Copies []Copy
}

// Copy is one of the repeated shapes.
type Copy struct {
	Name          string
	Length, Girth Formula
	X, Y, Z       Formula // mm that its frame is moved; unset: 0
	Line          int
}

// Flat is a part that stays flat: a strap, a fin, a disc. It is cut to its
// outline as drawn.
type Flat struct {
	Name      string
	Points    []Point
	Smooth    bool
	Follow    *Follow // its outline goes along another piece from the last point to the first; nil: straight
	Count     Formula // to cut; unset: 1
	Thickness Formula // mm; unset: the piece's
	Facing    string  // the way its show face looks when worn: "front", "back", "left" (the frame's +x, a limb's outer side), "right", "top", "bottom"; "": not said
	X, Y, Z   Formula // where its [0, 0] stands, in the frame; unset: 0
	When      Condition
	Line      int
}

// Follow is the curve in which the plane of a flat part meets the outer face of
// another piece.
type Follow struct {
	Piece string  // template
	Gap   Formula // mm from that face; unset: 0
	Line  int
}

// Join is where a flat part meets others, each along the stretch of a straight edge
// that both have in space. Parts that are not there are not joined.
type Join struct {
	Part  string   // a flat
	To    []string // flats
	Cloth bool     // by a strip of cloth, as a hinge; else they are glued edge to edge
	Line  int
}

// Layer is a raised strip on the outer face along an edge.
type Layer struct {
	Name      string
	Along     string // name of a ring at a rim, of an opening, or "gap"
	Width     Formula
	Thickness Formula // mm
	Inset     Formula // mm from the edge; unset: 0
	When      Condition
	Line      int
}

// Pad is a block of foam glued to the inner face.
type Pad struct {
	Name          string
	Angle, Level  Formula
	Width, Height Formula
	Thickness     Formula
	Mirror        bool
	When          Condition
	Line          int
}
