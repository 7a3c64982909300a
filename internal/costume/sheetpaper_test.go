package costume

import "testing"

// Sheets of photographs stand on the whole paper (source: ISO 216), and on a
// piece of a roll.
func TestSheetPaper(t *testing.T) {
	f, err := openPrinter(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for wish, want := range map[string][2]float64{"A4": {210, 297}, "A0": {841, 1189}, "roll 610 mm": {610, longestSheet}} {
		p, err := f.sheetPaper(wish)
		if err != nil || p.Width != want[0] || p.Height != want[1] {
			t.Errorf("%s: %v × %v mm (%v), want %v", wish, p.Width, p.Height, err, want)
		}
	}
}
