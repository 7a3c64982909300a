package photo

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
)

// A photographed head stands on the form of its own sizes: ears on ears, eyes
// at the same angle, and its rays hit what was marked.
func TestOn(t *testing.T) {
	chance := rand.New(rand.NewPCG(8, 9))
	shots := testShots(chance, newTestHead(chance), testSetup{distance: 1500, f35: 26})
	s, _, err := Solve(context.Background(), shots)
	if err != nil {
		t.Fatal(err)
	}
	tape := body.Tape{Sex: body.Man, Entries: []body.Entry{{Name: "stature", Value: 1760}}}
	m, _, err := body.Estimate(body.LoadSurvey(), tape, s.Seen)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	stand, findings := s.Head.On(form)
	head, _ := form.Part(body.Head, body.Both)
	l, _ := s.Head.Point("left tragion")
	r, _ := s.Head.Point("right tragion")
	if d := r3.Norm(r3.Sub(stand.Point(r3.Scale(.5, r3.Add(l.At, r.At))), head.Frame.O)); d > 2 {
		t.Errorf("the ears' middle is %.2f mm from the form's", d)
	}
	eye, _ := s.Head.Point("left pupil")
	other, _ := s.Head.Point("right pupil")
	own := head.Frame.Local(stand.Point(r3.Scale(.5, r3.Add(eye.At, other.At))))
	eyes := form.Eyes()
	its := head.Frame.Local(r3.Scale(.5, r3.Add(eyes[0], eyes[1])))
	if d := math.Atan2(own.Y, own.Z) - math.Atan2(its.Y, its.Z); math.Abs(d) > 1e-9 {
		t.Errorf("eye and ear are %g rad off", d)
	}
	if len(findings) != 1 {
		t.Errorf("%d findings, not one about the misfit", len(findings))
	}
	t.Log(findings)

	at := s.Head.Cameras[0].Project(eye.At)
	lens, dirs := s.Head.Rays(0, stand, []Pixel{at})
	to := r3.Sub(stand.Point(eye.At), lens)
	if off := r3.Norm(r3.Cross(to, dirs[0])); off > 1e-6 {
		t.Errorf("the ray passes the pupil by %g mm", off)
	}
}
