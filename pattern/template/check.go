package template

import (
	"regexp"
	"strings"

	"tasset/body"
)

// check turns a file's keys into a Template and reports what does not fit
// together. The template is only good if nothing was reported.
func check(f *fileTemplate, c *faults, name string) *Template {
	k := &fileCheck{compiler: compiler{faults: c}, f: f, name: name}
	k.openScope()
	t := &Template{
		Title: f.Title.s, About: f.About.s, Code: f.Code.s, Draw: f.Draw.s, Mirror: f.Mirror.on,
		Governs: k.governs(), Thickness: k.mm(f.Thickness),
	}
	k.scope.dims["thickness"] = length // from here on; the thickness comes before all settings
	t.Settings = k.settings()
	t.Repeat = k.repeat() // its sizes may read the settings, and all below them its names
	t.Padding, t.Ease, t.After = k.mm(f.Padding), k.directions(f.Ease), k.after()
	if f.Format.s != "1" {
		c.at(f.Format.at, "write format: 1", "this program reads format 1, not %q", short(f.Format.s))
	}
	if !codePattern.MatchString(f.Code.s) {
		c.at(f.Code.at, "write one or two capital letters", "the code is %q", short(f.Code.s))
	}
	k.shapes(t)
	t.Rims = k.rims()
	t.Openings, t.Fastenings, t.Marks = k.openings(), k.fastenings(), k.marks()
	t.Flats, t.Joins, t.Layers, t.Pads = k.flats(), k.joins(), k.layers(), k.pads()
	t.Buy, t.Doubts = k.bought(), k.doubts()
	t.others = k.others
	return t
}

var codePattern = regexp.MustCompile(`^[A-Z]{1,2}$`)

// fileCheck is the state of one check.
type fileCheck struct {
	compiler
	f    *fileTemplate
	name string // of the template

	others []other
}

// openScope makes measurements and stations known to formulas. Settings follow
// one by one.
func (k *fileCheck) openScope() {
	k.scope = scope{dims: map[string]dim{}, choices: map[string][]string{}}
	for _, d := range body.Catalogue() {
		k.scope.dims[d.Name.Ident()] = length
		if d.Kind == body.KindWeight {
			k.scope.dims[d.Name.Ident()] = plain
		}
	}
	for _, id := range stances {
		k.scope.dims[id] = length
	}
	for _, fr := range k.frames() {
		for _, s := range fr.parts() {
			for _, station := range stations[s] {
				k.scope.dims[station] = length
			}
		}
	}
	k.openSteps()
}

// openSteps makes the steps of spines known. Layouts may have them alike.
func (k *fileCheck) openSteps() {
	known := map[string]bool{}
	for _, fr := range k.frames() {
		for _, step := range fr.Spine {
			if id := ident(step.Name.s); !known[id] {
				known[id] = true
				k.add(step.Name, "step", length)
			}
		}
	}
}

func (k *fileCheck) frames() []*fileFrame {
	var out []*fileFrame
	if k.f.Frame != nil {
		out = append(out, k.f.Frame)
	}
	for _, l := range k.f.Layouts {
		if l.is.Frame != nil {
			out = append(out, l.is.Frame)
		}
	}
	return out
}

// words that the expression reader keeps for itself.
var reserved = map[string]bool{
	"and": true, "or": true, "not": true, "in": true, "matches": true, "contains": true, "startsWith": true,
	"endsWith": true, "let": true, "if": true, "else": true, "true": true, "false": true, "nil": true,
}

var identPattern = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)

// add makes a name known to formulas.
func (k *fileCheck) add(name text, what string, d dim) bool {
	id := ident(name.s)
	switch by := k.takenBy(id); {
	case !identPattern.MatchString(id) || len(id) > 40:
		k.at(name.at, "use small letters, digits, spaces and hyphens, and start with a letter", "%q cannot be the name of a %s", short(name.s), what)
	case by != "":
		k.at(name.at, "choose another", "the name %q is taken by %s", name.s, by)
	default:
		k.scope.dims[id] = d
		return true
	}
	return false
}

// takenBy says what formulas already mean by a name; "" if nothing.
func (k *fileCheck) takenBy(id string) string {
	_, function := functions[id]
	_, known := k.scope.dims[id]
	switch {
	case function:
		return "a function"
	case id == "thickness":
		return "the foam's thickness"
	case contains(stances, id):
		return "how the wearer stands"
	case reserved[id]:
		return "a word of conditions"
	case !known:
		return ""
	}
	if _, ok := body.Describe(body.Name(strings.ReplaceAll(id, "_", " "))); ok {
		return "a measurement"
	}
	for _, s := range segments {
		if contains(stations[s], id) {
			return "a station of the " + string(s)
		}
	}
	return "another name of this file"
}

// ident is a name as formulas write it.
func ident(name string) string { return body.Name(name).Ident() }

func (k *fileCheck) governs() []body.Name {
	var out []body.Name
	for _, g := range k.f.Governs {
		d, ok := body.Describe(body.Name(g.s))
		if !ok {
			advice := "see the list of measurements"
			if n := body.Suggest(g.s); n != "" {
				advice = "did you mean " + string(n) + "?"
			}
			k.at(g.at, advice, "%q is not a measurement", short(g.s))
			continue
		}
		out = append(out, d.Name)
	}
	return out
}

func (k *fileCheck) directions(d fileDirections) Directions {
	l := k.mm
	return Directions{
		All: l(d.All), Front: l(d.Front), Back: l(d.Back), Left: l(d.Left), Right: l(d.Right),
		Outer: k.limbOnly(d.Outer), Inner: k.limbOnly(d.Inner), Top: l(d.Top), Bottom: l(d.Bottom),
	}
}

// limbOnly compiles a value for a direction that only limbs have.
func (k *fileCheck) limbOnly(t lengthF) Formula {
	for _, fr := range k.frames() {
		if limbs, known := fr.onLimb(); t.set() && known && !limbs {
			k.at(t.at, "write left and right", "outer and inner are directions of limbs, and the %s is none", fr.where())
			break
		}
	}
	return k.mm(t)
}
