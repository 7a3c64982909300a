package pattern

import "testing"

// On a limb, which is built as a left one, the outer side is the wearer's left
// (Source: the axes of docs/templates.md).
func TestFacingOf_limb(t *testing.T) {
	for limb, trunk := range map[string]string{"outer": "left", "inner": "right"} {
		if got, want := facingOf(limb), facingOf(trunk); got != want {
			t.Errorf("%s looks to %v, want %v", limb, got.out, want.out)
		}
	}
}

// Of a piece that is its own mirror image, two flat parts off the middle are one
// on either side, whatever way they face; two on the middle are alike.
func TestFlats_oneOnEitherSide(t *testing.T) {
	for _, facing := range []string{"front", "bottom", "left"} {
		for x, flipped := range map[string]int{"80 mm": 1, "0 mm": 0} {
			p, _ := makeText(t, tube+"flats:\n  - {name: plate, count: 2, facing: "+facing+", x: "+x+", points: [[0 mm, 0 mm], [30 mm, 0 mm], [20 mm, 40 mm]]}\n")
			if got := named(t, p, "plate").Flipped; got != flipped {
				t.Errorf("facing %s at x %s: %d turned over, want %d", facing, x, got, flipped)
			}
		}
	}
}
