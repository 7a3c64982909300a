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
	var told []string
	for _, n := range c.LookNotes {
		told = append(told, n.Subject)
	}
	if got := strings.Join(told, ", "); got != "vambrace, helm, open helmet" {
		t.Errorf("notes on %s, want one each on the vambrace, the helm and the open helmet", got)
	}
	if got := c.Orders[3].Settings["layout"]; got.Typed != "strips" {
		t.Errorf("the open helmet's layout is %v, want strips", got)
	}
	_, err = ReadCostume(CostumeFile, []byte("format: 1\nlook: {layout: strops}\npieces:\n- piece: open-helmet\n"), NewCatalogue(nil))
	if err == nil || !strings.Contains(err.Error(), `costume.yaml:2: layout: found "strops"; did you mean "strips"?`) {
		t.Errorf("a choice that no piece has: %v", err)
	}
}

// A paper that is not known is told with its line before any piece is made.
func TestReadCostume_paper(t *testing.T) {
	_, err := ReadCostume(CostumeFile, []byte("format: 1\npaper: A9\npieces:\n- piece: helm\n"), NewCatalogue(nil))
	if err == nil || !strings.Contains(err.Error(), `costume.yaml:2: paper "A9" is not known; write a name (`) {
		t.Errorf("%v", err)
	}
}
