package sheet

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// The sheet of a marked picture, mm. It is made to be looked at, on a screen or
// fitted to a page; it has no scale.
const (
	pictureSide = 360.0 // the longer side of the picture
	labelWidth  = 78.0  // of the columns of names at its sides
	labelStep   = 9.0   // from one name to the next
	labelSize   = 4.2
)

// Marked is a picture with what was marked on it: landmarks with their names
// beside the picture, ruler, scale card. If the marks have been solved, each name
// says how far the mark is from where all marks together put it.
func Marked(p *picture.Picture, shot photo.Shot, solved *photo.Subject) (draw.Page, error) {
	m := &marked{shot: shot}
	if err := m.begin(p, shot.View.String()); err != nil {
		return draw.Page{}, err
	}
	m.fits, m.alone = fitsOf(shot, solved), true
	m.leftOut = solved != nil && len(m.fits) == 0
	for _, f := range m.fits {
		m.alone = m.alone && !f.Checked()
	}
	m.scales()
	m.settle()
	m.marks()
	m.explain(m.words(solved != nil))
	return m.page, nil
}

// begin puts the photograph and a title on the sheet.
func (m *marked) begin(p *picture.Picture, shows string) error {
	if p.Width != m.shot.Width || p.Height != m.shot.Height {
		return fmt.Errorf("%s is %d × %d pixels, but its marks are for %d × %d", p.Name, p.Width, p.Height, m.shot.Width, m.shot.Height)
	}
	m.layOut()
	w, h := float64(p.Width), float64(p.Height)
	photograph, err := p.Place(draw.Rect{Min: m.place(photo.Pixel{Y: h}), Max: m.place(photo.Pixel{X: w})})
	if err != nil {
		return err
	}
	photograph.Layer, photograph.Clip = "picture", &m.area
	m.page = draw.Page{Width: m.area.Max.X + labelWidth, Height: m.area.Max.Y + 20, Title: m.shot.Name}
	title := &draw.Text{At: at(8, m.page.Height-13), Size: 7, Bold: true, S: m.shot.Name + ": " + shows, Layer: "text"}
	m.add(photograph, title)
	return nil
}

// marked is the sheet as it grows.
type marked struct {
	shot   photo.Shot
	from   photo.Pixel // at the upper left corner of the area
	perPx  float64
	area   draw.Rect
	page   draw.Page
	more   []photo.Pixel     // places that must be on it besides what is marked
	fits   map[int]photo.Fit // by mark
	plates []plate           // words that stand beside what is drawn
	clear  [][2]r2.Vec       // lines that they must not cover
	alone  bool              // nothing checks any mark: said once, not at each

	leftOut bool // the others were solved without this picture
}

func fitsOf(shot photo.Shot, solved *photo.Subject) map[int]photo.Fit {
	fits := map[int]photo.Fit{}
	if solved == nil {
		return fits
	}
	byName := map[string]photo.Fit{}
	for _, f := range solved.Fits {
		if solved.Shots[f.Shot].Name == shot.Name {
			byName[f.Name] = f
		}
	}
	for i, m := range shot.Marks {
		if f, ok := byName[m.Name]; ok {
			fits[i] = f
		}
	}
	return fits
}

// layOut fixes the size of the sheet and the scale of the picture.
func (m *marked) layOut() {
	low, high := m.shown()
	m.from, m.perPx = low, pictureSide/max(high.X-low.X, high.Y-low.Y)
	corner := at(labelWidth, 34)
	m.area = draw.Rect{Min: corner, Max: r2.Add(corner, at(m.perPx*(high.X-low.X), m.perPx*(high.Y-low.Y)))}
}

// shown is the part of the picture with everything marked on it, and some air.
func (m *marked) shown() (low, high photo.Pixel) {
	w, h := float64(m.shot.Width), float64(m.shot.Height)
	low, high = photo.Pixel{X: w, Y: h}, photo.Pixel{}
	for _, p := range m.places() {
		low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
		high.X, high.Y = max(high.X, p.X), max(high.Y, p.Y)
	}
	air := max(0.15*max(high.X-low.X, high.Y-low.Y), 20)
	low = photo.Pixel{X: max(low.X-air, 0), Y: max(low.Y-air, 0)}
	high = photo.Pixel{X: min(high.X+air, w), Y: min(high.Y+air, h)}
	if low.X >= high.X || low.Y >= high.Y {
		return photo.Pixel{}, photo.Pixel{X: w, Y: h}
	}
	return low, high
}

// places are all that is marked.
func (m *marked) places() []photo.Pixel {
	return append(slices.Clone(m.more), m.shot.Places()...)
}

// place is where a pixel stands on the sheet.
func (m *marked) place(p photo.Pixel) r2.Vec {
	return at(m.area.Min.X+m.perPx*(p.X-m.from.X), m.area.Max.Y-m.perPx*(p.Y-m.from.Y))
}

func (m *marked) add(items ...draw.Item) { m.page.Items = append(m.page.Items, items...) }

// scales draws the ruler and the corners of the card.
func (m *marked) scales() {
	if r := m.shot.Ruler; r != nil {
		a, b := m.place(r.From), m.place(r.To)
		m.gauge(a, b)
		if a.Y > b.Y {
			b = a
		}
		m.named(b, at(0, 7), "ruler: "+units.Format(r.Length, units.MM), blue)
	}
	if c := m.shot.Card; c != nil {
		var ring []r2.Vec
		for i, p := range c.Corners {
			ring = append(ring, m.place(p))
			m.add(ringAt(ring[i], blue)...)
			m.named(ring[i], at(0, 6), fmt.Sprint(i+1), blue)
		}
		m.add(onPhoto(0.3, blue, append(ring, ring[0])...)...)
		m.keepClear(append(ring, ring[0])...)
	}
}

// gauge is a line with a stroke across at each end.
func (m *marked) gauge(a, b r2.Vec) {
	if a == b {
		return
	}
	m.add(onPhoto(0.5, blue, a, b)...)
	m.keepClear(a, b)
	along := r2.Unit(r2.Sub(b, a))
	across := r2.Scale(3, r2.Vec{X: -along.Y, Y: along.X})
	m.add(onPhoto(0.5, blue, r2.Sub(a, across), r2.Add(a, across))...)
	m.add(onPhoto(0.5, blue, r2.Sub(b, across), r2.Add(b, across))...)
}

func ringAt(c r2.Vec, colour draw.Color) []draw.Item {
	circle := arc(c, 2, 0, 2*math.Pi)
	return append(onPhoto(0.4, colour, circle...), filled(colour, arc(c, 0.35, 0, 2*math.Pi)...))
}

// marks draws every mark and names it in the column at its side: the left half
// of them on the left, from the top down, so that lines to the names do not cross
// more than they must and no name covers another or the picture.
func (m *marked) marks() {
	order := make([]int, len(m.shot.Marks))
	for i := range order {
		order[i] = i
	}
	x := func(i int) float64 { return m.shot.Marks[i].At.X }
	sort.SliceStable(order, func(a, b int) bool { return x(order[a]) < x(order[b]) })
	half := (len(order) + 1) / 2
	m.column(order[:half], true)
	m.column(order[half:], false)
	for i, mark := range m.shot.Marks {
		m.symbol(i, mark)
	}
}

func (m *marked) symbol(i int, mark photo.Mark) {
	p, colour := m.place(mark.At), black
	if f, ok := m.fits[i]; ok {
		colour = m.colour(i)
		if f.Checked() {
			m.expected(p, m.place(counting(mark, f.Expected)), colour)
		}
	}
	m.add(ringAt(p, colour)...)
}

// counting is where a mark is expected as far as it counts: of a place of the
// outline, only across it.
func counting(mark photo.Mark, expected photo.Pixel) photo.Pixel {
	for _, l := range append(photo.HeadLandmarks(), photo.BodyLandmarks()...) {
		if l.Name != mark.Name {
			continue
		}
		x, y := l.Counts()
		if !x {
			expected.X = mark.At.X
		}
		if !y {
			expected.Y = mark.At.Y
		}
		break
	}
	return expected
}

// expected draws a cross where the other marks expect one, if that is on the sheet.
func (m *marked) expected(p, q r2.Vec, colour draw.Color) {
	if !(q.X > m.area.Min.X && q.Y > m.area.Min.Y && q.X < m.area.Max.X && q.Y < m.area.Max.Y) {
		return
	}
	const r = 1.6
	m.add(onPhoto(0.3, colour, p, q)...)
	m.add(onPhoto(0.3, colour, r2.Add(q, at(-r, -r)), r2.Add(q, at(r, r)))...)
	m.add(onPhoto(0.3, colour, r2.Add(q, at(-r, r)), r2.Add(q, at(r, -r)))...)
}

// words say what the signs mean.
func (m *marked) words(solved bool) string {
	switch {
	case m.leftOut:
		return "This picture was left out: tasset photo says why. A ring is a mark; its pixels stand under its name. Left and right are the wearer's own."
	case solved && m.alone:
		return "Left and right are the wearer's own. A ring is a mark; the number is how far it is from the solved point, on the head or body. In this picture no mark is checked by others: a small number does not mean that the mark is right. A picture from the side checks most of them."
	case solved:
		return "Left and right are the wearer's own. A ring is a mark, a cross is where all other marks expect it. The number is how far the mark is from where all marks together put the point, on the head or body. In red: the others speak against it (DOES NOT FIT), or all marks miss each other by much (LOOK AGAIN). Nothing checks it: no other picture would show it if this mark were wrong, so place it with care or measure by tape."
	}
	return "A ring is a mark; its pixels stand under its name. Left and right are the wearer's own. Compare each with the sentence that says where it is (tasset photo)."
}

// explain sets words under the picture.
func (m *marked) explain(says string) {
	c := &leaf.Column{Page: &m.page, X: 8, Y: m.area.Min.Y - 6, Width: m.page.Width - 16}
	c.Say(4.2, false, says)
}
