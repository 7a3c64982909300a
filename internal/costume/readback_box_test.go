package costume

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/booklet"
	"tasset/internal/draw"
	"tasset/internal/units"
	"tasset/pattern"
	"tasset/templates"
	"tasset/tile"
)

// A pouch as a stranger reads it off the pages, in foam of any thickness: the edges of
// its walls lie on each other, each says how it is cut, and the drawings show every
// panel and every seam.
func TestPages_aBoxReadByAStranger(t *testing.T) {
	m, _, err := body.Estimate(body.LoadSurvey(), body.Tape{Sex: body.Woman, Age: 30, Entries: []body.Entry{
		{Name: "stature", Value: 1690}, {Name: "weight", Value: 66}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	form, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		t.Fatal(err)
	}
	for _, thickness := range []float64{3, 5, 10} {
		t.Run(fmt.Sprintf("%g mm foam", thickness), func(t *testing.T) {
			set, _, err := pattern.Make(context.Background(), []pattern.Order{{Name: "belt", Template: "belt", Thickness: thickness}}, templates.FS, form, pattern.Material{K: 0.5})
			if err != nil {
				t.Fatal(err)
			}
			paper, _ := tile.ParsePaper("2400 x 1200 mm")
			plan, _, err := tile.Lay(context.Background(), set, paper, nil)
			if err != nil {
				t.Fatal(err)
			}
			pages := plan.Pages()
			reading := readPages(plan, pages)
			for _, err := range reading.faults {
				t.Error(err)
			}
			if reading.gap > 0.1 || reading.edges < 2*20+4 {
				t.Errorf("%d edges meet within %.2f mm, want 44 or more, within 0.1 mm", reading.edges, reading.gap)
			}
			said := textsOf(pages)
			if n, hinged := said["bevel 45° inside"], said["hinge of cloth"]; n != 20 || hinged != 2 {
				t.Errorf("%d edges say that they are bevelled, and %d that cloth joins them; want 20 and 2", n, hinged)
			}
			shown := textsOf(booklet.Overview(&set.Pieces[0], 210, 297, units.MM))
			for _, p := range set.Pieces[0].Panels {
				if shown[p.Label] < 2 { // in a drawing, and in the list
					t.Errorf("no drawing shows %s, %s", p.Label, p.Name)
				}
			}
			for _, s := range set.Pieces[0].Seams {
				if s.Kind != pattern.Closure && shown[fmt.Sprint(s.Number)] == 0 {
					t.Errorf("no drawing shows seam %d", s.Number)
				}
			}
		})
	}
}

// textsOf counts what stands on pages.
func textsOf(pages []draw.Page) map[string]int {
	out := map[string]int{}
	for _, page := range pages {
		for _, it := range page.Items {
			if text, ok := it.(*draw.Text); ok {
				out[strings.TrimSpace(text.S)]++
			}
		}
	}
	return out
}
