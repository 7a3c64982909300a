package costume

import (
	"fmt"

	"tasset/body/photo"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"
)

// draw gives the orders the curves that were drawn for them on photographs, as
// rays in body axes. A curve on a photograph that cannot be used is left out,
// with a finding.
func (f *Folder) draw(orders []pattern.Order, p *Photos, headOnForm geom.Frame) []report.Finding {
	var findings []report.Finding
	for i := range orders {
		o := &orders[i]
		for _, d := range f.Costume.Drawn {
			if d.Piece != o.Name {
				continue
			}
			rays, bad := p.rays(d, headOnForm)
			if findings = append(findings, bad...); rays != nil {
				o.Drawn = append(o.Drawn, *rays)
			}
		}
	}
	return findings
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
	out := &pattern.Drawn{Kind: pattern.DrawnKind(d.Kind), Name: d.Name, Mirror: view != photo.HeadFront && view != photo.BodyFront, AsSeen: d.AsSeen, Where: d.Where}
	var curve []photo.Pixel
	for _, n := range d.Curve {
		curve, out.Corner = append(curve, n.At), append(out.Corner, n.Corner)
	}
	out.Eye, out.Rays = sub.Rays(at, stand, curve)
	return out, nil
}
