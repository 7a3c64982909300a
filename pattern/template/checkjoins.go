package template

import "slices"

// joins compiles which flat parts meet edge to edge. Whether their edges do lie on
// each other is known when a body is.
func (k *fileCheck) joins() []Join {
	var out []Join
	taken := map[[2]string]bool{}
	for _, f := range k.f.Joins {
		k.standing(f.Part, "joined")
		if len(f.To) == 0 {
			k.at(f.Pos, "write to: and the names of other flats in [ ]", "the join does not say what %q meets", short(f.Part.s))
		}
		j := Join{Part: f.Part.s, Cloth: f.By.s == "cloth", Line: f.Pos.line}
		for _, to := range f.To {
			pair := [2]string{min(f.Part.s, to.s), max(f.Part.s, to.s)}
			switch {
			case !k.standing(to, "joined"):
			case to.s == f.Part.s:
				k.at(to.at, "name another of its flats", "the flat part %q is joined to itself", short(to.s))
			case taken[pair]:
				k.at(to.at, "leave one of the two joins out", "%q and %q are joined twice", short(f.Part.s), short(to.s))
			}
			taken[pair] = true
			j.To = append(j.To, to.s)
		}
		out = append(out, j)
	}
	return out
}

// standing holds a name to the flats that have a place in space, and tells whether
// it is one of them.
func (k *fileCheck) standing(name text, what string) bool {
	stands := slices.ContainsFunc(k.f.Flats, func(f fileFlat) bool { return f.Name.s == name.s && f.Facing.set() })
	if k.flatNamed(name, what) && !stands {
		k.at(name.at, "write facing, and x, y and z, at that flat part", "the flat part %q cannot be %s: nothing says where it stands", short(name.s), what)
	}
	return stands
}

// flatNamed holds a name to the flats, and tells whether it is one of them.
func (k *fileCheck) flatNamed(name text, what string) bool {
	var names []string
	for _, f := range k.f.Flats {
		names = append(names, f.Name.s)
	}
	found := contains(names, name.s)
	switch {
	case len(names) == 0:
		k.at(name.at, "write flats: and give it an outline", "there is no flat part %q to be %s: the template has no flats", short(name.s), what)
	case !found:
		k.at(name.at, didYouMean(name.s, names), "there is no flat part %q to be %s", short(name.s), what)
	}
	return found
}

// onFlat checks a fastening between two flat parts.
func (k *fileCheck) onFlat(f fileFastening) {
	if !f.On.set() {
		if f.X.set() || f.Y.set() {
			k.at(f.Pos, "write on: and the name of a flat part, or give angle and level instead", "x and y are a place on a flat part, and the %s does not say on which", f.Kind.s)
		}
		return
	}
	k.standing(f.On, "fastened")
	switch {
	case f.Kind.s != "hook-and-loop" && f.Kind.s != "snap" && f.Kind.s != "magnet pair":
		k.at(f.Kind.at, "use hook-and-loop, a snap or a magnet pair", "a %s does not hold one flat part on another", f.Kind.s)
	case !f.Part.set():
		k.at(f.Pos, "write part: and the flat part that lies over that place", "the %s does not say which flat part its other part is on", f.Kind.s)
	case !(f.X.set() && f.Y.set()):
		k.at(f.Pos, "write x and y, as in that flat part's points", "the %s does not say where on %q it is", f.Kind.s, short(f.On.s))
	case f.Where.set() || f.Angle.set() || f.Level.set() || len(f.Levels) > 0 || f.Count.set() || f.To.set() || f.ToAngle.set() || f.ToLevel.set() || f.ByAngle.set() || f.ByLevel.set() || f.Girth.set() || f.Mirror.on || f.Face.set():
		k.at(f.Pos, "leave the other keys of places out", "a fastening on a flat part has its place by on, x and y, and its other part by part")
	}
}
