package pattern_test

import (
	"context"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// cup is a drawn cup out of a joint, as a knee or elbow has: how far out its rim
// lies, how far its top.
const cup = `ease: 6 mm
frame: {joint: JOINT, axis: out}
rings:
  - {name: rim, at: 40 mm, size: {width: 130 mm, depth: 120 mm}}
  - {name: top, at: 80 mm, size: {width: 70 mm, depth: 60 mm}}
bands:
  - {name: side, from: rim, to: top, seams: {at: [90 deg, -90 deg]}}
cap: {kind: plate}
`

// tube goes round both parts of a limb at a joint, as a hinge's cover does.
const tube = `ease: 5 mm
frame: {joint: JOINT, axis: up}
SPAN
rings:
  - {name: low, at: -40 mm}
  - {name: middle, at: 0}
  - {name: high, at: 40 mm}
bands:
  - {name: lower, from: low, to: middle, seams: {at: [90 deg]}}
  - {name: upper, from: middle, to: high, seams: {at: [90 deg]}}
`

// spans: beside the trunk a piece is open towards it.
var spans = map[string]string{"shoulder": "span: {from: -40 deg, to: 220 deg}", "hip": "span: {from: -20 deg, to: 200 deg}"}

// Pieces at joints on ten bodies and both sides: none comes nearer to either
// part than asked, and a cup stands out the way that it is said to.
func TestMake_atJoints(t *testing.T) {
	out := map[string]r3.Vec{"knee": {Z: 1}, "ankle": {Z: 1}, "elbow": {Z: -1}, "hip": {X: 1}, "wrist": {X: 1}, "shoulder": {X: 1, Y: 1}}
	joints := []string{"knee", "ankle", "elbow", "hip", "wrist", "shoulder"}
	for i := range 10 {
		form := drawBody(t, i)
		for _, joint := range []string{joints[i%6], joints[(i+4)%6]} { // every joint on three bodies or more
			dir := out[joint]
			for _, side := range []body.Side{body.Left, body.Right} {
				for _, yaml := range []string{cup, tube} {
					p := atJoint(t, form, joint, yaml, side)
					if p.Clearance < 0.98*p.Asked || p.Asked < 5 {
						t.Errorf("body %d, %s: %.2f mm clear, %.2f asked", i, joint, p.Clearance, p.Asked)
					}
					if yaml == tube {
						continue
					}
					d := dir
					if side == body.Right {
						d.X = -d.X
					}
					j, _ := form.Joint(joint, side)
					if c := centre(p); r3.Dot(r3.Unit(d), r3.Unit(r3.Sub(c, j.Centre))) < 0.9 {
						t.Errorf("body %d, %s %s: the cup stands at %.0f from the joint at %.0f, not towards %v", i, side, joint, c, j.Centre, d)
					}
				}
			}
		}
	}
}

func atJoint(t *testing.T, form *body.Form, joint, yaml string, side body.Side) *pattern.Piece {
	t.Helper()
	fsys := fstest.MapFS{"test.yaml": {Data: []byte(head + strings.NewReplacer("JOINT", joint, "SPAN", spans[joint]).Replace(yaml))}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: joint, Template: "test", Side: side}}, fsys, form, pattern.Material{K: 0.5})
	if err != nil {
		t.Fatalf("%s: %v", joint, err)
	}
	pattern.CheckPiece(t, &set.Pieces[0])
	return &set.Pieces[0]
}

// centre is the middle of a piece's panels in body axes.
func centre(p *pattern.Piece) r3.Vec {
	var sum r3.Vec
	n := 0.0
	for i := range p.Panels {
		for _, v := range p.Panels[i].Surface.Bent {
			sum = r3.Add(sum, p.Frame.Point(v))
			n++
		}
	}
	return r3.Scale(1/n, sum)
}

// A right piece out of a joint is the left one's mirror image about the middle
// of the body, as the bodies of the survey are their own.
func TestMake_jointsAreMirrored(t *testing.T) {
	form := drawBody(t, 2)
	for _, joint := range []string{"knee", "elbow", "hip", "wrist"} {
		l, r := atJoint(t, form, joint, cup, body.Left), atJoint(t, form, joint, cup, body.Right)
		for i := range l.Panels {
			if a, b := geom.Area(l.Panels[i].Outline), geom.Area(r.Panels[i].Outline); math.Abs(a-b) > 1e-4*a {
				t.Errorf("%s: panel %d has %.4f mm² on the left and %.4f on the right", joint, i+1, a, b)
			}
		}
		c, d := centre(l), centre(r)
		if d.X = -d.X; geom.Dist(c, d) > 1e-3 {
			t.Errorf("%s: the left one stands at %v, the right one's image at %v", joint, c, d)
		}
	}
}

// The stations of both parts are levels, and a station is where its part has it.
func TestMake_stationsAtAJoint(t *testing.T) {
	form := drawBody(t, 1)
	p := atJoint(t, form, "knee", `ease: 5 mm
frame: {joint: knee, axis: up}
rings:
  - {name: low, at: calf}
  - {name: high, at: lower_thigh}
bands:
  - {name: leg, from: low, to: high, seams: {at: [90 deg, -90 deg]}}
`, body.Left)
	for _, at := range []struct {
		seg     body.Segment
		station string
		highest bool
	}{{body.Shank, "calf", false}, {body.Thigh, "lower thigh", true}} {
		part, _ := form.Part(at.seg, body.Left)
		level, _ := part.Station(at.station)
		want := p.Frame.Local(part.Frame.Point(part.Centre(level))).Y
		got := math.Inf(1)
		if at.highest {
			got = math.Inf(-1)
		}
		for i := range p.Panels {
			for _, v := range p.Panels[i].Surface.Bent {
				if at.highest {
					got = max(got, v.Y)
				} else {
					got = min(got, v.Y)
				}
			}
		}
		if math.Abs(got-want) > 0.01 {
			t.Errorf("the rim at the %s lies at %.3f mm, want %.3f", at.station, got, want)
		}
	}
}
