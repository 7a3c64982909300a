package template

import (
	"slices"

	"tasset/body"
)

// jointParts are the parts of the body that meet at a joint: a piece there
// moves with one of them, and formulas know the stations of all.
var jointParts = map[string][]body.Segment{
	"shoulder": {body.Torso, body.UpperArm},
	"elbow":    {body.UpperArm, body.Forearm},
	"wrist":    {body.Forearm, body.Hand},
	"hip":      {body.Torso, body.Thigh},
	"knee":     {body.Thigh, body.Shank},
	"ankle":    {body.Shank, body.Foot},
	"neck":     {body.Torso, body.Neck, body.Head},
}

// parts are those whose stations formulas may name. What an other piece stands
// on is not known here, so over it all are let in.
func (fr *fileFrame) parts() []body.Segment {
	if fr.Over.set() && !fr.Joint.set() && !fr.Segment.set() {
		return segments
	}
	return slices.Concat(fr.around(), fr.passed())
}

// around are the parts that the piece goes round.
func (fr *fileFrame) around() []body.Segment {
	switch {
	case fr.Joint.set():
		return jointParts[fr.Joint.s]
	case fr.Segment.set():
		return []body.Segment{body.Segment(fr.Segment.s)}
	}
	return nil
}

// passed are the other parts that it is kept clear of.
func (fr *fileFrame) passed() []body.Segment {
	var out []body.Segment
	for _, p := range fr.Clear {
		out = append(out, body.Segment(p.s))
	}
	return out
}

// onLimb tells whether the frame's sides are outer and inner, or left and
// right. Over another piece that is not known.
func (fr *fileFrame) onLimb() (limbs, known bool) {
	switch {
	case fr.Joint.set():
		return fr.Joint.s != "neck", true
	case fr.Segment.set():
		return limb(body.Segment(fr.Segment.s)), true
	}
	return false, !fr.Over.set()
}

// where names the frame's place for a sentence.
func (fr *fileFrame) where() string {
	switch {
	case fr.Joint.set():
		return fr.Joint.s
	case fr.Segment.set():
		return fr.Segment.s
	}
	return "frame"
}

func (k *fileCheck) frame(f fileShape) Frame {
	fr := f.Frame
	if fr == nil {
		k.at(f.Pos, "write frame: {segment: forearm}", "the template does not say where the piece stands")
		return Frame{}
	}
	out := Frame{Kind: "segment", Segment: body.Segment(fr.Segment.s), Joint: fr.Joint.s, Over: k.piece(fr.Over, "lie over"),
		Gap: k.mm(fr.Gap), Pair: fr.Pair.on, Clear: fr.passed(), Axis: fr.Axis.s, Line: fr.Pos.line}
	if out.Axis == "" {
		out.Axis = "up"
	}
	kinds := 0
	for _, kind := range []struct {
		name string
		on   bool
	}{{"joint", fr.Joint.set()}, {"over", fr.Over.set()}, {"free", fr.Free.on}} {
		if kind.on {
			out.Kind = kind.name
			kinds++
		}
	}
	if kinds > 1 {
		k.at(fr.Pos, "leave all but one of joint, over and free out", "a frame stands at a joint, over another piece, or free")
	}
	if kinds == 0 && out.Segment == "" {
		k.at(fr.Pos, "write for example segment: forearm", "the frame has no segment")
	}
	if fr.Gap.set() && !fr.Over.set() {
		k.at(fr.Gap.at, "say over which piece", "a frame's gap is the distance from another piece")
	}
	if fr.Pair.on && !fr.Free.on {
		k.at(fr.Pos, "leave pair out", "pair is for what stands free; on limbs and at joints every piece is one of a pair")
	}
	k.moving(fr)
	k.passing(fr)
	k.axis(fr)
	out.Spine = k.steps(fr.Spine)
	return out
}

// moving holds a piece at a joint to the parts that meet there.
func (k *fileCheck) moving(fr *fileFrame) {
	if !fr.Joint.set() || !fr.Segment.set() {
		return
	}
	var parts []string
	for _, p := range jointParts[fr.Joint.s] {
		parts = append(parts, string(p))
	}
	if !slices.Contains(parts, fr.Segment.s) {
		k.at(fr.Segment.at, "write one of "+listed(parts), "what stands at the %s cannot move with the %s", fr.Joint.s, fr.Segment.s)
	}
}

// passing holds the parts that a piece is kept clear of to those that it does not
// go round already.
func (k *fileCheck) passing(fr *fileFrame) {
	if len(fr.Clear) > 0 && (fr.Free.on || fr.Over.set() || len(fr.Spine) > 0) {
		k.at(fr.Clear[0].at, "leave clear out", "clear is for pieces that stand on a segment or at a joint, with a straight axis")
		return
	}
	seen := fr.around()
	if fr.Segment.s == string(body.Head) { // comes with its neck
		seen = append(seen, body.Neck)
	}
	for _, p := range fr.Clear {
		if slices.Contains(seen, body.Segment(p.s)) {
			k.at(p.at, "leave it out here", "the piece is kept clear of the %s already", p.s)
		}
		seen = append(seen, body.Segment(p.s))
	}
}

func (k *fileCheck) axis(fr *fileFrame) {
	switch {
	case fr.Axis.s == "out" && !fr.Joint.set():
		k.at(fr.Axis.at, "write joint: elbow or another beside it, or axis: up", "only at a joint an axis points out")
	case fr.Axis.s == "across" && fr.Joint.set():
		k.at(fr.Axis.at, "write axis: up or axis: out", "at a joint an axis goes up the limb or points out of it")
	case fr.Axis.set() && len(fr.Spine) > 0:
		k.at(fr.Axis.at, "leave one of them out", "the axis is the spine, so it has no direction of its own")
	}
}

func (k *fileCheck) steps(fs []fileStep) []Step {
	var out []Step
	seen := map[string]bool{}
	for _, s := range fs {
		if seen[ident(s.Name.s)] {
			k.at(s.Name.at, "give it another name", "there are two steps called %q", short(s.Name.s))
		}
		seen[ident(s.Name.s)] = true
		out = append(out, Step{Name: s.Name.s, Ident: ident(s.Name.s), X: k.mm(s.X), Y: k.mm(s.Y), Z: k.mm(s.Z), Tilt: k.rad(s.Tilt), Line: s.Pos.line})
	}
	if len(fs) == 1 {
		k.at(fs[0].Pos, "give it two or more", "a spine of one step goes nowhere")
	}
	return out
}

// piece is the name of another template. Whether there is one is seen when the
// costume is built.
func (k *fileCheck) piece(t text, verb string) string {
	switch n := len(t.s) - len(ending); {
	case !t.set():
	case t.s == k.name:
		k.at(t.at, "name another template", "a piece cannot %s itself", verb)
	case n >= 0 && t.s[n:] == ending:
		k.at(t.at, "write "+t.s[:n], "a template is named without %s", ending)
	}
	if t.set() {
		k.others = append(k.others, other{t.s, t.at})
	}
	return t.s
}

// other is where a template names another one.
type other struct {
	name string
	at   place
}

// Known says which of the templates that this one names there are not, each
// with its line.
func (t *Template) Known(names []string) error {
	c := &faults{file: t.File}
	for _, o := range t.others {
		if !contains(names, o.name) {
			c.at(o.at, didYouMean(o.name, names), "there is no template %q", short(o.name))
		}
	}
	return c.err()
}
