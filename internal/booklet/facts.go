package booklet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"tasset/internal/units"
	"tasset/pattern"
)

// facts are the lists of an overview, in the order in which a maker needs them.
func facts(p *pattern.Piece, u units.Unit) []block {
	all := []block{
		{title: "Made for", entries: sizesOf(p, u)},
		{title: foamTitle(p), entries: foamOf(p, u)},
		{title: "Settings", entries: settingsOf(p, u)},
		{title: "Notes", entries: notesOf(p)},
		{title: "Panels", entries: panelsOf(p, u), fresh: true},
		{title: "Straps", entries: strapsOf(p, u)},
		{title: "Other fastenings", entries: fasteningsOf(p)},
		{title: "Seams, in an order to join them", entries: seamsOf(p, u)},
		{title: "Layers, glued face to face", entries: layersOf(p)},
	}
	var out []block
	for _, b := range all {
		if len(b.entries) > 0 {
			out = append(out, b)
		}
	}
	return out
}

func sizesOf(p *pattern.Piece, u units.Unit) []entry {
	var out []entry
	for _, g := range p.Governs {
		said := fmt.Sprintf("%s ± %s, %s", units.Format(g.Value, u), units.FormatDoubt(g.HalfWidth(), u), g.Origin)
		if g.Changed != "" {
			said += ", then changed by " + g.Changed + " after a fitting"
		}
		if !g.Good {
			said += "; not known well enough to cut by"
		}
		out = append(out, entry{strings.TrimSpace(g.Side.String() + " " + string(g.Name)), said})
	}
	return out
}

func foamTitle(p *pattern.Piece) string {
	if p.Flat {
		return "Foam"
	}
	return "Foam and fit"
}

// foamOf tells what the piece is made of and what was checked of its fit.
func foamOf(p *pattern.Piece, u units.Unit) []entry {
	mm := func(v float64) string { return units.FormatFine(v, u) }
	stuff := entry{"Foam", fmt.Sprintf("%s thick; its neutral line lies at %s of the thickness from the inner face", units.FormatFoam(p.Thickness, u), percent(p.K))}
	if p.MockUp {
		stuff = entry{"Mock-up", fmt.Sprintf("in card of about %s; do not cut foam by these pages", units.FormatFoam(p.Thickness, units.MM))}
	}
	if p.Flat && !p.MockUp {
		stuff.text = units.FormatFoam(p.Thickness, u) + " thick; cut square to its face"
	}
	out := append([]entry{stuff}, weightOf(p, u)...)
	if p.Flat {
		return out
	}
	if !p.Free {
		out = append(out, entry{"Clearance", clearanceOf(p, mm)})
	}
	if p.Deviation > 0 {
		out = append(out, entry{"Flat bends", fmt.Sprintf("%d panels; bent ones bend one way only and stand up to %s outside the rounded shape", p.Count(), mm(p.Deviation))})
	}
	if p.PushedOut > 0 {
		out = append(out, entry{"Pushed out", fmt.Sprintf("by %s, so that bent panels clear the body", mm(p.PushedOut))})
	}
	return out
}

// weightOf tells what the foam weighs, where its density is known.
func weightOf(p *pattern.Piece, u units.Unit) []entry {
	if p.Weight == 0 {
		return nil
	}
	pair := ""
	if p.Copies == 2 {
		pair = " for the pair"
	}
	return []entry{{"Weight", fmt.Sprintf("about %s%s, without paint and straps (reckoned from the panels' area and the density that you gave%s)", units.FormatLight(p.Weight, u), pair, padsWeigh(p))}}
}

// padsWeigh says what pads are reckoned as, if there are any.
func padsWeigh(p *pattern.Piece) string {
	for i := range p.Panels {
		if p.Panels[i].Role == pattern.Pad {
			return fmt.Sprintf("; pads as soft foam of %g kg per cubic metre, a rule of thumb", pattern.PadDensity)
		}
	}
	return ""
}

func percent(share float64) string { return strconv.FormatFloat(100*share, 'f', 0, 64) + " %" }

func settingsOf(p *pattern.Piece, u units.Unit) []entry {
	var out []entry
	for _, s := range p.Settings {
		said := s.Said(u)
		switch {
		case s.Asked != 0:
			said += fmt.Sprintf(" (%s asked for; the notes say why not)", strconv.FormatFloat(s.Asked, 'f', -1, 64))
		case s.Typed:
			said += ", set by you"
		}
		out = append(out, entry{s.Name, said})
	}
	return out
}

func notesOf(p *pattern.Piece) []entry {
	var out []entry
	for _, n := range p.Notes {
		out = append(out, entry{text: n})
	}
	return out
}

func panelsOf(p *pattern.Piece, u units.Unit) []entry {
	var out []entry
	for _, panel := range p.Panels {
		said := fmt.Sprintf("%s, cut %d", panel.Name, panel.Copies)
		if panel.Thick > 0 && (!p.MockUp || panel.Role == pattern.Pad) {
			stuff := "foam"
			if panel.Role == pattern.Pad {
				stuff = "soft foam"
			}
			said += fmt.Sprintf(" of %s of %s", stuff, units.FormatFoam(panel.Thick, u))
		}
		if panel.Flipped > 0 {
			said += fmt.Sprintf(", %d of them with the template turned over", panel.Flipped)
		}
		said += foldsOf(&panel) + formingOf(&panel)
		out = append(out, entry{panel.Label, strings.TrimPrefix(said, ", ")})
	}
	for _, s := range p.Sheets {
		out = append(out, entry{s.Name, fmt.Sprintf("of %s, cut %d of %s by %s: it has no template", s.Of, s.Count, units.Format(s.Long, u), units.Format(s.Broad, u))})
	}
	return out
}

// foldsOf tells a panel's folds, also where the panel is too small to say all of them.
func foldsOf(p *pattern.Panel) (said string) {
	var kinds []string
	angles := map[string][]float64{}
	for _, f := range p.Folds {
		if angles[f.Kind] == nil {
			kinds = append(kinds, f.Kind)
		}
		angles[f.Kind] = append(angles[f.Kind], math.Round(units.Deg(math.Abs(f.Angle))))
	}
	for _, kind := range kinds {
		low, high := slices.Min(angles[kind]), slices.Max(angles[kind])
		by := fmt.Sprintf("%.0f°", high)
		if low < high {
			by = fmt.Sprintf("%.0f° to %s", low, by)
		}
		folds := "a fold"
		if n := len(angles[kind]); n > 1 {
			folds = fmt.Sprintf("%d folds", n)
		}
		said += fmt.Sprintf("; %s by %s, %s", folds, by, kind)
	}
	return said
}

// formingOf tells how a formed panel is made, and of hatching if it has any.
func formingOf(p *pattern.Panel) string {
	if p.Formed == nil {
		return ""
	}
	if p.Formed.OnlyBends() {
		return "; heat it and bend it to shape: it need not stretch or gather"
	}
	what := "it must stretch a little"
	if slices.ContainsFunc(p.Marks, func(m pattern.Mark) bool { return m.Kind == pattern.MarkStretch || m.Kind == pattern.MarkGather }) {
		what = "hatched parts stretch"
	}
	return fmt.Sprintf("; heat it and form it: %s (up to %s over 95 %% of it) or gather (up to %s), and the edges keep their length", what, units.FormatStrain(p.Formed.Stretch.P95), units.FormatStrain(p.Formed.Gather.P95))
}
