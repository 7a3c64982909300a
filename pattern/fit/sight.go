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

// Sight is what the wearer sees out of a piece, in whole degrees.
type Sight struct {
	Wide int // with either eye, level
	High int // straight ahead, with either eye
}

// SightOf looks out of a head piece from the wearer's pupils.
func SightOf(p *pattern.Piece, form *body.Form) Sight {
	walls := both(p)
	locator := geom.NewLocator(walls)
	var eyes []r3.Vec
	for _, e := range form.Eyes() {
		eyes = append(eyes, p.Frame.Local(e))
	}
	sees := func(yaw, pitch float64) bool {
		sy, cy := math.Sincos(units.Rad(yaw))
		sp, cp := math.Sincos(units.Rad(pitch))
		d := r3.Vec{X: sy * cp, Y: sp, Z: cy * cp}
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

// both are the inner and the outer face: a thick edge hides more than a line.
func both(p *pattern.Piece) geom.Mesh {
	out := faces(p, -p.K*p.Thickness, (*pattern.Panel).Trimmed)
	out.Append(faces(p, (1-p.K)*p.Thickness, (*pattern.Panel).Trimmed))
	return out
}

// sight grades what can be seen. The grades are ours, from walking trials: a
// width from 75° up and a height from 48° up did not slow people down, 30° and
// 18° clearly did (Percept. Mot. Skills 2008, 107, 811-826).
func sight(p *pattern.Piece, form *body.Form) []report.Finding {
	s := SightOf(p, form)
	f := report.Finding{Level: report.Note, Subject: p.Name, Said: fmt.Sprintf("the wearer sees about %d° wide and %d° high out of it, with still eyes.", s.Wide, s.High)}
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
