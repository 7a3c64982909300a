package pattern

import (
	"context"
	"math"
	"strings"
	"testing"
	"testing/fstest"
)

const fingers = `format: 1
title: Fingers
about: Scales over two fingers.
code: FI
governs: [hand length]
thickness: 2 mm
frame: {free: true}
repeat:
  as: finger
  for:
    index: {length: 70 mm, girth: 60 mm}
    ring: {length: 80 mm, girth: 66 mm, x: 25 mm, y: -5 mm}
span: {from: -80 deg, to: 80 deg}
rings:
  - {name: tip, at: 0, size: {width: finger_girth / 3, depth: finger_girth / 3}}
  - {name: root, at: finger_length, size: {width: finger_girth / 3, depth: finger_girth / 3}}
lames: {from: tip, to: root, count: 3, overlap: 8 mm, over: upper over lower}
`

// Each copy has its own sizes, its own place and its own templates.
func TestRepeat_eachCopyByItsOwnSizes(t *testing.T) {
	p, _ := makeText(t, fingers)
	if len(p.Panels) != 6 {
		t.Fatalf("%d panels, want three for each of two fingers", len(p.Panels))
	}
	for name, want := range map[string]struct{ low, high, x float64 }{"index": {0, 70, 0}, "ring": {-5, 75, 25}} {
		low, high, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for i := range p.Panels {
			if !strings.HasPrefix(p.Panels[i].Name, name+", lame ") {
				continue
			}
			for _, v := range p.Panels[i].Surface.Bent {
				low, high, left, right = min(low, v.Y), max(high, v.Y), min(left, v.X), max(right, v.X)
			}
		}
		if math.Abs(low-want.low) > 1e-9 || math.Abs(high-want.high) > 1e-9 || math.Abs((left+right)/2-want.x) > 0.01 {
			t.Errorf("%s reaches from %.2f to %.2f mm about x = %.2f; want %.0f to %.0f about %.0f", name, low, high, (left+right)/2, want.low, want.high, want.x)
		}
	}
}

// A size that nobody has measured is asked for.
func TestRepeat_asksForSizes(t *testing.T) {
	text := strings.Replace(fingers, "length: 70 mm", "length: index_finger_length", 1)
	_, _, err := Make(context.Background(), []Order{{Name: "fingers", Template: "piece"}}, fstest.MapFS{"piece.yaml": {Data: []byte(text)}}, drawnForm(t), Material{K: 0.5})
	if err == nil || !strings.Contains(err.Error(), `finger "index"`) || !strings.Contains(err.Error(), "Measure it") {
		t.Errorf("%v; want it to ask for the size", err)
	}
}

// What stands at a place of one shape is on the first copy only, and that is said.
func TestRepeat_saysWhatCopiesLack(t *testing.T) {
	_, none := makeText(t, fingers)
	_, found := makeText(t, fingers+"marks:\n  - {name: nail, text: nail, angle: 0 deg, level: 20 mm}\n")
	if len(found) != len(none)+1 || !strings.Contains(found[len(found)-1].Said+found[0].Said, "repeated 2 times") {
		t.Errorf("%v, beside %v of one without marks", found, none)
	}
}
