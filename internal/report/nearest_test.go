package report

import "testing"

func TestNearest(t *testing.T) {
	known := []string{"vambrace", "greave", "open-helmet", "helm", "mock-up"}
	for typed, want := range map[string]string{
		"vambrase": "vambrace", "graeve": "greave", "Open helmet": "open-helmet", "helmm": "helm",
		"mockup": "mock-up", "pauldron": "", "": "", "x": "",
	} {
		if got := Nearest(typed, known); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", typed, got, want)
		}
	}
}
