// Package draw describes a page as a display list in millimetres: paths, text
// and pictures. Writers for PDF, SVG and PNG stand under it.
//
// Page axes: x to the right, y up, the origin at the lower left corner.
package draw

import "gonum.org/v1/gonum/spatial/r2"

// Page is one sheet of paper with what is drawn on it.
type Page struct {
	Width, Height float64 // mm
	Title         string  // for bookmarks: "Page 3: V1, V2"
	Items         []Item
}

// Item is a thing that can be drawn: *Path, *Text or *Picture.
type Item interface{ item() }

// Path is one or more lines, straight between their points.
type Path struct {
	Subpaths [][]r2.Vec
	Closed   bool
	Stroke   Style  // Width 0: not stroked
	Fill     *Color // nil: not filled
	Clip     *Rect  // nil: not clipped
	Layer    string // "cut", "seam", "fold", "mark", "text", "frame"
}

// Style is how a line looks.
type Style struct {
	Width float64   // mm
	Dash  []float64 // mm on, off …; nil: solid
	Color Color
}

// Color is a colour, each part 0 to 255. The zero value is black.
type Color struct{ R, G, B uint8 }

// Rect is an upright rectangle.
type Rect struct{ Min, Max r2.Vec }

// Align tells which point of a text stands at its position.
type Align int

// A text's baseline starts, is centred, or ends at its position.
const (
	Start Align = iota
	Centre
	End
)

// Text is one line of text.
type Text struct {
	At    r2.Vec
	Size  float64 // height of the font, mm
	Angle float64 // rad, counter-clockwise
	Align Align
	Bold  bool
	Color Color
	S     string
	Layer string
}

func (*Path) item() {}
func (*Text) item() {}
