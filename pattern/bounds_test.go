package pattern_test

import (
	"context"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/pattern"
	"tasset/templates"
)

// A template whose formulas give sizes that no piece has is refused in a
// sentence, before memory or time are spent on it.
func TestMake_sizesThatNoPieceHas(t *testing.T) {
	form := drawBody(t, 3)
	for _, c := range []struct{ template, old, new, says string }{
		{"vambrace", "ease: ease", "ease: 99999 mm", "an ease is 99999 mm"},
		{"vambrace", "\nease: ease", "\nease: -30 mm", "ease and padding together are"},
		{"vambrace", "ease: flare", "ease: -99999 mm", "an ease is"},
		{"vambrace", "{count: panels, start: -90 deg}", "{count: 1000, start: -90 deg}", "the number of seams of arm is 1000"},
		{"vambrace", "{count: panels, start: -90 deg}", "{count: 0, start: -90 deg}", "from 1 to 60"},
		{"vambrace", "width: 0 mm", "width: -20 mm", "the gap is -20 mm"},
		{"vambrace", "lap: lap", "lap: 5 m", "the lap is 5000 mm"},
		{"vambrace", "thickness: 5 mm", "thickness: 99 mm", "the foam would be 99 mm thick"},
		{"greave", "rise: crease", "rise: 5 m", "the rise of a crease"},
		{"helm", "count: breathing_holes", "count: 1000000", "holes; 400 are the most"},
		{"helm", "radius: 3 mm", "radius: 0 mm", "a hole has a radius of 0 mm"},
	} {
		src, err := fs.ReadFile(templates.FS, c.template+".yaml")
		if err != nil {
			t.Fatal(err)
		}
		changed := strings.Replace(string(src), c.old, c.new, 1)
		if changed == string(src) {
			t.Fatalf("%s does not have %q", c.template, c.old)
		}
		own := fstest.MapFS{"own.yaml": {Data: []byte(changed)}}
		o := pattern.Order{Name: "own", Template: "own", Where: "costume.yaml:4"}
		if strings.Contains(c.new, "start:") {
			o.Settings = map[string]pattern.Value{"panels": {Number: 3, Typed: "3"}}
		}
		_, _, err = pattern.Make(context.Background(), []pattern.Order{o}, own, form, pattern.Material{K: 0.5})
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.HasPrefix(err.Error(), "costume.yaml:4: own: ") {
			t.Errorf("%s gives %v; want %q", c.new, err, c.says)
		}
	}
}
