package pattern

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// card is the thickness of the card that a mock-up is made of (common
// practice, no source).
const card = 0.5

// thickest is the thickest foam, and farthest is how far a shell may stand off
// the body, mm: more is a slip in a template (common practice, no source).
const (
	thickest = 25.0
	farthest = 300.0
)

// prepare finds the body part, the values that formulas read, and what the
// piece must keep clear of the body.
func (b *builder) prepare() error {
	var err error
	if b.stand, err = standsAt(b.template.Frame, b.form, b.side, b.others); err != nil {
		return err
	}
	if b.stand.outward == nil {
		b.stand.outward = geom.VertexNormals(b.stand.around)
	}
	b.thickness, b.k = b.material.Thickness, b.material.K
	if err := b.fillEnv(); err != nil {
		return err
	}
	if err := b.settle(); err != nil {
		return err
	}
	if layout, ok := b.layout(); ok {
		b.template = b.template.Resolve(layout)
	}
	if b.spine, err = b.spineOf(b.template.Frame.Spine); err != nil {
		return err
	}
	return b.prepareClearance()
}

// partSide is the side whose sizes the piece takes.
func (b *builder) partSide() body.Side {
	if !b.stand.paired() {
		return body.Both
	}
	if b.side == body.Right { // built on its mirror image and reflected at the end
		return body.Right
	}
	return body.Left
}

// fillEnv gives formulas the wearer's measurements and posture, and the part's stations.
func (b *builder) fillEnv() error {
	b.env = template.Env{}
	for _, d := range body.Catalogue() {
		if m, ok := b.form.Measurements().Get(d.Name, b.partSide()); ok {
			b.env[d.Name.Ident()] = m.Value
		}
	}
	stands := b.form.Posture()
	b.env[template.ChestForward], b.env[template.WaistForward], b.env[template.ShouldersForward] = stands.ChestForward, stands.WaistForward, stands.ShouldersForward
	for name, level := range b.stand.levels {
		b.env[name] = level
	}
	return nil
}

// settle fixes thickness and settings: the maker's, or the template's defaults.
func (b *builder) settle() error {
	var said template.Formula // where the template says how thick it is
	switch {
	case b.order.MockUp:
		b.thickness = card
	case b.order.Thickness > 0:
		b.thickness = b.order.Thickness
	case b.thickness == 0:
		t, err := b.template.Thickness.Eval(b.env)
		if err != nil {
			return err
		}
		b.thickness, said = t, b.template.Thickness
	}
	if b.thickness < card || b.thickness > thickest {
		return wrong(said, "the foam would be %g mm thick; it is from %g to %g mm", b.thickness, card, thickest)
	}
	b.env["thickness"] = b.thickness
	if err := b.unknownSettings(); err != nil {
		return err
	}
	for _, s := range b.template.Settings {
		v, err := s.Default.Eval(b.env)
		if err != nil {
			return err
		}
		if typed, ok := b.order.Settings[s.Name]; ok {
			if v, err = b.typedSetting(s, typed); err != nil {
				return err
			}
		}
		b.env[s.Ident] = v
	}
	return nil
}

func (b *builder) unknownSettings() error {
	var names []string
	known := map[string]bool{}
	for _, s := range b.template.Settings {
		known[s.Name] = true
		names = append(names, s.Name)
	}
	var unknown []string
	for name := range b.order.Settings {
		if !known[name] {
			unknown = append(unknown, name)
		}
	}
	if len(unknown) == 0 {
		return nil
	}
	sort.Strings(unknown)
	return placed{b.order.Places[unknown[0]], fmt.Errorf("the %s has no setting %q; it has %s", b.template.Name, unknown[0], strings.Join(names, ", "))}
}

func (b *builder) typedSetting(s template.Setting, v Value) (float64, error) {
	place := b.order.Places[s.Name]
	if len(s.Choices) > 0 {
		for i, c := range s.Choices {
			if strings.EqualFold(strings.TrimSpace(v.Typed), c) {
				return float64(i), nil
			}
		}
		return 0, placed{place, fmt.Errorf("setting %q is %q; it can be %s", s.Name, v.Typed, strings.Join(s.Choices, ", "))}
	}
	x := v.Number
	if x < s.Min-sameAngle || x > s.Max+sameAngle {
		return 0, placed{place, fmt.Errorf("setting %q is %s; it can be from %s to %s", s.Name, v.Typed, showSetting(s, s.Min), showSetting(s, s.Max))}
	}
	if s.Unit == "count" && x != math.Round(x) {
		return 0, placed{place, fmt.Errorf("setting %q is %s; it must be a whole number", s.Name, v.Typed)}
	}
	return x, nil
}

func showSetting(s template.Setting, v float64) string {
	switch s.Unit {
	case "mm":
		return fmt.Sprintf("%g mm", v)
	case "deg":
		return fmt.Sprintf("%g deg", math.Round(v*180/math.Pi*100)/100)
	case "percent":
		return fmt.Sprintf("%g %%", math.Round(v*1e4)/100)
	}
	return fmt.Sprintf("%g", v)
}

func (b *builder) layout() (string, bool) {
	names := b.template.Layouts()
	if len(names) == 0 {
		return "", false
	}
	return names[min(max(int(b.env["layout"]), 0), len(names)-1)], true
}

// prepareClearance evaluates how far the inner face must keep from the body
// and what is worn, by the direction that the surface looks in.
func (b *builder) prepareClearance() error {
	ease, err := b.directions(b.template.Ease)
	if err != nil {
		return err
	}
	padding, err := b.template.Padding.Eval(b.env)
	if err != nil {
		return err
	}
	if b.under = newUnder(b.stand.under); b.under != nil {
		if b.gap, err = b.template.Frame.Gap.Eval(b.env); err != nil {
			return err
		}
		if !(b.gap >= 0 && b.gap <= farthest) {
			return wrong(b.template.Frame.Gap, "the gap over the %s is %g mm; it can be from 0 to %g mm", b.template.Frame.Over, b.gap, farthest)
		}
	}
	if b.stand.free {
		b.clear = func(_, _ r3.Vec) float64 { return 0 }
		return nil
	}
	b.asked = math.Inf(1)
	for i := range ease {
		ease[i] += padding
		if !(ease[i] >= 0 && ease[i] <= farthest) {
			return wrong(b.template.Ease.All, "ease and padding together are %g mm; they can be from 0 to %g mm", ease[i], farthest)
		}
		b.asked = min(b.asked, ease[i])
	}
	b.padding = padding
	rest, err := b.template.Ease.All.Eval(b.env)
	if err != nil {
		return err
	}
	b.askings = askings(b.template.Ease, ease, rest+padding)
	reserve := b.stand.reserve()
	b.clear = func(n, _ r3.Vec) float64 { return ease.toward(n) + reserve }
	return nil
}

// byDirection holds a value for each way that a surface can look: +x, -x, +y,
// -y, +z, -z.
type byDirection [6]float64

// toward blends the values by the squares of a unit normal's parts, so that it
// is the value itself straight along an axis and smooth between.
func (d byDirection) toward(n r3.Vec) float64 {
	sum := 0.0
	for i, c := range []float64{n.X, n.Y, n.Z} {
		j := 2 * i
		if c < 0 {
			j++
		}
		sum += c * c * d[j]
	}
	return sum
}

func (b *builder) directions(d template.Directions) (byDirection, error) {
	all, err := d.All.Eval(b.env)
	if err != nil {
		return byDirection{}, err
	}
	left, right := d.Left, d.Right
	if d.Outer.Set() || d.Inner.Set() {
		left, right = d.Outer, d.Inner
	}
	var out byDirection
	from := []template.Formula{left, right, d.Top, d.Bottom, d.Front, d.Back}
	for i, f := range from {
		out[i] = all
		if !f.Set() {
			from[i] = d.All
		} else {
			if out[i], err = f.Eval(b.env); err != nil {
				return byDirection{}, err
			}
		}
		if !(math.Abs(out[i]) <= farthest) {
			return byDirection{}, wrong(from[i], "an ease is %g mm; %g mm is the most", out[i], farthest)
		}
	}
	return out, nil
}

// adjusted is the form after a fitting: the body as if the adjusted sizes had
// been measured. The length of the piece itself is adjusted in its plan.
func adjusted(form *body.Form, o Order) (*body.Form, error) {
	values := map[body.Name]float64{}
	for name, v := range o.Adjust {
		if name == "length" {
			continue
		}
		if _, ok := body.Describe(body.Name(name)); !ok {
			return nil, placed{o.Places[name], fmt.Errorf("cannot adjust %q; adjust \"length\" or a measurement, perhaps %q", name, body.Suggest(name))}
		}
		m, ok := form.Measurements().Get(body.Name(name), body.Both)
		if !ok {
			return nil, placed{o.Places[name], fmt.Errorf("cannot adjust %q, which is not known; measure it first", name)}
		}
		values[body.Name(name)] = m.Value + v.Number
		if v.Percent {
			values[body.Name(name)] = m.Value * (1 + v.Number)
		}
	}
	if len(values) == 0 {
		return form, nil
	}
	return form.With(values)
}

// doubtf notes a doubt about the piece.
func (b *builder) doubtf(format string, args ...any) {
	b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where, Said: fmt.Sprintf(format, args...)})
}
