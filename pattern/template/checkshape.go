package template

import "slices"

// shapes compiles the one shape of a template, or that of each layout.
func (k *fileCheck) shapes(t *Template) {
	if len(k.f.Layouts) == 0 {
		k.f.fileShape.Pos = k.f.Title.at
		t.Shape = k.shape(k.f.fileShape)
		return
	}
	if s := k.f.fileShape; s.Frame != nil || s.Span != nil || s.Rings != nil || s.Bands != nil || s.Cap != nil || s.Base != nil || s.Lames != nil || s.Gap != nil || s.Folds != nil {
		k.at(s.Pos, "move frame, span, rings, bands, lames, cap, base, gap and folds into the layouts", "the template has layouts and a shape beside them")
	}
	for _, l := range k.f.Layouts {
		t.layouts = append(t.layouts, layout{l.name.s, k.shape(l.is)})
	}
	t.Shape = t.layouts[0].shape
}

func (k *fileCheck) shape(f fileShape) Shape {
	s := Shape{Frame: k.frame(f)}
	if f.Span != nil {
		s.Span = &Span{k.rad(f.Span.From), k.rad(f.Span.To)}
	}
	s.Rings = k.rings(f)
	if len(f.Rings) == 0 {
		k.flatsOnly(f)
	}
	s.Cap, s.Base, s.Gap = k.cap(f.Cap, "cap"), k.cap(f.Base, "base"), k.gap(f.Gap)
	s.Bands, s.Lames = k.bands(f, s), k.lames(f)
	s.Folds = k.folds(f)
	return s
}

// flatsOnly holds a shape without rings to what a piece of flat parts alone has.
func (k *fileCheck) flatsOnly(f fileShape) {
	if len(k.f.Flats) == 0 {
		k.at(f.Pos, "write rings and bands, or flats for a piece that is flat", "the template has no shape")
		return
	}
	where := f.Pos
	onShell := func(f fileFastening) bool { return !f.On.set() }
	marked := func(f fileMark) bool { return len(f.On) == 0 }
	switch {
	case len(k.f.Rims) > 0:
		where = k.f.Rims[0].Pos
	case len(k.f.Openings) > 0:
		where = k.f.Openings[0].Pos
	case len(k.f.Layers) > 0:
		where = k.f.Layers[0].Pos
	case slices.ContainsFunc(k.f.Fastenings, onShell):
		where = k.f.Fastenings[slices.IndexFunc(k.f.Fastenings, onShell)].Pos
	case len(k.f.Pads) > 0:
		where = k.f.Pads[0].Pos
	case slices.ContainsFunc(k.f.Marks, marked):
		where = k.f.Marks[slices.IndexFunc(k.f.Marks, marked)].Pos
	default:
		return
	}
	k.at(where, "give the piece rings and bands, or leave this out", "a piece of flat parts alone has no shell that this could stand on")
}

// cap compiles the end of a shell; at is "cap" or "base".
func (k *fileCheck) cap(f *fileCap, at string) *Cap {
	if f == nil {
		return nil
	}
	if kind := f.Kind.s; at == "base" && kind == "point" {
		k.at(f.Kind.at, "turn the order of the rings round, or close it with a plate", "a base cannot be a point")
	}
	if f.At.set() && f.Kind.s == "plate" {
		k.at(f.At.at, "leave it out", "a plate lies in its ring and has no level of its own")
	}
	for _, only := range []struct {
		t          text
		key, kinds string
	}{
		{f.Along.text, "along", "ridge"}, {f.Across.text, "across", "ridge"},
		{f.Rings.text, "rings", "dome"}, {f.Plate.text, "plate", "dome"},
	} {
		if only.t.set() && f.Kind.s != only.kinds {
			k.at(only.t.at, "leave it out, or write kind: "+only.kinds, "a %s has no %s", f.Kind.s, only.key)
		}
	}
	if f.Name.set() && f.Kind.s != "plate" && f.Kind.s != "dome" {
		k.at(f.Name.at, "leave it out", "a %s has no panel of its own to name", f.Kind.s)
	}
	return &Cap{Kind: f.Kind.s, Name: f.Name.s, At: k.mm(f.At), Along: k.rad(f.Along), Across: k.mm(f.Across), Rings: k.number(f.Rings), Plate: k.number(f.Plate),
		When: k.condition(f.When), Line: f.Pos.line}
}

func (k *fileCheck) gap(f *fileGap) *Gap {
	if f == nil {
		return nil
	}
	return &Gap{At: k.rad(f.At), Width: k.mm(f.Width), Lap: k.mm(f.Lap), When: k.condition(f.When), Line: f.Pos.line}
}

func (k *fileCheck) folds(f fileShape) []FoldRule {
	var bands []string
	known := map[string]bool{}
	for _, b := range f.Bands {
		if b.Name.set() {
			bands, known[b.Name.s] = append(bands, b.Name.s), true
		}
	}
	if f.Lames != nil && f.Lames.Name.set() {
		bands, known[f.Lames.Name.s] = append(bands, f.Lames.Name.s), true
	}
	var out []FoldRule
	for _, r := range f.Folds {
		rule := FoldRule{At: k.rad(r.At), Kind: r.Kind.s, When: k.condition(r.When), Line: r.Pos.line}
		for _, b := range r.Bands {
			if !known[b.s] {
				k.at(b.at, didYouMean(b.s, bands), "there is no band %q", short(b.s))
			}
			rule.Bands = append(rule.Bands, b.s)
		}
		out = append(out, rule)
	}
	return out
}
