package pattern

import (
	"fmt"
	"math"

	"tasset/internal/report"
	"tasset/internal/units"
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
	end := "above"
	if !lower {
		end = "below"
	}
	by := units.FormatFine(gap, b.order.Units)
	f := report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: s.Where,
		Said:    fmt.Sprintf("the piece ends up to %s %s the drawn edge %q; there its own rim stays.", by, end, s.Name),
		Perhaps: "Make the piece longer by that much: adjust its length, or its template."}
	if name, value := b.lengthens(lower, gap); name != "" {
		f.Perhaps = fmt.Sprintf("Set %q to %s or more.", name, value)
		if value == "" {
			f.Perhaps = fmt.Sprintf("Make the piece longer by that much with %q.", name)
		}
	}
	b.findings = append(b.findings, f)
}

// lengthens finds the setting that moves a rim out, and the value at which it
// reaches gap further; no value if the setting's range does not go so far, or
// it cannot be told.
func (b *builder) lengthens(lower bool, gap float64) (name, value string) {
	ring := b.template.Rings[len(b.template.Rings)-1]
	if lower {
		ring = b.template.Rings[0]
	}
	at := ring.At
	across := b.template.Frame.Axis == "across"
	if across && b.template.Span != nil {
		at = b.template.Span.From
	}
	most := 0.0
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
		if err != nil || err2 != nil || math.Abs(per) <= most+sameAngle {
			continue
		}
		most, name, value = math.Abs(per), s.Name, ""
		if lower {
			per = -per
		}
		if v := was + gap/per; !across && per > 0 && v <= s.Max {
			value = showSetting(s, math.Ceil(v))
		}
	}
	return name, value
}
