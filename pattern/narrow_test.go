package pattern

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"
)

// trough is a box with a trough in its front, whose floor is so wide inside and rises
// at 60° on both sides.
const trough = `format: 1
title: Box
about: A box with a trough in it.
code: B
governs: []
thickness: %g mm
frame: {free: true}
rings:
  - {name: low, at: 0 mm, points: &p}
`

// The bevels of a plate that is folded by 60° on both sides set one of its faces back by
// 2·t·tan 30° (source: the mitre setback of two plates): of a floor of 10 mm, foam of
// 10 mm leaves nothing, and foam of 8 mm leaves something.
func TestNarrows(t *testing.T) {
	points := "[[5 mm, 30 mm], [16.55 mm, 50 mm], [50 mm, 50 mm], [50 mm, -50 mm], [-50 mm, -50 mm], [-50 mm, 50 mm], [-16.55 mm, 50 mm], [-5 mm, 30 mm]]"
	angles := "[9.46 deg, 18.32 deg, 45 deg, 135 deg, 225 deg, 315 deg, 341.68 deg, 350.54 deg]"
	for _, c := range []struct {
		thick float64
		tells bool
	}{{10, true}, {8, false}} {
		src := strings.Replace(fmt.Sprintf(trough, c.thick), "&p", points+", corners: "+angles, 1) +
			"  - {name: high, at: 90 mm, points: " + points + ", corners: " + angles + "}\n" +
			"bands:\n  - {name: wall, from: low, to: high, seams: {at: " + angles + "}}\n"
		fs := fstest.MapFS{"box.yaml": {Data: []byte(src)}}
		_, found, err := Make(context.Background(), []Order{{Name: "box", Template: "box"}}, fs, drawnForm(t), Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		taken := fmt.Sprintf("take %.1f mm", 2*c.thick*math.Tan(math.Pi/6))
		told := false
		for _, f := range found {
			told = told || strings.Contains(f.Said, "nothing is left") && strings.Contains(f.Said, "is 10 mm wide") && strings.Contains(f.Said, taken)
		}
		if told != c.tells {
			t.Errorf("of %g mm foam it is told %v, want %v: %v", c.thick, told, c.tells, found)
		}
	}
}
