package fit

import (
	"fmt"
	"math"
	"slices"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// How far the eye is followed to the sides and up and down: the bare field is
// about 200° wide and 135° high (doctoral thesis on visual field limits, see
// the README).
const (
	sideways = 100
	upward   = 60
	downward = 75
)

// Sight is what the wearer sees out of pieces, in whole degrees.
type Sight struct {
	Wide int // with either eye, level
	High int // straight ahead, with either eye
}

// sight looks from the wearer's pupils past the faces of what is worn on the head
// together: a visor over a helmet hides what either hides.
func (h headwear) sight(form *body.Form, walls *geom.Locator) Sight {
	head, ok := form.Part(body.Head, body.Both)
	if !ok {
		return Sight{}
	}
	eyes := form.Eyes()
	sees := func(yaw, pitch float64) bool {
		d := head.Frame.Dir(looking(yaw, pitch))
		return slices.ContainsFunc(eyes[:], func(e r3.Vec) bool { return !walls.Blocks(e, d) })
	}
	var s Sight
	for a := -sideways; a < sideways; a++ {
		if sees(float64(a)+0.5, 0) {
			s.Wide++
		}
	}
	for a := -downward; a < upward; a++ {
		if sees(0, float64(a)+0.5) {
			s.High++
		}
	}
	return s
}

// looking is the direction so many degrees to the left and up, on the head.
func looking(yaw, pitch float64) r3.Vec {
	sy, cy := math.Sincos(units.Rad(yaw))
	sp, cp := math.Sincos(units.Rad(pitch))
	return r3.Vec{X: sy * cp, Y: sp, Z: cy * cp}
}

// seeing grades what can be seen. The grades are ours, from walking trials: a
// width from 75° up and a height from 48° up did not slow people down, 30° and
// 18° clearly did (Percept. Mot. Skills 2008, 107, 811-826).
func (h headwear) seeing(s Sight) []report.Finding {
	if s.Wide == 2*sideways && s.High == upward+downward {
		return nil
	}
	f := report.Finding{Level: report.Note, Subject: h[0].Name, Said: fmt.Sprintf("the wearer sees about %d° wide and %d° high out of it%s, with still eyes.", s.Wide, s.High, h.others())}
	switch {
	case s.Wide == 0 && s.High == 0:
		f.Level = report.Problem
		f.Perhaps = "The eyes look at foam: move the eye opening to the level of the pupils."
	case s.Wide < 30 || s.High < 18:
		f.Level = report.Doubt
		f.Perhaps = "That is very narrow: have a helper beside you whenever you walk, and take no stairs alone."
	case s.Wide < 75 || s.High < 48:
		f.Perhaps = "That is narrow: walk slowly, with a helper."
	}
	return []report.Finding{f}
}
