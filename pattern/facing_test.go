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
