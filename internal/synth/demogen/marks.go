package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/synth"
)

// click is a place of the picture to the tenth of a pixel, as a hand finds it
// that points at p with some scatter, mm at the subject.
func click(cam photo.Camera, p r3.Vec, sd float64, chance *rand.Rand) photo.Pixel {
	at := cam.Project(p)
	px := sd * cam.Focal / cam.Frame.Local(p).Z
	tenth := func(v float64) float64 { return math.Round(v*10) / 10 }
	return photo.Pixel{X: tenth(at.X + px*chance.NormFloat64()), Y: tenth(at.Y + px*chance.NormFloat64())}
}

// marked is the picture with everything marked that it shows.
func (s shot) marked(cam photo.Camera, f *body.Form, chance *rand.Rand) photo.Shot {
	out := photo.Shot{Name: "photos/" + s.file + ".jpg", View: s.view, Width: width, Height: height, F35: float64(s.f35), Lens: "invented"}
	out.Ruler = &photo.Ruler{From: click(cam, s.ruler.At(0), photo.RulerClick, chance), To: click(cam, s.ruler.At(s.ruler.Length), photo.RulerClick, chance), Length: s.ruler.Length}
	add := func(l photo.Landmark, p r3.Vec) {
		out.Marks = append(out.Marks, photo.Mark{Name: l.Name, At: click(cam, p, l.Click, chance)})
	}
	if s.view.OfHead() {
		h := synth.FormHead(f)
		for _, l := range h.Look(s.view, synth.Seen(cam, h.Place)) {
			add(l.Landmark, h.Place.Point(l.Point))
		}
		return out
	}
	standing := synth.NewStanding(f)
	for _, l := range photo.BodyLandmarks() {
		if l.SeenIn(s.view) {
			add(l, standing.Mark(l.Name, cam, 0))
		}
	}
	return out
}

// entry is the picture's entry in wearer.yaml.
func entry(s photo.Shot) string {
	var b strings.Builder
	place := func(p photo.Pixel) string { return fmt.Sprintf("[%.1f, %.1f]", p.X, p.Y) }
	fmt.Fprintf(&b, "  - picture: %s\n    view: %s\n", s.Name, s.View)
	fmt.Fprintf(&b, "    ruler: {from: %s, to: %s, length: %.0f mm}\n    marks:\n", place(s.Ruler.From), place(s.Ruler.To), s.Ruler.Length)
	for _, m := range s.Marks {
		fmt.Fprintf(&b, "      %s: %s\n", m.Name, place(m.At))
	}
	return b.String()
}

// truth tells what callipers and a tape would find on the form.
func truth(h *synth.Head) string {
	var b strings.Builder
	lengths := h.Lengths()
	for _, n := range []string{"head length", "head breadth", "face length", "face breadth", "pupil distance", "ear to crown", "ear to ear", "chin to crown", "head girth"} {
		fmt.Fprintf(&b, "# %-14s %.1f mm\n", n, math.Round(lengths[n]*10)/10)
	}
	return b.String()
}
