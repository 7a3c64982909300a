package pattern_test

import (
	"context"
	"math"
	"regexp"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/units"
	. "tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r3"
)

// A rim that comes near another part of the body says near which, and where: held
// against the distance of every point of every rim, looked for one by one.
func TestRimNear_saysWhichPartAndWhere(t *testing.T) {
	form := drawBody(t, 1)
	said := regexp.MustCompile(`^the rim of panel (\w+) (?:touches|comes within \S+ mm of) the (.*), at about (\S+ mm) over the floor`)
	for _, c := range []struct {
		piece, setting string
		mm             float64
		part           string
		segment        body.Segment
		side           body.Side
	}{
		{"gorget", "chin dip", 0, "head", body.Head, body.Both},
		{"vambrace", "wrist gap", 0, "hand", body.Hand, body.Left},
		{"side-plates", "arm drop", 50, "left upper arm", body.UpperArm, body.Left},
	} {
		set, findings, err := Make(context.Background(), []Order{{Name: c.piece, Template: c.piece, Settings: map[string]Value{c.setting: {Number: c.mm}}}}, templates.FS, form, Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		var m []string
		for _, f := range findings {
			if found := said.FindStringSubmatch(f.Said); found != nil {
				m = found
				if !strings.Contains(f.Perhaps, "settings") {
					t.Errorf("%s: nothing says what to do: %q", c.piece, f.Perhaps)
				}
			}
		}
		if m == nil {
			t.Errorf("%s with %s of %g mm: nothing is said of its rim: %v", c.piece, c.setting, c.mm, findings)
			continue
		}
		part, ok := form.Part(c.segment, c.side)
		if !ok {
			t.Fatalf("no %s", c.part)
		}
		label, at := nearestOfRims(&set.Pieces[0], part)
		height, err := units.ParseLength(m[3], units.None)
		if err != nil || m[2] != c.part || m[1] != label || math.Abs(height-at.Y) > 0.51 {
			t.Errorf("%s: said %q; nearest to the %s is %s at %.1f mm", c.piece, m[0], c.part, label, at.Y)
		}
	}
}

// nearestOfRims is the place on a piece's rims that is nearest to a part of the body.
func nearestOfRims(p *Piece, part *body.Part) (label string, at r3.Vec) {
	least := math.Inf(1)
	for i := range p.Panels {
		panel := &p.Panels[i]
		lifter := panel.Surface.Lifter()
		for _, e := range panel.Edges {
			if e.Kind != Rim || e.Gap || panel.Role != OfShell {
				continue
			}
			for _, q := range e.Line {
				v := p.Frame.Point(lifter.Lift(q))
				if d := part.Nearer(v, math.Inf(1)); d < least {
					least, label, at = d, panel.Label, v
				}
			}
		}
	}
	return label, at
}
