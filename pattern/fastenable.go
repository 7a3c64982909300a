package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// From when on the ends of a strap are doubted (judgement).
const (
	leastOnFoam = 0.8     // of a patch that lies on the panel, or over a seam on the next one
	mostShared  = 3.0     // how deep two patches lie over each other, mm
	mostBehind  = 1.0 / 3 // of a patch that lies where the lame behind slides
	buckleRoom  = 2.0     // of a strap's widths, between what is glued on of it at both ends: a buckle, and the webbing round its bar (common practice, no source)
)

// fastenable holds straps to what their ends need: foam below them, a place of their
// own, and a way between them.
func (s *Set) fastenable() (found []report.Finding) {
	for i := range s.Pieces {
		p := &s.Pieces[i]
		said := map[string]bool{}
		doubt := func(text, perhaps string) {
			if !said[text] {
				said[text] = true
				found = append(found, report.Finding{Level: report.Doubt, Subject: p.Name, Said: text, Perhaps: perhaps})
			}
		}
		for j := range p.Panels {
			p.Panels[j].fastenable(doubt)
		}
		for _, t := range p.Straps {
			if least := t.leastPath(); t.To != "" && t.Path < least {
				doubt(fmt.Sprintf("its %s %d is only %s from anchor to anchor, and %s of it lie glued on at either end: no buckle of %s goes between.", t.Name, t.Number, units.Format(t.Path, p.Units), units.Format(t.Patch, p.Units), units.Format(t.Width, p.Units)),
					fmt.Sprintf("Sew or glue a piece of webbing there, without a buckle; or set its ends %s apart or more, in the template of the %s.", units.Format(least, p.Units), p.Name))
			}
		}
	}
	return found
}

// leastPath is how far apart the anchors of a strap must be at least, mm: of one with a
// buckle, so that it has room between its patches.
func (s *Strap) leastPath() float64 {
	if s.Kind != "strap and buckle" {
		return 0
	}
	return s.Patch + buckleRoom*s.Width
}

func (p *Panel) fastenable(doubt func(text, perhaps string)) {
	for i, m := range p.Marks {
		if glued(m) {
			p.onItsFoam(m, doubt)
		}
		if len(m.Axis) == 0 {
			continue
		}
		p.offTheLameBehind(m, doubt)
		for k, o := range p.Marks {
			if k == i || len(o.Axis) > 0 && k > i || o.Kind != "fastening" && o.Kind != "pad" || !o.Close || onOthers(m.Only, o.Only) || depth(m.Line, o.Line) <= mostShared {
				continue
			}
			doubt(fmt.Sprintf("%s and %s want the same place of panel %s.", naming(m), naming(o), p.Label),
				"Move one of them in the template, or glue one over the other.")
		}
	}
}

func (p *Panel) onItsFoam(m Mark, doubt func(text, perhaps string)) {
	if on := p.onFoam(m.Line); on < leastOnFoam {
		doubt(fmt.Sprintf("%.0f %% of the end of %s lies off panel %s.", math.Round(100*(1-on)/5)*5, naming(m), p.Label),
			"Cut that end shorter and fix it with a rivet too, or take a narrower strap, or move the place in the template.")
	}
}

// offTheLameBehind doubts a patch on a lame's inner face that found no place off the
// lame behind: glued on there, it holds that one fast, or is sheared off.
func (p *Panel) offTheLameBehind(m Mark, doubt func(text, perhaps string)) {
	if strings.Contains(m.Text, "outside") {
		return
	}
	n := 0
	for q := range placesIn(m.Line) {
		if slices.ContainsFunc(p.behind, func(ring []r2.Vec) bool { return geom.Inside(ring, q) }) {
			n++
		}
	}
	if behind := float64(n) / patchPlaces; behind > mostBehind {
		doubt(fmt.Sprintf("%.0f %% of the patch of %s on panel %s lie where the lame behind slides: no place off it was found.", math.Round(100*behind/5)*5, naming(m), p.Label),
			fmt.Sprintf("Glue only what of it stays clear of that lame when you bend the run both ways, and stitch or rivet it there; or ask for fewer lames or thinner foam, so that more of %s is free.", p.Label))
	}
}

// glued tells whether a mark is of what is glued on: the end of a strap, or
// hook-and-loop that does not lie along an edge, where it may go over that of a lap.
func glued(m Mark) bool {
	return len(m.Axis) > 0 || m.Kind == "fastening" && len(m.Line) == 4 && (strings.Contains(m.Text, ", hooks") || strings.Contains(m.Text, ", loops"))
}

// onFoam is how much of a patch of four corners lies on the panel or beyond one of
// its seams, where the next panel is when it is glued on.
func (p *Panel) onFoam(c []r2.Vec) float64 {
	on, cover := 0, p.cover()
	for q := range placesIn(c) {
		if cover.covers(q) || p.nearestKind(q) == Butt {
			on++
		}
	}
	return float64(on) / patchPlaces
}

// nearestKind is the kind of the edge that is nearest to a point.
func (p *Panel) nearestKind(q r2.Vec) (kind EdgeKind) {
	least := math.Inf(1)
	for _, e := range p.Edges {
		for i := 0; i+1 < len(e.Line); i++ {
			if d := geom.DistToSegment(q, e.Line[i], e.Line[i+1]); d < least {
				kind, least = e.Kind, d
			}
		}
	}
	return kind
}

// naming is what a mark says of the fastening, without which part of it.
func naming(m Mark) string {
	name, _, _ := strings.Cut(m.Text, ",")
	return name
}
