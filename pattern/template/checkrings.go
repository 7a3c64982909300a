package template

func (k *fileCheck) rings(f fileShape) []Ring {
	var out []Ring
	seen := map[string]bool{}
	for _, r := range f.Rings {
		if seen[r.Name.s] {
			k.at(r.Name.at, "give it another name", "there are two rings called %q", short(r.Name.s))
		}
		if r.Name.s == "cap" || r.Name.s == "gap" {
			k.at(r.Name.at, "choose another", "the name %q is kept for another place of the shell", r.Name.s)
		}
		seen[r.Name.s] = true
		out = append(out, k.ring(r, f.Frame))
		if first := f.Rings[0]; r.corners() != first.corners() || len(r.Creases) != len(first.Creases) {
			k.at(r.Pos, "give all rings the same; a crease may have rise: 0", "ring %q has %d corners and %d creases, the first ring has %d and %d",
				short(r.Name.s), r.corners(), len(r.Creases), first.corners(), len(first.Creases))
		}
	}
	if len(out) == 0 && len(k.f.Flats) == 0 {
		k.at(f.Pos, "give it at least two rings", "the template has no rings")
	}
	return out
}

// corners are how many a ring has: each of its points is one.
func (r fileRing) corners() int { return max(len(r.Points), len(r.Corners)) }

func (k *fileCheck) ring(r fileRing, fr *fileFrame) Ring {
	out := Ring{Name: r.Name.s, At: k.mm(r.At), Section: k.mm(r.Section), Ease: k.directions(r.Ease), Points: k.points(r.Points),
		Size: k.size(r.Size), When: k.condition(r.When), Line: r.Pos.line}
	for _, c := range r.Creases {
		out.Creases = append(out.Creases, Crease{k.rad(c.At), k.mm(c.Rise)})
	}
	for _, c := range r.Corners {
		out.Corners = append(out.Corners, k.rad(c))
	}
	if n := len(r.Corners); n == 1 || n == 2 {
		k.at(r.Corners[0].at, "give three or more, or none", "a ring with %d corners goes round nothing", n)
	}
	if r.corners() > 0 && len(r.Creases) > 0 {
		k.at(r.Pos, "leave one of them out", "a ring has corners or creases, not both")
	}
	k.drawnRing(r, fr)
	return out
}

// drawnRing checks what a ring has that is drawn instead of taken from the
// body.
func (k *fileCheck) drawnRing(r fileRing, fr *fileFrame) {
	drawn := len(r.Points) > 0 || r.Size != nil
	switch n := len(r.Points); {
	case n > 0 && r.Size != nil:
		k.at(r.Pos, "leave one of them out", "a ring has points or a size, not both")
	case n == 1 || n == 2:
		k.at(r.Pos, "give it three or more", "a ring of %d points goes round nothing", n)
	case n > 0 && len(r.Corners) > 0 && n != len(r.Corners):
		k.at(r.Corners[0].at, "give one angle for each point, or leave corners out", "ring %q has %d points and %d corners", short(r.Name.s), n, len(r.Corners))
	case drawn && r.Section.set():
		k.at(r.Section.at, "leave it out", "a drawn ring takes no section of the body")
	}
	if drawn || fr == nil {
		return
	}
	const draw = "write size: {width: 60 mm, depth: 40 mm}, or points"
	switch {
	case fr.Free.on:
		k.at(r.Pos, draw, "ring %q has no outline: on a free frame there is no body to take it from", short(r.Name.s))
	case len(fr.Spine) > 0:
		k.at(r.Pos, draw, "ring %q has no outline: along a spine every ring is drawn", short(r.Name.s))
	}
}

func (k *fileCheck) size(f *fileSize) *Size {
	if f == nil {
		return nil
	}
	return &Size{Width: k.mm(f.Width), Depth: k.mm(f.Depth), X: k.mm(f.X), Z: k.mm(f.Z), Full: k.number(f.Full)}
}

func (k *fileCheck) points(ps []filePoint) []Point {
	var out []Point
	for _, p := range ps {
		out = append(out, Point{k.mm(p.X), k.mm(p.Y), p.Corner})
	}
	return out
}
