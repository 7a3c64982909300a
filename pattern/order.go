package pattern

import (
	"tasset/body"
	"tasset/internal/units"
)

// Order is one piece that a costume asks for: built of a template, or, with
// Flat, cut out flat along a traced outline.
type Order struct {
	Name      string    // as the maker named it; unique in the costume
	Template  string    // which template file; "" with Flat
	Side      body.Side // Left, Right, or Both for a mirrored pair on limbs
	Settings  map[string]Value
	Adjust    map[string]Value // after a fitting: "wrist girth", "length" …
	Thickness float64          // 0: the material's, else the template's
	Traced    Face
	Drawn     []Drawn // curves that take the place of the template's own
	Flat      *Flat
	MockUp    bool              // in card: thickness 0.5 mm, no bevels
	Units     units.Unit        // how sizes are written back to the maker; None is mm
	Where     string            // place in costume.yaml
	Places    map[string]string // setting or adjustment → its place in costume.yaml
}

// Value is a number with what was typed: mm, rad or a plain number.
type Value struct {
	Number  float64
	Percent bool // Number is a share: 0.05 for "5 %"
	Typed   string
}

// Face tells at which face of the foam the line to cut is: that which the template is
// traced on, or neither but the neutral line.
type Face int

// The faces. A bevelled edge ends elsewhere on each.
const (
	Middle Face = iota
	Outer
	Inner
)
