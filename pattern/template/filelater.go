package template

// The keys of this file are checked, but the pattern stage does not build them
// yet.

type fileLames struct {
	From    text    `yaml:"from" jsonschema:"required" jsonschema_description:"Name of the ring where the run begins."`
	To      text    `yaml:"to" jsonschema:"required" jsonschema_description:"Name of the ring where it ends."`
	Count   numberF `yaml:"count" jsonschema:"required"`
	Overlap lengthF `yaml:"overlap" jsonschema:"required" jsonschema_description:"How far one lies over the next when straight."`
	Through angleF  `yaml:"through" jsonschema_description:"Angle of bending that they must still cover."`
	Over    text    `yaml:"over" jsonschema:"enum=upper over lower,enum=lower over upper"`
	Pivot   yesNo   `yaml:"pivot" jsonschema_description:"They turn on rivets at both sides; else they hang on straps."`
	Pos     place   `yaml:"-" json:"-"`
}

type fileRepeat struct {
	As  text              `yaml:"as" jsonschema:"required" jsonschema_description:"Prefix of the identifiers: finger makes finger_length of length."`
	For named[fileCopies] `yaml:"for" jsonschema:"required" jsonschema_description:"One entry a copy, with its measurements."`
	Pos place             `yaml:"-" json:"-"`
}

type fileCopies struct {
	Length lengthF `yaml:"length" jsonschema:"required"`
	Girth  lengthF `yaml:"girth" jsonschema:"required"`
}

type fileFlat struct {
	Name   text        `yaml:"name" jsonschema:"required"`
	Points []filePoint `yaml:"points" jsonschema:"required" jsonschema_description:"Outline: [x, y] or [x, y, corner]."`
	Smooth yesNo       `yaml:"smooth"`
	Count  numberF     `yaml:"count" jsonschema_description:"How many to cut."`
	Thick  lengthF     `yaml:"thickness"`
	When   whenF       `yaml:"when"`
	Pos    place       `yaml:"-" json:"-"`
}

type fileLayer struct {
	Name  text    `yaml:"name" jsonschema:"required"`
	Along text    `yaml:"along" jsonschema:"required" jsonschema_description:"Name of a ring, an opening, or the word gap."`
	Width lengthF `yaml:"width" jsonschema:"required"`
	Thick lengthF `yaml:"thickness" jsonschema:"required"`
	When  whenF   `yaml:"when"`
	Pos   place   `yaml:"-" json:"-"`
}

type filePad struct {
	Name   text    `yaml:"name" jsonschema:"required"`
	Angle  angleF  `yaml:"angle" jsonschema:"required"`
	Level  lengthF `yaml:"level" jsonschema:"required"`
	Width  lengthF `yaml:"width" jsonschema:"required"`
	Height lengthF `yaml:"height" jsonschema:"required"`
	Thick  lengthF `yaml:"thickness" jsonschema:"required"`
	Mirror yesNo   `yaml:"mirror"`
	When   whenF   `yaml:"when"`
	Pos    place   `yaml:"-" json:"-"`
}
