package pattern_test

import (
	"context"
	"fmt"
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
		{"helm", "count: breathing_holes", "count: 1000000", "holes; it can have from 0 to 400"},
		{"helm", "radius: 3 mm", "radius: 0 mm", "a hole has a radius of 0 mm"},
		{"gauntlet", "width: 0.34 * hand_breadth + 2 * ease", "width: -30 mm", "would be -30 mm wide; a drawn ring can be from"},
		{"gauntlet", "full: 2.6", "full: 0", "has full: 0; it can be from 1"},
		{"gauntlet", "when: point > 0\n    points:\n      - [-90 deg", "when: point >= 0\n    points:\n      - [10 deg", "its angles must grow"},
		{"sabaton", "count: lames", "count: 0", "the number of lames is 0; it can be from 1"},
		{"sabaton", "count: lames", "count: 2.5", "the number of lames is 2.5; it must be a whole number"},
		{"sabaton", "overlap: 16 mm", "overlap: -20 mm", "the overlap of the lames is -20 mm"},
		{"sabaton", "through: bend", "through: 900 deg", "can through 0 to 270°"},
		{"sabaton", "to: 0.5 * sides", "to: 300 deg", "the span goes through"},
		{"sabaton", "plate: 40 %", "plate: 150 %", "the plate of the dome is 150 %"},
		{"sabaton", "at: instep - 2 mm", "at: toes - 2 mm", "not above ring"},
		{"gauntlet", "{name: cuff, from: wrist,", "{name: cuff, from: knuckles,", "band \"cuff\" lies where band \"back of the hand\" does"},
		{"sabaton", "width: 25 mm", "width: -30 mm", "the width of the elastic is -30 mm"},
		{"sabaton", "\nmarks:", "\nfolds: [{at: 77 deg, kind: bent}]\nmarks:", "a crease at 77° to fold; there are some at 0°"},
	} {
		src, err := fs.ReadFile(templates.FS, c.template+".yaml")
		if err != nil {
			t.Fatal(err)
		}
		changed := strings.Replace(string(src), c.old, c.new, 1)
		if changed == string(src) {
			t.Fatalf("%s does not have %q", c.template, c.old)
		}
		where := strings.Index(string(src), c.old) + strings.LastIndex(c.new, "\n") + 1
		if c.new[0] == '\n' {
			where = strings.Index(string(src), c.old) + 1
		}
		line := fmt.Sprintf("own.yaml:%d:", strings.Count(changed[:where], "\n")+1)
		own := fstest.MapFS{"own.yaml": {Data: []byte(changed)}}
		o := pattern.Order{Name: "own", Template: "own", Where: "costume.yaml:4"}
		if strings.Contains(c.new, "start:") {
			o.Settings = map[string]pattern.Value{"panels": {Number: 3, Typed: "3"}}
		}
		_, _, err = pattern.Make(context.Background(), []pattern.Order{o}, own, form, pattern.Material{K: 0.5})
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.HasPrefix(err.Error(), "costume.yaml:4: own: ") || !strings.Contains(err.Error(), line) {
			t.Errorf("%s gives %v; want %q", c.new, err, c.says)
		}
	}
}

// Panels that are too few to be formed easily get darts, mirror images too; where
// those do not help, the setting that says how many is named: it is what the maker
// has.
func TestMake_fewFormedPanels(t *testing.T) {
	src, err := fs.ReadFile(templates.FS, "skull-cap.yaml")
	if err != nil {
		t.Fatal(err)
	}
	own := fstest.MapFS{"own.yaml": {Data: []byte(strings.Replace(string(src), "min: 6", "min: 3", 1))}}
	o := pattern.Order{Name: "own", Template: "own", Settings: map[string]pattern.Value{"gores": {Number: 3, Typed: "3"}}}
	set, _, err := pattern.Make(context.Background(), []pattern.Order{o}, own, drawBody(t, 3), pattern.Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	pattern.CheckPiece(t, &set.Pieces[0])
	darts := 0
	for _, panel := range set.Pieces[0].Panels {
		if panel.Formed != nil && panel.Formed.Dart > 0 {
			darts++
		}
	}
	if darts == 0 {
		t.Error("no panel has a dart")
	}
	_, _, err = pattern.Make(context.Background(), []pattern.Order{o}, own, drawBody(t, 3), pattern.Material{K: 0.5, Stretch: 0.02, Gather: 0.01})
	if err == nil || !strings.Contains(err.Error(), `Set "gores" to more.`) {
		t.Errorf("%v, want it to name the setting", err)
	}
}
