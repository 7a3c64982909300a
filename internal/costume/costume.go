package costume

import (
	"fmt"

	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"
	"tasset/tile"
)

// Costume is what costume.yaml says: the pieces, the foam and the paper.
type Costume struct {
	Title    string
	Units    units.Unit // for lengths without one; None if not stated
	Paper    string     // as typed: "A4", "200 mm x 300 mm"; "" if not stated
	PaperAt  string     // its place in the file
	Material pattern.Material
	Printer  Printer
	Orders   []pattern.Order
	Pictures []Laid    // over photographs of the wearer
	Rulers   []Stretch // long rulers over them
	Drawn    []Drawn   // curves on them

	LookNotes []report.Finding // where a piece cannot follow the look of the whole costume
	lookAt    []string         // the places of the look's lines
}

// Printer is what the maker measured on a printed check page: the sides of the
// square that should be 100 mm. Both are 100 if nothing was measured.
type Printer struct {
	Across, Down float64 // mm
	Where        string  // place in costume.yaml; "" if nothing was measured
}

// square is the side of the square on the print-check page.
const square = 100.0 // mm

// Thickest foam that anyone bends round a limb (common practice, no source).
const thickest = 25.0 // mm

var costumeKeys = []string{"format", "title", "units", "paper", "material", "printer", lookKey, "pieces", "pictures", "rulers"}

// ReadCostume reads costume.yaml. The catalogue says which pieces there are and
// what can be set on them. The error tells everything that is wrong with the
// file, each with its line; file is the name that it uses.
func ReadCostume(file string, src []byte, catalogue *Catalogue) (*Costume, error) {
	r := &reader{file: file}
	root, ok := r.parse(src)
	if !ok {
		return nil, r.done()
	}
	at := r.keyed(root, costumeKeys)
	r.format(at["format"])
	c := &Costume{Title: "costume", Units: r.units(at["units"]), Material: pattern.Material{K: 0.5, Cut: units.Rad(45)},
		Printer: Printer{Across: square, Down: square}}
	if v := at["title"]; v != nil {
		c.Title = v.label()
	}
	if v := at["paper"]; v != nil {
		c.Paper, c.PaperAt = v.text(), v.where()
		if _, err := tile.ParsePaper(c.Paper); err != nil {
			r.errs = append(r.errs, fmt.Errorf("%s: %w", c.PaperAt, err))
		}
	}
	if v := at["material"]; v != nil {
		c.readMaterial(*v)
	}
	if v := at["printer"]; v != nil {
		c.readPrinter(*v)
	}
	p := &pieceReader{catalogue: catalogue, costume: c}
	if v := at[lookKey]; v != nil {
		p.look = readLook(*v, c)
	}
	if v := at["pieces"]; v != nil {
		p.read(*v)
	} else if at["pictures"] == nil {
		r.fail(1, "found no \"pieces\"; write a list of them, such as \"- piece: vambrace\"")
	}
	if v := at["pictures"]; v != nil {
		c.Pictures = readPictures(*v, c.Units)
	}
	if v := at["rulers"]; v != nil {
		c.Rulers = readStretches(*v, c.Units, true)
	}
	c.namesApart(r)
	return c, r.done()
}

// namesApart refuses a traced picture that is called like a piece.
func (c *Costume) namesApart(r *reader) {
	at := map[string]string{}
	for _, o := range c.Orders {
		at[o.Name] = o.Where
	}
	for _, l := range c.Pictures {
		if place, twice := at[l.Name]; twice && l.Outline != nil {
			r.errs = append(r.errs, fmt.Errorf("%s: found a picture called %q, as the piece at %s is; give one of them another \"name\"", l.Where, l.Name, place))
		}
	}
}

func (c *Costume) readMaterial(v value) {
	m := &c.Material
	for _, e := range v.r.known(v, []string{"name", "thickness", "k", "shrink", "stretch", "gather", "density", "bevel"}) {
		switch e.key {
		case "name":
			m.Name = e.text()
		case "thickness":
			m.Thickness = e.foam(c.Units)
		case "k":
			m.K = e.within(0, 1, "where the foam keeps its length, from 0 (inner face) to 1 (outer face); 0.5 unless you tested it")
		case "shrink":
			m.Shrink = e.share(0.1, "a percentage from 0 % to 10 %, as your heated square shrank")
		case "stretch":
			m.Stretch = e.share(0.3, "a percentage from 1 % to 30 %, by which your foam stretches easily when it is hot; 5 % unless you tested it")
		case "gather":
			m.Gather = e.share(0.2, "a percentage from 1 % to 20 %, by which your foam gathers easily when it is hot; 3 % unless you tested it")
		case "density":
			m.Density = e.within(10, 500, "kg per cubic metre from 10 to 500, such as 100")
		case "bevel":
			m.Cut = e.parsed(units.ParseAngle)
			if m.Cut < 0 || m.Cut > units.Rad(80) {
				e.fail("found %s; write the largest bevel that your tool cuts, from 0 deg to 80 deg", e.text())
			}
		}
	}
}

// foam reads a thickness of foam.
func (v value) foam(def units.Unit) float64 {
	before := len(v.r.errs)
	t := v.length(def, "5 mm or 3/16 in")
	if len(v.r.errs) == before && (t < 0.5 || t > thickest) {
		v.fail("found %s; foam is from 0.5 mm to %g mm thick", v.text(), thickest)
	}
	return t
}

// share reads a percentage from 0 to most.
func (v value) share(most float64, what string) float64 {
	before := len(v.r.errs)
	s := v.parsed(units.ParsePercent)
	if len(v.r.errs) == before && (s < 0 || s > most) {
		v.fail("found %s; write %s", v.text(), what)
	}
	return s
}

// readPrinter reads what the check square measures. How much can be corrected
// is for the pages to say.
func (c *Costume) readPrinter(v value) {
	c.Printer.Where = v.where()
	for _, e := range v.r.known(v, []string{"across", "down"}) {
		before := len(v.r.errs)
		mm := e.length(c.Units, "99.6 mm")
		if len(v.r.errs) == before && (mm < square/2 || mm > square*2) {
			e.fail("found %s; write what the side of the printed 100 mm square measures, such as 99.6 mm", e.text())
		}
		if e.key == "across" {
			c.Printer.Across = mm
		} else {
			c.Printer.Down = mm
		}
	}
}
