package template

import (
	"maps"
	"slices"
)

// openings compiles what is cut out of the shell.
func (k *fileCheck) openings() []Opening {
	var out []Opening
	for _, f := range k.f.Openings {
		o := Opening{
			Name: f.Name.s, View: f.View.s, Smooth: f.Smooth.on, Mirror: f.Mirror.on,
			Around: k.number(f.Around), Start: k.number(f.Start), When: k.condition(f.When), Line: f.Pos.line,
		}
		k.turning(f, func() { o.Points, o.Round = k.points(f.Points), k.round(f.Round) })
		switch n := len(f.Points); {
		case n > 0 && f.Round != nil:
			k.at(f.Pos, "leave one of them out", "an opening has points or is round, not both")
		case n == 0 && f.Round == nil:
			k.at(f.Pos, "write points: or round:", "the opening %q has no shape", short(f.Name.s))
		case n == 1 || n == 2:
			k.at(f.Pos, "give it three or more", "a closed curve of %d points goes round nothing", n)
		}
		k.checkSide(f.View)
		out = append(out, o)
	}
	return out
}

// turning reads an opening's shape: one that is cut all round knows its angle,
// and how far from the next it is.
func (k *fileCheck) turning(f fileOpening, read func()) {
	if !f.Around.set() {
		if f.Start.set() {
			k.at(f.Start.at, "write around: and how often", "start is the place of the first opening of several, and this is cut once")
		}
		read()
		return
	}
	k.roundable(f)
	for name, d := range map[string]dim{Turn: angle, Spacing: length} {
		if by := k.takenBy(name); by != "" {
			k.at(f.Around.at, "give that another name", "%s belongs to openings that are cut all round, and the name is taken by %s", name, by)
			return
		}
		k.scope.dims[name] = d
		defer delete(k.scope.dims, name)
	}
	read()
}

// roundable holds openings that are cut all round to upright shells.
func (k *fileCheck) roundable(f fileOpening) {
	if f.View.s != "front" {
		k.at(f.View.at, "write view: front", "what is cut all round is seen from the front of each place, and the view is %q", f.View.s)
	}
	if f.Mirror.on {
		k.at(f.Around.at, "leave mirror out", "what is cut all round has its mirror image already")
	}
	for _, fr := range k.frames() {
		if fr.Axis.s == "across" {
			k.at(f.Around.at, "write one opening for each, or give the frame an upright axis", "openings are cut all round upright rings only")
		}
	}
}

// checkSide holds outer and inner to limbs, left and right to the rest.
func (k *fileCheck) checkSide(way text) {
	for _, fr := range k.frames() {
		limbs, known := fr.onLimb()
		switch v := way.s; {
		case !known:
			continue
		case limbs && (v == "left" || v == "right"):
			k.at(way.at, "write outer or inner", "a limb has an outer and an inner side, and no %s one", v)
		case !limbs && (v == "outer" || v == "inner"):
			k.at(way.at, "write left or right", "outer and inner are sides of limbs, and the %s is none", fr.where())
		default:
			continue
		}
		return
	}
}

func (k *fileCheck) round(f *fileRound) *Round {
	if f == nil {
		return nil
	}
	return &Round{
		X: k.mm(f.X), Y: k.mm(f.Y), Radius: k.mm(f.Radius),
		Count: k.number(f.Count), Rows: k.number(f.Rows), StepX: k.mm(f.StepX), StepY: k.mm(f.StepY),
	}
}

func (k *fileCheck) fastenings() []Fastening {
	var out []Fastening
	for _, f := range k.f.Fastenings {
		x := Fastening{
			Kind: f.Kind.s, Name: f.Name.s, AtGap: f.Where.s == "gap", Angle: k.rad(f.Angle), Level: k.mm(f.Level),
			Count: k.number(f.Count), Width: k.mm(f.Width), Length: k.mm(f.Length), Diameter: k.mm(f.Diameter),
			To: k.piece(f.To, "be fastened to"), ToAngle: k.rad(f.ToAngle), ToLevel: k.otherLevel(f.ToLevel), Girth: k.mm(f.Girth),
			Part: f.Part.s, On: f.On.s, X: k.mm(f.X), Y: k.mm(f.Y), Face: f.Face.s, ByAngle: k.rad(f.ByAngle), ByLevel: k.mm(f.ByLevel),
			Mirror: f.Mirror.on, When: k.condition(f.When), Line: f.Pos.line,
		}
		for _, l := range f.Levels {
			x.Levels = append(x.Levels, k.mm(l))
		}
		if k.onFlat(f); !f.On.set() {
			k.placed(f, x)
		}
		k.otherPart(f, x)
		out = append(out, x)
	}
	return out
}

// otherPart checks what a fastening says of its other part and of its way.
func (k *fileCheck) otherPart(f fileFastening, x Fastening) {
	known := func(p fileFlat) bool { return p.Name.s == x.Part && p.Facing.set() }
	switch {
	case f.Part.set() && (x.AtGap || f.To.set() || f.ToAngle.set()):
		k.at(f.Part.at, "leave part out, or to and where: gap", "the other part of the %s would be at two places", x.Kind)
	case f.Part.set() && !slices.ContainsFunc(k.f.Flats, known):
		k.at(f.Part.at, "write the name of one of its flats that has facing", "the piece has no flat part %q that stands on it", x.Part)
	}
	strap := x.Kind == "strap and buckle" || x.Kind == "strap with hook-and-loop" || x.Kind == "elastic"
	switch {
	case f.ByAngle.set() != f.ByLevel.set():
		k.at(f.Pos, "write by-angle and by-level", "the %s does not say by way of which place it goes", x.Kind)
	case f.ByAngle.set() && (!strap || x.AtGap || f.To.set() || f.Girth.set()):
		k.at(f.Pos, "leave by-angle and by-level out", "only a strap from one place of the piece to another goes by way of a place on the body")
	}
}

// placed checks that a fastening stands somewhere.
func (k *fileCheck) placed(f fileFastening, x Fastening) {
	switch {
	case x.AtGap && !k.hasGap():
		k.at(f.Where.at, "add a gap, or give angle and level", "the piece has no gap to fasten")
	case !x.AtGap && !(f.Angle.set() && f.Level.set()):
		k.at(f.Pos, "write where: gap, or angle and level", "the %s does not say where it stands", f.Kind.s)
	case !x.AtGap && (len(f.Levels) > 0 || f.Count.set()):
		k.at(f.Pos, "write where: gap, or one entry for each", "levels and count are for fastenings at a gap")
	case len(f.Levels) > 0 && f.Count.set():
		k.at(f.Pos, "leave one of them out", "a fastening has levels or a count, not both")
	}
	there := f.ToAngle.set() && f.ToLevel.set()
	switch {
	case x.AtGap && (f.To.set() || f.ToAngle.set() || f.ToLevel.set()):
		k.at(f.Where.at, "give angle and level, or leave to out", "a fastening at the gap holds its two edges together")
	case f.To.set() && !there, f.ToAngle.set() != f.ToLevel.set():
		k.at(f.Pos, "write to-angle and to-level", "the %s does not say where its other part stands", f.Kind.s)
	case f.Girth.set() && (f.To.set() || !there):
		k.at(f.Girth.at, "write to-angle and to-level, and leave to out", "girth is of what a strap goes round that has both ends on this piece")
	}
}

// otherLevel compiles a level in the frame of another piece. What that one
// stands on is not known here, so its stations are those of all parts.
func (k *fileCheck) otherLevel(t lengthF) Formula {
	wide := k.compiler
	wide.scope = scope{dims: maps.Clone(k.scope.dims), choices: k.scope.choices}
	for _, s := range segments {
		for _, station := range stations[s] {
			wide.scope.dims[station] = length
		}
	}
	return wide.mm(t)
}

func (k *fileCheck) hasGap() bool {
	if k.f.Gap != nil {
		return true
	}
	for _, l := range k.f.Layouts {
		if l.is.Gap != nil {
			return true
		}
	}
	return false
}
