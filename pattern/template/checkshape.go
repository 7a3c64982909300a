package template

import "tasset/body"

// shapes compiles the one shape of a template, or that of each layout.
func (k *fileCheck) shapes(t *Template) {
	k.places = map[string]bool{"gap": true}
	if len(k.f.Layouts) == 0 {
		k.f.fileShape.Pos = k.f.Title.at
		t.Shape = k.shape(k.f.fileShape)
		return
	}
	if s := k.f.fileShape; s.Frame != nil || s.Span != nil || s.Rings != nil || s.Bands != nil || s.Cap != nil || s.Base != nil || s.Gap != nil || s.Folds != nil {
		k.at(s.Pos, "move frame, span, rings, bands, cap, base, gap and folds into the layouts", "the template has layouts and a shape beside them")
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
	s.Cap, s.Base, s.Gap = k.cap(f.Cap), k.cap(f.Base), k.gap(f.Gap)
	s.Bands = k.bands(f, s)
	if f.Base != nil && f.Base.Kind.s == "point" {
		k.at(f.Base.Kind.at, "turn the order of the rings round, or close it with a plate", "a base cannot be a point")
	}
	s.Folds = k.folds(f)
	return s
}

func (k *fileCheck) frame(f fileShape) Frame {
	fr := f.Frame
	if fr == nil {
		k.at(f.Pos, "write frame: {segment: forearm}", "the template does not say where the piece stands")
		return Frame{}
	}
	out := Frame{Segment: body.Segment(fr.Segment.s), Axis: fr.Axis.s, Kind: "segment"}
	if out.Axis == "" {
		out.Axis = "up"
	}
	for _, kind := range []struct {
		name string
		on   bool
	}{{"joint", fr.Joint.set()}, {"over", fr.Over.set()}, {"free", fr.Free.on}, {"spine", len(fr.Spine) > 0}} {
		if kind.on {
			out.Kind = kind.name
			k.notBuilt("frame."+kind.name, fr.Pos)
		}
	}
	if fr.Gap.set() && !fr.Over.set() {
		k.at(fr.Gap.at, "say over which piece", "a frame's gap is the distance from another piece")
	}
	k.mm(fr.Gap)
	for _, s := range fr.Spine {
		k.mm(s.X)
		k.mm(s.Y)
		k.mm(s.Z)
		k.rad(s.Tilt)
	}
	if out.Segment == "" && out.Kind == "segment" {
		k.at(fr.Pos, "write for example segment: forearm", "the frame has no segment")
	}
	return out
}

func (k *fileCheck) rings(f fileShape) []Ring {
	var out []Ring
	seen := map[string]bool{}
	for _, r := range f.Rings {
		if seen[r.Name.s] {
			k.at(r.Name.at, "give it another name", "there are two rings called %q", short(r.Name.s))
		}
		if r.Name.s == "cap" {
			k.at(r.Name.at, "choose another", "the name \"cap\" is kept for the end of the shell")
		}
		seen[r.Name.s], k.places[r.Name.s] = true, true
		out = append(out, k.ring(r, f.Frame))
		if first := f.Rings[0]; len(r.Corners) != len(first.Corners) || len(r.Creases) != len(first.Creases) {
			k.at(r.Pos, "give all rings the same; a crease may have rise: 0", "ring %q has %d corners and %d creases, the first ring has %d and %d",
				short(r.Name.s), len(r.Corners), len(r.Creases), len(first.Corners), len(first.Creases))
		}
	}
	if len(out) == 0 && len(k.f.Flats) == 0 {
		k.at(f.Pos, "give it at least two rings", "the template has no rings")
	}
	return out
}

func (k *fileCheck) ring(r fileRing, fr *fileFrame) Ring {
	out := Ring{Name: r.Name.s, At: k.mm(r.At), Section: k.mm(r.Section), Ease: k.directions(r.Ease), When: k.condition(r.When), Line: r.Pos.line}
	for _, c := range r.Creases {
		out.Creases = append(out.Creases, Crease{k.rad(c.At), k.mm(c.Rise)})
	}
	for _, c := range r.Corners {
		out.Corners = append(out.Corners, k.rad(c))
	}
	if n := len(r.Corners); n == 1 || n == 2 {
		k.at(r.Corners[0].at, "give three or more, or none", "a ring with %d corners goes round nothing", n)
	}
	if len(r.Corners) > 0 && len(r.Creases) > 0 {
		k.at(r.Pos, "leave one of them out", "a ring has corners or creases, not both")
	}
	out.Points = k.points(r.Points)
	if len(r.Points) > 0 {
		k.notBuilt("rings.points", r.Pos)
		if fr != nil && !fr.Free.on && !fr.Over.set() && len(fr.Spine) == 0 && !fr.Joint.set() {
			k.at(r.Pos, "write free: true in the frame, or leave the points out", "a ring on a segment takes the body's own section")
		}
	}
	return out
}

func (k *fileCheck) points(ps []filePoint) []Point {
	var out []Point
	for _, p := range ps {
		out = append(out, Point{k.mm(p.X), k.mm(p.Y), p.Corner})
	}
	return out
}

func (k *fileCheck) bands(f fileShape, s Shape) []Band {
	order := map[string]int{}
	var names []string
	for i, r := range f.Rings {
		order[r.Name.s] = i
		names = append(names, r.Name.s)
	}
	var out []Band
	for _, b := range f.Bands {
		out = append(out, k.band(b, s, order, names))
	}
	if len(out) == 0 && len(names) > 0 && k.f.Lames == nil {
		k.at(f.Pos, "give it a band from ring to ring", "the template has rings and no bands")
	}
	return out
}

func (k *fileCheck) band(b fileBand, s Shape, order map[string]int, names []string) Band {
	out := Band{Name: b.Name.s, From: b.From.s, To: b.To.s, Bend: b.Bend.s, When: k.condition(b.When), Line: b.Pos.line, Seams: k.seams(b.Seams)}
	if out.Bend == "" {
		out.Bend = "around"
	}
	toCap := b.To.s == "cap"
	if toCap && len(names) > 0 {
		out.To = names[len(names)-1]
		if s.Cap == nil || s.Cap.Kind != "point" || out.Bend != "along" {
			k.at(b.To.at, "write cap: {kind: point} and bend: along, or name a ring", "only gores that meet in a point go to the cap")
		}
	}
	from, okFrom := k.ringNamed(b.From, order, names)
	to, okTo := order[out.To], true
	if !toCap {
		to, okTo = k.ringNamed(b.To, order, names)
	}
	if okFrom && okTo && (to < from || to == from && !toCap) {
		k.at(b.To.at, "bands go up along the axis", "ring %q does not lie above ring %q", short(out.To), short(out.From))
	}
	if out.Bend == "along" && b.Seams == nil {
		k.at(b.Pos, "write for example seams: {count: 8}", "a band that bends along the axis needs seams")
	}
	return out
}

func (k *fileCheck) ringNamed(t text, order map[string]int, names []string) (int, bool) {
	i, ok := order[t.s]
	if !ok && t.set() {
		k.at(t.at, didYouMean(t.s, names), "there is no ring %q", short(t.s))
	}
	return i, ok
}

func (k *fileCheck) seams(f *fileSeams) Seams {
	if f == nil {
		return Seams{}
	}
	out := Seams{Count: k.number(f.Count), Start: k.rad(f.Start)}
	for _, a := range f.At {
		out.At = append(out.At, k.rad(a))
	}
	for _, p := range f.Panels {
		out.Names = append(out.Names, p.s)
	}
	if len(f.At) > 0 && f.Count.set() {
		k.at(f.Pos, "leave one of them out", "seams stand at angles or are counted, not both")
	}
	if f.Start.set() && !f.Count.set() {
		k.at(f.Start.at, "add count, or list the angles under at", "start says where counted seams begin")
	}
	return out
}

func (k *fileCheck) cap(f *fileCap) *Cap {
	if f == nil {
		return nil
	}
	switch f.Kind.s {
	case "ridge", "dome":
		k.notBuilt("cap."+f.Kind.s, f.Pos)
	case "plate":
		if f.At.set() {
			k.at(f.At.at, "leave it out", "a plate lies in its ring and has no level of its own")
		}
	}
	return &Cap{Kind: f.Kind.s, Name: f.Name.s, At: k.mm(f.At), When: k.condition(f.When), Line: f.Pos.line}
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
