package costume

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"sync"

	"github.com/goccy/go-yaml/ast"

	"tasset/body"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"
	"tasset/pattern/template"
)

// pieceReader reads the list of pieces.
type pieceReader struct {
	catalogue *Catalogue
	costume   *Costume
	look      []*wish // what holds for every piece that has such a setting
}

var pieceKeys = []string{"piece", "name", "side", "settings", "adjust", "thickness", "traced", "mock-up", "drawn"}

func (p *pieceReader) read(v value) {
	names := map[string]string{}
	items := v.items("write a list of pieces, such as \"- piece: vambrace\"")
	p.ahead(items)
	for _, item := range items {
		o, ok := p.order(item)
		if !ok {
			continue
		}
		if first, twice := names[o.Name]; twice {
			item.fail("found a second piece called %q (the first is at %s); give one of them another \"name\"", o.Name, first)
		}
		names[o.Name] = item.where()
		p.costume.Orders = append(p.costume.Orders, o)
	}
	p.unworn()
}

// ahead reads the templates of all pieces beside each other: the catalogue remembers
// them, and what is wrong with one is told where its piece is read.
func (p *pieceReader) ahead(items []value) {
	var all sync.WaitGroup
	for _, item := range items {
		m, ok := item.node.(*ast.MappingNode)
		if !ok {
			continue
		}
		for _, e := range m.Values {
			if e.Key.String() == "piece" {
				all.Go(func() { template.Load(p.catalogue.fsys, e.Value.String()) })
			}
		}
	}
	all.Wait()
}

// perhaps suggests a setting that one of the pieces has.
func (p *pieceReader) perhaps(key string) string {
	var known []string
	for _, o := range p.costume.Orders {
		if t, err := p.catalogue.Load(o.Template); err == nil {
			known = append(known, settingNames(t)...)
		}
	}
	if k := report.Nearest(key, known); k != "" {
		return fmt.Sprintf("; did you mean %q?", k)
	}
	return ""
}

// order reads one piece.
func (p *pieceReader) order(v value) (pattern.Order, bool) {
	at := v.r.keyed(v, pieceKeys)
	t := p.template(v, at["piece"])
	if t == nil {
		return pattern.Order{}, false
	}
	o := pattern.Order{Template: t.Name, Where: v.where(), Traced: pattern.Outer, Settings: map[string]pattern.Value{},
		Adjust: map[string]pattern.Value{}, Places: map[string]string{}}
	o.Side = readSide(at["side"], t)
	o.Name = strings.TrimSpace(o.Side.String() + " " + strings.ReplaceAll(t.Name, "-", " "))
	if n := at["name"]; n != nil {
		o.Name = n.label()
	}
	if e := at["thickness"]; e != nil {
		o.Thickness = e.foam(p.costume.Units)
	}
	if e := at["traced"]; e != nil {
		o.Traced = pattern.Face(e.among([]string{"middle", "outer", "inner"}))
	}
	if e := at["mock-up"]; e != nil {
		o.MockUp = e.yes()
	}
	if e := at["drawn"]; e != nil {
		p.costume.Drawn = append(p.costume.Drawn, readDrawn(*e, o.Name)...)
	}
	if e := at["settings"]; e != nil {
		for _, s := range e.entries("write settings with their values, such as \"ease: 12 mm\"") {
			p.setting(&o, t, s)
		}
	}
	if e := at["adjust"]; e != nil {
		for _, a := range e.entries("write sizes to change, such as \"wrist girth: +8 mm\"") {
			p.adjust(&o, t, a)
		}
	}
	p.dress(&o, t)
	return o, true
}

// template finds the piece's template; nil after a failure.
func (p *pieceReader) template(v value, piece *value) *template.Template {
	if piece == nil {
		v.r.fail(v.line, "found no \"piece\" in this item; write which one, such as \"- piece: vambrace\"")
		return nil
	}
	name := piece.text()
	if name == "" {
		return nil
	}
	if !contains(p.catalogue.Names(), name) {
		piece.fail("found %q, and there is no such template; %s", name, p.catalogue.perhapsMeant(name))
		return nil
	}
	t, err := p.catalogue.Load(name)
	if err != nil {
		v.r.errs = append(v.r.errs, err)
		return nil
	}
	return t
}

// readSide reads left, right or pair; pieces that stand on the middle of the
// body have no side.
func readSide(v *value, t *template.Template) body.Side {
	if v == nil {
		return body.Both
	}
	side := [...]body.Side{body.Both, body.Left, body.Right}[v.among([]string{"pair", "left", "right"})]
	if !onLimb(t) {
		v.fail("found %q, but the %s has no side; leave the line out", v.text(), strings.ToLower(t.Title))
	}
	return side
}

func onLimb(t *template.Template) bool { return t.Frame.Paired() }

func settingNames(t *template.Template) []string {
	var names []string
	for _, s := range t.Settings {
		names = append(names, s.Name)
	}
	return names
}

// setting reads one setting and checks it against its range.
func (p *pieceReader) setting(o *pattern.Order, t *template.Template, v value) {
	s, ok := settingOf(t, v.key)
	if !ok {
		known := settingNames(t)
		sort.Strings(known)
		if k := report.Nearest(v.key, known); k != "" {
			v.r.fail(v.line, "found the setting %q, which the %s does not have; did you mean %q?", v.key, t.Name, k)
			return
		}
		v.r.fail(v.line, "found the setting %q, which the %s does not have; it has %s", v.key, t.Name, strings.Join(known, ", "))
		return
	}
	before := len(v.r.errs)
	n := p.inRange(v, s)
	o.Places[s.Name] = v.where()
	if len(v.r.errs) == before {
		o.Settings[s.Name] = pattern.Value{Number: n, Percent: s.Unit == "percent", Typed: v.typed()}
	}
}

// inRange reads a setting's value in its own unit.
func (p *pieceReader) inRange(v value, s template.Setting) float64 {
	if s.Unit == "choice" {
		return float64(v.among(s.Choices))
	}
	before := len(v.r.errs)
	n := p.number(v, s)
	if len(v.r.errs) == before && !inReach(s, n) {
		v.fail("found %s; write from %s", v.text(), reachIn(s, v.text()))
	}
	return n
}

// number reads a value in a setting's unit.
func (p *pieceReader) number(v value, s template.Setting) float64 {
	before := len(v.r.errs)
	var n float64
	switch s.Unit {
	case "mm":
		if _, err := units.ParseNumber(v.text()); err == nil && p.costume.Units == units.None {
			v.fail("%q has no unit; write %s", v.text(), withUnitOf(s, v.text()))
			return 0
		}
		n = v.length(p.costume.Units, ShowSetting(s, math.Round((s.Min+s.Max)/2)))
	case "deg":
		n = v.parsed(units.ParseAngle)
	case "percent":
		n = v.parsed(units.ParsePercent)
	default:
		n = v.parsed(units.ParseNumber)
	}
	if len(v.r.errs) == before && s.Unit == "count" && n != float64(int(n)) {
		v.fail("found %s; write a whole number", v.text())
	}
	return n
}

// ShowSetting writes a setting's value in its unit, as it may be typed.
func ShowSetting(s template.Setting, n float64) string {
	switch s.Unit {
	case "mm":
		return fmt.Sprintf("%g mm", n)
	case "deg":
		return fmt.Sprintf("%.4g deg", units.Deg(n))
	case "percent":
		return fmt.Sprintf("%.4g %%", n*100)
	case "choice":
		if i := int(n); i >= 0 && i < len(s.Choices) {
			return s.Choices[i]
		}
	}
	return fmt.Sprintf("%.4g", n)
}

// What an adjustment may change at most: more is a slip, or a size that was
// taken wrong. Common practice, no source.
const (
	mostAdjusted = 100.0 // mm
	mostShare    = 0.25
)

// adjust reads a change after a fitting: a signed length, or percent.
func (p *pieceReader) adjust(o *pattern.Order, t *template.Template, v value) {
	if _, ok := body.Describe(body.Name(v.key)); !ok && v.key != "length" {
		v.fail("found a size that cannot be adjusted; adjust \"length\" or a measurement%s", perhapsMeasured(v.key))
		return
	}
	if v.key != "length" && !hangsOn(t, v.key) {
		v.fail("found a size that the %s does not hang on; adjust length, %s", t.Name, strings.Join(governing(t), ", "))
		return
	}
	a := pattern.Value{Typed: v.typed(), Percent: strings.HasSuffix(v.typed(), "%")}
	before, most := len(v.r.errs), mostAdjusted
	if a.Percent {
		a.Number, most = v.parsed(units.ParsePercent), mostShare
	} else {
		a.Number = v.length(p.costume.Units, "+8 mm, -1/2 in or +3 %")
	}
	if len(v.r.errs) == before && math.Abs(a.Number) > most {
		v.fail("found %s; a fitting changes a size by at most %g mm or %g %%. Measure it again instead", v.text(), mostAdjusted, 100*mostShare)
	}
	o.Adjust[v.key], o.Places[v.key] = a, v.where()
}

func governing(t *template.Template) []string {
	var names []string
	for _, n := range t.Governs {
		names = append(names, string(n))
	}
	return names
}

func hangsOn(t *template.Template, size string) bool { return contains(governing(t), size) }

func perhapsMeasured(key string) string {
	if n := body.Suggest(key); n != "" {
		return fmt.Sprintf(", perhaps %q", n)
	}
	return ""
}
