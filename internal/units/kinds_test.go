package units

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A sheet of 3/8 in is called that in inches, and one that is sold by the millimetre
// is not called a hundredth of an inch (1 in = 25.4 mm by definition).
func TestFormatFoam(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		u    Unit
		want string
	}{
		{9.525, Inch, "3/8 in"}, {9.5, Inch, "3/8 in"}, {6.35, Inch, "1/4 in"}, {12.7, Inch, "1/2 in"}, {4.7625, Inch, "3/16 in"}, {25.4, Inch, "1 in"},
		{2, Inch, "2 mm"}, {12, Inch, "12 mm"}, {5, Inch, "5 mm"}, {0.05, Inch, "0.1 mm"},
		{9.525, CM, "9.5 mm"}, {10, CM, "10 mm"}, {2.5, MM, "2.5 mm"}, {0.5, None, "0.5 mm"},
	} {
		if got := FormatFoam(c.mm, c.u); got != c.want {
			t.Errorf("foam of %g mm in %v is %q, want %q", c.mm, c.u, got, c.want)
		}
	}
}

// Foam that must be no thicker than a limit is not written thicker.
func TestFoamDown_isNeverWrittenThicker(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(0.5, 60).Draw(t, "mm")
		u := rapid.SampledFrom([]Unit{MM, CM, Inch}).Draw(t, "unit")
		down := FoamDown(mm, u)
		if down == 0 {
			return
		}
		back, err := ParseLength(FormatFoam(down, u), None)
		if err != nil || back > mm+1e-6 || back < mm-25.4/16-1e-6 {
			t.Fatalf("at most %g mm is written %s", mm, FormatFoam(down, u))
		}
	})
	if got := FormatFoam(FoamDown(9, Inch), Inch); got != "5/16 in" { // 7.9 mm; 3/8 in is 9.5
		t.Errorf("at most 9 mm is %q, want 5/16 in", got)
	}
}

func TestFormatSettingAndAreas(t *testing.T) {
	for got, want := range map[string]string{
		FormatSetting(9.525, Inch): "3/8 in", FormatSetting(10, Inch): "0.39 in", FormatSetting(10, CM): "10 mm", FormatSetting(0, Inch): "0 in",
		FormatArea(1806, CM): "18 cm²", FormatArea(1806, Inch): "2.8 in²", // 1 sq in = 645.16 mm²
		FormatSheet(10001, CM): "0.02 m²", FormatSheet(92904, Inch): "1.1 sq ft", // 1 sq ft = 92903.04 mm²
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What a maker adds up is what is written as the sum.
func TestParts_addUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.SliceOfN(rapid.Float64Range(0, 400), 1, 8).Draw(t, "mm")
		u := rapid.SampledFrom([]Unit{MM, CM, Inch, None}).Draw(t, "unit")
		sum, added := 0.0, 0.0
		for i, s := range Parts(mm, u) {
			v, err := ParseLength(s, None)
			step := 1.0
			if u == Inch {
				step = 25.4 / 8
			}
			if err != nil || math.Abs(v-mm[i]) > step+1e-9 {
				t.Fatalf("%g mm is written %q", mm[i], s)
			}
			sum, added = sum+mm[i], added+v
		}
		if said, _ := ParseLength(Format(sum, u), None); math.Abs(said-added) > 1e-6 {
			t.Fatalf("%v is written %v, which adds up to %g; the sum is written %s", mm, Parts(mm, u), added, Format(sum, u))
		}
	})
}

// What is written as left of a length and what is written as taken away add up to the
// length as it is written: a strap of 15 7/8 in was cut into 3 7/8 and 11 7/8.
func TestRest_addsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.Float64Range(200, 1000).Draw(t, "total")
		short := rapid.Float64Range(0, 90).Draw(t, "short")
		u := rapid.SampledFrom([]Unit{MM, CM, Inch}).Draw(t, "unit")
		added := 0.0
		for _, s := range []string{Format(short, u), Format(short, u), Rest(total, u, short, short)} {
			v, err := ParseLength(s, None)
			if err != nil {
				t.Fatal(err)
			}
			added += v
		}
		if said, _ := ParseLength(Format(total, u), None); math.Abs(said-added) > 1e-6 {
			t.Fatalf("twice %s and %s add up to %g mm, not to %s", Format(short, u), Rest(total, u, short, short), added, Format(total, u))
		}
	})
}

// A strain is never written smaller than it is, nor by half a percent (from 10 % on one)
// or more too great.
func TestFormatStrain_neverUnderstates(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.0004: "0 %", 0.0006: "0.5 %", 0.005: "0.5 %", 0.0118: "1.5 %", 0.05: "5 %", 0.0501: "5.5 %", 0.1: "10 %", 0.1001: "11 %", 0.15: "15 %"} {
		if got := FormatStrain(share); got != want {
			t.Errorf("%g is written %q, want %q", share, got, want)
		}
	}
	for share, want := range map[float64]string{0.05: "5 %", 0.055: "5.5 %", 0.0625: "6.25 %", 0.3: "30 %"} {
		if got := FormatShare(share); got != want {
			t.Errorf("the limit %g is written %q, want %q", share, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(LeastStrain, 0.4).Draw(t, "share")
		said, err := strconv.ParseFloat(strings.TrimSuffix(FormatStrain(share), " %"), 64)
		if over := said/100 - share; err != nil || over < -1e-9 || over >= 0.01 || share < 0.1 && over >= 0.005 {
			t.Fatalf("%g is written %q", share, FormatStrain(share))
		}
	})
}
