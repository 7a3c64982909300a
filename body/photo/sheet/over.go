package sheet

import (
	"fmt"
	"math"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Over is what a maker has laid and drawn over a photograph: to be looked at, and
// moved until it looks right.
type Over struct {
	Laid   []Laid
	Rulers []Line
	Curves []Curve
}

// Laid is a picture that lies over the photograph, and what is drawn on it.
type Laid struct {
	photo.Overlay
	Picture *picture.Picture
	Outline *Curve // in pixels of the laid picture
	Rulers  []Line // likewise
}

// Line is a long ruler with what it reads: "staff: 1402 ± 61 mm".
type Line struct {
	From, To photo.Pixel
	Says     string
}

// Curve is one that the maker has drawn, smooth but at its corners.
type Curve struct {
	Says   string
	Points []photo.TracePoint
	Closed bool
}

// seeThrough is how much of the photograph shows through a laid picture.
const seeThrough = 0.3

// LaidOver is a photograph with what lies over it.
func LaidOver(p *picture.Picture, shot photo.Shot, o Over) (draw.Page, error) {
	m := &marked{shot: shot, more: o.places()}
	for _, mark := range shot.Marks {
		m.more = append(m.more, mark.At) // so that the wearer can be seen
	}
	m.shot.Marks = nil
	if err := m.begin(p, "what lies over it"); err != nil {
		return draw.Page{}, err
	}
	m.scales()
	for _, mark := range shot.Marks { // words keep off the wearer's face and joints
		p := m.place(mark.At)
		m.keepClear(p, p)
	}
	for _, l := range o.Laid {
		if err := m.lay(l); err != nil {
			return draw.Page{}, err
		}
	}
	for _, c := range o.Curves {
		m.curve(c, func(p photo.Pixel) photo.Pixel { return p })
	}
	for _, r := range o.Rulers {
		m.read(r, func(p photo.Pixel) photo.Pixel { return p })
	}
	m.settle()
	m.explain("Blue: rulers and what they read. Red: curves as they are drawn, with their points; a square is a corner. Pictures that are laid over it show the photograph through. Lengths hold at the depth that was given (± 95 %); a picture that looks too large or too small tells that its depth or scale is wrong.")
	return m.page, nil
}

// places are all that is laid and drawn, on the photograph.
func (o Over) places() []photo.Pixel {
	var all []photo.Pixel
	for _, l := range o.Laid {
		w, h := float64(l.Width), float64(l.Height)
		for _, p := range []photo.Pixel{{}, {X: w}, {Y: h}, {X: w, Y: h}} {
			all = append(all, l.OnPhotograph(p))
		}
	}
	for _, r := range o.Rulers {
		all = append(all, r.From, r.To)
	}
	for _, c := range o.Curves {
		for _, p := range c.Points {
			all = append(all, p.At)
		}
	}
	return all
}

// lay places a picture, with its outline and its rulers.
func (m *marked) lay(l Laid) error {
	if l.Picture.Width != l.Width || l.Picture.Height != l.Height {
		return fmt.Errorf("%s is %d × %d pixels, but it is laid as %d × %d", l.Picture.Name, l.Picture.Width, l.Picture.Height, l.Width, l.Height)
	}
	pic, err := l.Picture.Place(draw.Rect{Max: at(1, 1)}) // on the unit square, upright
	if err != nil {
		return err
	}
	w, h := float64(l.Width), float64(l.Height)
	corner := m.place(l.OnPhotograph(photo.Pixel{Y: h}))
	across := r2.Sub(m.place(l.OnPhotograph(photo.Pixel{X: w, Y: h})), corner)
	up := r2.Sub(m.place(l.OnPhotograph(photo.Pixel{})), corner)
	dir := func(d r2.Vec) r2.Vec { return r2.Add(r2.Scale(d.X, across), r2.Scale(d.Y, up)) }
	pic.At, pic.Across, pic.Up = r2.Add(corner, dir(pic.At)), dir(pic.Across), dir(pic.Up)
	pic.Fade, pic.Clip, pic.Layer = seeThrough, &m.area, "picture"
	m.add(pic)
	if l.Outline != nil {
		m.curve(*l.Outline, l.OnPhotograph)
	}
	for _, r := range l.Rulers {
		m.read(r, l.OnPhotograph)
	}
	return nil
}

// curve draws a curve with its points; to is where they stand on the photograph.
func (m *marked) curve(c Curve, to func(photo.Pixel) photo.Pixel) {
	var pts []r2.Vec
	var corner []bool
	for _, p := range c.Points {
		pts, corner = append(pts, m.place(to(p.At))), append(corner, p.Corner)
	}
	if len(pts) == 0 {
		return
	}
	run := geom.SmoothLine(pts, corner, 0.5)
	if c.Closed && len(pts) > 2 {
		run = geom.SmoothRing(pts, corner, 0.5)
		run = append(run, run[0])
	}
	m.add(onPhoto(0.4, alarm, run...)...)
	for i, p := range pts {
		dot := arc(p, 0.7, 0, 2*math.Pi)
		if corner[i] {
			dot = []r2.Vec{r2.Add(p, at(-0.8, -0.8)), r2.Add(p, at(0.8, -0.8)), r2.Add(p, at(0.8, 0.8)), r2.Add(p, at(-0.8, 0.8))}
		}
		m.add(filled(alarm, dot...))
	}
	top := pts[0]
	for _, p := range pts {
		if p.Y > top.Y {
			top = p
		}
	}
	m.keepClear(run...)
	m.named(top, at(0, 6), c.Says, alarm)
}

// read draws a long ruler with what it reads, at its upper end.
func (m *marked) read(l Line, to func(photo.Pixel) photo.Pixel) {
	a, b := m.place(to(l.From)), m.place(to(l.To))
	m.gauge(a, b)
	if a.Y > b.Y {
		b = a
	}
	m.named(b, at(0, 6), l.Says, blue)
}
