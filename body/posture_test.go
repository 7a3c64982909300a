package body_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/geom"
)

// standing is the form of the survey's mean man in a posture.
func standing(t *testing.T, p body.Posture) *body.Form {
	t.Helper()
	m, _, err := body.Estimate(body.LoadSurvey(), man(), nil)
	if err != nil {
		t.Fatal(err)
	}
	f, _, err := body.NewForm(m, nil, p)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// foremostAndHindmost are the ends of the cut mesh at a station, as seen from the side.
func foremostAndHindmost(f *body.Form, station string) (front, back float64) {
	torso := partOf(f, body.Torso, body.Both)
	front, back = math.Inf(-1), math.Inf(1)
	for _, loop := range geom.Chain(geom.Slice(torso.Mesh(), r3.Vec{Y: mustStation(torso, station)}, r3.Vec{Y: 1})) {
		for _, p := range loop {
			front, back = max(front, p.Z), min(back, p.Z)
		}
	}
	return front, back
}

// Whoever stands with one place farther back by so much is shaped so there: front and
// back of that section move by it, and the other places stay.
func TestPosture_movesItsOwnPlace(t *testing.T) {
	stands := body.Posture{WaistForward: 4, ChestForward: -7, ShouldersForward: 2, ShouldersKnown: true}
	places := map[string]func(p *body.Posture) *float64{
		"waist":    func(p *body.Posture) *float64 { return &p.WaistForward },
		"chest":    func(p *body.Posture) *float64 { return &p.ChestForward },
		"shoulder": func(p *body.Posture) *float64 { return &p.ShouldersForward },
	}
	before := standing(t, stands)
	for place, of := range places {
		for _, d := range []float64{-15, 20} {
			moved := stands
			*of(&moved) += d
			after := standing(t, moved)
			for _, station := range []string{"hip", "waist", "chest", "shoulder"} {
				want := 0.0
				if station == place {
					want = d
				}
				f0, b0 := foremostAndHindmost(before, station)
				f1, b1 := foremostAndHindmost(after, station)
				near(t, place+" moved: front of the "+station, f1-f0, want, 1e-6)
				near(t, place+" moved: back of the "+station, b1-b0, want, 1e-6)
			}
		}
	}
}

// Arms hang from the shoulders and go with them; between chest and shoulders the back
// goes part of the way, and the hips and legs stay where they are.
func TestPosture_shouldersTakeTheArmsAlong(t *testing.T) {
	before := standing(t, body.Posture{ShouldersKnown: true})
	after := standing(t, body.Posture{ShouldersForward: -20, ShouldersKnown: true})
	for _, side := range []body.Side{body.Left, body.Right} {
		for name, want := range map[string]float64{"shoulder": -20, "elbow": -20, "wrist": -20, "hip": 0, "knee": 0} {
			a, _ := before.Joint(name, side)
			b, _ := after.Joint(name, side)
			near(t, side.String()+" "+name, b.Centre.Z-a.Centre.Z, want, 1e-9)
		}
	}
	_, a := foremostAndHindmost(before, "armpit")
	_, b := foremostAndHindmost(after, "armpit")
	if d := b - a; !(d < -1 && d > -19) {
		t.Errorf("the back at the armpits moves by %.1f mm with shoulders that move by -20", d)
	}
}

// The neck stands on the shoulders and the head on the neck: all three go the same way,
// less the higher up, and neck and head stay together.
func TestPosture_neckAndHeadStandOnTheShoulders(t *testing.T) {
	before := standing(t, body.Posture{ShouldersKnown: true})
	after := standing(t, body.Posture{ShouldersForward: -20, ShouldersKnown: true})
	moved := func(s body.Segment) float64 {
		return partOf(after, s, body.Both).Frame.O.Z - partOf(before, s, body.Both).Frame.O.Z
	}
	if neck := moved(body.Neck); !(neck < -1 && neck > -10) {
		t.Errorf("the neck moves by %.1f mm with shoulders that move by -20", neck)
	}
	near(t, "the head against the neck", moved(body.Head)-moved(body.Neck), 0, 1e-9)
}

// Shoulders of which nothing is known stand where the chest takes them, so that who
// is told to stand just there has the same form.
func TestPosture_shouldersFollowTheChest(t *testing.T) {
	form := standing(t, body.Posture{ChestForward: -24, WaistForward: 5})
	front, back := foremostAndHindmost(form, "shoulder")
	f0, b0 := foremostAndHindmost(standing(t, body.Posture{}), "shoulder")
	d := front - f0
	near(t, "front and back of the shoulders", back-b0, d, 1e-6)
	if !(d < -5 && d > -24) {
		t.Errorf("the shoulders move by %.1f mm with a chest that moves by -24", d)
	}
	near(t, "where the form says that they stand", form.Posture().ShouldersForward, d, 1e-6)
	told := standing(t, body.Posture{ChestForward: -24, WaistForward: 5, ShouldersForward: d, ShouldersKnown: true})
	for i, p := range form.Parts() {
		m, n := p.Mesh(), told.Parts()[i].Mesh()
		for k, v := range m.V {
			if off := r3.Norm(r3.Sub(p.Frame.Point(v), told.Parts()[i].Frame.Point(n.V[k]))); off > 1e-6 {
				t.Fatalf("%s: %v lies %g mm off", p.Segment, v, off)
			}
		}
	}
}

// A form is made in every posture that is possible, as far as they go, and its trunk
// has the stations' girths, which posture does not change.
func TestPosture_asFarAsTheyGo(t *testing.T) {
	const bent = body.MostForward - body.MostBent
	far := []float64{-body.MostForward, -body.MostBent, -bent, 0, bent, body.MostBent, body.MostForward}
	made := 0
	usual := partOf(standing(t, body.Posture{}), body.Torso, body.Both)
	for _, chest := range far {
		for _, waist := range far {
			for _, shoulders := range far {
				p := body.Posture{ChestForward: chest, WaistForward: waist, ShouldersForward: shoulders, ShouldersKnown: true}
				if possible := math.Abs(chest-waist) <= body.MostBent && math.Abs(shoulders-chest) <= body.MostBent; p.Possible() != possible {
					t.Errorf("%+v is possible: %t", p, !possible)
				} else if !possible {
					continue
				}
				made++
				torso := partOf(standing(t, p), body.Torso, body.Both)
				for i, s := range torso.Stations {
					near(t, s.Name, torso.Girth(s.Level), usual.Girth(usual.Stations[i].Level), 1e-9)
				}
			}
		}
	}
	if made < 100 {
		t.Errorf("only %d postures were made", made)
	}
	nan := math.NaN()
	for _, p := range []body.Posture{
		{ChestForward: 121, WaistForward: 60}, {WaistForward: -121, ChestForward: -60}, {ChestForward: 60, ShouldersForward: 121, ShouldersKnown: true},
		{ChestForward: 119, WaistForward: -119}, {ChestForward: 81}, {ShouldersForward: -81, ShouldersKnown: true},
		{ChestForward: nan}, {WaistForward: nan}, {ShouldersForward: nan, ShouldersKnown: true},
	} {
		if p.Possible() {
			t.Errorf("%+v is possible", p)
		}
	}
}
