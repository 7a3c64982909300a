package template

import "github.com/goccy/go-yaml/ast"

// The types of this file are the shape of a template file. A key's type says
// what its formula must come to; check.go turns them into a Template.

type (
	lengthF struct{ text } // mm
	angleF  struct{ text } // rad
	numberF struct{ text } // a plain number
	whenF   struct{ text } // a condition
	valueF  struct{ text } // a formula in a setting's unit, or one of its choices
	formatF struct{ text } // the language's version
)

type fileTemplate struct {
	Format     formatF            `yaml:"format" jsonschema:"required" jsonschema_description:"Version of the language. Always 1."`
	Title      text               `yaml:"title" jsonschema:"required" jsonschema_description:"The piece in the trade's words."`
	About      text               `yaml:"about" jsonschema:"required" jsonschema_description:"One sentence on what it is and how it is made."`
	Code       text               `yaml:"code" jsonschema:"required" jsonschema_description:"One or two capital letters that stand on every panel."`
	Governs    []text             `yaml:"governs" jsonschema:"required" jsonschema_description:"The measurements that the piece hangs on."`
	Settings   named[fileSetting] `yaml:"settings" jsonschema_description:"The choices that the maker has, by name."`
	Thickness  lengthF            `yaml:"thickness" jsonschema:"required" jsonschema_description:"The foam's thickness unless the maker says otherwise."`
	Ease       fileDirections     `yaml:"ease" jsonschema_description:"Clearance of the inner face from body and what is worn, square to the surface; one length, or lengths by direction."`
	Padding    lengthF            `yaml:"padding" jsonschema_description:"Room for pads, added to the ease."`
	Draw       text               `yaml:"draw" jsonschema:"enum=down" jsonschema_description:"down: the piece is drawn on from above, so each level also goes round what lies above it."`
	Mirror     yesNo              `yaml:"mirror" jsonschema_description:"The piece is its own mirror image about its frame's mid-plane."`
	Layouts    named[fileShape]   `yaml:"layouts" jsonschema_description:"Several ways to build the piece; each holds the keys from frame to folds. The setting layout chooses."`
	Openings   []fileOpening      `yaml:"openings" jsonschema_description:"Curves and holes cut out of the shell."`
	Fastenings []fileFastening    `yaml:"fastenings" jsonschema_description:"How the piece is held together and on."`
	Marks      []fileMark         `yaml:"marks" jsonschema_description:"Notes to the maker at places on the shell."`
	Lames      *fileLames         `yaml:"lames" jsonschema_description:"A run of overlapping bands. Not built yet."`
	Repeat     *fileRepeat        `yaml:"repeat" jsonschema_description:"The same piece for several sets of measurements (fingers). Not built yet."`
	Flats      []fileFlat         `yaml:"flats" jsonschema_description:"Flat parts: straps, fins, blades. Not built yet."`
	Layers     []fileLayer        `yaml:"layers" jsonschema_description:"Raised trim along an edge, a seam or a line. Not built yet."`
	Pads       []filePad          `yaml:"pads" jsonschema_description:"Blocks of soft foam on the inside. Not built yet."`
	fileShape  `yaml:",inline"`
}

// fileShape holds the keys that a layout may have of its own.
type fileShape struct {
	Frame *fileFrame `yaml:"frame" jsonschema_description:"Where the piece stands."`
	Span  *fileSpan  `yaml:"span" jsonschema_description:"The angles that the shell covers; the whole turn if left out."`
	Rings []fileRing `yaml:"rings" jsonschema_description:"Sections of the shell, in ascending order along the axis."`
	Bands []fileBand `yaml:"bands" jsonschema_description:"The shell between two rings, in order."`
	Cap   *fileCap   `yaml:"cap" jsonschema_description:"Closes the shell at the last ring."`
	Base  *fileCap   `yaml:"base" jsonschema_description:"Closes the shell at the first ring."`
	Gap   *fileGap   `yaml:"gap" jsonschema_description:"Where the turn opens so that the piece can be put on."`
	Folds []fileFold `yaml:"folds" jsonschema_description:"How corners and creases inside a panel are made; grooved inside if not said."`
	Pos   place      `yaml:"-" json:"-"`
}

type fileFrame struct {
	Segment text       `yaml:"segment" jsonschema:"enum=head,enum=neck,enum=torso,enum=upper arm,enum=forearm,enum=hand,enum=thigh,enum=shank,enum=foot" jsonschema_description:"The part of the body that it is worn on."`
	Axis    text       `yaml:"axis" jsonschema:"enum=up,enum=across" jsonschema_description:"up: rings lie square to the segment's axis; across: rings run from ear to ear."`
	Joint   text       `yaml:"joint" jsonschema:"enum=shoulder,enum=elbow,enum=wrist,enum=hip,enum=knee,enum=ankle,enum=neck" jsonschema_description:"Stands at a joint, pointing out of it. Not built yet."`
	Over    text       `yaml:"over" jsonschema_description:"Stands over another piece of the costume. Not built yet."`
	Gap     lengthF    `yaml:"gap" jsonschema_description:"With over: distance from the other piece's outer face."`
	Free    yesNo      `yaml:"free" jsonschema_description:"Has no body in it: rings are drawn by points. Not built yet."`
	Spine   []fileStep `yaml:"spine" jsonschema_description:"The axis is a curve. Not built yet."`
	Pos     place      `yaml:"-" json:"-"`
}

// fileStep is a station of a spine.
type fileStep struct {
	Name text    `yaml:"name" jsonschema:"required" jsonschema_description:"A name that rings may use for their level."`
	X    lengthF `yaml:"x" jsonschema_description:"To the frame's +x."`
	Y    lengthF `yaml:"y" jsonschema_description:"Up."`
	Z    lengthF `yaml:"z" jsonschema_description:"Forward."`
	Tilt angleF  `yaml:"tilt" jsonschema_description:"How far the ring leans from square to the curve."`
}

type fileSpan struct {
	From angleF `yaml:"from" jsonschema:"required" jsonschema_description:"Angle where the shell begins."`
	To   angleF `yaml:"to" jsonschema:"required" jsonschema_description:"Angle where it ends, in the direction of growing angles."`
}

type fileRing struct {
	Name    text           `yaml:"name" jsonschema:"required"`
	At      lengthF        `yaml:"at" jsonschema:"required" jsonschema_description:"Level along the axis."`
	Section lengthF        `yaml:"section" jsonschema_description:"Level whose section of the body the ring takes, if not its own."`
	Ease    fileDirections `yaml:"ease" jsonschema_description:"Added to the template's ease."`
	Creases []fileCrease   `yaml:"creases" jsonschema_description:"Ridges that stand out of the ring."`
	Corners []angleF       `yaml:"corners" jsonschema_description:"Angles; the ring is flat between them."`
	Points  []filePoint    `yaml:"points" jsonschema_description:"A ring without a body, x and z in order round it. Not built yet."`
	When    whenF          `yaml:"when" jsonschema_description:"The ring is there only if this holds."`
	Pos     place          `yaml:"-" json:"-"`
}

type fileCrease struct {
	At   angleF  `yaml:"at" jsonschema:"required" jsonschema_description:"Angle."`
	Rise lengthF `yaml:"rise" jsonschema:"required" jsonschema_description:"How far the ridge stands out."`
}

type fileBand struct {
	Name  text       `yaml:"name"`
	From  text       `yaml:"from" jsonschema:"required" jsonschema_description:"Name of the ring where it begins."`
	To    text       `yaml:"to" jsonschema:"required" jsonschema_description:"Name of the ring where it ends."`
	Bend  text       `yaml:"bend" jsonschema:"enum=around,enum=along" jsonschema_description:"around: wraps the axis, straight along it; along: follows the profile, straight across it (gores)."`
	Seams *fileSeams `yaml:"seams" jsonschema_description:"Cut the band along the axis into panels."`
	When  whenF      `yaml:"when" jsonschema_description:"The band is there only if this holds."`
	Pos   place      `yaml:"-" json:"-"`
}

type fileSeams struct {
	At     []angleF `yaml:"at" jsonschema_description:"Angles of the seams."`
	Count  numberF  `yaml:"count" jsonschema_description:"Or: that many, evenly."`
	Start  angleF   `yaml:"start" jsonschema_description:"With count: angle of the first."`
	Panels []text   `yaml:"panels" jsonschema_description:"Names of the panels; the first lies between the first seam and the next."`
	Pos    place    `yaml:"-" json:"-"`
}

type fileCap struct {
	Kind text    `yaml:"kind" jsonschema:"required,enum=point,enum=plate,enum=ridge,enum=dome" jsonschema_description:"point: gores meet; plate: one flat panel; ridge and dome are not built yet."`
	Name text    `yaml:"name" jsonschema_description:"Name of the plate."`
	At   lengthF `yaml:"at" jsonschema_description:"Level of the point."`
	When whenF   `yaml:"when" jsonschema_description:"The cap is there only if this holds."`
	Pos  place   `yaml:"-" json:"-"`
}

type fileGap struct {
	At    angleF  `yaml:"at" jsonschema:"required" jsonschema_description:"Angle of its middle."`
	Width lengthF `yaml:"width" jsonschema_description:"Distance of the edges when worn; 0 if they meet."`
	Lap   lengthF `yaml:"lap" jsonschema_description:"How far one edge lies over the other."`
	When  whenF   `yaml:"when" jsonschema_description:"The gap is there only if this holds."`
	Pos   place   `yaml:"-" json:"-"`
}

type fileFold struct {
	At    angleF `yaml:"at" jsonschema:"required" jsonschema_description:"Angle of the corner or crease."`
	Kind  text   `yaml:"kind" jsonschema:"required,enum=grooved inside,enum=scored outside,enum=bent"`
	Bands []text `yaml:"bands" jsonschema_description:"Only in these bands."`
	When  whenF  `yaml:"when" jsonschema_description:"The rule holds only if this does."`
	Pos   place  `yaml:"-" json:"-"`
}

type fileOpening struct {
	Name   text        `yaml:"name" jsonschema:"required"`
	View   text        `yaml:"view" jsonschema:"required,enum=front,enum=back,enum=left,enum=right,enum=outer,enum=inner,enum=top" jsonschema_description:"Where it is seen from; it lands on that side."`
	Points []filePoint `yaml:"points" jsonschema_description:"A closed curve: [x, y] in mm, or [x, y, corner]."`
	Round  *fileRound  `yaml:"round" jsonschema_description:"Or: a round hole, or rows of them."`
	Smooth yesNo       `yaml:"smooth" jsonschema_description:"The curve is smooth except at corners."`
	Mirror yesNo       `yaml:"mirror" jsonschema_description:"Also its mirror image on the other side."`
	When   whenF       `yaml:"when" jsonschema_description:"The opening is there only if this holds."`
	Pos    place       `yaml:"-" json:"-"`
}

type fileRound struct {
	X      lengthF `yaml:"x" jsonschema:"required"`
	Y      lengthF `yaml:"y" jsonschema:"required"`
	Radius lengthF `yaml:"radius" jsonschema:"required"`
	Count  numberF `yaml:"count" jsonschema_description:"Holes in a row."`
	Rows   numberF `yaml:"rows" jsonschema_description:"Rows."`
	StepX  lengthF `yaml:"step-x" jsonschema_description:"From hole to hole."`
	StepY  lengthF `yaml:"step-y" jsonschema_description:"From row to row."`
}

type fileFastening struct {
	Kind     text      `yaml:"kind" jsonschema:"required,enum=hook-and-loop,enum=strap and buckle,enum=snap,enum=elastic,enum=magnet pair,enum=lacing,enum=pivot"`
	Name     text      `yaml:"name" jsonschema_description:"What the mark says."`
	Where    text      `yaml:"where" jsonschema:"enum=gap" jsonschema_description:"gap: on the gap's two edges; else give angle and level."`
	Angle    angleF    `yaml:"angle"`
	Level    lengthF   `yaml:"level"`
	Levels   []lengthF `yaml:"levels" jsonschema_description:"At a gap: one fastening at each."`
	Count    numberF   `yaml:"count" jsonschema_description:"At a gap: that many, evenly."`
	Width    lengthF   `yaml:"width" jsonschema_description:"Of strap or strip."`
	Length   lengthF   `yaml:"length" jsonschema_description:"Of strap or strip."`
	Diameter lengthF   `yaml:"diameter" jsonschema_description:"Of magnet, snap or pivot."`
	Mirror   yesNo     `yaml:"mirror" jsonschema_description:"Also on the other side."`
	When     whenF     `yaml:"when"`
	Pos      place     `yaml:"-" json:"-"`
}

type fileMark struct {
	Name  text    `yaml:"name" jsonschema:"required"`
	Text  text    `yaml:"text" jsonschema:"required" jsonschema_description:"What is written there."`
	Angle angleF  `yaml:"angle" jsonschema:"required"`
	Level lengthF `yaml:"level" jsonschema:"required"`
	When  whenF   `yaml:"when"`
	Pos   place   `yaml:"-" json:"-"`
}

type fileSetting struct {
	Unit    text   `yaml:"unit" jsonschema:"required,enum=mm,enum=deg,enum=number,enum=count,enum=percent,enum=choice"`
	Default valueF `yaml:"default" jsonschema:"required" jsonschema_description:"A formula, or one of the choices."`
	Min     valueF `yaml:"min" jsonschema_description:"Smallest value."`
	Max     valueF `yaml:"max" jsonschema_description:"Largest value."`
	About   text   `yaml:"about" jsonschema:"required" jsonschema_description:"One sentence."`
	Choices []text `yaml:"choices" jsonschema_description:"With unit choice: the words to choose from."`
	Pos     place  `yaml:"-" json:"-"`
}

// fileDirections is one length, or lengths by direction.
type fileDirections struct {
	All    lengthF `yaml:"all"`
	Front  lengthF `yaml:"front"`
	Back   lengthF `yaml:"back"`
	Left   lengthF `yaml:"left"`
	Right  lengthF `yaml:"right"`
	Outer  lengthF `yaml:"outer"`
	Inner  lengthF `yaml:"inner"`
	Top    lengthF `yaml:"top"`
	Bottom lengthF `yaml:"bottom"`
}

func (f *fileDirections) decode(d decoder, n ast.Node, key string) {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		d.mappingOf(n, f, key)
	default:
		f.All.decode(d, n, key)
	}
}

// filePoint is written [x, y] or [x, y, corner].
type filePoint struct {
	X, Y   lengthF
	Corner bool
}

func (p *filePoint) decode(d decoder, n ast.Node, key string) {
	s, ok := n.(*ast.SequenceNode)
	if !ok || len(s.Values) < 2 || len(s.Values) > 3 {
		d.at(nodePlace(n), "quote a formula that has a comma in it", "%s should be [x, y] or [x, y, corner]", key)
		return
	}
	p.X.decode(d, s.Values[0], "x")
	p.Y.decode(d, s.Values[1], "y")
	if len(s.Values) == 3 {
		var word text
		word.decode(d, s.Values[2], "the third part of a point")
		if p.Corner = word.s == "corner"; !p.Corner && word.set() {
			d.at(word.at, "write corner, leave it out, or quote a formula that has a comma in it", "a point's third part is %q", short(word.s))
		}
	}
}
