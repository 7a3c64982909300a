package photo

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/report"
)

// Overlay is a picture of a costume part or a prop laid over a photograph of
// the wearer. It is first flipped, then stretched, then turned about its
// middle, which stands at At.
type Overlay struct {
	Name           string  // "blade"
	Picture        string  // "props/blade.jpg"
	Width, Height  int     // of the laid picture, px
	Over           *Sight  // nil: laid over nothing; then only a known length gives a size
	At             Pixel   // of the photograph
	Turn           float64 // counter-clockwise as it is seen, rad
	ScaleX, ScaleY float64 // pixels of the photograph for a pixel of the laid picture, along its own sides
	Flip           bool    // left for right
	Depth          Depth
	Known          *Known // nil: the depth gives the scale
	Where          string // place in the maker's file
}

// Known is a length on the laid picture that the maker knows.
type Known struct {
	From, To Pixel   // of the laid picture
	Length   float64 // mm
	Where    string
}

// Laid is an overlay with its scale.
type Laid struct {
	Overlay
	PerPixel float64 // mm for a pixel of the photograph, at the depth of the laid picture
	Share    float64 // deviation of its lengths, as a share of them
	Checked  bool    // the scale comes from a known length
}

// What is not known about a known length; judgement.
const (
	knownPixelSD  = 1.0  // px of the laid picture: each end
	knownLengthSD = 0.5  // mm
	shortKnown    = .03  // a known length that leaves more than this open (95 %, as a share) is called short
	contradicts   = 1.25 // a known length that is this much longer or shorter than the picture is drawn is doubted
	slipWithin    = .15  // how near to a slip's factor it is to be, as a share
)

// OnPhotograph is where a place of the laid picture stands on the photograph.
func (o Overlay) OnPhotograph(p Pixel) Pixel {
	v := o.stretched(p)
	sin, cos := math.Sincos(o.Turn)
	return Pixel{o.At.X + cos*v.X - sin*v.Y, o.At.Y - sin*v.X - cos*v.Y}
}

// stretched is a place of the laid picture from its middle, X to the right and
// Y up, flipped and stretched but not turned, in pixels of the photograph.
func (o Overlay) stretched(p Pixel) r2.Vec {
	v := r2.Vec{X: o.ScaleX * (p.X - float64(o.Width)/2), Y: o.ScaleY * (float64(o.Height)/2 - p.Y)}
	if o.Flip {
		v.X = -v.X
	}
	return v
}

// Lay finds the scale of an overlay: that of the photograph at its depth, or
// the one that gives its known length. The laid picture keeps its shape: it is
// taken to be square to the view where its middle stands.
func Lay(o Overlay) (*Laid, []report.Finding, error) {
	if err := o.check(); err != nil {
		return nil, nil, at(o.Where, o.Name, err)
	}
	l := &Laid{Overlay: o, PerPixel: 1}
	if o.Over != nil {
		p, err := o.Over.Place(o.At, o.Depth.Value)
		if err != nil {
			return nil, nil, at(o.Where, o.Name, err)
		}
		l.PerPixel = o.Over.perPixel(p)
		l.Share = o.Over.share(o.Depth)
	}
	if o.Known == nil {
		return l, l.rough(), nil
	}
	return l.known()
}

// rough doubts a size that hangs on a depth too near to the camera.
func (l *Laid) rough() []report.Finding {
	if 1.96*l.Share < doubtfulShare {
		return nil
	}
	f := report.Doubtf(l.Name, "Its size is only good to ± %.0f %% (estimated, 95 %%): the camera stood %.1f m away, and how far in front of the wearer it is held is known to ± %.0f mm.",
		196*l.Share, l.Over.Distance()/1000, 1.96*l.Depth.sd())
	f.Where, f.Perhaps = l.Where, "Give a known length on it, or use a picture taken from farther away."
	return []report.Finding{f}
}

// perPixel is how many mm a pixel is where a point stands.
func (s Sight) perPixel(p r3.Vec) float64 { return s.Camera.Frame.Local(p).Z / s.Camera.Focal }

func (o Overlay) check() error {
	switch {
	case o.Width <= 0 || o.Height <= 0:
		return fmt.Errorf("%s is %d by %d pixels; a picture has some", o.Picture, o.Width, o.Height)
	case !(o.ScaleX > 0) || !(o.ScaleY > 0) || math.IsInf(o.ScaleX+o.ScaleY, 0):
		return fmt.Errorf("its scale is %g %% by %g %%; both must be above zero", 100*o.ScaleX, 100*o.ScaleY)
	case math.IsNaN(o.Turn) || math.IsInf(o.Turn, 0):
		return fmt.Errorf("its turn is no angle")
	case o.Over == nil && o.Known == nil:
		return fmt.Errorf("nothing gives it a size: lay it over a photograph that has a ruler in frame, or give a known length on it")
	}
	return nil
}

// known rescales an overlay to its known length.
func (l *Laid) known() (*Laid, []report.Finding, error) {
	k := l.Known
	for _, p := range []Pixel{k.From, k.To} {
		if err := inPicture(p, l.Width, l.Height, l.Picture); err != nil {
			return nil, nil, at(k.Where, l.Name+", known length", err)
		}
	}
	px := math.Hypot(k.To.X-k.From.X, k.To.Y-k.From.Y)
	if px < 2 || !(k.Length > 0) || math.IsInf(k.Length, 0) {
		return nil, nil, at(k.Where, l.Name+", known length", fmt.Errorf("it is %g mm between %s and %s; it takes two places and a length above zero", k.Length, k.From, k.To))
	}
	drawn := l.PerPixel * r2.Norm(r2.Sub(l.stretched(k.To), l.stretched(k.From)))
	factor := k.Length / drawn
	findings := l.drawnAs(factor)
	l.PerPixel *= factor
	l.Share = norm(math.Sqrt2*knownPixelSD/px, knownLengthSD/k.Length)
	l.Checked = true
	return l, append(findings, l.short(px)...), nil
}

// drawnAs says how the picture would have to be drawn to look its known size. By
// much, the known length may be the wrong one.
func (l *Laid) drawnAs(factor float64) []report.Finding {
	if l.Over == nil || math.Abs(factor-1) < max(1.96*l.Share, .01) {
		return nil
	}
	word := "smaller"
	if factor < 1 {
		word = "larger"
	}
	f := report.Notef(l.Name, "It is drawn %.0f %% %s than its known length makes it; its size is taken from the known length.",
		100*math.Abs(1/factor-1), word)
	f.Where = l.Where
	scale := percents(l.ScaleX*factor, l.ScaleY*factor)
	f.Perhaps = fmt.Sprintf("To see it on the wearer at its true size, give it the scale %s.", scale)
	if max(factor, 1/factor) > contradicts {
		f.Level, f.Where = report.Doubt, l.Known.Where
		f.Said += " One of the two may be wrong: the length, or the scale that it is drawn at."
		f.Perhaps = fmt.Sprintf("%sIf the length and its two places are right, give it the scale %s.", unitMeant(l.Known.Length, factor), scale)
	}
	return []report.Finding{f}
}

// unitMeant asks for the unit or the comma that was meant if a length is wrong by
// what such a slip makes of it; else it is empty.
func unitMeant(mm, factor float64) string {
	for _, c := range []struct {
		factor          float64
		meant, not      string
		unit, otherUnit float64 // mm
	}{
		{10, "cm", "cm", 100, 10},
		{.1, "cm", "cm", 1, 10},
		{2.54, "cm", "in", 25.4, 25.4},
		{1 / 2.54, "in", "cm", 10, 10},
		{25.4, "mm", "in", 25.4, 25.4},
		{1 / 25.4, "in", "mm", 1, 1},
	} {
		if math.Abs(math.Log(factor/c.factor)) < slipWithin {
			return fmt.Sprintf("Was %.4g %s meant, not %.4g %s? ", mm/c.unit, c.meant, mm/c.otherUnit, c.not)
		}
	}
	return ""
}

// percents is a scale as makers write it.
func percents(x, y float64) string {
	if x == y {
		return fmt.Sprintf("%.1f %%", 100*x)
	}
	return fmt.Sprintf("[%.1f %%, %.1f %%]", 100*x, 100*y)
}

// short doubts a known length that leaves the scale open.
func (l *Laid) short(px float64) []report.Finding {
	if 1.96*l.Share < shortKnown {
		return nil
	}
	f := report.Doubtf(l.Name, "Its known length is only %.0f pixels long, so sizes come out ± %.0f %% (95 %%).", px, 196*l.Share)
	f.Where, f.Perhaps = l.Known.Where, "Choose a longer known length, or a picture with more pixels."
	return []report.Finding{f}
}

// Read is the length between two places of the laid picture.
func (l *Laid) Read(name string, from, to Pixel, where string) (Reading, []report.Finding, error) {
	for _, p := range []Pixel{from, to} {
		if err := inPicture(p, l.Width, l.Height, l.Picture); err != nil {
			return Reading{}, nil, at(where, name, err)
		}
	}
	a, b := l.mm(from), l.mm(to)
	r := Reading{Name: name, Value: r2.Norm(r2.Sub(b, a)), Checked: l.Checked, Where: where}
	if r.Value < leastRead {
		return Reading{}, nil, at(where, name, fmt.Errorf("the two ends are one place, %s; mark two", from))
	}
	end := knownPixelSD * l.PerPixel * max(l.ScaleX, l.ScaleY)
	r.SD = norm(l.Share*r.Value, end, end)
	return r, doubtful(r), nil
}

// mm is a place of the laid picture from its middle in mm, along the picture's
// own sides (flipped if it is): X to the right, Y up.
func (l *Laid) mm(p Pixel) r2.Vec { return r2.Scale(l.PerPixel, l.stretched(p)) }
