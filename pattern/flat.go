package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// Flat is a flat piece by its outline, as it was traced over a photograph: a
// closed curve that runs smoothly through points in millimetres, x to the right
// and y up as its show face is seen, in either sense.
type Flat struct {
	Points []r2.Vec
	Corner []bool  // where the curve turns sharply; nil: nowhere
	Share  float64 // 95 % half-width of its size, as a share of it: 0.03
	Known  bool    // its size hangs on a length that the maker knows, not on how far it stood from the lens
}

// How long and how narrow a traced piece may be, mm: more or less is a slip in
// a scale (judgement).
const (
	longestFlat   = 3000.0
	narrowestFlat = 8.0
)

// flatThickness is the foam of a traced piece when neither it nor the material
// says (common practice, no source: blades and flat props).
const flatThickness = 10.0

// surest is the 95 % error of its size, as a share, up to which a traced piece
// is fit to cut (judgement: 5 % of a hand's length is 9 mm, seen beside the
// hand that holds it).
const surest = 0.05

// makeFlat makes a piece of one flat panel of a traced outline.
func makeFlat(o Order, m Material) (*Piece, []report.Finding, error) {
	if o.Template != "" || len(o.Settings) > 0 || len(o.Adjust) > 0 || len(o.Drawn) > 0 {
		return nil, nil, fmt.Errorf("a traced outline is the whole piece; it has no template, settings, adjustments or drawn curves")
	}
	outline, err := o.Flat.outline(o.Units)
	if err != nil {
		return nil, nil, err
	}
	p := &Piece{Name: o.Name, Title: "Flat piece", About: "Cut flat along an outline that was traced over a photograph.",
		Code: "F", Flat: true, Copies: 1, MockUp: o.MockUp, K: m.K, Frame: geom.Identity(), Units: o.Units}
	if p.Thickness, err = flatFoam(o, m); err != nil {
		return nil, nil, err
	}
	line := append(append([]r2.Vec(nil), outline...), outline[0])
	p.Panels = []Panel{{Number: 1, Label: p.Code + "1", Copies: 1, Outline: outline, Up: r2.Vec{Y: 1},
		Edges: []Edge{{Kind: Rim, Line: line, Length: geom.Length(line)}}}}
	size := o.Flat.size(outline, o.Units)
	p.Notes = append(p.Notes, size)
	p.Panels[0].Notes = append(p.Panels[0].Notes, size)
	return p, o.Flat.judge(p, o), nil
}

func flatFoam(o Order, m Material) (float64, error) {
	t := flatThickness
	switch {
	case o.MockUp:
		t = card
	case o.Thickness > 0:
		t = o.Thickness
	case m.Thickness > 0:
		t = m.Thickness
	}
	if t < card || t > thickest {
		return 0, fmt.Errorf("the foam would be %g mm thick; it is from %g to %g mm", t, card, thickest)
	}
	return t, nil
}

// outline is the line to cut, counter-clockwise, its box's lower left corner at
// the origin.
func (f *Flat) outline(u units.Unit) ([]r2.Vec, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	corner := f.Corner
	if corner == nil {
		corner = make([]bool, len(f.Points))
	}
	ring := geom.SmoothRing(f.Points, corner, smoothStep)
	box := geom.Bounds(ring)
	wide, high := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	if max(wide, high) > longestFlat {
		return nil, fmt.Errorf("its outline is %s long; %s is the most. Look at its scale: the known length, or the depth", units.Format(max(wide, high), u), units.Format(longestFlat, u))
	}
	if min(wide, high) < narrowestFlat {
		return nil, fmt.Errorf("its outline is only %s across; %s is the least that can be cut of foam. Look at its scale: the known length, or the depth", units.Format(min(wide, high), u), units.Format(narrowestFlat, u))
	}
	if i, j, bad := geom.Crossing(ring); bad {
		return nil, fmt.Errorf("its outline crosses itself, between points %d and %d; draw it once round, without loops, its points in turn",
			f.pointAt(ring, i), f.pointAt(ring, j))
	}
	for i, p := range ring {
		ring[i] = r2.Sub(p, box.Min)
	}
	return geom.CCW(ring), nil
}

func (f *Flat) check() error {
	if len(f.Points) < 3 {
		return fmt.Errorf("its outline has too few points: %d; three are the least", len(f.Points))
	}
	if f.Corner != nil && len(f.Corner) != len(f.Points) {
		return fmt.Errorf("its outline has %d points, and of %d it is said whether they are corners", len(f.Points), len(f.Corner))
	}
	if !(f.Share >= 0 && f.Share < 1) {
		return fmt.Errorf("the error of its size is %g of it; it can be from 0 to 1", f.Share)
	}
	for i, p := range f.Points {
		if math.IsNaN(r2.Norm2(p)) || math.IsInf(r2.Norm2(p), 0) {
			return fmt.Errorf("point %d of its outline has no place", i+1)
		}
		if q := f.Points[(i+1)%len(f.Points)]; geom.Dist(p, q) < geom.Coincident {
			return fmt.Errorf("points %d and %d of its outline are one place; leave one of them out", i+1, (i+1)%len(f.Points)+1)
		}
	}
	return nil
}

// pointAt is the number of the traced point at or before a place of the smooth
// outline.
func (f *Flat) pointAt(ring []r2.Vec, i int) int {
	n := 0
	for _, p := range ring[:i+1] {
		if n < len(f.Points) && p == f.Points[n] {
			n++
		}
	}
	return max(n, 1)
}

// size says how large the piece is, how sure that is, and what it rests on.
func (f *Flat) size(outline []r2.Vec, u units.Unit) string {
	box := geom.Bounds(outline)
	long, short := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	if long < short {
		long, short = short, long
	}
	on := "how far it stood from the camera"
	if f.Known {
		on = "a length on it that you know"
	}
	return fmt.Sprintf("Traced from a photograph: %s long ± %s and %s across ± %s (estimated, 95 %%), by %s.",
		units.Format(long, u), units.FormatDoubt(f.Share*long, u), units.Format(short, u), units.FormatDoubt(f.Share*short, u), on)
}

// judge makes a piece whose size is too unsure a draft.
func (f *Flat) judge(p *Piece, o Order) []report.Finding {
	if f.Share <= surest {
		return nil
	}
	p.Draft = true
	p.DraftWhy = "give a length on it that you know, as \"known\", instead of its depth"
	if f.Known {
		p.DraftWhy = "mark a longer stretch that you know on it, as \"known\""
	}
	return []report.Finding{{Level: report.Problem, Subject: o.Name, Where: o.Where,
		Said:    fmt.Sprintf("this piece is a draft, not fit to cut: its size is known to ± %.0f %% only; ± %.0f %% is the most.", 100*f.Share, 100*surest),
		Perhaps: "To make it ready, " + p.DraftWhy + "."}}
}
