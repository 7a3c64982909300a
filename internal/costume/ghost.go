package costume

import (
	"slices"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
)

// around are the parts of the body that the drawing of a piece shows, by the
// part that it moves with: that one with its neighbours.
var around = map[body.Segment][]body.Segment{
	body.Head:     {body.Head, body.Neck, body.Torso, body.UpperArm},
	body.Neck:     {body.Head, body.Neck, body.Torso, body.UpperArm},
	body.Torso:    {body.Head, body.Neck, body.Torso, body.UpperArm, body.Thigh},
	body.UpperArm: {body.Head, body.Neck, body.Torso, body.UpperArm, body.Forearm, body.Hand},
	body.Forearm:  {body.UpperArm, body.Forearm, body.Hand},
	body.Hand:     {body.UpperArm, body.Forearm, body.Hand},
	body.Thigh:    {body.Torso, body.Thigh, body.Shank, body.Foot},
	body.Shank:    {body.Thigh, body.Shank, body.Foot},
	body.Foot:     {body.Thigh, body.Shank, body.Foot},
}

// lower is the part below each joint that a piece may float over.
var lower = map[string]body.Segment{
	"neck": body.Head, "shoulder": body.UpperArm, "elbow": body.Forearm, "wrist": body.Hand,
	"hip": body.Thigh, "knee": body.Shank, "ankle": body.Foot,
}

// movesWith is the part of the body that a piece moves with, of a floating one the
// part below its joint; "" of what is carried.
func movesWith(p *pattern.Piece) body.Segment {
	if p.Segment == "" {
		return lower[p.Joint]
	}
	return p.Segment
}

// alone tells whether a piece is drawn on one limb, with no trunk beside it.
func alone(seg body.Segment) bool { return seg != "" && !slices.Contains(around[seg], body.Torso) }

// onTrunk tells whether a piece is worn on head, neck or trunk.
func onTrunk(seg body.Segment) bool {
	return seg == body.Head || seg == body.Neck || seg == body.Torso
}

// ghostOf is the skin of the parts round a piece: of limbs the piece's own side.
// On the trunk both limbs are there, as stumps that hide nothing of it.
func ghostOf(p *pattern.Piece, form *body.Form) geom.Mesh {
	var m geom.Mesh
	seg := movesWith(p)
	side := p.Side
	if side == body.Both {
		side = body.Left
	}
	for _, part := range form.Parts() {
		if !slices.Contains(around[seg], part.Segment) {
			continue
		}
		if part.Side != body.Both && part.Side != side && !onTrunk(seg) && part.Segment != body.Thigh {
			continue
		}
		skin := part.Skin()
		if seg == body.Torso && part.Side != body.Both {
			skin = stump(skin)
		}
		m.Append(skin)
	}
	return m
}

// stump is the upper end of a limb, cut level.
func stump(m geom.Mesh) geom.Mesh {
	const share = 0.3 // of its length
	low, high := m.V[0].Y, m.V[0].Y
	for _, v := range m.V {
		low, high = min(low, v.Y), max(high, v.Y)
	}
	cut := high - share*(high-low)
	out := geom.Mesh{V: m.V}
	for _, t := range m.T {
		if max(m.V[t[0]].Y, m.V[t[1]].Y, m.V[t[2]].Y) > cut {
			out.T = append(out.T, t)
		}
	}
	for i := range out.V {
		out.V[i].Y = max(out.V[i].Y, cut)
	}
	return out
}
