package template

// flats compiles the parts that stay flat.
func (k *fileCheck) flats() []Flat {
	var out []Flat
	first := map[string]place{}
	for _, f := range k.f.Flats {
		if at, twice := first[f.Name.s]; twice && !f.When.set() { // of two with conditions, one is made
			k.at(f.Name.at, "give one of them another name", "there are two flat parts %q, the first in line %d", short(f.Name.s), at.line)
		} else if !twice {
			first[f.Name.s] = f.Name.at
		}
		if len(f.Points) < 3 {
			k.at(f.Pos, "give it three or more points", "the flat part %q has no outline", short(f.Name.s))
		}
		k.checkSide(f.Facing)
		out = append(out, Flat{Name: f.Name.s, Points: k.points(f.Points), Smooth: f.Smooth.on, Follow: k.follow(f.Follow), Count: k.number(f.Count),
			Thickness: k.mm(f.Thick), Facing: facing(f.Facing.s), X: k.mm(f.X), Y: k.mm(f.Y), Z: k.mm(f.Z), When: k.condition(f.When), Line: f.Pos.line})
	}
	return out
}

// facing writes outer and inner as the side of a left limb that they are.
func facing(way string) string {
	switch way {
	case "outer":
		return "left"
	case "inner":
		return "right"
	}
	return way
}

func (k *fileCheck) follow(f *fileFollow) *Follow {
	if f == nil {
		return nil
	}
	return &Follow{Piece: k.piece(f.Piece, "follow"), Gap: k.mm(f.Gap), Line: f.Pos.line}
}

// layers compiles raised strips.
func (k *fileCheck) layers() []Layer {
	edges, inside := k.edges()
	var out []Layer
	taken := map[string]bool{}
	for _, l := range k.f.Layers {
		if id := l.Name.s + " along " + l.Along.s; taken[id] && !l.When.set() {
			k.at(l.Pos, "leave one of them out", "there are two layers %q along %q", short(l.Name.s), short(l.Along.s))
		} else {
			taken[id] = true
		}
		switch {
		case contains(edges, l.Along.s):
		case contains(inside, l.Along.s):
			k.at(l.Along.at, "name a rim, an opening, or gap", "ring %q lies inside the shell and is no edge", short(l.Along.s))
		default:
			k.at(l.Along.at, didYouMean(l.Along.s, edges), "there is no ring at a rim and no opening %q to run along", short(l.Along.s))
		}
		out = append(out, Layer{Name: l.Name.s, Along: l.Along.s, Width: k.mm(l.Width), Thickness: k.mm(l.Thick), Inset: k.mm(l.Inset),
			When: k.condition(l.When), Line: l.Pos.line})
	}
	return out
}

// edges are the places that a strip can run along, and the rings that it
// cannot: those that have the shell on both sides in every layout.
func (k *fileCheck) edges() (edges, inside []string) {
	if k.hasGap() {
		edges = append(edges, "gap")
	}
	for _, s := range k.shapesOfFile() {
		for _, r := range s.Rings {
			if s.covers(r.Name.s) {
				inside = append(inside, r.Name.s)
			} else {
				edges = append(edges, r.Name.s)
			}
		}
	}
	for _, o := range k.f.Openings {
		edges = append(edges, o.Name.s)
	}
	for _, r := range k.f.Rims {
		edges = append(edges, r.Name.s)
	}
	return edges, inside
}

// covers tells whether the shell always goes on at both sides of a ring.
func (f fileShape) covers(ring string) bool {
	order := orderOf(f).at
	below, above := false, false
	run := func(from, to text, when whenF) {
		first, last, i := order[from.s], order[to.s], order[ring]
		if !when.set() && first <= i && (i <= last || to.s == "cap") {
			below, above = below || first < i, above || i < last || to.s == "cap"
		}
	}
	for _, b := range f.Bands {
		run(b.From, b.To, b.When)
	}
	if f.Lames != nil {
		run(f.Lames.From, f.Lames.To, f.Lames.When)
	}
	return below && above
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func (k *fileCheck) shapesOfFile() []fileShape {
	if len(k.f.Layouts) == 0 {
		return []fileShape{k.f.fileShape}
	}
	var out []fileShape
	for _, l := range k.f.Layouts {
		out = append(out, l.is)
	}
	return out
}

// pads compiles the blocks on the inner face.
func (k *fileCheck) pads() []Pad {
	var out []Pad
	for _, p := range k.f.Pads {
		out = append(out, Pad{Name: p.Name.s, Angle: k.rad(p.Angle), Level: k.mm(p.Level), Width: k.mm(p.Width), Height: k.mm(p.Height),
			Thickness: k.mm(p.Thick), Mirror: p.Mirror.on, When: k.condition(p.When), Line: p.Pos.line})
	}
	return out
}

// repeat compiles the copies, and then makes their names known to formulas.
func (k *fileCheck) repeat() *Repeat {
	f := k.f.Repeat
	if f == nil {
		return nil
	}
	out := &Repeat{As: f.As.s}
	for _, c := range f.For {
		out.Copies = append(out.Copies, Copy{Name: c.name.s, Length: k.mm(c.is.Length), Girth: k.mm(c.is.Girth),
			X: k.mm(c.is.X), Y: k.mm(c.is.Y), Z: k.mm(c.is.Z), Line: c.name.at.line})
	}
	if len(out.Copies) == 0 {
		k.at(f.Pos, "write an entry for each copy", "repeat has nothing to repeat for")
	}
	for _, part := range []string{"_length", "_girth"} {
		k.add(text{f.As.s + part, f.As.at}, "size of a copy", length)
	}
	return out
}

// after names the pieces that are put on first.
func (k *fileCheck) after() []string {
	var out []string
	for _, a := range k.f.After {
		if contains(out, a.s) {
			k.at(a.at, "keep one of them", "after names %s twice", short(a.s))
		}
		out = append(out, k.piece(a, "come after"))
	}
	return out
}
