package body

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// Station is a named level of a part.
type Station struct {
	Name  string
	Level float64 // the part's y, mm
}

// Part is one segment of the body as a closed surface around an axis: y runs
// along it, upwards in the rest pose, x to the wearer's left (on both limbs, so
// outwards is +x on the left and −x on the right), z forward. y = 0 is
//
//	head       the tragions (notch above the flap of the ear)
//	neck       the neck base, square to the neck
//	torso      the floor
//	upper arm  the elbow      forearm  the wrist bone      hand  the finger tip
//	thigh      the knee       shank    the ankle bone
//
// The foot's y runs back from the toe tip to the heel and its z up, so that
// its instep is its front. Hanging arms have the palm turned to the thigh.
type Part struct {
	Segment  Segment
	Side     Side
	Frame    geom.Frame // bodyFromPart
	Stations []Station  // by rising level

	loft        *loft
	cap         *dome // closes the top; nil leaves the part open
	low, high   float64
	details     []geom.Mesh // closed solids that stand on the skin: ears, nose
	layers      []layerOn
	extra       []geom.Mesh // closed solids that are worn: glasses
	wornMesh    func() geom.Mesh
	wornNormals func() []r3.Vec
	bound       bound
}

// dome closes a part above a level: the loft's section there, shrunk on the
// profile (radius/section)ᵖ + (height/rise)ᵖ = 1.
type dome struct{ level, rise, exponent float64 }

// scale is how much of the section at the dome's level is left at a level.
func (d *dome) scale(level float64) float64 {
	v := min(1, max(0, (level-d.level)/d.rise))
	return math.Pow(1-math.Pow(v, d.exponent), 1/d.exponent)
}

// overrun is how far an open part goes on past its ends, so that a
// piece that stands off the skin still finds a surface at its rims.
const overrun = 25 // mm

// newPart wraps a loft; its named knots become the stations.
func newPart(seg Segment, side Side, frame geom.Frame, l *loft) *Part {
	p := &Part{Segment: seg, Side: side, Frame: frame, loft: l}
	for _, k := range l.knots {
		if k.name != "" {
			p.Stations = append(p.Stations, Station{k.name, k.level})
		}
	}
	low, high := p.flesh()
	p.low, p.high = low-overrun, high+overrun
	return p
}

// flesh are the levels of the part's end joints or end stations: a limb goes on
// to its lower joint, y = 0, below its last station.
func (p *Part) flesh() (low, high float64) {
	low, high = p.loft.ends()
	if p.Segment != Torso {
		low = min(low, 0)
	}
	return low, high
}

// closeTop ends the part in a dome above a level, and names its top.
func (p *Part) closeTop(level, top, exponent float64, name string) {
	p.cap = &dome{level, top - level, exponent}
	p.high = top
	p.Stations = append(p.Stations, Station{name, top})
}

// mark names a level that has no section of its own.
func (p *Part) mark(name string, level float64) {
	i := 0
	for i < len(p.Stations) && p.Stations[i].Level <= level {
		i++
	}
	p.Stations = append(p.Stations[:i], append([]Station{{name, level}}, p.Stations[i:]...)...)
}

// Station gives the level of a named station.
func (p *Part) Station(name string) (float64, bool) {
	for _, s := range p.Stations {
		if s.Name == name {
			return s.Level, true
		}
	}
	return 0, false
}

// Range gives the levels that the part covers: a little past its end stations,
// and to the apex where it is closed.
func (p *Part) Range() (low, high float64) { return p.low, p.high }

// outline is the section at a level and where it stands, in part coordinates.
type outline struct {
	Section
	level, x, z float64
}

// at is the outline at a level; levels beyond the range give the end's.
func (p *Part) at(level float64) outline {
	level = min(p.high, max(p.low, level))
	if p.cap == nil || level <= p.cap.level {
		s, x, z := p.loft.at(level)
		return outline{s, level, x, z}
	}
	s, x, z := p.loft.at(p.cap.level)
	return outline{s.Scaled(p.cap.scale(level)), level, x, z}
}

// point is the outline's point in a polar direction about its own middle.
func (o outline) point(angle float64) r3.Vec {
	centre := r3.Vec{X: o.x, Y: o.level, Z: o.z}
	if o.Breadth == 0 {
		return centre
	}
	p := o.At(angle)
	return r3.Add(centre, r3.Vec{X: p.X, Z: p.Y})
}

// Point is the skin in the direction of an angle at a level, in part
// coordinates. 0 is forward, positive towards +x: the direction is (sin angle,
// 0, cos angle) from Centre(level). Features that are no part of the section
// (nose, ears) are not in it.
func (p *Part) Point(angle, level float64) r3.Vec { return p.at(level).point(angle) }

// Centre is the middle of the widest line of the section at a level.
func (p *Part) Centre(level float64) r3.Vec {
	o := p.at(level)
	return r3.Vec{X: o.x, Y: o.level, Z: o.z}
}

// Section is the section at a level; its origin stands at Centre(level).
func (p *Part) Section(level float64) Section { return p.at(level).Section }

// Girth is the length of a tape round the section at a level.
func (p *Part) Girth(level float64) float64 {
	s := p.Section(level)
	if s.Breadth == 0 {
		return 0
	}
	return s.Girth()
}
