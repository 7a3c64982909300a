package costume

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/report"
	"tasset/internal/synth"
)

// stooping is somebody who stands with chest and waist forward, and the shoulders back.
var stooping = body.Posture{ChestForward: 30, WaistForward: 15, ShouldersForward: -20, ShouldersKnown: true}

// stoopingFolder is a folder with a front and a side picture of a made-up person
// who stands so, as exactly marked as can be but for landmarks that are left out. The
// pictures are blank: nothing is read off them but their size.
func stoopingFolder(t *testing.T, stands body.Posture, without ...string) (dir string, form *body.Form) {
	t.Helper()
	tape := body.Tape{Sex: body.Man, Entries: []body.Entry{{Name: "stature", Value: 1780}, {Name: "weight", Value: 76}}}
	m, _, err := body.Estimate(body.LoadSurvey(), tape, nil)
	if err != nil {
		t.Fatal(err)
	}
	if form, _, err = body.NewForm(m, nil, stands); err != nil {
		t.Fatal(err)
	}
	dir = t.TempDir()
	file := "format: 1\nsex: man\nmeasurements: {weight: 76 kg}\nphotographs:\n"
	for _, v := range []photo.View{photo.BodyFront, photo.BodyLeft} {
		file += blankPicture(t, dir, form, v, without)
	}
	for name, src := range map[string]string{WearerFile: file, CostumeFile: "format: 1\npieces: [{piece: backplate}]\n"} {
		if err := Save(filepath.Join(dir, name), []byte(src)); err != nil {
			t.Fatal(err)
		}
	}
	return dir, form
}

// blankPicture writes a picture of a view and gives its entry in wearer.yaml.
func blankPicture(t *testing.T, dir string, form *body.Form, v photo.View, without []string) string {
	t.Helper()
	const width, height, f35 = 1500, 2000, 50
	name := strings.ReplaceAll(v.String(), " ", "-") + ".jpg"
	pose := synth.Pose{Distance: 3000, Target: r3.Vec{Y: 890}}
	ends := [2]r3.Vec{{X: 420, Y: 700}, {X: 420, Y: 1000}}
	if v == photo.BodyLeft {
		pose.Yaw = math.Pi / 2
		ends = [2]r3.Vec{{Y: 700, Z: 420}, {Y: 1000, Z: 420}}
	}
	cam := pose.Camera(f35, width, height)
	var jpeg bytes.Buffer
	if err := synth.WriteJPEG(&jpeg, image.NewRGBA(image.Rect(0, 0, width, height)), 50, synth.Exif{F35: f35}); err != nil {
		t.Fatal(err)
	}
	if err := Save(filepath.Join(dir, name), jpeg.Bytes()); err != nil {
		t.Fatal(err)
	}
	place := func(p r3.Vec) string { at := cam.Project(p); return fmt.Sprintf("[%.2f, %.2f]", at.X, at.Y) }
	entry := fmt.Sprintf("  - picture: %s\n    view: %s\n    ruler: {from: %s, to: %s, length: 300 mm}\n    marks:\n", name, v, place(ends[0]), place(ends[1]))
	standing := synth.NewStanding(form)
	for _, l := range photo.BodyLandmarks() {
		if l.SeenIn(v) && !slices.Contains(without, l.Name) {
			entry += fmt.Sprintf("      %s: %s\n", l.Name, place(standing.Mark(l.Name, cam, 0)))
		}
	}
	return entry
}

// shapedIn runs a folder up to its fit.
func shapedIn(t *testing.T, dir string) *Result {
	t.Helper()
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Shape(context.Background(), f, Options{}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// state writes a posture into a folder's wearer.yaml.
func state(t *testing.T, dir, posture string) {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(dir, WearerFile))
	if err != nil {
		t.Fatal(err)
	}
	if err := Save(filepath.Join(dir, WearerFile), append(src, "posture: "+posture+"\n"...)); err != nil {
		t.Fatal(err)
	}
}

// "I stoop, and the breastplate was made for somebody who does not." The picture
// from the side says how the wearer stands, unless the maker does.
func TestShape_standsAsThePictureShows(t *testing.T) {
	dir, truth := stoopingFolder(t, stooping)
	seen := shapedIn(t, dir)
	for _, place := range []string{"chest", "waist", "shoulder"} {
		if got, want := forwardOf(seen.Form, place), forwardOf(truth, place); math.Abs(got-want) > 2*photoStance {
			t.Errorf("the %s stands %.1f mm before the hips, want %.1f", place, got, want)
		}
	}
	if !said(seen, "By the picture from the side the chest stands") || !said(seen, "and the shoulders") {
		t.Errorf("not all is said of the posture: %v", seen.Findings)
	}
	stature, _ := seen.Measurements.Get("stature", body.Both)
	if stature.Origin != body.Photographed || math.Abs(stature.Value-1780) > 2*stature.SD {
		t.Errorf("the stature is %.0f ± %.0f (%v), want 1780", stature.Value, stature.HalfWidth(), stature.Origin)
	}
	state(t, dir, "{chest forward: 0 mm, waist forward: 0 mm, shoulders forward: 30 mm}")
	stated := shapedIn(t, dir)
	for place, least := range map[string]float64{"chest": -15, "waist": -5, "shoulder": 35} {
		if d := forwardOf(stated.Form, place) - forwardOf(seen.Form, place); d/least < 1 {
			t.Errorf("what the maker states is not taken: the %s stands %.1f mm further forward than by the picture", place, d)
		}
	}
	if said(stated, "By the picture") {
		t.Errorf("a picture is said to tell what the maker states: %v", stated.Findings)
	}
}

// photoStance is how well a picture tells the posture, mm: what the solver says.
const photoStance = 9

// forwardOf is how far the middle of a station stands before that of the hips.
func forwardOf(f *body.Form, station string) float64 {
	torso, _ := f.Part(body.Torso, body.Both)
	z := func(station string) float64 {
		level, _ := torso.Station(station)
		s := torso.Section(level)
		return torso.Centre(level).Z + (s.Front-s.Back)/2
	}
	return z(station) - z("hip")
}

// "I hold my shoulders back, and nobody had asked." What is not known of how the
// wearer stands is told with pieces of the trunk, and not with others.
func TestShape_tellsWhatIsNotKnownOfThePosture(t *testing.T) {
	const (
		nothing   = "Nothing tells how the wearer stands"
		shoulders = "Nothing tells how the shoulders stand"
	)
	all := []string{"chest front", "chest back", "upper chest", "upper back"}
	for _, c := range []struct {
		name, piece, posture string
		without              []string
		says                 string
	}{
		{"no place marked", "backplate", "", all, nothing},
		{"no place marked, no piece on the trunk", "greave", "", all, ""},
		{"chest and waist marked", "backplate", "", all[2:], shoulders},
		{"chest and waist marked, no piece above the chest", "belt", "", all[2:], ""},
		{"no place marked, no piece above the chest", "belt", "", all, nothing},
		{"the back marked alone", "backplate", "", all[2:3], shoulders},
		{"all marked", "backplate", "", nil, ""},
		{"chest written", "backplate", "{chest forward: 1 cm}", all, shoulders},
		{"shoulders written", "backplate", "{shoulders forward: -1 cm}", all, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir, _ := stoopingFolder(t, stooping, c.without...)
			if err := Save(filepath.Join(dir, CostumeFile), []byte("format: 1\npieces: [{piece: "+c.piece+"}]\n")); err != nil {
				t.Fatal(err)
			}
			if c.posture != "" {
				state(t, dir, c.posture)
			}
			r := shapedIn(t, dir)
			for _, s := range []string{nothing, shoulders} {
				if got := said(r, s); got != (s == c.says) {
					t.Errorf("%q said: %v; findings %v", s, got, r.Findings)
				}
			}
		})
	}
}

// "I marked the belly on the wrong picture, and the breastplate came out like a slide."
// Marks by which nobody can stand are told, and the body stands as usual.
func TestShape_doubtsAPostureThatCannotBe(t *testing.T) {
	dir, _ := stoopingFolder(t, body.Posture{ChestForward: 30, ShouldersForward: -200, ShouldersKnown: true}, "left shoulder edge", "left wrist") // the arms would go with them
	r := shapedIn(t, dir)
	i := slices.IndexFunc(r.Findings, func(g report.Finding) bool { return g.Subject == "posture" && g.Level == report.Doubt })
	if i < 0 || !strings.Contains(r.Findings[i].Said, "No trunk stands more than 12.0 cm off") {
		t.Fatalf("shoulders 200 mm behind are not doubted: %v", r.Findings)
	}
	if said(r, "Nothing tells how") {
		t.Errorf("it is said that nothing tells the posture: %v", r.Findings)
	}
	stature, _ := r.Measurements.Get("stature", body.Both)
	chest, _, shoulders := body.StandsForward(stature.Value)
	if got := forwardOf(r.Form, "shoulder"); math.Abs(got-shoulders) > 1e-6 {
		t.Errorf("the shoulders stand %.1f mm before the hips, usual are %.1f", got, shoulders)
	}
	if got := forwardOf(r.Form, "chest"); math.Abs(got-chest) > 1e-6 {
		t.Errorf("the chest stands %.1f mm before the hips, usual are %.1f", got, chest)
	}
}

func said(r *Result, what string) bool {
	for _, g := range r.Findings {
		if strings.Contains(g.Said, what) {
			return true
		}
	}
	return false
}

// "My hair was not under a cap, and the helm came out too large." What pictures
// were taken over is taken off where it lies.
func TestEstimate_whatPicturesWereTakenOver(t *testing.T) {
	sizes := func(change func(string) string) map[body.Name]float64 {
		f := changedDemo(t, change)
		r, err := f.Estimate(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		out := map[body.Name]float64{}
		for _, m := range r.Measurements.All() {
			out[m.Name] = m.Value
		}
		return out
	}
	bare := sizes(func(s string) string { return s })
	over := sizes(func(s string) string {
		return strings.Replace(overHair(s), "    view: body front\n", "    view: body front\n    over: undersuit\n", 1)
	})
	for name, off := range map[body.Name]float64{"head length": 5, "head breadth": 10, "ear to crown": 5, "head girth": 10 * math.Pi, "face length": 0,
		"face breadth": 0, "pupil distance": 0, "stature": 0, "shoulder height": 0, "waist breadth": 4, "hip breadth": 4} {
		if got := bare[name] - over[name]; math.Abs(got-off) > 1.5 { // what is not known of a layer shifts the others a little
			t.Errorf("%s is %.2f mm less, want %.1f", name, got, off)
		}
	}
}

// changedDemo opens the demo with another wearer.yaml.
func changedDemo(t *testing.T, change func(string) string) *Folder {
	dir := t.TempDir()
	if err := Demo(dir); err != nil {
		t.Fatal(err)
	}
	if err := Save(filepath.Join(dir, WearerFile), []byte(change(demoFile(t, WearerFile)))); err != nil {
		t.Fatal(err)
	}
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// overHair says of the demo's pictures of the head that they were taken over hair.
func overHair(s string) string {
	for _, v := range []string{"head front", "head left side", "head left three-quarter"} {
		s = strings.Replace(s, "    view: "+v+"\n", "    view: "+v+"\n    over: hair\n", 1)
	}
	return s
}

// "It told me to add padding for the hair that it had taken off." A head seen over
// hair is not compared with a form of the skin.
func TestForm_headSeenOverHair(t *testing.T) {
	compared := func(change func(string) string) bool {
		f := changedDemo(t, change)
		r, err := f.Estimate(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if err := f.form(r, nil); err != nil {
			t.Fatal(err)
		}
		of := func(g report.Finding) bool { return g.Subject == "head form" }
		return slices.ContainsFunc(r.Findings, of) || slices.ContainsFunc(r.PhotoNotes, of)
	}
	if !compared(func(s string) string { return s }) {
		t.Error("a head seen with its hair pressed flat is not compared with the form")
	}
	if compared(overHair) {
		t.Error("a head seen over hair is compared with the form")
	}
}
