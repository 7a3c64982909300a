package costume

import (
	"errors"
	"fmt"

	"tasset/body/photo"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"
)

// draw gives the orders the curves that were drawn for them on photographs, as
// rays in body axes. A curve on a photograph that cannot be used is left out,
// with a finding; the error names those that leave it.
func (f *Folder) draw(orders []pattern.Order, p *Photos, headOnForm geom.Frame) ([]report.Finding, error) {
	var findings []report.Finding
	var errs []error
	for i := range orders {
		o := &orders[i]
		for _, d := range f.Costume.Drawn {
			if d.Piece != o.Name {
				continue
			}
			errs = append(errs, p.inside(d))
			rays, bad := p.rays(d, headOnForm)
			if findings = append(findings, bad...); rays != nil {
				o.Drawn = append(o.Drawn, *rays)
				findings = append(findings, f.moved(o, d, p)...)
			}
		}
	}
	return findings, errors.Join(errs...)
}

// inside refuses a drawn curve with a point outside its photograph.
func (p *Photos) inside(d Drawn) error {
	i := p.shot(d.On)
	if i < 0 {
		return nil
	}
	s := p.Shots[i]
	for k, n := range d.Curve {
		if n.At.X > float64(s.Width) || n.At.Y > float64(s.Height) {
			return fmt.Errorf("%s: %s: %s %q: point %d, %v, lies outside %s, which is %d pixels wide and %d high", d.Where, d.Piece, d.Kind, d.Name, k+1, n.At, s.Name, s.Width, s.Height)
		}
	}
	return nil
}

// rays takes a drawn curve out of its photograph; nil with a finding if that
// cannot be.
func (p *Photos) rays(d Drawn, headOnForm geom.Frame) (*pattern.Drawn, []report.Finding) {
	if sight, why := p.sight(d.On); sight == nil {
		return nil, []report.Finding{{Level: report.Problem, Subject: d.Piece + ": " + d.Kind + " " + d.Name, Where: d.Where,
			Said: fmt.Sprintf("This curve is drawn on %s, so that the piece is made without it.", why)}}
	}
	view := p.Shots[p.shot(d.On)].View
	sub, at := p.solved(d.On, view)
	stand := geom.Identity()
	if view.OfHead() {
		stand = headOnForm
	}
	out := &pattern.Drawn{Kind: pattern.DrawnKind(d.Kind), Name: d.Name, Mirror: view != photo.HeadFront && view != photo.BodyFront, AsSeen: d.AsSeen, On: d.On, Where: d.Where}
	var curve []photo.Pixel
	for _, n := range d.Curve {
		curve, out.Corner = append(curve, n.At), append(out.Corner, n.Corner)
	}
	out.Eye, out.Rays = sub.Rays(at, stand, curve)
	return out, nil
}

// moved doubts a curve for a limb, which hangs otherwise in a picture of the
// whole body than on the form.
func (f *Folder) moved(o *pattern.Order, d Drawn, p *Photos) []report.Finding {
	t, err := f.Catalogue.Load(o.Template)
	if err != nil || !onLimb(t) || p.Shots[p.shot(d.On)].View.OfHead() {
		return nil
	}
	return []report.Finding{{Level: report.Doubt, Subject: d.Piece + ": " + d.Kind + " " + d.Name, Where: d.Where,
		Said:    "Arms and legs stand otherwise in a picture than on the body form, so that this curve may lie some centimetres off.",
		Perhaps: "Look at the piece's overview, and make it in card first."}}
}
