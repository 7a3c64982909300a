package template

import "strconv"

// settings compiles the settings in their order; a default may use those
// before it. A template with layouts has one more, called layout.
func (k *fileCheck) settings() []Setting {
	var out []Setting
	if s, ok := k.layoutSetting(); ok {
		out = append(out, s)
	}
	for _, e := range k.f.Settings {
		out = append(out, k.setting(e.name, e.is))
	}
	return out
}

// layoutSetting chooses between layouts; the first is the default.
func (k *fileCheck) layoutSetting() (Setting, bool) {
	if len(k.f.Layouts) == 0 {
		return Setting{}, false
	}
	s := Setting{Name: "layout", Ident: "layout", Unit: "choice", About: "How the piece is divided into panels.", Line: k.f.Layouts[0].name.at.line}
	for _, l := range k.f.Layouts {
		s.Choices = append(s.Choices, l.name.s)
	}
	s.Default = k.formula(text{"0", k.f.Layouts[0].name.at}, plain)
	k.scope.dims["layout"], k.scope.choices["layout"] = plain, s.Choices
	return s, true
}

var dimOfUnit = map[string]dim{"mm": length, "deg": angle, "number": plain, "count": plain, "percent": plain, "choice": plain}

func (k *fileCheck) setting(name text, f fileSetting) Setting {
	d := dimOfUnit[f.Unit.s]
	s := Setting{Name: name.s, Ident: ident(name.s), Unit: f.Unit.s, About: f.About.s, Line: name.at.line}
	if f.Unit.s == "choice" {
		k.choices(&s, f)
	} else {
		if len(f.Choices) > 0 {
			k.at(f.Choices[0].at, "write unit: choice", "a setting in %s has no choices", f.Unit.s)
		}
		s.Default = k.formula(f.Default.text, d)
		s.Min, s.Max = k.bound(f.Min.text, d, f.Pos, "min"), k.bound(f.Max.text, d, f.Pos, "max")
		k.checkRange(s, f)
	}
	k.add(name, "setting", d)
	if f.Unit.s == "choice" {
		k.scope.choices[s.Ident] = s.Choices
	}
	return s
}

// bound is the value of a setting's limit, which no measurement moves.
func (k *fileCheck) bound(t text, d dim, at place, key string) float64 {
	if !t.set() {
		k.at(at, "", "the setting needs the key %s", key)
		return 0
	}
	f := k.formula(t, d)
	if !f.Set() {
		return 0
	}
	if len(f.Uses()) > 0 {
		k.at(t.at, "write a number with its unit", "%s reads %s, but a limit is the same for everybody", key, listed(f.Uses()))
		return 0
	}
	v, err := f.Eval(nil)
	if err != nil {
		k.at(t.at, "", "%s has no value", key)
	}
	return v
}

func (k *fileCheck) checkRange(s Setting, f fileSetting) {
	if s.Min > s.Max {
		k.at(f.Min.at, "exchange them", "min is above max")
		return
	}
	if !s.Default.Set() || len(s.Default.Uses()) > 0 {
		return
	}
	v, err := s.Default.Eval(nil)
	if err != nil || v < s.Min || v > s.Max {
		k.at(f.Default.at, "write one from min to max, or change those", "the default %q lies outside min and max, which are %s and %s", short(f.Default.s), short(f.Min.s), short(f.Max.s))
	}
	if f.Unit.s == "count" && v != float64(int(v)) {
		k.at(f.Default.at, "", "a count is a whole number, not %q", short(f.Default.s))
	}
}

func (k *fileCheck) choices(s *Setting, f fileSetting) {
	if len(f.Choices) < 2 {
		k.at(f.Pos, "write choices: [one, other]", "a setting of unit choice needs at least two choices")
		return
	}
	if f.Min.set() || f.Max.set() {
		k.at(f.Pos, "leave them out", "a choice has no min or max")
	}
	chosen := -1
	for i, c := range f.Choices {
		if c.s == f.Default.s {
			chosen = i
		}
		s.Choices = append(s.Choices, c.s)
	}
	if chosen < 0 {
		k.at(f.Default.at, didYouMean(f.Default.s, s.Choices), "the default %q is not one of the choices", short(f.Default.s))
		return
	}
	s.Default = k.formula(text{strconv.Itoa(chosen), f.Default.at}, plain)
}
