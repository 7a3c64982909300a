package photo_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/geom"
	"tasset/internal/synth"
)

// person is a body of known truth that is photographed.
type person struct {
	standing *synth.Standing
	truth    map[body.Name]float64
	posture  body.Posture
}

// drawPerson draws a body from the survey's model and a stance of its own.
func drawPerson(t testing.TB, chance *rand.Rand, sex body.Sex) *person {
	t.Helper()
	tape := body.Tape{Sex: sex, Age: 30}
	for _, e := range body.LoadSurvey().Draw(sex, chance).Entries {
		tape.Entries = append(tape.Entries, body.Entry{Name: e.Name, Value: e.Value})
	}
	m, _, err := body.Estimate(body.LoadSurvey(), tape, nil)
	if err != nil {
		t.Fatal(err)
	}
	p := &person{posture: body.Posture{ChestForward: 20 * chance.NormFloat64(), WaistForward: 15 * chance.NormFloat64()}}
	f, _, err := body.NewForm(m, nil, p.posture)
	if err != nil {
		t.Fatal(err)
	}
	p.standing = synth.NewStanding(f)
	p.truth = p.standing.BodySizes()
	return p
}

// studio is how carelessly a body is photographed: deviations.
type studio struct {
	distance         float64 // mm
	f35              float64
	turn, tilt, roll float64 // rad, of the person against the camera
	clicks           float64 // factor on the usual deviations of marks
	rulerDepth       float64 // mm
	rulerTilt        float64 // rad
	rulerLength      float64 // mm
	focal            float64 // share
	lift             float64 // mm: how far off its level an outline is marked
}

func usualStudio(distance float64) studio {
	return studio{distance: distance, f35: math.Round(distance / 1000 * 14), turn: .056, tilt: .056, roll: .035, clicks: 1, rulerDepth: 20, rulerTilt: .087,
		rulerLength: 300, focal: .015, lift: 8}
}

// shoot photographs a person in a view: 12 megapixels, upright.
func (s studio) shoot(p *person, v photo.View, chance *rand.Rand) photo.Shot {
	n := func(sd float64) float64 { return sd * chance.NormFloat64() }
	yaw := map[photo.View]float64{photo.BodyFront: 0, photo.BodyLeft: math.Pi / 2, photo.BodyRight: -math.Pi / 2}[v]
	away, tilt := s.distance*(1+n(.03)), n(s.tilt)
	cam := camera(away, yaw+n(s.turn), tilt, n(s.roll), p.truth["stature"]/2+away*math.Tan(tilt)) // aimed at the body's middle
	cam.Focal = s.f35 * (1 + n(s.focal)) / 43.2666 * 5000
	shot := photo.Shot{Name: v.String(), View: v, Width: 3000, Height: 4000, F35: s.f35}
	for _, l := range photo.BodyLandmarks() {
		if !l.SeenIn(v) {
			continue
		}
		at := p.standing.Mark(l.Name, cam, n(s.lift))
		px := cam.Project(at)
		k := s.clicks * l.Click * cam.Focal / cam.Frame.Local(at).Z
		shot.Marks = append(shot.Marks, photo.Mark{Name: l.Name, At: photo.Pixel{X: px.X + n(k), Y: px.Y + n(k)}})
	}
	shot.Ruler = s.ruler(cam, yaw, n)
	return shot
}

// ruler is held beside the body at the height of the hips, in the plane through
// its middle.
func (s studio) ruler(cam photo.Camera, yaw float64, n func(float64) float64) *photo.Ruler {
	if s.rulerLength == 0 {
		return nil
	}
	sin, cos := math.Sincos(yaw)
	to, side := r3.Vec{X: sin, Z: cos}, r3.Vec{X: cos, Z: -sin}
	middle := r3.Add(r3.Add(r3.Scale(420, side), r3.Vec{Y: 1000}), r3.Scale(n(s.rulerDepth), to))
	lean := n(s.rulerTilt)
	along := r3.Add(r3.Vec{Y: math.Cos(lean)}, r3.Scale(math.Sin(lean), to))
	end := func(sign float64) photo.Pixel {
		at := r3.Add(middle, r3.Scale(sign*s.rulerLength/2, along))
		px := cam.Project(at)
		k := math.Hypot(photo.RulerClick*cam.Focal/s.distance, .5)
		return photo.Pixel{X: px.X + n(k), Y: px.Y + n(k)}
	}
	return &photo.Ruler{From: end(-1), To: end(1), Length: s.rulerLength}
}

// camera stands at a height and looks at the body from yaw (0 in front, a
// quarter turn at the wearer's left), tilted down and rolled.
func camera(distance, yaw, tilt, roll, height float64) photo.Camera {
	sy, cy := math.Sincos(yaw)
	f := geom.Frame{O: r3.Vec{X: distance * sy, Y: height, Z: distance * cy}, X: r3.Vec{X: cy, Z: -sy}, Y: r3.Vec{Y: -1}, Z: r3.Vec{X: -sy, Z: -cy}}
	st, ct := math.Sincos(tilt)
	f.Y, f.Z = r3.Sub(r3.Scale(ct, f.Y), r3.Scale(st, f.Z)), r3.Add(r3.Scale(ct, f.Z), r3.Scale(st, f.Y))
	sr, cr := math.Sincos(roll)
	f.X, f.Y = r3.Add(r3.Scale(cr, f.X), r3.Scale(sr, f.Y)), r3.Sub(r3.Scale(cr, f.Y), r3.Scale(sr, f.X))
	return photo.Camera{Frame: f, Centre: photo.Pixel{X: 1500, Y: 2000}}
}

// tally gathers errors of one size.
type tally struct {
	n, in           int
	sum, square, sd float64
}

func (t *tally) add(miss, dressed, sd float64) {
	t.n, t.sum, t.square, t.sd = t.n+1, t.sum+miss, t.square+miss*miss, t.sd+sd*sd
	if math.Abs(dressed) <= 1.96*sd {
		t.in++
	}
}

func (t *tally) bias() float64    { return t.sum / float64(t.n) }
func (t *tally) rms() float64     { return math.Sqrt(t.square / float64(t.n)) }
func (t *tally) covered() float64 { return float64(t.in) / float64(t.n) }
func (t *tally) String() string {
	return fmt.Sprintf("n %d, bias %+.1f, RMS %.1f, said %.1f, inside 95 %%: %.0f %%", t.n, t.bias(), t.rms(), math.Sqrt(t.sd/float64(t.n)), 100*t.covered())
}

// simulate photographs people and reads their sizes.
func simulate(t testing.TB, s studio, people int, views ...photo.View) map[string]*tally {
	chance := rand.New(rand.NewPCG(41, 7))
	all := map[string]*tally{}
	add := func(name string, miss, doubt, sd float64) {
		if all[name] == nil {
			all[name] = &tally{}
		}
		all[name].add(miss, miss+doubt*chance.NormFloat64(), sd)
	}
	for i := range people {
		p := drawPerson(t, chance, []body.Sex{body.Man, body.Woman}[i%2])
		var shots []photo.Shot
		for _, v := range views {
			shots = append(shots, s.shoot(p, v, chance))
		}
		sub, lengths, stance, err := photo.SolveBody(context.Background(), shots)
		if err != nil {
			t.Fatalf("person %d: %v", i, err)
		}
		if !sub.Settled {
			t.Errorf("person %d: the search did not come to rest", i)
		}
		for _, l := range lengths {
			add(l.Name, l.Value-p.truth[body.Name(l.Name)], photo.BodyDoubt(l.Name), l.SD)
		}
		if stance != nil {
			add("chest forward", stance.Posture.ChestForward-p.posture.ChestForward, photo.UsualStance, stance.ChestSD)
			add("waist forward", stance.Posture.WaistForward-p.posture.WaistForward, photo.UsualStance, stance.WaistSD)
		}
	}
	names := slices.Sorted(func(yield func(string) bool) {
		for n := range all {
			if !yield(n) {
				return
			}
		}
	})
	for _, n := range names {
		t.Logf("%-18s %v", n, all[n])
	}
	return all
}

// A solved body stands on the floor in body axes, its cameras see it where it
// was marked, and a long ruler over it reads what is known: the distance of the
// two hips, whose outline stands some 40 mm in front of the body's middle.
func TestBody_standsOnTheFloor(t *testing.T) {
	chance := rand.New(rand.NewPCG(5, 6))
	for range 10 {
		p := drawPerson(t, chance, body.Woman)
		shots := []photo.Shot{usualStudio(3000).shoot(p, photo.BodyFront, chance), usualStudio(3000).shoot(p, photo.BodyRight, chance)}
		s, lengths, _, err := photo.SolveBody(context.Background(), shots)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range lengths {
			if crown, _ := s.Point("crown"); l.Name == "stature" && math.Abs(l.Value-crown.At.Y) > 1e-6 {
				t.Errorf("the stature is %.3f, but the crown stands at %.3f", l.Value, crown.At.Y)
			}
		}
		for _, f := range s.Fits {
			point, _ := s.Point(f.Name)
			at, mark := s.Cameras[f.Shot].Project(point.At), s.Shots[f.Shot].Marks[f.Mark].At
			if off := math.Hypot(at.X-mark.X, at.Y-mark.Y); off > 60 {
				t.Errorf("%s in %s is seen %.0f px from its mark", f.Name, s.Shots[f.Shot].Name, off)
			}
		}
		left, _ := s.Point("left hip side")
		right, _ := s.Point("right hip side")
		over := s.Sight(0)
		r, _, err := over.Read(photo.LongRuler{Name: "hips", From: over.Camera.Project(left.At), To: over.Camera.Project(right.At), Depth: photo.Depth{Value: (left.At.Z + right.At.Z) / 2}})
		if want := r3.Norm(r3.Sub(left.At, right.At)); err != nil || math.Abs(r.Value-want) > .03*want {
			t.Errorf("a long ruler over the hips reads %.1f mm (%v), want %.1f", r.Value, err, want)
		}
		if !(over.ScaleSD > .008 && over.ScaleSD < .03) || !(r.HalfWidth() > 6 && r.HalfWidth() < 25) {
			t.Errorf("the scale is said to be known to %.2f %%, the hips to %.1f mm", 100*over.ScaleSD, r.HalfWidth())
		}
	}
}

func TestBody_frontAlone(t *testing.T) {
	simulate(t, usualStudio(3000), 100, photo.BodyFront)
}

func TestBody_frontAndSide(t *testing.T) {
	simulate(t, usualStudio(3000), 100, photo.BodyFront, photo.BodyLeft)
}
