package tile

import (
	"math"
	"strings"
	"testing"
)

func TestParsePaper_sizes(t *testing.T) {
	for s, want := range map[string][2]float64{
		"a3": {297, 420}, "LETTER": {215.9, 279.4}, "300 x 400 mm": {300, 400}, "400x300mm": {300, 400}, "12 x 18 in": {304.8, 457.2},
		"12 in x 18 in": {304.8, 457.2}, "roll 610 mm": {610, 5000}, "roll 24 in": {609.6, 5000},
	} {
		p, err := ParsePaper(s)
		if err != nil || math.Abs(p.Width-want[0]) > 1e-9 || math.Abs(p.Height-want[1]) > 1e-9 {
			t.Errorf("%q: %v × %v, %v; want %v", s, p.Width, p.Height, err, want)
		}
	}
}

func TestParsePaper_refuses(t *testing.T) {
	for _, s := range []string{"", "A9", "300 x 400", "100 x 100 mm", "roll", "roll 50 mm", "6 x 7 m", "-300 x 400 mm", "300 x mm"} {
		if p, err := ParsePaper(s); err == nil {
			t.Errorf("%q was read as %+v", s, p)
		}
	}
}

func TestCorrected_refusesWhatIsNotThePrinter(t *testing.T) {
	p, _ := ParsePaper("A4")
	for _, c := range []struct {
		x, y float64
		says string
	}{{95, 95, "shrinks"}, {103, 103, "enlarges"}, {100, 96, "differ"}, {9.9, 9.9, "in mm"}, {math.NaN(), 100, "in mm"}, {98.4, 98.4, "shrinks"}} {
		if _, err := p.Corrected(c.x, c.y); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, %v: %v; want a message with %q", c.x, c.y, err, c.says)
		}
	}
	if q, err := p.Corrected(98.6, 101.4); err != nil || math.Abs(q.Correct.X-(100/98.6-1)) > 1e-12 {
		t.Errorf("98.6, 101.4: %+v, %v", q, err)
	}
}
