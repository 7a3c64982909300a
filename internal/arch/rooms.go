// Package arch holds which package may import which, with the reasons, so that
// a test can hold the code to it.
package arch

// Room is a package of the module and what it may import of the module's own.
type Room struct {
	Path   string   // below the module's root: "internal/geom"
	May    []string // rooms that it may import
	Reason string   // why it must not import more; a sentence for whoever tried
	Tool   bool     // run by hand or in tests; never part of the program
}

// Rooms is the table. Data flows from measurements to pages; a room imports
// only what lies before it.
var Rooms = []Room{
	{"internal/units", nil, "lengths as people type them know nothing of what is measured", false},
	{"internal/report", nil, "a finding is a value; whoever makes it says what it is about", false},
	{"internal/geom", nil, "plain geometry could leave for another project", false},
	{"internal/flatten", rooms("internal/geom"), "flattening takes triangles and rails, whatever they are cut from", false},
	{"internal/nest", rooms("internal/geom"), "outlines are laid out without knowing what they are; put what is needed on the part", false},
	{"internal/draw", rooms("internal/geom internal/units"), "a page is a list of paths and texts; what they mean is the caller's business", false},
	{"internal/draw/leaf", rooms("internal/draw internal/geom"), "bars, frames and join marks stand round any drawing and know none", false},
	{"internal/draw/pdf", rooms("internal/draw internal/geom internal/units"), "a writer writes what the display list says and decides nothing", false},
	{"internal/draw/svg", rooms("internal/draw internal/geom internal/units"), "a writer writes what the display list says and decides nothing", false},
	{"internal/draw/dxf", rooms("internal/draw internal/geom internal/units"), "a writer writes what the display list says and decides nothing", false},
	{"internal/draw/png", rooms("internal/draw internal/geom internal/units"), "a writer writes what the display list says and decides nothing", false},
	{"internal/view", rooms("internal/geom internal/draw internal/units"), "a picture is drawn of meshes and lines; whoever has panels or a body makes them into a scene", false},
	{"body", rooms("internal/geom internal/units internal/report"), "the body does not know what will be worn on it", false},
	{"body/internal/surveyed", rooms("body"), "it reads surveyed people for the body's tool and tests", true},
	{"body/surveygen", rooms("body body/internal/surveyed internal/report"), "it makes the body's survey model and nothing else", true},
	{"body/photo", rooms("body internal/geom internal/draw internal/units internal/report"), "photographs answer with lengths and rays; what is made of them comes later", false},
	{"body/photo/picture", rooms("internal/draw internal/report"), "a file is read without knowing what is marked on it", false},
	{"body/photo/sheet", rooms("body body/photo body/photo/picture internal/draw internal/draw/leaf internal/geom internal/units internal/report"), "sheets show what the solution holds; paper is a width and a height", false},
	{"templates", nil, "the catalogue is data; pattern is handed it as a file system, so that a maker's own template works like a built-in one", false},
	{"pattern/template", rooms("body internal/geom internal/units internal/report"), "a template knows no body but the names of its measurements", false},
	{"pattern", rooms("pattern/template body internal/flatten internal/geom internal/units internal/report"), "panels know no page and no catalogue; limits and templates (a file system) are handed to them", false},
	{"pattern/fit", rooms("pattern body internal/geom internal/units internal/report"), "fit is judged in space, on pieces and a body", false},
	{"tile", rooms("pattern internal/nest internal/draw internal/draw/leaf internal/geom internal/units internal/report"), "pages are laid from panels alone; if a page needs a measurement, put it on the piece", false},
	{"internal/booklet", rooms("pattern tile internal/view internal/draw internal/geom internal/units internal/report"), "the booklet shows what the piece says of itself; if it lacks a value, put it on the piece", false},
	{"internal/booklet/pathgen", rooms("internal/booklet body pattern templates tile internal/draw internal/draw/svg"), "it draws one picture for the README and nothing else", true},
	{"internal/costume", rooms("internal/units internal/report internal/geom internal/flatten internal/nest internal/draw internal/draw/pdf internal/draw/svg internal/draw/dxf internal/draw/png internal/view body body/photo body/photo/picture body/photo/sheet templates pattern/template pattern pattern/fit tile internal/booklet"), "the folder and its build are under every face and know none of them", false},
	{"internal/web", rooms("internal/costume internal/draw internal/units internal/report body body/photo pattern pattern/fit tile"), "a handler shows what the build returned; if it lacks a value, add the value to the build's result", false},
	{"cmd/tasset", rooms("internal/costume internal/web internal/report internal/units"), "a command calls the build and prints; if it needs a stage, the build's result lacks a value", false},
	{"internal/synth", rooms("body body/photo internal/geom"), "made-up bodies and photographs are for tests and judge the stages from outside", true},
	{"internal/synth/demogen", rooms("internal/synth body body/photo internal/geom"), "it makes the demo wearer's pictures and nothing else", true},
	{"bench/flatten-cgal", rooms("internal/flatten"), "it compares flattening with another program and nothing else", true},
	{"internal/arch", nil, "the table is data about the others", true},
}

// Library is a package of others that only some rooms may import.
type Library struct {
	Path   string   // it and everything below it
	Rooms  []string // rooms that may import it, besides tests named in Tests
	Tests  []string // rooms whose tests may
	Reason string
}

// Libraries lists every module that is not the standard library. One that is
// missing here may be imported nowhere.
var Libraries = []Library{
	{"gonum.org/v1/gonum/spatial", rooms("internal/geom internal/flatten internal/nest internal/draw internal/draw/leaf internal/draw/pdf internal/draw/svg internal/draw/dxf internal/draw/png internal/view body body/photo body/photo/picture body/photo/sheet pattern/template pattern pattern/fit tile internal/booklet internal/costume internal/web internal/synth internal/synth/demogen bench/flatten-cgal"), nil, "units and findings have no vectors"},
	{"gonum.org/v1/gonum", rooms("internal/geom internal/flatten body body/internal/surveyed body/surveygen body/photo pattern pattern/fit internal/synth"), nil, "numerical work belongs to the geometry, the body and the shells"},
	{"github.com/ByteArena/poly2tri-go", rooms("internal/geom"), nil, "it panics on bad outlines; geom.TriangulatePolygon asks first and returns an error"},
	{"github.com/jung-kurt/gofpdf", rooms("internal/draw/pdf"), nil, "pages are display lists; only their writer knows the format"},
	{"github.com/pdfcpu/pdfcpu", nil, rooms("internal/draw/pdf tile internal/booklet internal/costume cmd/tasset"), "it reads back what was written, in tests"},
	{"github.com/tdewolff/canvas", rooms("internal/draw/png tile"), nil, "the writer of pictures paints with it and tile cuts outlines at page borders with it; nobody else needs it"},
	{"github.com/go-fonts/dejavu", rooms("internal/draw"), nil, "every writer uses the one font that draw hands out, so that text has one width"},
	{"golang.org/x/image", rooms("internal/draw internal/draw/png body/photo body/photo/picture body/photo/sheet internal/web"), rooms("internal/draw/pdf internal/draw/svg internal/draw/png"), "fonts are measured in draw; pictures are read in photo and painted by the writer of pictures"},
	{"github.com/bep/imagemeta", rooms("body/photo/picture"), nil, "pictures are read in one place"},
	{"golang.org/x/text", rooms("internal/draw internal/draw/pdf internal/units internal/report cmd/tasset"), nil, "text is made printable in one place"},
	{"golang.org/x/term", rooms("cmd/tasset"), nil, "only the command line has a terminal"},
	{"github.com/spf13/cobra", rooms("cmd/tasset"), nil, "only the command line has flags"},
	{"github.com/spf13/pflag", rooms("cmd/tasset"), nil, "only the command line has flags"},
	{"github.com/goccy/go-yaml", rooms("pattern/template internal/costume"), nil, "files are read at the gate; inside are values"},
	{"github.com/expr-lang/expr", rooms("pattern/template"), nil, "formulas are compiled where templates are read"},
	{"github.com/invopop/jsonschema", rooms("pattern/template internal/costume"), nil, "schemas are generated where the files are read"},
	{"github.com/natefinch/atomic", rooms("internal/costume"), nil, "stages write no file"},
	{"github.com/rogpeppe/go-internal", nil, rooms("cmd/tasset internal/costume"), "scripts drive the program in tests"},
	{"pgregory.net/rapid", nil, rooms("internal/units internal/report internal/geom internal/flatten internal/nest internal/draw internal/draw/pdf internal/draw/svg internal/draw/dxf internal/draw/png internal/view body body/photo body/photo/picture body/photo/sheet pattern/template pattern pattern/fit tile internal/booklet internal/costume internal/web cmd/tasset internal/synth"), "random cases are for tests"},
}

// Exception is an import that the table does not allow and that the tests of a
// room make anyway.
type Exception struct {
	Room, Import string // below the module's root
	Reason       string
}

// Exceptions are few, and each says why.
var Exceptions = []Exception{
	{"body", "pattern", "pieces built for a body are held to the skin of a body that nobody here drew"},
	{"body", "pattern/template", "the same"},
	{"body", "templates", "the same"},
	{"pattern", "templates", "the catalogue is the sharpest test of what makes panels of it"},
	{"pattern/fit", "templates", "the catalogue is the sharpest test of what is said of its pieces"},
	{"pattern/template", "templates", "every built-in template must load"},
	{"tile", "body", "made-up pieces name a segment and a measurement"},
	{"tile", "templates", "the sweep lays real pieces on pages"},
	{"tile", "internal/draw/pdf", "what a page measures is read off the file that is printed"},
	{"body/photo/sheet", "internal/synth", "the guide's figures are held to made-up heads"},
	{"body/photo/sheet", "internal/draw/pdf", "what a sheet measures is read off the file that is printed"},
	{"internal/synth", "body/photo/picture", "rendered pictures go through files as a maker's do"},
	{"internal/booklet", "body", "made-up pieces name a segment and a measurement"},
}
