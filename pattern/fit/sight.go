package fit

import (
	"fmt"
	"math"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"

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

// SightOf looks from the wearer's pupils out of what is worn on the head
// together: a visor over a helmet hides what either hides.
func SightOf(pieces []*pattern.Piece, form *body.Form) Sight {
	head, ok := form.Part(body.Head, body.Both)
	if !ok {
		return Sight{}
	}
	locator := geom.NewLocator(walls(pieces))
	eyes := form.Eyes()
	sees := func(yaw, pitch float64) bool {
		d := head.Frame.Dir(looking(yaw, pitch))
		for _, e := range eyes {
			if _, _, hit := locator.Hit(e, d); !hit {
				return true
			}
		}
		return false
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

// walls are the inner and the outer faces of pieces in body axes: a thick edge
// hides more than a line.
func walls(pieces []*pattern.Piece) geom.Mesh {
	var out geom.Mesh
	for _, p := range pieces {
		for _, d := range []float64{-p.K * p.Thickness, (1 - p.K) * p.Thickness} {
			out.Append(placed(p, faces(p, d, (*pattern.Panel).Trimmed)))
		}
	}
	return out
}

// placed is a mesh in piece axes brought into body axes.
func placed(p *pattern.Piece, m geom.Mesh) geom.Mesh {
	for i, v := range m.V {
		m.V[i] = p.Frame.Point(v)
	}
	return m
}

// sight grades what can be seen. The grades are ours, from walking trials: a
// width from 75° up and a height from 48° up did not slow people down, 30° and
// 18° clearly did (Percept. Mot. Skills 2008, 107, 811-826).
func sight(worn headwear, form *body.Form) []report.Finding {
	s := SightOf(worn, form)
	if s.Wide == 2*sideways && s.High == upward+downward {
		return nil
	}
	f := report.Finding{Level: report.Note, Subject: worn[0].Name, Said: fmt.Sprintf("the wearer sees about %d° wide and %d° high out of it%s, with still eyes.", s.Wide, s.High, worn.others())}
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
