package body_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/geom"
)

// someone builds the form of the survey's mean man from his height and weight.
func someone(t testing.TB, worn []body.Layer, more ...body.Entry) *body.Form {
	t.Helper()
	m, _, err := body.Estimate(body.LoadSurvey(), man(more...), nil)
	if err != nil {
		t.Fatal(err)
	}
	f, _, err := body.NewForm(m, worn, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// eachDrawn builds forms of bodies drawn from the survey's model.
func eachDrawn(t *testing.T, n int, check func(t *testing.T, f *body.Form)) {
	chance := rand.New(rand.NewPCG(7, 11))
	for i := range n {
		sex := []body.Sex{body.Man, body.Woman, body.NotStated}[i%3]
		values := map[body.Name]float64{}
		for _, e := range body.LoadSurvey().Draw(sex, chance).Entries {
			values[e.Name] = e.Value
		}
		f, _, err := body.NewForm(body.Exactly(sex, values), nil, body.Posture{})
		if err != nil {
			t.Fatal(err)
		}
		t.Run(fmt.Sprint(i), func(t *testing.T) { check(t, f) })
	}
}

// A tape round the cut mesh reads the girth that went in; a 120-gon is 0.011 %
// short of its curve.
func TestForm_girthsAreReadBackFromTheCutMesh(t *testing.T) {
	eachDrawn(t, 6, func(t *testing.T, f *body.Form) {
		for _, p := range f.Parts() {
			m := p.Mesh()
			for _, s := range p.Stations {
				want := p.Girth(s.Level)
				low, high := p.Range()
				if want < 60 || s.Level < low+1 || s.Level > high-1 { // an apex, or the end of a foot or a hand
					continue
				}
				var got float64
				for _, loop := range geom.Chain(geom.Slice(m, r3.Vec{Y: s.Level}, r3.Vec{Y: 1})) {
					got = max(got, geom.Perimeter(loop))
				}
				near(t, fmt.Sprintf("%s %s: girth read back over the girth", p.Segment, s.Name), got/want, 1, .002)
			}
		}
		for n, at := range map[body.Name]string{"hip girth": "hip", "waist girth": "waist", "chest girth": "chest"} {
			torso := partOf(f, body.Torso, body.Both)
			near(t, string(n), torso.Girth(mustStation(torso, at)), get(t, f.Measurements(), n, body.Both).Value, 1e-5)
		}
		for n, at := range map[body.Name]body.Segment{"wrist girth": body.Forearm, "calf girth": body.Shank, "ankle girth": body.Shank} {
			p := partOf(f, at, body.Right)
			near(t, string(n), p.Girth(mustStation(p, strings.TrimSuffix(string(n), " girth"))), get(t, f.Measurements(), n, body.Right).Value, 1e-5)
		}
		head := partOf(f, body.Head, body.Both)
		near(t, "head girth", head.Girth(mustStation(head, "brow")), get(t, f.Measurements(), "head girth", body.Both).Value, 1e-5)
	})
}

// Every part is a sound surface: stations rise, triangles look outwards, and
// normals never point back at the axis.
func TestForm_partsAreSoundSurfaces(t *testing.T) {
	eachDrawn(t, 9, func(t *testing.T, f *body.Form) {
		for _, p := range f.Parts() {
			for i := 1; i < len(p.Stations); i++ {
				if p.Stations[i].Level <= p.Stations[i-1].Level {
					t.Errorf("%s: station %q does not lie above %q", p.Segment, p.Stations[i].Name, p.Stations[i-1].Name)
				}
			}
			m := p.Mesh()
			_, top := p.Range()
			for i, n := range geom.VertexNormals(m) {
				v := m.V[i]
				if math.Abs(r3.Norm(n)-1) > 1e-9 {
					t.Fatalf("%s: no normal at %v", p.Segment, v)
				}
				out := r3.Sub(v, p.Centre(v.Y))
				if v.Y < top-1 && r3.Norm(out) > 1 && r3.Dot(n, r3.Unit(out)) < .02 {
					t.Fatalf("%s %v: the normal %v at %v looks back at the axis", p.Segment, p.Side, n, v)
				}
			}
			for _, tri := range m.T {
				a, b, c := m.V[tri[0]], m.V[tri[1]], m.V[tri[2]]
				if !(r3.Norm(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))) > 1e-9) {
					t.Fatalf("%s: a triangle without area at %v", p.Segment, a)
				}
			}
		}
	})
}

// Left and right are mirror images when nothing was measured apart.
func TestForm_isItsOwnMirrorImage(t *testing.T) {
	f := someone(t, nil)
	for _, seg := range []body.Segment{body.UpperArm, body.Forearm, body.Hand, body.Thigh, body.Shank, body.Foot} {
		l, r := partOf(f, seg, body.Left), partOf(f, seg, body.Right)
		for _, s := range l.Stations {
			for a := 0.0; a < 6; a++ {
				p, q := l.Frame.Point(l.Point(a, s.Level)), r.Frame.Point(r.Point(-a, s.Level))
				if r3.Norm(r3.Sub(p, r3.Vec{X: -q.X, Y: q.Y, Z: q.Z})) > 1e-9 {
					t.Fatalf("%s %s: %v on the left, %v on the right", seg, s.Name, p, q)
				}
			}
		}
		fr := r.Frame
		near(t, string(seg)+": handedness of the right frame", r3.Dot(r3.Cross(fr.X, fr.Y), fr.Z), 1, 1e-9)
	}
}

// The hanging arms clear the trunk below the armpit, and the feet stand on the
// floor.
func TestForm_restPose(t *testing.T) {
	eachDrawn(t, 5, func(t *testing.T, f *body.Form) {
		torso := partOf(f, body.Torso, body.Both)
		near := geom.NewLocator(torso.Mesh())
		fold := mustStation(torso, "armpit") - 50
		for _, seg := range []body.Segment{body.UpperArm, body.Forearm, body.Hand} {
			arm := partOf(f, seg, body.Left)
			for i, v := range arm.Mesh().V {
				p := arm.Frame.Point(v)
				if i%7 != 0 || p.Y > fold { // every seventh point is dense enough
					continue
				}
				if d, _ := near.Distance(p); d < 0 {
					t.Fatalf("the %s is %.1f mm inside the trunk at %v", seg, -d, p)
				}
			}
		}
		foot := partOf(f, body.Foot, body.Left)
		low := math.Inf(1)
		for _, v := range foot.Mesh().V {
			low = min(low, foot.Frame.Point(v).Y)
		}
		if math.Abs(low) > 1e-9 {
			t.Errorf("the sole is %.3f mm above the floor", low)
		}
	})
}

// Distance to a point off the skin along its normal is how far it is off, where
// nothing else is nearer; a layer takes its thickness off.
func TestForm_distance(t *testing.T) {
	bare := someone(t, nil)
	padded := someone(t, []body.Layer{{Name: "undersuit", Thickness: 3, Segments: []body.Segment{body.Shank, body.Head}}})
	p := partOf(bare, body.Shank, body.Left)
	m := p.Mesh()
	low, high := p.Stations[0].Level+20, p.Stations[len(p.Stations)-1].Level-40
	for i, n := range geom.VertexNormals(m) {
		if v := m.V[i]; i%37 == 0 && v.Y > low && v.Y < high {
			at := p.Frame.Point(r3.Add(v, r3.Scale(20, n)))
			near(t, "distance", bare.Distance(at), 20, .05)
			near(t, "distance over an undersuit", padded.Distance(at), 17, .1)
			near(t, "distance inside", bare.Distance(p.Frame.Point(r3.Sub(v, r3.Scale(5, n)))), -5, .1)
		}
	}
	if d := bare.Distance(r3.Vec{X: 5000, Y: 1000}); d < 4500 || d > 4800 {
		t.Errorf("a point five metres away is %.0f mm away", d)
	}
}

// What is worn on the head takes room: hair on the crown and not on the face,
// glasses before the eyes, the nose before the mid-line, ears at the sides.
func TestForm_wornOnTheHead(t *testing.T) {
	hair := body.Layer{Name: "hair", Thickness: 12, Segments: []body.Segment{body.Head}}
	glasses := body.Layer{Name: "glasses", Thickness: 25, Segments: []body.Segment{body.Head}}
	bare, dressed := someone(t, nil), someone(t, []body.Layer{hair, glasses})
	head := partOf(bare, body.Head, body.Both)
	at := func(v r3.Vec) r3.Vec { return head.Frame.Point(v) }
	crown := at(r3.Vec{Y: mustStation(head, "crown") + 50})
	near(t, "above the crown", bare.Distance(crown), 50, .2)
	near(t, "above the hair", dressed.Distance(crown), 38, .3)
	chin := at(r3.Add(head.Point(0, mustStation(head, "mouth")), r3.Vec{Z: 60}))
	near(t, "hair on the face", dressed.Distance(chin), bare.Distance(chin), .5)
	eye := dressed.Eyes()[0]
	if d := dressed.Distance(r3.Add(eye, r3.Vec{Z: 24})); d > 0 {
		t.Errorf("24 mm before the eye is %.1f mm outside glasses that stand 25 mm off", d)
	}
	if d := bare.Distance(r3.Add(eye, r3.Vec{Z: 25})); d < 5 {
		t.Errorf("without glasses 25 mm before the eye is only %.1f mm clear", d)
	}
	root := head.Point(0, mustStation(head, "nose base")+8)
	if d := bare.Distance(at(r3.Add(root, r3.Vec{Z: 17}))); d > 0 {
		t.Errorf("the nose does not reach 17 mm before the mid-line (%.1f)", d)
	}
	side := get(t, bare.Measurements(), "face breadth", body.Both).Value/2 + 12
	if d := bare.Distance(at(r3.Vec{X: side, Y: 4, Z: -14})); d > 0 {
		t.Errorf("the ear does not stand 12 mm off the head (%.1f)", d)
	}
}

func TestForm_eyes(t *testing.T) {
	f := someone(t, nil, body.Entry{Name: "pupil distance", Value: 64})
	e := f.Eyes()
	near(t, "pupil distance", e[0].X-e[1].X, 64, 1e-9)
	// Source: 2012 Army survey, sitting height less eye height, men: 114 mm.
	near(t, "eyes below the crown", 1756-e[0].Y, 114, 8)
}

func TestForm_jointsBendAsTheyAreNamed(t *testing.T) {
	f := someone(t, nil)
	for _, c := range []struct {
		name string
		side body.Side
		of   body.Segment
		want r3.Vec // where the segment's far end goes
	}{
		{"shoulder", body.Left, body.UpperArm, r3.Vec{Z: 1}}, {"elbow", body.Right, body.Forearm, r3.Vec{Z: 1}},
		{"wrist", body.Left, body.Hand, r3.Vec{X: -1}}, {"wrist", body.Right, body.Hand, r3.Vec{X: 1}},
		{"hip", body.Left, body.Thigh, r3.Vec{Z: 1}}, {"knee", body.Right, body.Shank, r3.Vec{Z: -1}}, {"ankle", body.Left, body.Foot, r3.Vec{Y: 1}},
	} {
		j, ok := f.Joint(c.name, c.side)
		if !ok {
			t.Fatalf("no %s", c.name)
		}
		near(t, c.name+" axis", r3.Norm(j.Axis), 1, 1e-9)
		far := partOf(f, c.of, c.side).Frame.O
		move := r3.Cross(j.Axis, r3.Sub(far, j.Centre))
		if r3.Dot(r3.Unit(move), c.want) < .9 {
			t.Errorf("%s %v moves its segment towards %v", c.name, c.side, move)
		}
	}
	if _, ok := f.Joint("neck", body.Both); !ok {
		t.Error("no neck joint")
	}
}

// Taller by With: only what was asked changes.
func TestForm_with(t *testing.T) {
	f := someone(t, nil)
	g, err := f.With(map[body.Name]float64{"calf girth": 420})
	if err != nil {
		t.Fatal(err)
	}
	p := partOf(g, body.Shank, body.Left)
	near(t, "calf girth", p.Girth(mustStation(p, "calf")), 420, 1e-6)
	a, b := partOf(f, body.Torso, body.Both), partOf(g, body.Torso, body.Both)
	near(t, "waist girth", b.Girth(1000), a.Girth(1000), 1e-12)
}

func TestForm_namesTheSizesItLacks(t *testing.T) {
	_, _, err := body.NewForm(body.Exactly(body.Man, map[body.Name]float64{"stature": 1750}), nil, body.Posture{})
	if err == nil || !strings.Contains(err.Error(), "calf girth") {
		t.Errorf("the error is %v; it should name the sizes that are missing", err)
	}
}

// A breadth that no section of the girth can have gives way, and says so.
func TestForm_impossibleSectionGivesWay(t *testing.T) {
	f := someone(t, nil, body.Entry{Name: "waist girth", Value: 900}, body.Entry{Name: "waist breadth", Value: 460}, body.Entry{Name: "waist depth", Value: 230})
	m := f.Measurements()
	_, findings, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	torso := partOf(f, body.Torso, body.Both)
	near(t, "waist girth", torso.Girth(mustStation(torso, "waist")), 900, 1e-5)
	for _, x := range findings {
		if x.Subject == "waist breadth" || x.Subject == "waist depth" {
			return
		}
	}
	t.Errorf("nothing said about the waist: %v", findings)
}

func BenchmarkNewForm(b *testing.B) {
	m := someone(b, nil).Measurements()
	for b.Loop() {
		if _, _, err := body.NewForm(m, nil, body.Posture{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWornHead(b *testing.B) {
	f := someone(b, []body.Layer{{Name: "hair", Thickness: 10}})
	for b.Loop() {
		partOf(f, body.Head, body.Both).Worn()
	}
}

// The body is closed: every part's mesh for drawing encloses its volume, so that
// a point in the flesh of each segment is inside and the joints leave no gap.
func TestForm_hasNoGapsAtItsJoints(t *testing.T) {
	eachDrawn(t, 1, func(t *testing.T, f *body.Form) {
		for _, name := range []string{"elbow", "wrist", "knee", "ankle"} {
			j, _ := f.Joint(name, body.Left)
			for _, up := range []float64{-12, -6, 0, 6, 12} {
				if d := f.Distance(r3.Add(j.Centre, r3.Vec{Y: up})); d > 0 {
					t.Errorf("%.0f mm above the %s is %.1f mm outside the body", up, name, d)
				}
			}
		}
	})
}
