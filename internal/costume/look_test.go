package costume

import (
	"strings"
	"testing"
)

// The look reaches every piece that has such a setting, gives way to the piece's
// own lines, and stops at a piece's limits with a note.
func TestLook(t *testing.T) {
	c, err := ReadCostume(CostumeFile, []byte(`format: 1
look: {ease: 30 mm, padding: 4 mm, layout: strips, thickness: 4 mm}
pieces:
  - piece: vambrace
  - {piece: vambrace, name: own, thickness: 8 mm, settings: {ease: 6 mm}}
  - piece: helm
  - {piece: open-helmet, settings: {padding: 9 mm}}
`), NewCatalogue(nil))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []struct {
		piece     int
		setting   string
		mm        float64
		thickness float64
	}{
		{0, "ease", 25, 4}, // the most that a vambrace takes
		{1, "ease", 6, 8},
		{2, "padding", 5, 4}, // the least that a helm takes
		{3, "padding", 9, 4},
	} {
		o := c.Orders[w.piece]
		if got := o.Settings[w.setting].Number; got != w.mm || o.Thickness != w.thickness {
			t.Errorf("%s: %s is %g mm in foam of %g mm, want %g and %g", o.Name, w.setting, got, o.Thickness, w.mm, w.thickness)
		}
	}
	if len(c.LookNotes) != 2 || c.LookNotes[0].Subject != "vambrace" || c.LookNotes[1].Subject != "helm" {
		t.Errorf("notes %v, want one on the vambrace and one on the helm", c.LookNotes)
	}
	if got := c.Orders[3].Settings["layout"]; got.Typed != "strips" {
		t.Errorf("the open helmet's layout is %v, want strips", got)
	}
	c, err = ReadCostume(CostumeFile, []byte("format: 1\nlook: {layout: slats}\npieces:\n- piece: open-helmet\n"), NewCatalogue(nil))
	if err != nil || len(c.LookNotes) != 1 || !strings.Contains(c.LookNotes[0].Said, `it has no layout "slats", which the look asks for; it keeps its own`) {
		t.Errorf("a choice that no piece has: %v, %v", c.LookNotes, err)
	}
	if _, set := c.Orders[0].Settings["layout"]; set {
		t.Error("a choice that the piece does not have was set")
	}
}
