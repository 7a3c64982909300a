package costume

import (
	"fmt"

	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"
	"tasset/pattern/template"
)

// lookKey is where costume.yaml says what holds for the whole costume.
const lookKey = "look"

// wish is one line of the look: a setting's name and value for every piece that
// has a setting of that name, or the thickness of the foam.
type wish struct {
	value
	thickness float64  // mm; of the key "thickness" only
	used      bool     // a piece has such a setting
	granted   bool     // a piece can be so
	broken    bool     // it cannot be read, and that is told already
	choices   []string // of the pieces that chose otherwise
}

func readLook(v value, c *Costume) []*wish {
	var out []*wish
	for _, e := range v.entries("write settings with their values, such as \"trim: 12 mm\"") {
		w := &wish{value: e}
		if e.key == "thickness" {
			w.used, w.thickness = true, e.foam(c.Units)
			if m := c.Material; m.Thickness > 0 {
				e.fail("found %s here and %g mm under \"material\"; keep one of them", e.text(), m.Thickness)
			}
		}
		c.lookAt = append(c.lookAt, e.where())
		out = append(out, w)
	}
	return out
}

// dress gives a piece what the look says and its own lines do not.
func (p *pieceReader) dress(o *pattern.Order, t *template.Template) {
	for _, w := range p.look {
		if w.key == "thickness" {
			if o.Thickness == 0 {
				o.Thickness = w.thickness
			}
			continue
		}
		s, ok := settingOf(t, w.key)
		if !ok {
			continue
		}
		w.used = true
		if _, own := o.Places[s.Name]; !own && !w.broken {
			p.grant(o, t, s, w)
		}
	}
}

// grant gives a piece one line of the look, as far as the piece can follow: what
// suits most pieces of a costume must not stop the one that has less room.
func (p *pieceReader) grant(o *pattern.Order, t *template.Template, s template.Setting, w *wish) {
	before := len(w.r.errs)
	var n float64
	if s.Unit == "choice" {
		if n = choiceOf(s, w.text()); n < 0 {
			w.choices = append(w.choices, s.Choices...)
			p.note(o, w, "has no %s %q, which the look asks for; it keeps its own", s.Name, w.text())
			return
		}
	} else {
		n = p.number(w.value, s)
	}
	if len(w.r.errs) > before {
		w.broken = true
		return
	}
	w.granted = true
	v := pattern.Value{Number: min(max(n, s.Min), s.Max), Percent: s.Unit == "percent", Typed: w.typed()}
	if s.Unit == "choice" {
		v.Number = n
	} else if !inReach(s, n) {
		v.Typed = ShowSetting(s, v.Number)
		p.note(o, w, "takes %s from %s to %s; the look asks for %s, so it is made with %s", s.Name, ShowSetting(s, s.Min), ShowSetting(s, s.Max), w.text(), v.Typed)
	}
	o.Settings[s.Name], o.Places[s.Name] = v, w.where()
}

func (p *pieceReader) note(o *pattern.Order, w *wish, format string, args ...any) {
	p.costume.LookNotes = append(p.costume.LookNotes, report.Finding{Level: report.Note, Subject: o.Name, Where: w.where(),
		Said:    "it " + fmt.Sprintf(format, args...) + ".",
		Perhaps: "Write the piece's own " + w.key + " under its \"settings\" if another suits it better."})
}

// unworn tells of the lines of the look that no piece can follow: of a setting that
// other pieces have, a note, as the pieces of a costume come and go.
func (p *pieceReader) unworn() {
	for _, w := range p.look {
		switch {
		case !w.used && len(p.costume.Orders) > 0 && p.someHave(w.key):
			p.costume.LookNotes = append(p.costume.LookNotes, report.Finding{Level: report.Note, Subject: lookKey, Where: w.where(),
				Said: fmt.Sprintf("none of the pieces has the setting %q, so this line does nothing.", w.key)})
		case !w.used && len(p.costume.Orders) > 0:
			w.r.fail(w.line, "found %q in the look, and none of the pieces has a setting of that name%s", w.key, p.perhaps(w.key))
		case len(w.choices) > 0 && !w.granted:
			w.among(w.choices)
		}
	}
}

// someHave tells whether any piece that can be made has a setting of that name.
func (p *pieceReader) someHave(setting string) bool {
	for _, name := range p.catalogue.Names() {
		if t, err := p.catalogue.Load(name); err == nil {
			if _, ok := settingOf(t, setting); ok {
				return true
			}
		}
	}
	return false
}

// lookNotes are those of the pieces that are made.
func (f *Folder) lookNotes(orders []pattern.Order) []report.Finding {
	var out []report.Finding
	for _, n := range f.Costume.LookNotes {
		if n.Subject == lookKey {
			out = append(out, n)
		}
		for _, o := range orders {
			if o.Name == n.Subject {
				out = append(out, n)
			}
		}
	}
	return out
}

func settingOf(t *template.Template, name string) (template.Setting, bool) {
	for _, s := range t.Settings {
		if s.Name == name {
			return s, true
		}
	}
	return template.Setting{}, false
}

// choiceOf is the number of a choice, below 0 if there is none of that name.
func choiceOf(s template.Setting, word string) float64 {
	for i, c := range s.Choices {
		if c == word {
			return float64(i)
		}
	}
	return -1
}

// inReach tells whether a setting may have a value.
func inReach(s template.Setting, n float64) bool {
	return n >= s.Min-units.Rad(1e-6) && n <= s.Max+units.Rad(1e-6)
}
