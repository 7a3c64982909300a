package costume

import (
	"context"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"tasset/internal/booklet"
	"tasset/internal/draw"
	"tasset/internal/units"
)

// What a formed panel's page says of stretching and gathering is what the overview of its
// piece says, and no less than it is.
func TestStrain_isToldAlike(t *testing.T) {
	r, err := Shape(context.Background(), openSuit(t), Options{Only: []string{"breastplate", "greave"}}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	onPage := regexp.MustCompile(`stretch up to ([0-9.]+ %), gather up to ([0-9.]+ %)`)
	checked := 0
	for i := range r.Set.Pieces {
		p := &r.Set.Pieces[i]
		var overview strings.Builder
		for _, page := range booklet.Overview(p, 210, 297, units.CM) {
			for _, it := range page.Items {
				if text, ok := it.(*draw.Text); ok {
					overview.WriteString(text.S + " ")
				}
			}
		}
		for _, panel := range p.Panels {
			if panel.Formed == nil || panel.Formed.OnlyBends() {
				continue
			}
			m := onPage.FindStringSubmatch(strings.Join(panel.Notes, " "))
			if m == nil {
				t.Fatalf("%s says nothing of stretching: %q", panel.Label, panel.Notes)
			}
			checked++
			said := fmt.Sprintf("(up to %s over 95 %% of it) or gather (up to %s)", m[1], m[2])
			if !strings.Contains(overview.String(), said) {
				t.Errorf("the page of %s says %q; the overview does not say %q", panel.Label, m[0], said)
			}
			for k, is := range []float64{panel.Formed.Stretch.P95, panel.Formed.Gather.P95} {
				var told float64
				if _, err := fmt.Sscanf(m[k+1], "%g", &told); err != nil || told < 100*is-100*units.LeastStrain {
					t.Errorf("%s is told %q of %.2f %%", panel.Label, m[k+1], 100*is)
				}
			}
		}
	}
	if checked < 4 {
		t.Errorf("only %d formed panels were looked at", checked)
	}
}
