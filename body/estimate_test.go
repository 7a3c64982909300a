package body_test

import (
	"math"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/report"
)

// estimate fails the test if the tape is refused.
func estimate(t *testing.T, tape body.Tape, seen *body.Seen) (*body.Measurements, []report.Finding) {
	t.Helper()
	m, f, err := body.Estimate(body.LoadSurvey(), tape, seen)
	if err != nil {
		t.Fatal(err)
	}
	return m, f
}

func get(t *testing.T, m *body.Measurements, n body.Name, s body.Side) body.Measurement {
	t.Helper()
	x, ok := m.Get(n, s)
	if !ok {
		t.Fatalf("no %s", n)
	}
	return x
}

// man is 1756 mm and 85.5 kg, the survey's mean man.
func man(more ...body.Entry) body.Tape {
	return body.Tape{Sex: body.Man, Age: 30, Entries: append([]body.Entry{
		{Name: "stature", Value: 1756}, {Name: "weight", Value: 85.5}}, more...)}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.4g, want %.4g ± %g", what, got, want, tolerance)
	}
}

func TestEstimate_measuredIsUsedAsMeasured(t *testing.T) {
	m, _ := estimate(t, man(body.Entry{Name: "wrist girth", Value: 190, Where: "wearer.yaml:9"}), nil)
	w := get(t, m, "wrist girth", body.Left)
	if w.Value != 190 || w.SD != 5 || w.Origin != body.Taped || w.Where != "wearer.yaml:9" {
		t.Errorf("the wrist is %+v, want the entry with the tape's 5 mm", w)
	}
	near(t, "Cov(wrist, wrist)", m.Cov("wrist girth", "wrist girth"), 25, 1e-9)
}

// A tape of 4 mm and photographs of 3 mm: weights 1/16 and 1/9, by hand.
func TestEstimate_weighsTapeAndPhotographsByPrecision(t *testing.T) {
	seen := &body.Seen{Names: []body.Name{"face length", "head breadth"}, Values: []float64{124, 155}, Covariance: []float64{9, 0, 0, 4}}
	m, _ := estimate(t, man(body.Entry{Name: "face length", Value: 118, SD: 4}), seen)
	f := get(t, m, "face length", body.Both)
	near(t, "face length", f.Value, (118./16+124./9)/(1./16+1./9), 1e-9)
	near(t, "its deviation", f.SD, math.Sqrt(1/(1./16+1./9)), 1e-9)
	h := get(t, m, "head breadth", body.Both)
	if h.Origin != body.Photographed {
		t.Errorf("head breadth comes from %v, want photographs", h.Origin)
	}
	near(t, "head breadth", h.Value, 155, 1e-9)
}

// With a correlation of the photographs' errors, a tape entry of one length
// moves the other too: generalised least squares of two unknowns, by hand.
// Covariance of (a, b): variances 9, covariance 6. Tape says a = 118, variance 1,
// photographs a = 124: a = (118/1 + 124/9)/(1 + 1/9), and b moves by 6/9 of what
// a moves from 124.
func TestEstimate_keepsPhotographsCorrelation(t *testing.T) {
	seen := &body.Seen{Names: []body.Name{"face length", "head breadth"}, Values: []float64{124, 155}, Covariance: []float64{9, 6, 6, 9}}
	m, _ := estimate(t, man(body.Entry{Name: "face length", Value: 118, SD: 1}), seen)
	a := (118. + 124./9) / (1 + 1./9)
	near(t, "face length", get(t, m, "face length", body.Both).Value, a, 1e-9)
	near(t, "head breadth", get(t, m, "head breadth", body.Both).Value, 155+6./9*(a-124), 1e-9)
}

func TestEstimate_sides(t *testing.T) {
	m, _ := estimate(t, man(
		body.Entry{Name: "calf girth", Side: body.Left, Value: 380}, body.Entry{Name: "calf girth", Side: body.Right, Value: 396},
		body.Entry{Name: "wrist girth", Side: body.Left, Value: 172}, body.Entry{Name: "wrist girth", Side: body.Right, Value: 174},
		body.Entry{Name: "ankle girth", Side: body.Left, Value: 230}), nil)
	near(t, "left calf", get(t, m, "calf girth", body.Left).Value, 380, 0)
	near(t, "right calf", get(t, m, "calf girth", body.Right).Value, 396, 0)
	near(t, "calf", get(t, m, "calf girth", body.Both).Value, 388, 1e-9)
	near(t, "left wrist, no farther from the right than the tape's deviation", get(t, m, "wrist girth", body.Left).Value, 173, 1e-9)
	r := get(t, m, "ankle girth", body.Right)
	if r.Origin != body.Estimated || !(r.SD > 5) || r.Value != 230 {
		t.Errorf("the right ankle, of which only the left was taken, is %+v", r)
	}
	if get(t, m, "ankle girth", body.Left).Origin != body.Taped {
		t.Error("the left ankle is not taped")
	}
}

func TestEstimate_takesLayersOff(t *testing.T) {
	tape := man(body.Entry{Name: "thigh girth", Value: 640, Over: "undersuit"}, body.Entry{Name: "chest depth", Value: 260, Over: "undersuit"},
		body.Entry{Name: "knee height", Value: 520, Over: "shoes"})
	tape.Layers = []body.Layer{{Name: "undersuit", Thickness: 3}, {Name: "shoes", Thickness: 30, Segments: []body.Segment{body.Foot}}}
	m, f := estimate(t, tape, nil)
	if len(f) != 0 {
		t.Errorf("findings: %v", f)
	}
	near(t, "thigh", get(t, m, "thigh girth", body.Both).Value, 640-2*math.Pi*3, 1e-9)
	if sd := get(t, m, "thigh girth", body.Both).SD; !(sd > 8) {
		t.Errorf("the layer's doubt is lost: deviation %.2f", sd)
	}
	near(t, "chest depth", get(t, m, "chest depth", body.Both).Value, 254, 1e-9)
	near(t, "knee height", get(t, m, "knee height", body.Both).Value, 490, 1e-9)
	tape.Entries[2].Over = "coat"
	if _, _, err := body.Estimate(body.LoadSurvey(), tape, nil); err == nil || !strings.Contains(err.Error(), `"coat"`) || !strings.Contains(err.Error(), "undersuit, shoes") {
		t.Errorf("a layer that is not listed gives %v", err)
	}
}

func TestEstimate_widensBeyondTheSurvey(t *testing.T) {
	young, f := estimate(t, man(), nil)
	if len(f) != 0 {
		t.Errorf("findings on the mean man: %v", f)
	}
	old := man()
	old.Age = 70
	m, f := estimate(t, old, nil)
	if len(f) != 1 || !strings.Contains(f[0].Said, "70 years") {
		t.Errorf("at 70 years the findings are %v", f)
	}
	near(t, "wider by", get(t, m, "waist girth", body.Both).SD/get(t, young, "waist girth", body.Both).SD, 1.5, 1e-9)
	old.Entries[1].Value = 120
	m, _ = estimate(t, old, nil)
	heavy := man()
	heavy.Entries[1].Value = 120
	one, _ := estimate(t, heavy, nil)
	near(t, "wider by age and build", get(t, m, "waist girth", body.Both).SD/get(t, one, "waist girth", body.Both).SD, 1.7/1.5, 1e-9)
}

func TestEstimate_isNoGoodForChildren(t *testing.T) {
	child := body.Tape{Entries: []body.Entry{{Name: "stature", Value: 1300}, {Name: "head girth", Value: 530}}}
	m, f := estimate(t, child, nil)
	if report.Worst(f) != report.Problem {
		t.Errorf("findings: %v", f)
	}
	for _, x := range m.All() {
		if x.Origin == body.Estimated && x.SD < 0.2499*x.Value {
			t.Errorf("%s is estimated as %.0f ± %.0f", x.Name, x.Value, x.HalfWidth())
		}
	}
}

func TestEstimate_inventsNothing(t *testing.T) {
	m, _ := estimate(t, man(), nil)
	for _, n := range []body.Name{"underbust girth", "elbow girth", "armscye girth", "thumb length", "little finger girth"} {
		if x, ok := m.Get(n, body.Both); ok {
			t.Errorf("%s was invented: %+v", n, x)
		}
	}
	bare, _ := estimate(t, body.Tape{}, nil)
	w := get(t, bare, "weight", body.Both)
	if w.Origin != body.Estimated || w.SD < 10 {
		t.Errorf("knowing nothing, weight is %.0f ± %.0f kg", w.Value, w.HalfWidth())
	}
}

func TestEstimate_refusesWhatIsNobodys(t *testing.T) {
	for _, c := range []struct {
		entry body.Entry
		want  []string // all in the error
	}{
		{body.Entry{Name: "stature", Value: 500, Typed: "50 cm", Where: "wearer.yaml:4"}, []string{"wearer.yaml:4", "50 cm", "90.0 cm to 240.0 cm"}},
		{body.Entry{Name: "stature", Value: 690, Typed: "69 cm"}, []string{"perhaps 69 in"}},
		{body.Entry{Name: "head girth", Value: 754, Typed: "75.4 cm"}, []string{"48.0 cm to 68.0 cm", "perhaps 57.4 cm"}},
		{body.Entry{Name: "head girth", Value: 226, Typed: "22.6 cm"}, []string{"perhaps 22.6 in"}},
		{body.Entry{Name: "hed girth", Value: 570}, []string{`did you mean "head girth"`}},
		{body.Entry{Name: "head girth", Side: body.Left, Value: 570}, []string{"no side"}},
		{body.Entry{Name: "weight", Value: math.NaN()}, []string{"above zero"}},
		{body.Entry{Name: "weight", Value: math.Inf(1)}, []string{"above zero"}},
		{body.Entry{Name: "weight", Value: -3}, []string{"above zero"}},
		{body.Entry{Name: "weight", Value: 70, SD: -1}, []string{"deviation"}},
	} {
		_, _, err := body.Estimate(body.LoadSurvey(), body.Tape{Entries: []body.Entry{c.entry}}, nil)
		for _, w := range c.want {
			if err == nil || !strings.Contains(err.Error(), w) {
				t.Errorf("%v gives %v, which lacks %q", c.entry, err, w)
			}
		}
	}
}

func TestWith_movesBothSides(t *testing.T) {
	m, _ := estimate(t, man(body.Entry{Name: "calf girth", Side: body.Left, Value: 380}, body.Entry{Name: "calf girth", Side: body.Right, Value: 396}), nil)
	moved := m.With(map[body.Name]float64{"calf girth": 389})
	near(t, "left", get(t, moved, "calf girth", body.Left).Value, 381, 1e-9)
	near(t, "right", get(t, moved, "calf girth", body.Right).Value, 397, 1e-9)
	near(t, "left before", get(t, m, "calf girth", body.Left).Value, 380, 0)
}

func BenchmarkEstimate(b *testing.B) {
	s := body.LoadSurvey()
	for b.Loop() {
		if _, _, err := body.Estimate(s, man(body.Entry{Name: "head girth", Value: 574}), nil); err != nil {
			b.Fatal(err)
		}
	}
}
