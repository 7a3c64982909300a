package units

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseLength_readsWhatPeopleType(t *testing.T) {
	for _, c := range []struct {
		typed string
		def   Unit
		want  float64 // mm; 1 in = 25.4 mm by definition
	}{
		{"57.4 cm", None, 574},
		{"574mm", None, 574},
		{"574", MM, 574},
		{"57.4", CM, 574},
		{".5 cm", None, 5},
		{"5. cm", None, 50},
		{"1.71 m", None, 1710},
		{"22 5/8 in", None, 22.625 * 25.4},
		{`22 5/8"`, None, 22.625 * 25.4},
		{"22-5/8 in", None, 22.625 * 25.4},
		{"22 5/8 in.", None, 22.625 * 25.4},
		{"22 5/8", Inch, 22.625 * 25.4},
		{"22⅝ in", None, 22.625 * 25.4},
		{"22 ½ inches", None, 22.5 * 25.4},
		{"½ in", None, 12.7},
		{"7/8 in", None, 0.875 * 25.4},
		{"22 5⁄8 in", None, 22.625 * 25.4},
		{"6 1/4 IN", None, 6.25 * 25.4},
		{"22.625 in", CM, 22.625 * 25.4},
		{"5 ft 7 1/2 in", None, 67.5 * 25.4},
		{`5'7"`, None, 67 * 25.4},
		{"5 ft 7", CM, 67 * 25.4},
		{"6 ft", None, 72 * 25.4},
		{"-10 mm", None, -10},
		{"−10 mm", None, -10},
		{"+15 mm", None, 15},
		{"-1/2 in", None, -12.7},
		{"-0 1/2 in", None, -12.7},
		{"-2 1/2 in", None, -63.5},
		{"15 mm", None, 15},
	} {
		got, err := ParseLength(c.typed, c.def)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("ParseLength(%q, %v) = %v, %v; want %v", c.typed, c.def, got, err, c.want)
		}
	}
}

func TestParseLength_refusesWhatItWouldHaveToGuess(t *testing.T) {
	for _, c := range []struct {
		typed, says string
		def         Unit
	}{
		{"57,4 cm", "decimal point, not a comma", None},
		{"22 1/2,5 in", "decimal point, not a comma", None},
		{"57.4", "write for example 57.4 cm or 57.4 in", None},
		{"57.4 cn", `"cn" is not a unit of length; write mm, cm or in`, None},
		{"57.4 kg", `"kg" is not a unit of length`, None},
		{"cm", "not a length", None},
		{"", "not a length", MM},
		{"large", "not a length", MM},
		{"nan", "not a length", MM},
		{"inf mm", "not a length", None},
		{"1e3 mm", "not", None},
		{"0x10 mm", "not", None},
		{"5_000 mm", "not", None},
		{"5 5/0 in", "not a proper fraction", None},
		{"5 9/8 in", "not a proper fraction", None},
		{"5.5 1/2 in", "both a decimal point and a fraction", None},
		{"5 -1/2 in", "not a length", None},
		{"5 6 in", "not a length", None},
		{"5 1/2/3 in", "not a length", None},
		{"5..2 cm", "not a length", None},
		{"1.2.3 cm", "not a length", None},
		{"5 ft 13 in", "not feet and inches", None},
		{strings.Repeat("9", 400) + " mm", "too large", None},
		{"15.9 / 16.2 cm", "not a length", None},
	} {
		got, err := ParseLength(c.typed, c.def)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("ParseLength(%q) = %v, %v; want an error that says %q", c.typed, got, err, c.says)
		}
	}
}

func TestParseWeight(t *testing.T) {
	// source: international yard and pound agreement 1959, 1 lb = 0.45359237 kg
	for typed, want := range map[string]float64{"64 kg": 64, "141 lb": 141 * 0.45359237, "141.5lbs": 141.5 * 0.45359237} {
		if got, err := ParseWeight(typed); err != nil || math.Abs(got-want) > 1e-9 {
			t.Errorf("ParseWeight(%q) = %v, %v; want %v", typed, got, err, want)
		}
	}
	for typed, says := range map[string]string{"64": "64 kg or 64 lb", "64 cm": "not a unit of weight", "heavy": "not a weight"} {
		if got, err := ParseWeight(typed); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("ParseWeight(%q) = %v, %v; want an error that says %q", typed, got, err, says)
		}
	}
}

func TestParseAngleNumberPercent(t *testing.T) {
	if got, err := ParseAngle("180 deg"); err != nil || got != math.Pi {
		t.Errorf("180 deg = %v, %v", got, err)
	}
	if got, err := ParseAngle("-90°"); err != nil || got != -math.Pi/2 {
		t.Errorf("-90° = %v, %v", got, err)
	}
	if got, err := ParsePercent("5 %"); err != nil || got != 0.05 {
		t.Errorf("5 %% = %v, %v", got, err)
	}
	if got, err := ParseNumber("0.55"); err != nil || got != 0.55 {
		t.Errorf("0.55 = %v, %v", got, err)
	}
	for _, f := range []func(string) (float64, error){ParseAngle, ParsePercent, ParseNumber} {
		if got, err := f("12 mm"); err == nil {
			t.Errorf("12 mm was read as %v", got)
		}
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		u    Unit
		want string
	}{
		{574.4, MM, "574 mm"}, {574.4, CM, "57.4 cm"}, {570, CM, "57.0 cm"}, {100, CM, "10.0 cm"},
		{574.675, Inch, "22 5/8 in"}, {12.7, Inch, "1/2 in"}, {254, Inch, "10 in"}, {-12.7, Inch, "-1/2 in"},
		{-0.2, MM, "0 mm"}, {-0.2, CM, "0 cm"}, {-1, Inch, "0 in"}, {-10, MM, "-10 mm"}, {1200, MM, "1200 mm"},
	} {
		if got := Format(c.mm, c.u); got != c.want {
			t.Errorf("Format(%v, %v) = %q; want %q", c.mm, c.u, got, c.want)
		}
	}
	if got := FormatWeight(64.2, CM) + ", " + FormatWeight(64, Inch); got != "64 kg, 141 lb" {
		t.Errorf("FormatWeight gave %q", got)
	}
	for kg, want := range map[float64]string{0.0431: "43 g / 1.5 oz", 0.1842: "180 g / 6.5 oz", 0.9964: "1 kg / 35 oz", 1.26: "1.3 kg / 44 oz"} {
		if got := FormatLight(kg, MM) + " / " + FormatLight(kg, Inch); got != want {
			t.Errorf("FormatLight(%v) gave %q, want %q", kg, got, want)
		}
	}
	if got := FormatFine(2.25, MM) + ", " + FormatFine(6.35, Inch); got != "2.2 mm, 0.25 in" {
		t.Errorf("FormatFine gave %q", got)
	}
}

// What is written can be read back, off by no more than half of the last
// place, and is then written the same way again.
func TestFormat_isReadBack(t *testing.T) {
	step := map[Unit]float64{MM: 1, CM: 1, Inch: 25.4 / 8}
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-3000, 3000).Draw(t, "mm")
		u := rapid.SampledFrom([]Unit{MM, CM, Inch}).Draw(t, "unit")
		s := Format(mm, u)
		back, err := ParseLength(s, None)
		if err != nil || math.Abs(back-mm) > step[u]/2+1e-9 {
			t.Fatalf("%v mm is written %q and read back as %v, %v", mm, s, back, err)
		}
		if again := Format(back, u); again != s {
			t.Fatalf("%q is written again as %q", s, again)
		}
	})
}

// Any text gives a finite number or an error, never a panic.
func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"22 5/8 in", "57.4 cm", `5'7"`, "½", "1e9 mm", "--1 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := ParseLength(s, CM)
		if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%q is read as %v", s, v)
		}
	})
}

func TestRound(t *testing.T) {
	for v, want := range map[float64]float64{1.23449: 1.234, 1.2346: 1.235, -0.0004: 0, 0: 0, -1.2346: -1.235} {
		if got := Round(v); got != want || math.Signbit(got) != (want < 0) {
			t.Errorf("Round(%v) = %v; want %v", v, got, want)
		}
	}
}

func TestFormatDoubt(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		u    Unit
		want string
	}{{3.94, MM, "3.9 mm"}, {25.7, MM, "26 mm"}, {5.7, CM, "0.6 cm"}, {22, CM, "2.2 cm"}, {4.1, Inch, "0.16 in"}, {25.4, Inch, "1 in"}} {
		if got := FormatDoubt(c.mm, c.u); got != c.want {
			t.Errorf("a half width of %g mm in %v is %q, want %q", c.mm, c.u, got, c.want)
		}
	}
}
