package template

// laterParts checks the parts of the language that are not built yet.
func (k *fileCheck) laterParts() {
	k.lames(k.f.Lames)
	if r := k.f.Repeat; r != nil {
		k.notBuilt("repeat", r.Pos)
		for _, c := range r.For {
			k.mm(c.is.Length)
			k.mm(c.is.Girth)
		}
	}
	for _, f := range k.f.Flats {
		k.notBuilt("flats", f.Pos)
		if len(f.Points) < 3 {
			k.at(f.Pos, "give it three or more points", "the flat part %q has no outline", short(f.Name.s))
		}
		k.points(f.Points)
		k.number(f.Count)
		k.mm(f.Thick)
		k.condition(f.When)
	}
	for _, l := range k.f.Layers {
		k.notBuilt("layers", l.Pos)
		if !k.places[l.Along.s] {
			k.at(l.Along.at, didYouMean(l.Along.s, k.placeNames()), "there is no ring or opening %q to run along", short(l.Along.s))
		}
		k.mm(l.Width)
		k.mm(l.Thick)
		k.condition(l.When)
	}
	for _, p := range k.f.Pads {
		k.notBuilt("pads", p.Pos)
		k.rad(p.Angle)
		for _, l := range []lengthF{p.Level, p.Width, p.Height, p.Thick} {
			k.mm(l)
		}
		k.condition(p.When)
	}
}

func (k *fileCheck) lames(f *fileLames) {
	if f == nil {
		return
	}
	k.notBuilt("lames", f.Pos)
	order := map[string]int{}
	var names []string
	for i, r := range k.f.Rings {
		order[r.Name.s] = i
		names = append(names, r.Name.s)
	}
	from, ok1 := k.ringNamed(f.From, order, names)
	to, ok2 := k.ringNamed(f.To, order, names)
	if ok1 && ok2 && to <= from {
		k.at(f.To.at, "lames go up along the axis", "ring %q does not lie above ring %q", short(f.To.s), short(f.From.s))
	}
	k.number(f.Count)
	k.mm(f.Overlap)
	k.rad(f.Through)
}

func (k *fileCheck) placeNames() []string {
	names := []string{"gap"}
	for _, s := range k.shapesOfFile() {
		for _, r := range s.Rings {
			names = append(names, r.Name.s)
		}
	}
	for _, o := range k.f.Openings {
		names = append(names, o.Name.s)
	}
	return names
}

func (k *fileCheck) shapesOfFile() []fileShape {
	out := []fileShape{k.f.fileShape}
	for _, l := range k.f.Layouts {
		out = append(out, l.is)
	}
	return out
}
