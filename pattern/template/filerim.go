package template

import "github.com/goccy/go-yaml/ast"

// fileRim is a curve round the piece along which an end of it is cut off.
type fileRim struct {
	Name   text          `yaml:"name" jsonschema:"required"`
	Side   text          `yaml:"side" jsonschema:"required,enum=lower,enum=upper" jsonschema_description:"lower: what lies below the curve is cut off; upper: what lies above it."`
	Points []fileBearing `yaml:"points" jsonschema:"required" jsonschema_description:"[angle, level] of its places, by growing angles; from the last it runs on round to the first."`
	Smooth yesNo         `yaml:"smooth" jsonschema_description:"The level runs smoothly, else evenly from point to point."`
	Mirror yesNo         `yaml:"mirror" jsonschema_description:"The points lie at angles from 0 to 180 deg, and their mirror images are meant too."`
	When   whenF         `yaml:"when" jsonschema_description:"It is cut only if this holds."`
	Pos    place         `yaml:"-" json:"-"`
}

// fileBearing is written [angle, level].
type fileBearing struct {
	Angle angleF
	Level lengthF
}

func (b *fileBearing) decode(d decoder, n ast.Node, key string) {
	s, ok := n.(*ast.SequenceNode)
	if !ok || len(s.Values) != 2 {
		d.at(nodePlace(n), "quote a formula that has a comma in it", "%s should be [angle, level]", key)
		return
	}
	b.Angle.decode(d, s.Values[0], "angle")
	b.Level.decode(d, s.Values[1], "level")
}

// rims compiles the curves along which the piece's ends are cut off.
func (k *fileCheck) rims() []Rim {
	var out []Rim
	for _, f := range k.f.Rims {
		r := Rim{Name: f.Name.s, Side: f.Side.s, Smooth: f.Smooth.on, Mirror: f.Mirror.on, When: k.condition(f.When), Line: f.Pos.line}
		for _, p := range f.Points {
			r.Points = append(r.Points, Bearing{k.rad(p.Angle), k.mm(p.Level)})
		}
		if len(r.Points) < 2 {
			k.at(f.Pos, "give it two or more [angle, level]", "the rim %q has %d points", short(f.Name.s), len(r.Points))
		}
		for _, fr := range k.frames() {
			if fr.Axis.s == "across" || fr.Spine != nil {
				k.at(f.Pos, "cut it with an opening, or give the frame an upright axis", "rims are drawn round upright rings only")
			}
		}
		out = append(out, r)
	}
	return out
}
