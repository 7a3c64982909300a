package template

// The types of this file are the keys that say how a shell is shaped.

type fileFrame struct {
	Segment text       `yaml:"segment" jsonschema:"enum=head,enum=neck,enum=torso,enum=upper arm,enum=forearm,enum=hand,enum=thigh,enum=shank,enum=foot" jsonschema_description:"The part of the body that it is worn on; beside joint, over or free: that it moves with."`
	Joint   text       `yaml:"joint" jsonschema:"enum=shoulder,enum=elbow,enum=wrist,enum=hip,enum=knee,enum=ankle,enum=neck" jsonschema_description:"Stands at a joint, round both parts of the body that meet there."`
	Over    text       `yaml:"over" jsonschema_description:"Lies over another piece of the costume, and has its axes: the name of that template."`
	Gap     lengthF    `yaml:"gap" jsonschema_description:"With over: from the other piece's outer face to this one's inner face."`
	Free    yesNo      `yaml:"free" jsonschema_description:"Goes round no body: every ring is drawn."`
	Pair    yesNo      `yaml:"pair" jsonschema_description:"With free: a left one as written, and its mirror image."`
	Axis    text       `yaml:"axis" jsonschema:"enum=up,enum=across,enum=out" jsonschema_description:"up: rings lie square to the segment's or the limb's axis; across: rings run from ear to ear; out: with joint, rings stand round the line that points out of it."`
	Clear   []text     `yaml:"clear" jsonschema:"enum=head,enum=neck,enum=torso,enum=upper arm,enum=forearm,enum=hand,enum=thigh,enum=shank,enum=foot" jsonschema_description:"Other parts of the body that it passes or lies on, and is kept clear of."`
	Spine   []fileStep `yaml:"spine" jsonschema_description:"The axis is a smooth curve through these places."`
	Pos     place      `yaml:"-" json:"-"`
}

// fileStep is a place that a spine runs through.
type fileStep struct {
	Name text    `yaml:"name" jsonschema:"required" jsonschema_description:"A name that formulas may use for its level, the length of the curve up to it."`
	X    lengthF `yaml:"x" jsonschema_description:"To the frame's +x."`
	Y    lengthF `yaml:"y" jsonschema_description:"Up."`
	Z    lengthF `yaml:"z" jsonschema_description:"Forward."`
	Tilt angleF  `yaml:"tilt" jsonschema_description:"How far a ring there leans forward from square to the curve."`
	Pos  place   `yaml:"-" json:"-"`
}

type fileSpan struct {
	From angleF `yaml:"from" jsonschema:"required" jsonschema_description:"Angle where the shell begins."`
	To   angleF `yaml:"to" jsonschema:"required" jsonschema_description:"Angle where it ends, in the direction of growing angles."`
}

type fileRing struct {
	Name    text           `yaml:"name" jsonschema:"required"`
	At      lengthF        `yaml:"at" jsonschema:"required" jsonschema_description:"Level along the axis."`
	Section lengthF        `yaml:"section" jsonschema_description:"Level whose section of the body the ring takes, if not its own."`
	Size    *fileSize      `yaml:"size" jsonschema_description:"A drawn ring: a rounded figure of this width and depth; with corners, the polygon round it."`
	Points  []filePoint    `yaml:"points" jsonschema_description:"A drawn ring: [x, z] of each corner of its inner face, in the order of growing angles."`
	Ease    fileDirections `yaml:"ease" jsonschema_description:"Added to the template's ease."`
	Creases []fileCrease   `yaml:"creases" jsonschema_description:"Ridges that stand out of the ring."`
	Corners []angleF       `yaml:"corners" jsonschema_description:"Angles; the ring is flat between them."`
	When    whenF          `yaml:"when" jsonschema_description:"The ring is there only if this holds."`
	Pos     place          `yaml:"-" json:"-"`
}

type fileSize struct {
	Width lengthF `yaml:"width" jsonschema:"required" jsonschema_description:"From side to side."`
	Depth lengthF `yaml:"depth" jsonschema:"required" jsonschema_description:"From front to back."`
	X     lengthF `yaml:"x" jsonschema_description:"Of its middle."`
	Z     lengthF `yaml:"z" jsonschema_description:"Of its middle."`
	Full  numberF `yaml:"full" jsonschema_description:"1 is a lozenge, 2 (if left out) an ellipse, 8 nearly a box."`
	Pos   place   `yaml:"-" json:"-"`
}

type fileCrease struct {
	At   angleF  `yaml:"at" jsonschema:"required" jsonschema_description:"Angle."`
	Rise lengthF `yaml:"rise" jsonschema:"required" jsonschema_description:"How far the ridge stands out."`
}

type fileBand struct {
	Name  text       `yaml:"name"`
	From  text       `yaml:"from" jsonschema:"required" jsonschema_description:"Name of the ring where it begins."`
	To    text       `yaml:"to" jsonschema:"required" jsonschema_description:"Name of the ring where it ends, or cap."`
	Bend  text       `yaml:"bend" jsonschema:"enum=around,enum=along,enum=formed" jsonschema_description:"around: wraps the axis, straight along it; along: follows the profile, straight across it (gores); formed: follows both, by heat."`
	Seams *fileSeams `yaml:"seams" jsonschema_description:"Cut the band along the axis into panels."`
	When  whenF      `yaml:"when" jsonschema_description:"The band is there only if this holds."`
	Pos   place      `yaml:"-" json:"-"`
}

type fileSeams struct {
	At     []angleF `yaml:"at" jsonschema_description:"Angles of the seams."`
	Count  numberF  `yaml:"count" jsonschema_description:"Or: that many, evenly."`
	Start  angleF   `yaml:"start" jsonschema_description:"With count: angle of the first."`
	Within lengthF  `yaml:"within" jsonschema_description:"With count: more of them, until the panels stand off by no more than this; 0: as many as count says."`
	Most   numberF  `yaml:"most" jsonschema_description:"With within: but no more than this."`
	Panels []text   `yaml:"panels" jsonschema_description:"Names of the panels; the first lies between the first seam and the next."`
	Pos    place    `yaml:"-" json:"-"`
}

type fileCap struct {
	Kind   text    `yaml:"kind" jsonschema:"required,enum=point,enum=plate,enum=ridge,enum=dome" jsonschema_description:"point: gores meet; plate: one flat panel; ridge: two sides meet on a line; dome: rings shrink on an elliptic profile round a plate."`
	Name   text    `yaml:"name" jsonschema_description:"Name of the plate."`
	At     lengthF `yaml:"at" jsonschema_description:"Level of the point, the ridge or the dome's plate."`
	Along  angleF  `yaml:"along" jsonschema_description:"Of a ridge: angle of its direction; 0 if left out."`
	Across lengthF `yaml:"across" jsonschema_description:"Of a ridge: its length; that of the ring along it if left out."`
	Rings  numberF `yaml:"rings" jsonschema_description:"Of a dome: bands between the ring and the plate; 2 if left out."`
	Plate  numberF `yaml:"plate" jsonschema_description:"Of a dome: the plate's share of the ring's width; 40 % if left out."`
	When   whenF   `yaml:"when" jsonschema_description:"The cap is there only if this holds."`
	Pos    place   `yaml:"-" json:"-"`
}

type fileLames struct {
	Name    text       `yaml:"name" jsonschema_description:"What the panels are called."`
	From    text       `yaml:"from" jsonschema:"required" jsonschema_description:"Name of the ring where the run begins."`
	To      text       `yaml:"to" jsonschema:"required" jsonschema_description:"Name of the ring where it ends."`
	Count   numberF    `yaml:"count" jsonschema:"required"`
	Overlap lengthF    `yaml:"overlap" jsonschema:"required" jsonschema_description:"How far one lies over the next when straight."`
	Through angleF     `yaml:"through" jsonschema_description:"Angle of bending that they must still cover."`
	Over    text       `yaml:"over" jsonschema:"enum=upper over lower,enum=lower over upper" jsonschema_description:"Which of two lies outside; upper over lower if left out."`
	Pivot   yesNo      `yaml:"pivot" jsonschema_description:"They turn on rivets at both sides; else they hang on straps."`
	Bend    text       `yaml:"bend" jsonschema:"enum=around,enum=along,enum=formed" jsonschema_description:"How each is bent, as in a band."`
	Seams   *fileSeams `yaml:"seams" jsonschema_description:"Cut each along the axis into panels."`
	When    whenF      `yaml:"when" jsonschema_description:"The run is there only if this holds."`
	Pos     place      `yaml:"-" json:"-"`
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
