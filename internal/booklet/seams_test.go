package booklet

import (
	"strings"
	"testing"

	"tasset/internal/units"
	"tasset/pattern"
)

// seamed is a piece of one seam whose spans are bevelled so, on panels of their own.
func seamed(bevels ...pattern.Bevel) *pattern.Piece {
	p := &pattern.Piece{}
	s := pattern.Seam{Number: 1, Kind: pattern.Butt}
	for i, b := range bevels {
		p.Panels = append(p.Panels, pattern.Panel{Label: "A", Edges: []pattern.Edge{{Seam: 1, Span: i + 1, Bevel: b}}})
		ref := pattern.EdgeRef{Panel: i}
		s.Spans = append(s.Spans, pattern.Span{To: 10, Sides: [2]pattern.EdgeRef{ref, ref}})
	}
	p.Seams = []pattern.Seam{s}
	return p
}

func TestSeamText_saysWhichFaceOfWhichSpan(t *testing.T) {
	in := func(low, high float64) pattern.Bevel {
		return pattern.Bevel{Min: units.Rad(low), Max: units.Rad(high), Undercut: true}
	}
	out := func(low, high float64) pattern.Bevel { return pattern.Bevel{Min: units.Rad(low), Max: units.Rad(high)} }
	for name, c := range map[string]struct {
		spans []pattern.Bevel
		want  string
	}{
		"the first span is square, the last is not": {[]pattern.Bevel{out(0, 1), in(1, 11)}, "1 square cut, 1b bevel 1° to 11° inside"},
		"all of it is square":                       {[]pattern.Bevel{out(0, 1), in(2, 5)}, "square cut"},
		"of three two are alike":                    {[]pattern.Bevel{in(20, 22), in(1, 4), in(20, 22)}, "1 and 1c bevel 21° inside, 1b square cut"},
		"even":                                      {[]pattern.Bevel{in(20, 22), in(20, 22)}, "bevel 21° inside"},
		"even, but told apart on the panels":        {[]pattern.Bevel{in(24.2, 25.4), in(26.4, 26.8)}, "bevel 25° to 27° inside"},
		"several in a row":                          {[]pattern.Bevel{in(1, 4), in(1, 3), out(1, 2), in(1, 11)}, "1 to 1c square cut, 1d bevel 1° to 11° inside"},
		"both faces":                                {[]pattern.Bevel{out(9, 13), in(1, 11)}, "1 bevel 9° to 13° outside, 1b bevel 1° to 11° inside"},
	} {
		p := seamed(c.spans...)
		if got := seamText(p, &p.Seams[0], units.MM); !strings.HasSuffix(got, ", "+c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// Parts of a seam are told by the names that stand on the panels, each with its length.
func TestSeamText_namesTheParts(t *testing.T) {
	p := seamed(pattern.Bevel{}, pattern.Bevel{}, pattern.Bevel{})
	p.Panels[2].Label = "B"
	for i, to := range []float64{42, 24, 10} {
		p.Seams[0].Spans[i].From, p.Seams[0].Spans[i].To = 100, 100+to
	}
	if got, want := seamText(p, &p.Seams[0], units.CM), "A to the next one, 1: 4.2 cm + 1b: 2.4 cm; B to the next one, 1c: 1.0 cm, butt, square cut"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	p.Seams[0].Spans = p.Seams[0].Spans[:1]
	if got, want := seamText(p, &p.Seams[0], units.CM), "A to the next one, 4.2 cm, butt, square cut"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestPanelsOf_saysFoldsAndForming(t *testing.T) {
	folded := pattern.Panel{Label: "A", Folds: []pattern.Fold{{Kind: "grooved inside", Angle: units.Rad(21)}, {Kind: "grooved inside", Angle: units.Rad(-25)}, {Kind: "scored outside", Angle: units.Rad(9)}}}
	formed := pattern.Panel{Label: "B", Formed: &pattern.Formed{Stretch: pattern.Spread{P95: 0.004}}}
	hatched := formed
	hatched.Marks = []pattern.Mark{{Kind: pattern.MarkStretch}}
	said := panelsOf(&pattern.Piece{Panels: []pattern.Panel{folded, formed, hatched, {Label: "D", Formed: &pattern.Formed{Gather: pattern.Spread{P95: 0.0004}}}}}, units.MM)
	for i, want := range []string{"2 folds by 21° to 25°, grooved inside; a fold by 9°, scored outside", "it must stretch", "hatched parts stretch", "bend it to shape: it need not stretch or gather"} {
		if !strings.Contains(said[i].text, want) {
			t.Errorf("%q does not say %q", said[i].text, want)
		}
	}
	if strings.Contains(said[1].text, "hatched") {
		t.Errorf("told of hatching that is not there: %q", said[1].text)
	}
}
