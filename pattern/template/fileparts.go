package template

// The types of this file are the keys of what is cut out of a shell or added
// to it.

type fileOpening struct {
	Name   text        `yaml:"name" jsonschema:"required"`
	View   text        `yaml:"view" jsonschema:"required,enum=front,enum=back,enum=left,enum=right,enum=outer,enum=inner,enum=top,enum=bottom" jsonschema_description:"Where it is seen from; it lands on that side."`
	Points []filePoint `yaml:"points" jsonschema_description:"A closed curve: [x, y] in mm, or [x, y, corner]."`
	Round  *fileRound  `yaml:"round" jsonschema_description:"Or: a round hole, or rows of them."`
	Smooth yesNo       `yaml:"smooth" jsonschema_description:"The curve is smooth except at corners."`
	Mirror yesNo       `yaml:"mirror" jsonschema_description:"Also its mirror image on the other side."`
	Around numberF     `yaml:"around" jsonschema_description:"Cut that many times, evenly round the piece: each seen square on with x along the longest ring; turn and spacing are its angle and their distance."`
	Start  numberF     `yaml:"start" jsonschema_description:"With around: place of the first, as a share of the spacing; 0 if left out."`
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
	Kind     text      `yaml:"kind" jsonschema:"required,enum=hook-and-loop,enum=strap and buckle,enum=strap with hook-and-loop,enum=snap,enum=elastic,enum=magnet pair,enum=lacing,enum=pivot"`
	Name     text      `yaml:"name" jsonschema_description:"What the mark says."`
	Where    text      `yaml:"where" jsonschema:"enum=gap" jsonschema_description:"gap: on the gap's two edges; else give angle and level."`
	Angle    angleF    `yaml:"angle"`
	Level    lengthF   `yaml:"level"`
	Levels   []lengthF `yaml:"levels" jsonschema_description:"At a gap: one fastening at each."`
	Count    numberF   `yaml:"count" jsonschema_description:"At a gap: that many, evenly."`
	Width    lengthF   `yaml:"width" jsonschema_description:"Of strap or strip."`
	Length   lengthF   `yaml:"length" jsonschema_description:"Of strap or strip."`
	Diameter lengthF   `yaml:"diameter" jsonschema_description:"Of magnet, snap or pivot."`
	To       text      `yaml:"to" jsonschema_description:"The other part is on this piece: the name of its template. Left out: on this one."`
	ToAngle  angleF    `yaml:"to-angle" jsonschema_description:"Where the other part stands, in that piece's frame."`
	ToLevel  lengthF   `yaml:"to-level" jsonschema_description:"Where the other part stands; stations here are those of that piece's frame."`
	Part     text      `yaml:"part" jsonschema_description:"The other part is on this flat part of the piece."`
	On       text      `yaml:"on" jsonschema_description:"It is on this flat part of the piece, at x and y, and its other part on the one that part names."`
	X        lengthF   `yaml:"x" jsonschema_description:"With on: its place, as the points of that flat part are given."`
	Y        lengthF   `yaml:"y" jsonschema_description:"With on: its place, as the points of that flat part are given."`
	Face     text      `yaml:"face" jsonschema:"enum=inside,enum=outside" jsonschema_description:"The face that it is on. Left out: inside; of hook-and-loop outside, with its other part on the inside of what lies over it."`
	ByAngle  angleF    `yaml:"by-angle" jsonschema_description:"A strap from one side to the other goes by way of this place on the body, as under the chin."`
	ByLevel  lengthF   `yaml:"by-level" jsonschema_description:"A strap from one side to the other goes by way of this place on the body, as under the chin."`
	Girth    lengthF   `yaml:"girth" jsonschema_description:"Of a strap with both ends on this piece: how far round is what it goes round behind the piece, as an arm behind a shield."`
	Mirror   yesNo     `yaml:"mirror" jsonschema_description:"Also on the other side."`
	When     whenF     `yaml:"when"`
	Pos      place     `yaml:"-" json:"-"`
}

type fileMark struct {
	Name  text    `yaml:"name" jsonschema:"required"`
	Text  text    `yaml:"text" jsonschema:"required" jsonschema_description:"What is written there; lengths stand in it between braces, as in {rod}."`
	Angle angleF  `yaml:"angle" jsonschema_description:"Its place on the shell, with level."`
	Level lengthF `yaml:"level" jsonschema_description:"Its place on the shell, with angle."`
	On    []text  `yaml:"on" jsonschema_description:"Or: it is on these flat parts, on each at x and y."`
	X     lengthF `yaml:"x" jsonschema_description:"With on: its place, as the points of those flat parts are given."`
	Y     lengthF `yaml:"y" jsonschema_description:"With on: its place, as the points of those flat parts are given."`
	When  whenF   `yaml:"when"`
	Pos   place   `yaml:"-" json:"-"`
}

type fileBought struct {
	Name   text    `yaml:"name" jsonschema:"required" jsonschema_description:"In plain words: rod of wood or fibreglass."`
	Text   text    `yaml:"text" jsonschema:"required" jsonschema_description:"What it is for; lengths stand in it between braces, as in {rod}."`
	Count  numberF `yaml:"count" jsonschema_description:"How many for one piece; 1 if left out."`
	Thick  lengthF `yaml:"thickness" jsonschema_description:"Its thickness, if it matters."`
	Width  lengthF `yaml:"width" jsonschema_description:"Its width, if it matters."`
	Length lengthF `yaml:"length" jsonschema_description:"Its length, if it matters."`
	When   whenF   `yaml:"when" jsonschema_description:"It is needed only if this holds."`
	Pos    place   `yaml:"-" json:"-"`
}

type fileDoubt struct {
	When    whenF `yaml:"when" jsonschema:"required" jsonschema_description:"What the settings must not be together, such as rod > core_thickness."`
	Text    text  `yaml:"text" jsonschema:"required" jsonschema_description:"What is wrong, as a sentence; lengths stand in it between braces, as in {rod}."`
	Perhaps text  `yaml:"perhaps" jsonschema:"required" jsonschema_description:"What to do about it, as a sentence."`
	Pos     place `yaml:"-" json:"-"`
}

type fileFlat struct {
	Name   text        `yaml:"name" jsonschema:"required"`
	Points []filePoint `yaml:"points" jsonschema:"required" jsonschema_description:"Outline: [x, y] or [x, y, corner]."`
	Smooth yesNo       `yaml:"smooth" jsonschema_description:"The outline is smooth except at corners."`
	Follow *fileFollow `yaml:"follow" jsonschema_description:"From the last point to the first the outline goes along the outer face of another piece."`
	Count  numberF     `yaml:"count" jsonschema_description:"How many to cut."`
	Thick  lengthF     `yaml:"thickness" jsonschema_description:"The piece's if left out."`
	Facing text        `yaml:"facing" jsonschema:"enum=front,enum=back,enum=left,enum=right,enum=outer,enum=inner,enum=top,enum=bottom" jsonschema_description:"The way that its show face looks when worn."`
	X      lengthF     `yaml:"x" jsonschema_description:"Where its [0, 0] stands, to the frame's +x."`
	Y      lengthF     `yaml:"y" jsonschema_description:"Up."`
	Z      lengthF     `yaml:"z" jsonschema_description:"Forward."`
	When   whenF       `yaml:"when" jsonschema_description:"The part is there only if this holds."`
	Pos    place       `yaml:"-" json:"-"`
}

type fileJoin struct {
	Part text   `yaml:"part" jsonschema:"required" jsonschema_description:"A flat part."`
	To   []text `yaml:"to" jsonschema:"required" jsonschema_description:"The flat parts that it meets, each along a straight edge."`
	By   text   `yaml:"by" jsonschema:"enum=glue,enum=cloth" jsonschema_description:"glue: edge to edge, if left out; cloth: a strip of cloth that bends as a hinge."`
	Pos  place  `yaml:"-" json:"-"`
}

type fileFollow struct {
	Piece text    `yaml:"piece" jsonschema:"required" jsonschema_description:"The name of that piece's template."`
	Gap   lengthF `yaml:"gap" jsonschema_description:"From its outer face."`
	Pos   place   `yaml:"-" json:"-"`
}

type fileLayer struct {
	Name  text    `yaml:"name" jsonschema:"required"`
	Along text    `yaml:"along" jsonschema:"required" jsonschema_description:"Name of a ring at a rim, of an opening, or the word gap."`
	Width lengthF `yaml:"width" jsonschema:"required"`
	Thick lengthF `yaml:"thickness" jsonschema:"required"`
	Inset lengthF `yaml:"inset" jsonschema_description:"Distance from the edge; 0 if left out."`
	When  whenF   `yaml:"when" jsonschema_description:"The strip is there only if this holds."`
	Pos   place   `yaml:"-" json:"-"`
}

type filePad struct {
	Name   text    `yaml:"name" jsonschema:"required"`
	Angle  angleF  `yaml:"angle" jsonschema:"required"`
	Level  lengthF `yaml:"level" jsonschema:"required"`
	Width  lengthF `yaml:"width" jsonschema:"required"`
	Height lengthF `yaml:"height" jsonschema:"required"`
	Thick  lengthF `yaml:"thickness" jsonschema:"required"`
	Mirror yesNo   `yaml:"mirror" jsonschema_description:"Also on the other side."`
	When   whenF   `yaml:"when" jsonschema_description:"The pad is there only if this holds."`
	Pos    place   `yaml:"-" json:"-"`
}

type fileRepeat struct {
	As  text            `yaml:"as" jsonschema:"required" jsonschema_description:"Prefix of the names: finger makes finger_length of length."`
	For named[fileCopy] `yaml:"for" jsonschema:"required" jsonschema_description:"One entry a copy, with its sizes."`
	Pos place           `yaml:"-" json:"-"`
}

type fileCopy struct {
	Length lengthF `yaml:"length" jsonschema:"required"`
	Girth  lengthF `yaml:"girth" jsonschema:"required"`
	X      lengthF `yaml:"x" jsonschema_description:"How far its frame is moved to +x."`
	Y      lengthF `yaml:"y" jsonschema_description:"Up."`
	Z      lengthF `yaml:"z" jsonschema_description:"Forward."`
	Pos    place   `yaml:"-" json:"-"`
}
