package body_test

import (
	"testing"

	"tasset/body"
)

// Source: hat makers' size tables, 51 to 65 cm and the US label of each.
func TestHatSize_isTheTables(t *testing.T) {
	labels := []float64{6.375, 6.5, 6.625, 6.75, 6.875, 7, 7.125, 7.25, 7.375, 7.5, 7.625, 7.75, 7.875, 8, 8.125}
	for i, want := range labels {
		cm := 51 + i
		if got := body.HatSize(float64(cm * 10)); got != want {
			t.Errorf("%d cm is US %v, the tables say %v", cm, got, want)
		}
		// A label is rounded to 1/8 in of diameter: 5 mm either way.
		near(t, "girth of the label", body.HatGirth(want), float64(cm*10), 5)
		if got := body.EuropeanHatSize(body.HatGirth(want)); got != cm {
			t.Errorf("US %v is EU %d, the tables say %d", want, got, cm)
		}
	}
}
