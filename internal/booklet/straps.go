package booklet

import (
	"fmt"
	"slices"
	"strings"

	"tasset/internal/units"
	"tasset/pattern"
)

// strapsOf lists what is cut of webbing and elastic: where it goes, how long it
// is and why.
func strapsOf(p *pattern.Piece, u units.Unit) []entry {
	var out []entry
	for _, s := range p.Straps {
		said := fmt.Sprintf("%s, cut %d", kindOf(s), s.Count)
		if p.Copies == 2 && s.Count%2 == 0 {
			said += fmt.Sprintf(" (%d for each side)", s.Count/2)
		}
		said += fmt.Sprintf(", %s wide", units.Format(s.Width, u))
		if s.Length > 0 {
			said += fmt.Sprintf(" and %s long", units.Format(s.Length, u))
		}
		switch {
		case s.To == "":
			said += fmt.Sprintf(", from %s; how long is not known, as its other end is on no panel: hold the piece where it is worn and measure", s.From)
		case s.Other != "":
			said += fmt.Sprintf(", from %s to %s of the %s", s.From, s.To, s.Other)
		case s.OnCopy:
			said += fmt.Sprintf(", from one %s to the other, which is turned over", s.From)
		case s.To == s.From:
			said += fmt.Sprintf(", from one mark on %s to the other%s", s.From, copiesOf(p, s))
		default:
			said += fmt.Sprintf(", from %s to %s", s.From, s.To)
		}
		if s.Hidden {
			said += ", inside both: buckle it before you put them on"
		}
		out = append(out, entry{fmt.Sprintf("%s %d", s.Name, s.Number), said + divided(p, s, u) + reckoned(s, u)})
	}
	return out
}

// copiesOf tells on which copies of its panel the two marks of a strap are, where it is
// not on all.
func copiesOf(p *pattern.Piece, s pattern.Strap) string {
	var on []string
	for i := range p.Panels {
		for _, m := range p.Panels[i].Marks {
			if p.Panels[i].Label == s.From && m.Only != "" && shows(m, s) {
				on = append(on, strings.TrimPrefix(m.Only, "only "))
			}
		}
	}
	switch {
	case len(on) != 2:
		return ""
	case on[0] == on[1]:
		return fmt.Sprintf(" (both %s)", on[0])
	}
	return fmt.Sprintf(" (one %s, the other %s)", on[0], on[1])
}

// kindOf tells what a strap is made of, and how one that opens by a pull does.
func kindOf(s pattern.Strap) string {
	if s.Kind == "strap with hook-and-loop" {
		return stuffOf(s.Kind) + ": one end is fixed, hooks sewn on the other hold on loops"
	}
	return stuffOf(s.Kind)
}

// stuffOf is what a kind of strap is made of, as it stands in every list.
func stuffOf(kind string) string {
	switch kind {
	case "strap":
		return "plain webbing"
	case "strap and buckle":
		return "webbing with a buckle"
	case "strap with hook-and-loop":
		return "webbing that opens by a pull"
	}
	return kind
}

// reckoned tells where a strap's length comes from.
func reckoned(s pattern.Strap, u units.Unit) string {
	switch {
	case s.Round > 0:
		return fmt.Sprintf(" (%s from anchor to anchor, round %s that go through behind the piece: arithmetic; the rest is a rule of thumb)", units.Format(s.Path, u), units.Format(s.Round, u))
	case s.Path > 0:
		return fmt.Sprintf(" (%s from anchor to anchor, measured on the drawn shape; the rest is a rule of thumb)", units.Format(s.Path, u))
	}
	return ""
}

// divided tells what becomes of a strap's length: what lies glued under its marks,
// and what is stretched, left to pull, or hangs slack.
func divided(p *pattern.Piece, s pattern.Strap, u units.Unit) string {
	mm := func(v float64) string { return units.Format(v, u) }
	switch free := s.Length - 2*s.Patch; {
	case s.Length == 0 || s.Patch == 0:
		return ""
	case s.Kind == "elastic" && free > 0 && s.Path > s.Patch:
		return fmt.Sprintf("; %s of it is glued on at either end, and the %s between stretch to %s when worn", mm(s.Patch), units.Rest(s.Length, u, s.Patch, s.Patch), units.Rest(s.Path, u, s.Patch))
	case s.Kind == "strap and buckle":
		short := s.Patch + 2*s.Width
		return fmt.Sprintf("; cut it in two: %s with the buckle sewn on (folded round its bar by %s), and a tongue of %s; %s of each is glued on, and about %s of the tongue are left to pull", mm(short), mm(s.Width), units.Rest(s.Length, u, short), mm(s.Patch), mm(s.Length-s.Path-s.Patch-s.Width))
	case s.Kind == "strap with hook-and-loop":
		return fmt.Sprintf("; %s of it is glued on at the fixed end, and the hooks are as long; the %s behind them are left to pull it open by", mm(s.Patch), units.Rest(s.Length, u, s.Path, s.Patch))
	case s.Kind == "strap" && slack(p, s) > 0:
		return fmt.Sprintf("; glued on at each of its marks, and slack by about %s from one to the next", mm(slack(p, s)))
	}
	return ""
}

// slack is how much longer than the way a strap of lames is from one of its marks to
// the next: it hangs slack when they are straight.
func slack(p *pattern.Piece, s pattern.Strap) float64 {
	spare, ways := s.Length-s.Path-s.Patch, marksOf(p, s)-1
	if ways < 1 || spare <= 0 {
		return 0
	}
	return spare / float64(ways)
}

// marksOf counts the parts of a run of lames that a strap is glued to.
func marksOf(p *pattern.Piece, s pattern.Strap) (n int) {
	has := func(m pattern.Mark) bool { return shows(m, s) }
	for _, part := range p.Chain {
		for i := range p.Panels {
			if slices.Contains(part, p.Panels[i].Label) && slices.ContainsFunc(p.Panels[i].Marks, has) {
				n++
				break
			}
		}
	}
	return n
}

// shows tells whether a mark shows where a strap is fixed.
func shows(m pattern.Mark, s pattern.Strap) bool {
	name := fmt.Sprintf("%s %d", s.Name, s.Number)
	return m.Kind != pattern.MarkRest && (m.Text == name || strings.HasPrefix(m.Text, name+","))
}
