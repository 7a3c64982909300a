package costume

import (
	"tasset/body/photo"
	"tasset/internal/units"
)

// Laid is a picture of a costume part or a prop that the maker has laid over a
// photograph of the wearer, with what is measured and traced on it.
type Laid struct {
	photo.Overlay        // its size and what it lies over are not known yet
	On            string // the photograph
	Rulers        []Stretch
	Outline       []photo.TracePoint
	OutlineAt     string  // its place in the maker's file
	Thickness     float64 // of what is cut by the outline, mm; 0: the material's
}

// Stretch is a line along which the maker lays a long ruler.
type Stretch struct {
	photo.LongRuler
	On string // the photograph, if it is not a laid picture's own
}

// Drawn is a curve that the maker has drawn on a photograph for a piece.
type Drawn struct {
	Piece  string // name of its order
	Kind   string // "opening", "edge" or "seam"
	Name   string // which one of the piece's
	On     string // the photograph
	AsSeen bool   // not made even on both sides of the body
	Curve  []photo.TracePoint
	Where  string
}

// More than these are an accident.
const (
	mostLaid  = 20
	mostNodes = 500
)

var laidKeys = []string{"picture", "name", "over", "at", "turn", "scale", "flip", "depth", "known", "rulers", "outline", "thickness"}

func readPictures(v value, def units.Unit) []Laid {
	var out []Laid
	first := map[string]string{}
	for _, item := range v.some(1, mostLaid, "picture", "write a list of pictures, such as \"- picture: props/blade.jpg\"") {
		l := readLaid(item, def)
		if at, twice := first[l.Name]; twice && l.Name != "" {
			item.fail("found a second picture called %q (the first is at %s); give one of them another \"name\"", l.Name, at)
		}
		first[l.Name] = item.where()
		out = append(out, l)
	}
	return out
}

func readLaid(v value, def units.Unit) Laid {
	at := v.r.keyed(v, laidKeys)
	l := Laid{Overlay: photo.Overlay{ScaleX: 1, ScaleY: 1, Where: v.where()}}
	if e := v.need(at, "picture", "picture: props/blade.jpg"); e != nil {
		l.Picture = e.file()
	}
	if e := v.need(at, "name", "name: blade"); e != nil {
		l.Name = e.label()
	}
	l.place(v, at, def)
	if e := at["rulers"]; e != nil {
		l.Rulers = readStretches(*e, def, false)
	}
	if e := at["outline"]; e != nil {
		l.Outline, l.OutlineAt = e.nodes(3), e.where()
	}
	if e := at["thickness"]; e != nil {
		l.Thickness = e.foam(def)
	}
	return l
}

// place reads where the picture lies, and how large and how far away. One with a
// length on it that is known need lie nowhere.
func (l *Laid) place(v value, at map[string]*value, def units.Unit) {
	if e := at["known"]; e != nil {
		k := photo.Known(*readRuler(*e, def))
		l.Known = &k
	}
	if l.Known == nil || at["over"] != nil || at["at"] != nil {
		if e := v.need(at, "over", "over: photos/body-front.jpg"); e != nil {
			l.On = e.file()
		}
		if e := v.need(at, "at", "at: [1200, 1800]"); e != nil {
			l.At = e.pixel()
		}
	}
	if e := at["turn"]; e != nil {
		l.Turn = e.parsed(units.ParseAngle)
	}
	if e := at["scale"]; e != nil {
		l.ScaleX, l.ScaleY = e.scale()
	}
	if e := at["flip"]; e != nil {
		l.Flip = e.yes()
	}
	switch e := at["depth"]; {
	case e == nil && l.Known == nil:
		v.r.fail(v.line, "found neither \"depth\" nor \"known\" here; write how far the thing is before the middle of the body, such as \"depth: 150 mm\", or a length on it that you know")
	case e != nil && l.Known != nil:
		e.fail("found a depth beside a known length, and the length tells the depth; leave one of them out")
	case e != nil:
		l.Depth.Value = e.depth(def)
	}
}

// depth reads how far something is before the middle of the body.
func (v value) depth(def units.Unit) float64 {
	return v.between(-2000, 2000, def, "how far it is before the middle of the body, up to 2 m, with a - if it is behind")
}

// scale reads a percentage for both ways, or one for each.
func (v value) scale() (across, down float64) {
	if !v.isList() {
		p := v.percent()
		return p, p
	}
	each := v.some(2, 2, "value", "")
	if len(each) != 2 {
		return 1, 1
	}
	return each[0].percent(), each[1].percent()
}

func (v value) percent() float64 {
	before := len(v.r.errs)
	p := v.parsed(units.ParsePercent)
	if len(v.r.errs) == before && (p < 0.01 || p > 100) {
		v.fail("found %s; write a percentage from 1 %% to 10000 %%", v.text())
	}
	return p
}

// nodes reads the points of a curve: [x, y], or [x, y, corner].
func (v value) nodes(few int) []photo.TracePoint {
	var out []photo.TracePoint
	for _, p := range v.some(few, mostNodes, "point", "write the points of the curve, such as [[310, 420], [355, 402], [390, 431, corner]]") {
		out = append(out, p.point())
	}
	return out
}

func (v value) point() photo.TracePoint {
	at := v.items("write a point of the curve as [x, y], or [x, y, corner]")
	if len(at) == 3 {
		if word := at[2].text(); word != "corner" {
			at[2].fail("found %q behind the two numbers; only \"corner\" may stand there", word)
		}
	} else if len(at) != 2 {
		if v.isList() {
			v.fail("found %d values; write a point of the curve as [x, y], or [x, y, corner]", len(at))
		}
		return photo.TracePoint{}
	}
	return photo.TracePoint{At: photo.Pixel{X: at[0].coordinate(), Y: at[1].coordinate()}, Corner: len(at) == 3}
}

// readStretches reads long rulers; those over a photograph name it.
func readStretches(v value, def units.Unit, over bool) []Stretch {
	var out []Stretch
	for _, item := range v.some(1, mostMarks, "ruler", "write a list of rulers, such as \"- {name: grip, from: [310, 420], to: [330, 900]}\"") {
		keys := []string{"name", "from", "to"}
		if over {
			keys = append(keys, "over", "depth")
		}
		out = append(out, item.stretch(keys, def))
	}
	return out
}

func (v value) stretch(keys []string, def units.Unit) Stretch {
	at := v.r.keyed(v, keys)
	s := Stretch{LongRuler: photo.LongRuler{Where: v.where()}}
	if e := v.need(at, "name", "name: grip"); e != nil {
		s.Name = e.label()
	}
	if e := v.need(at, "from", "from: [310, 420]"); e != nil {
		s.From = e.pixel()
	}
	if e := v.need(at, "to", "to: [330, 900]"); e != nil {
		s.To = e.pixel()
	}
	if !contains(keys, "over") {
		return s
	}
	if e := v.need(at, "over", "over: photos/body-front.jpg"); e != nil {
		s.On = e.file()
	}
	if e := v.need(at, "depth", "depth: 100 mm"); e != nil {
		s.Depth.Value = e.depth(def)
	}
	return s
}

// kinds of curves that a maker may draw.
var drawnKinds = []string{"opening", "edge", "seam"}

// readDrawn reads the curves drawn for one piece.
func readDrawn(v value, piece string) []Drawn {
	var out []Drawn
	for _, item := range v.some(1, mostLaid, "curve", "write a list of curves, such as \"- {opening: face, on: photos/head-front.jpg, curve: [[310, 420], …]}\"") {
		at := item.r.keyed(item, append([]string{"on", "curve", "as seen"}, drawnKinds...))
		d := Drawn{Piece: piece, Where: item.where()}
		for _, kind := range drawnKinds {
			if e := at[kind]; e != nil && d.Kind == "" {
				d.Kind, d.Name = kind, e.label()
			} else if e != nil {
				e.fail("found it beside \"%s\"; a curve is one of the two, so write two curves", d.Kind)
			}
		}
		if d.Kind == "" {
			item.fail("found none of opening, edge and seam; write what the curve is, such as \"opening: face\"")
		}
		if e := item.need(at, "on", "on: photos/head-front.jpg"); e != nil {
			d.On = e.file()
		}
		if e := item.need(at, "curve", "curve: [[310, 420], [355, 402], [390, 431]]"); e != nil {
			d.Curve = e.nodes(2)
		}
		if e := at["as seen"]; e != nil {
			d.AsSeen = e.yes()
		}
		out = append(out, d)
	}
	return out
}
