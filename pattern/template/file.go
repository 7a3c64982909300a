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
	Rims       []fileRim          `yaml:"rims" jsonschema_description:"Curves round the piece along which its lower or its upper end is cut off."`
	Openings   []fileOpening      `yaml:"openings" jsonschema_description:"Curves and holes cut out of the shell."`
	Fastenings []fileFastening    `yaml:"fastenings" jsonschema_description:"How the piece is held together and on."`
	Marks      []fileMark         `yaml:"marks" jsonschema_description:"Notes to the maker at places on the shell."`
	Flats      []fileFlat         `yaml:"flats" jsonschema_description:"Parts that stay flat: straps, fins, blades. Cut to the outline as drawn."`
	Joins      []fileJoin         `yaml:"joins" jsonschema_description:"Which flats meet edge to edge, as the walls of a box."`
	Layers     []fileLayer        `yaml:"layers" jsonschema_description:"Raised strips on the outer face along an edge."`
	Pads       []filePad          `yaml:"pads" jsonschema_description:"Blocks of soft foam on the inner face."`
	Buy        []fileBought       `yaml:"buy" jsonschema_description:"What is bought for the piece beside foam: a rod that it is built on, a block that fills it."`
	Doubts     []fileDoubt        `yaml:"doubts" jsonschema_description:"What the maker is told where settings do not go together."`
	Repeat     *fileRepeat        `yaml:"repeat" jsonschema_description:"The shape again for several sets of sizes (fingers)."`
	After      []text             `yaml:"after" jsonschema_description:"Templates of the pieces that are put on before this one."`
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
	Lames *fileLames `yaml:"lames" jsonschema_description:"A run of overlapping bands between two rings, beside or instead of bands."`
	Gap   *fileGap   `yaml:"gap" jsonschema_description:"Where the turn opens so that the piece can be put on."`
	Folds []fileFold `yaml:"folds" jsonschema_description:"How corners and creases inside a panel are made; grooved inside if not said."`
	Pos   place      `yaml:"-" json:"-"`
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
