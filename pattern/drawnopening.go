package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// redrawn tells whether an opening of the template is drawn on a photograph
// instead.
func (b *builder) redrawn(opening string) bool {
	for _, d := range b.order.Drawn {
		if d.Kind == DrawnOpening && strings.EqualFold(d.Name, opening) {
			return true
		}
	}
	return false
}

// idle are the settings, by their identifiers, that shape only openings of the
// template that are drawn instead.
func (b *builder) idle() map[string]bool {
	rest := *b.template
	rest.Openings = nil
	var gone []template.Opening
	for _, o := range b.template.Openings {
		if b.redrawn(o.Name) {
			gone = append(gone, o)
		} else {
			rest.Openings = append(rest.Openings, o)
		}
	}
	idle := template.Uses(gone)
	for name := range template.Uses(rest) {
		delete(idle, name)
	}
	return idle
}

// drawnOn says what was drawn on which photograph.
func drawnOn(drawn []Drawn) []string {
	var out []string
	for _, d := range drawn {
		on := d.On
		if on == "" {
			on = "a photograph"
		}
		out = append(out, fmt.Sprintf("Cut as drawn on %s: %s %q.", on, d.Kind, d.Name))
	}
	return out
}

// nameOpenings notes which drawn openings take no other's place, and refuses
// those that overlap one of the template.
func (b *builder) nameOpenings(drawn []*solidSketch, cuts []cutout, panels []rawPanel) error {
	var names []string
	for _, o := range b.template.Openings {
		names = append(names, o.Name)
	}
	noted := map[string]bool{}
	for _, d := range drawn {
		low := strings.ToLower(d.Name)
		if noted[low] || equalsAny(d.Name, names) {
			continue
		}
		noted[low] = true
		if over := d.over(cuts, panels); over != "" {
			return placed{d.Where, fmt.Errorf("opening %q overlaps the opening %q that the %s has anyway; to put it in that one's place, write \"opening: %s\", else draw it clear of that one", d.Name, over, b.template.Name, over)}
		}
		f := report.Finding{Level: report.Note, Subject: b.order.Name, Where: d.Where,
			Said: fmt.Sprintf("the template has no opening %q; what is drawn is cut besides its own.", d.Name)}
		if k := report.Nearest(low, names); k != "" {
			f.Level, f.Perhaps = report.Doubt, fmt.Sprintf("If it should take the place of %q, write that name.", k)
		}
		b.findings = append(b.findings, f)
	}
	return nil
}

// over is the name of the opening of the template that a drawn one overlaps; ""
// if there is none.
func (o *solidSketch) over(cuts []cutout, panels []rawPanel) string {
	for i := range cuts {
		c := &cuts[i]
		if slices.ContainsFunc(o.solid, c.contains) {
			return c.name
		}
		for _, p := range panels { // or it goes round that one
			if slices.ContainsFunc(p.surf.Bent, func(v r3.Vec) bool { return c.contains(v) && geom.Inside(o.line, o.eye.see(v)) }) {
				return c.name
			}
		}
	}
	return ""
}

// openingsOf are the names of openings, each once.
func openingsOf(cuts ...[]cutout) []string {
	var out []string
	for _, c := range slices.Concat(cuts...) {
		if c.kind == opens && !equalsAny(c.name, out) {
			out = append(out, c.name)
		}
	}
	return out
}

func equalsAny(s string, names []string) bool {
	for _, n := range names {
		if strings.EqualFold(s, n) {
			return true
		}
	}
	return false
}

// solidSketch is a drawn opening where it meets the piece.
type solidSketch struct {
	*sketch
	solid []r3.Vec // of each point of its line
	side  float64  // +1 or -1: all of it lies on one side of the piece's middle; 0: it goes across
	used  bool
}

// acrossMiddle is how far an opening must reach over the middle of the piece to
// go across it, mm; less is a slip of the hand (judgement).
const acrossMiddle = 5.0

func (b *builder) solidSketch(s *sketch, w *walls) (*solidSketch, error) {
	o := &solidSketch{sketch: s}
	if _, _, bad := geom.Crossing(s.line); bad {
		return nil, fmt.Errorf("its curve crosses itself; draw it once round, without loops, its points in turn")
	}
	if wide := narrowest(s.line); wide < 2*leastHole {
		return nil, fmt.Errorf("it is only %s across on the piece; %s is the least that can be cut. Look at its points: they are pixels of the photograph", units.FormatFine(wide, b.order.Units), units.FormatFine(2*leastHole, b.order.Units))
	}
	var ok bool
	if o.solid, ok = w.solid(s.eye, s.line); !ok {
		if geom.Inside(s.line, s.eye.see(w.middle)) {
			return nil, fmt.Errorf("its curve runs round the piece without touching it, and would take away all that is seen; draw it on the piece")
		}
		return nil, fmt.Errorf("none of its curve lies on the piece; look whether it was drawn on the right photograph, and for the right piece")
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range o.solid {
		low, high = min(low, p.X), max(high, p.X)
	}
	switch {
	case low > -acrossMiddle && high > -low:
		o.side = 1
	case high < acrossMiddle:
		o.side = -1
	}
	return o, nil
}

// narrowest is the least side of the upright box round a curve in an eye's
// picture, which stands where the middle of the piece does.
func narrowest(line []r2.Vec) float64 {
	box := geom.Bounds(line)
	return min(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y)
}

// drawnOpenings cuts openings as they were drawn; on a piece that is its own
// mirror image evenly on both sides.
func (b *builder) drawnOpenings(all []*solidSketch) ([]cutout, error) {
	var out []cutout
	for _, o := range all {
		if o.used {
			continue
		}
		c := seenFrom(o.eye, o.Name, o.line)
		even := b.template.Mirror && !o.AsSeen
		switch {
		case even && o.side == 0 && math.Abs(o.eye.toward.X) > fromTheSide:
			return nil, placed{o.Where, fmt.Errorf("opening %q: seen from the side, its curve goes across the middle of the piece; draw it on a photograph from the front or from behind", o.Name)}
		case even && o.side == 0:
			out = append(out, b.evenly(o))
		case even:
			if p := o.partner(all); p != nil {
				c = b.pairOf(o, p)
			}
			out = append(out, c, c.reflected())
		case o.Mirror && !b.stand.paired():
			out = append(out, c, c.reflected())
		default:
			out = append(out, c)
		}
	}
	return out, nil
}

// fromTheSide is the sine of the angle from straight before a piece above which
// it is seen from the side.
const fromTheSide = 0.8

// partner is the opening of the same name that was drawn on the other side,
// nearest to where this one's image would be.
func (o *solidSketch) partner(all []*solidSketch) *solidSketch {
	var found *solidSketch
	best := math.Inf(1)
	for _, p := range all {
		if p == o || p.used || p.AsSeen || !strings.EqualFold(p.Name, o.Name) || p.side != -o.side {
			continue
		}
		if d := geom.Dist(middleOf(o.solid), mirrorX(middleOf(p.solid))); d < best {
			found, best = p, d
		}
	}
	return found
}

func middleOf(pts []r3.Vec) r3.Vec {
	var sum r3.Vec
	for _, p := range pts {
		sum = r3.Add(sum, p)
	}
	return r3.Scale(1/float64(len(pts)), sum)
}

// pairOf is the opening half way between one and the image of its partner.
func (b *builder) pairOf(o, p *solidSketch) cutout {
	o.used, p.used = true, true
	drawn, image := outline{o.line, o.turn}.ccw(), outline{corners: p.turn}
	for _, q := range p.solid {
		image.ring = append(image.ring, o.eye.see(mirrorX(q)))
	}
	image = image.ccw()
	b.noteUneven(o.sketch, drawn.apart(image))
	return seenFrom(o.eye, o.Name, drawn.between(image))
}

// evenly is an opening that goes across the middle, made its own mirror image:
// as a lens straight before the middle would see it.
func (b *builder) evenly(o *solidSketch) cutout {
	e := o.eye
	e.at.X, e.toward.X = 0, 0
	e.toward = r3.Unit(e.toward)
	e.stand()
	drawn := outline{corners: o.turn}
	for _, q := range o.solid {
		drawn.ring = append(drawn.ring, e.see(q))
	}
	drawn = drawn.ccw()
	image := drawn.mirrored()
	b.noteUneven(o.sketch, drawn.apart(image))
	return seenFrom(e, o.Name, drawn.between(image))
}

// A drawn opening whose left and right differ by less than the first is even;
// by more than the second, something else may be wrong (judgement).
const (
	evenEnough  = 0.5
	wronglyEven = 10.0
)

// noteUneven says how far left and right of a drawn curve differed.
func (b *builder) noteUneven(s *sketch, by float64) {
	if by < evenEnough {
		return
	}
	f := report.Finding{Level: report.Note, Subject: b.order.Name, Where: s.Where,
		Said: fmt.Sprintf("left and right of the drawn %s %q differ by up to %s; it is cut half way between, alike on both sides.", s.Kind, s.Name, units.FormatFine(by, b.order.Units))}
	if by > wronglyEven {
		f.Level, f.Perhaps = report.Doubt, "Look whether the photograph was taken straight from the front, or ask for the curve as seen."
	}
	b.findings = append(b.findings, f)
}
