package pattern

import (
	"fmt"

	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"
)

// mostBought is how many of one thing a piece may need, and longestBought how long one
// may be, mm: more is a slip in a template (judgement).
const (
	mostBought    = 500
	longestBought = 5000.0
)

// addBought notes what the piece needs beside foam. A mock-up needs it too: its tubes,
// slots and holes are tried on the very rod or pipe, which is bought and measured before
// foam is cut.
func (b *builder) addBought(p *Piece) error {
	e := evaluator{env: b.env}
	for _, f := range b.template.Buy {
		if !e.on(f.When) {
			continue
		}
		out := Bought{Name: f.Name, Text: b.said(&e, f.Text), Count: 1,
			Thick: e.bought(f.Thickness, "thickness"), Wide: e.bought(f.Width, "width"), Long: e.bought(f.Length, "length")}
		if f.Count.Set() {
			out.Count = e.whole(f.Count, "such things", mostBought)
		}
		if e.err != nil {
			return fmt.Errorf("%s:%d: to buy %q: %w", b.template.File, f.Line, f.Name, e.err)
		}
		p.Bought = append(p.Bought, out)
	}
	return e.err
}

// bought is a measure of what is bought; 0 if it was left out.
func (e *evaluator) bought(f template.Formula, what string) float64 {
	v := e.num(f)
	if e.err == nil && f.Set() && !(v > 0 && v <= longestBought) {
		e.err = wrong(f, "its %s would be %.4g mm; it must be more than 0 and at most %g mm", what, v, longestBought)
	}
	return v
}

// doubts says which settings do not go together, at the first of them that the maker set.
func (b *builder) doubts() error {
	e := evaluator{env: b.env}
	for _, d := range b.template.Doubts {
		if !e.on(d.When) {
			continue
		}
		f := report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where, Said: b.said(&e, d.Text), Perhaps: b.said(&e, d.Perhaps)}
		uses := template.Uses(d)
		for _, s := range b.template.Settings {
			if at := b.order.Places[s.Name]; at != "" && uses[s.Ident] {
				f.Where = at
				break
			}
		}
		b.findings = append(b.findings, f)
	}
	return e.err
}

// said is a text of the template with its lengths in the piece's units.
func (b *builder) said(e *evaluator, s template.Said) (text string) {
	if e.err == nil {
		text, e.err = s.In(e.env, func(mm float64) string { return units.FormatSetting(mm, b.order.Units) })
	}
	return text
}

// note is what a mark of the template says.
func (b *builder) note(e *evaluator, m template.Mark) Mark {
	text := b.said(e, m.Text)
	if text == "" {
		text = m.Name
	}
	return Mark{Kind: "text", Text: text}
}

// markFlats puts notes on flat parts that are there.
func (b *builder) markFlats(p *Piece) error {
	e := evaluator{env: b.env}
	for _, m := range b.template.Marks {
		for _, on := range m.On {
			i := p.flatNamed(on)
			if i < 0 || !e.on(m.When) {
				continue
			}
			note := b.note(&e, m)
			note.Line = around(b.onFlat(on, e.num(m.X), e.num(m.Y)), 2*markSize, 0, false)
			p.Panels[i].Marks = append(p.Panels[i].Marks, note)
		}
	}
	return e.err
}
