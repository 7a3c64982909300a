package pattern

import (
	"fmt"
	"math"

	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"
)

// noteSteps says where a rim that is drawn from the front ends above the rest.
func (b *builder) noteSteps(s *sketch, path *rimPath, lower bool) {
	most := max(path.toRim(0, lower), path.toRim(len(path.at)-1, lower))
	if most < smallestStep {
		return
	}
	b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: s.Where,
		Said:    fmt.Sprintf("the drawn edge %q ends %s off the rim of the rest, at the side; there the rim has a step.", s.Name, units.Format(most, b.order.Units)),
		Perhaps: "Carry the curve on until it runs out over the rim, or draw it on a photograph from the side."})
}

// shortEnd (judgement): so far before the outline of the piece a drawn edge may
// end and still be meant to reach it.
const shortEnd = 10.0

// noteShort says that an edge ends before the outline of what is seen.
func (b *builder) noteShort(s *sketch, by float64) {
	if by < shortEnd {
		return
	}
	b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: s.Where,
		Said:    fmt.Sprintf("the drawn edge %q ends at least %s before the outline of the piece; from there it is carried on level.", s.Name, units.Format(by, b.order.Units)),
		Perhaps: "Draw it on to the outline, or a little past it."})
}

// smallestStep (judgement): a step in a rim that a knife makes smooth.
const smallestStep = 3.0

// noteTooShort says by how much the piece ends before a drawn edge, and what
// makes it longer.
func (b *builder) noteTooShort(s *sketch, lower bool, gap float64) {
	end, nearer := "above", "higher"
	if !lower {
		end, nearer = "below", "lower"
	}
	by := units.FormatFine(gap, b.order.Units)
	f := report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: s.Where,
		Said:    fmt.Sprintf("the piece ends up to %s %s the drawn edge %q; there its own rim stays.", by, end, s.Name),
		Perhaps: fmt.Sprintf("Make the piece longer by that much (adjust its length, or its template), or draw the curve that much %s.", nearer)}
	if l := b.lengthener(lower); l != nil {
		f.Perhaps = l.remedy(gap, nearer)
	}
	b.findings = append(b.findings, f)
}

// lengthener is the setting that moves a rim out.
type lengthener struct {
	template.Setting
	now   float64
	per   float64 // mm that the rim moves out for one of the setting
	about bool    // how far is a rule of thumb
}

// lengthener finds the setting that moves a rim the most; nil if there is none.
func (b *builder) lengthener(lower bool) *lengthener {
	ring := b.template.Rings[len(b.template.Rings)-1]
	if lower {
		ring = b.template.Rings[0]
	}
	at := ring.At
	across := b.template.Frame.Axis == "across" && b.template.Span != nil
	if across {
		at = b.template.Span.From
	}
	var best *lengthener
	most := sameAngle
	for _, s := range b.template.Settings {
		if s.Unit != "mm" {
			continue
		}
		was := b.env[s.Ident]
		before, err := at.Eval(b.env)
		b.env[s.Ident] = was + 1
		after, err2 := at.Eval(b.env)
		b.env[s.Ident] = was
		per := after - before
		if err != nil || err2 != nil || math.Abs(per) <= most {
			continue
		}
		most = math.Abs(per)
		if lower {
			per = -per
		}
		if across { // the rim is an angle there; it moves about as the setting does
			per = math.Copysign(1, per)
		}
		best = &lengthener{s, was, per, across}
	}
	return best
}

// remedy says what to set so that the rim comes gap further out, and how much
// nearer the curve must be drawn where the setting does not go so far.
func (l *lengthener) remedy(gap float64, nearer string) string {
	want, limit, round, on := l.now+gap/l.per, l.Max, math.Ceil, "more"
	if l.per < 0 {
		limit, round, on = l.Min, math.Floor, "less"
	}
	about := ""
	if l.about {
		about = "about "
	}
	want = round(want)
	if want >= l.Min && want <= l.Max {
		if l.about {
			return fmt.Sprintf("Set %q to about %s, and look again.", l.Name, showSetting(l.Setting, want))
		}
		return fmt.Sprintf("Set %q to %s or %s.", l.Name, showSetting(l.Setting, want), on)
	}
	rest := math.Ceil(gap - (limit-l.now)*l.per)
	if math.Abs(limit-l.now) < geom.Detail {
		return fmt.Sprintf("Draw the curve at least %s%g mm %s: %q, which makes the piece longer, is at its limit, %s.", about, rest, nearer, l.Name, showSetting(l.Setting, limit))
	}
	return fmt.Sprintf("%q makes the piece longer, but goes to %s only: set that, and draw the curve at least %s%g mm %s.", l.Name, showSetting(l.Setting, limit), about, rest, nearer)
}
