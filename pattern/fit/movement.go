package fit

import (
	"maps"
	"slices"

	"tasset/body"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// turn is a joint turning one way, and what wearers do with it.
type turn struct {
	joint  string
	doing  string  // "the knee bends"
	sense  float64 // 1 as body.Joint has it, -1 the other way
	across bool    // about an axis to the wearer's left instead of the joint's own: nodding
	uses   []use
}

// use is what a joint turns for, and how far, degrees.
type use struct {
	what string
	far  float64
}

// turns are the movements that pieces are taken through, the usual first
// (common practice, no source). Each joint turns by itself, the others at rest.
var turns = []turn{
	{joint: "hip", doing: "the thigh is raised", sense: 1, uses: []use{{"walking", 30}, {"sitting", 90}}},
	{joint: "knee", doing: "the knee bends", sense: 1, uses: []use{{"walking", 65}, {"sitting", 95}}},
	{joint: "ankle", doing: "the toes are drawn up", sense: 1, uses: []use{{"walking", 20}}},
	{joint: "ankle", doing: "the toes point down", sense: -1, uses: []use{{"walking", 20}}},
	{joint: "shoulder", doing: "the arm is raised", sense: 1, uses: []use{{"reaching up", 150}}},
	{joint: "elbow", doing: "the elbow bends", sense: 1, uses: []use{{"lifting a hand to the face", 130}}},
	{joint: "wrist", doing: "the hand bends inwards", sense: 1, uses: []use{{"holding something", 40}}},
	{joint: "wrist", doing: "the hand bends outwards", sense: -1, uses: []use{{"holding something", 40}}},
	{joint: "neck", doing: "the head turns left", sense: 1, uses: []use{{"looking round", 60}}},
	{joint: "neck", doing: "the head turns right", sense: -1, uses: []use{{"looking round", 60}}},
	{joint: "neck", doing: "the head bows", sense: 1, across: true, uses: []use{{"looking down", 35}}},
}

// meeting tells whose flesh meets at a joint.
type meeting struct {
	still, moving []body.Segment
	// folds: flesh folds on the plane that halves the angle, so that a segment's
	// flesh counts on its own side of that plane only. This takes off what the
	// bare segments overlap, at rest and bent.
	folds bool
	// noFlesh: the segments lie in each other even at rest, so that pieces are
	// held against pieces only.
	noFlesh bool
}

// The neck itself bends with the head, so that it is not among what stands still.
var meetings = map[string]meeting{
	"hip":      {still: []body.Segment{body.Torso}, moving: []body.Segment{body.Thigh}, folds: true},
	"knee":     {still: []body.Segment{body.Thigh}, moving: []body.Segment{body.Shank}, folds: true},
	"ankle":    {still: []body.Segment{body.Shank}, moving: []body.Segment{body.Foot}},
	"shoulder": {still: []body.Segment{body.Torso, body.Head}, moving: []body.Segment{body.UpperArm}, noFlesh: true},
	"elbow":    {still: []body.Segment{body.UpperArm}, moving: []body.Segment{body.Forearm}, folds: true},
	"wrist":    {still: []body.Segment{body.Forearm}, moving: []body.Segment{body.Hand}, folds: true},
	"neck":     {still: []body.Segment{body.Torso, body.UpperArm}, moving: []body.Segment{body.Head}},
}

// hinge is a joint of one body, turning one way.
type hinge struct {
	turn
	meeting
	side   body.Side
	centre r3.Vec
	axis   r3.Vec // turning by a positive angle about it is the movement
	down   r3.Vec // square to the fold at rest, towards the moving side
	full   float64
	joints []body.Joint // all of the body
}

// hinges are all joints of a body in all the ways that they turn.
func hinges(form *body.Form) []hinge {
	var joints []body.Joint
	for _, name := range slices.Sorted(maps.Keys(meetings)) {
		for _, side := range []body.Side{body.Both, body.Left, body.Right} {
			if j, ok := form.Joint(name, side); ok {
				joints = append(joints, j)
			}
		}
	}
	var out []hinge
	for _, t := range turns {
		for _, j := range joints {
			if j.Name != t.joint {
				continue
			}
			h := hinge{turn: t, meeting: meetings[t.joint], side: j.Side, centre: j.Centre, axis: j.Axis,
				full: units.Rad(t.uses[len(t.uses)-1].far), joints: joints}
			if t.across {
				h.axis = r3.Vec{X: 1}
			}
			h.axis = r3.Scale(t.sense, h.axis)
			if h.folds {
				h.down = h.fold(form)
			}
			out = append(out, h)
		}
	}
	return out
}

// fold is square to the plane that halves the angle of the straight joint.
func (h *hinge) fold(form *body.Form) r3.Vec {
	var up r3.Vec
	for _, seg := range []body.Segment{h.still[0], h.moving[0]} {
		side := h.side
		if seg == body.Torso {
			side = body.Both
		}
		if p, ok := form.Part(seg, side); ok {
			up = r3.Add(up, p.Frame.Y)
		}
	}
	return r3.Scale(-1, r3.Unit(up))
}

// turned moves a point with the moving side by an angle; by a negative one it
// is seen from there.
func (h *hinge) turned(p r3.Vec, angle float64) r3.Vec {
	return r3.Add(h.centre, r3.NewRotation(angle, h.axis).Rotate(r3.Sub(p, h.centre)))
}
