package template_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"tasset/pattern/template"
)

// piece is a small good template with lines to swap; the keys count from 1.
const piece = `format: 1
title: Cuff
about: A cuff.
code: C
governs: [wrist girth]
thickness: 5 mm
settings:
  drop: {unit: mm, default: 10 mm, min: 0 mm, max: 40 mm, about: How far down.}
  style: {unit: choice, default: plain, choices: [plain, ridged], about: Its look.}
ease: 6 mm
frame: {segment: forearm}
rings:
  - name: low
    at: wrist + drop
  - name: high
    at: elbow - 60 mm
bands:
  - {name: arm, from: low, to: high}
gap: {at: -90 deg, lap: 40 mm}
`

func parse(t *testing.T, src string) *template.Template {
	t.Helper()
	p, err := template.Parse("cuff.yaml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// with is the piece with one line exchanged.
func with(t *testing.T, old, new string) string {
	t.Helper()
	if strings.Count(piece, old) != 1 {
		t.Fatalf("%q stands %d times in the piece", old, strings.Count(piece, old))
	}
	return strings.Replace(piece, old, new, 1)
}

func TestParse_readsAPiece(t *testing.T) {
	p := parse(t, piece)
	if p.Name != "cuff" || p.Code != "C" || len(p.Rings) != 2 || len(p.Bands) != 1 || p.Bands[0].Bend != "around" {
		t.Errorf("the piece reads as %+v", p)
	}
	v, err := p.Rings[0].At.Eval(template.Env{"wrist": 12, "drop": 10})
	if err != nil || v != 22 {
		t.Errorf("wrist + drop is %v, %v; want 22", v, err)
	}
	if got := p.Rings[0].At.Where(); got != "cuff.yaml:14:9" {
		t.Errorf("the first level stands at %s; want cuff.yaml:14:9", got)
	}
	if fmt.Sprint(p.Rings[0].At.Uses()) != "[drop wrist]" {
		t.Errorf("it reads %v", p.Rings[0].At.Uses())
	}
	if p.Padding.Set() || !p.Thickness.Set() {
		t.Error("a key that was left out should be unset, one that was written set")
	}
}

// Values worked by hand.
func TestFormula_values(t *testing.T) {
	env := template.Env{"wrist": 12, "elbow": 250, "wrist_girth": 170, "thickness": 5, "drop": 10}
	for formula, want := range map[string]float64{
		"0.25*wrist_girth + 10 mm":       52.5,
		"2 cm + 1 in":                    45.4,
		"wrist + 78 % * (elbow - wrist)": 12 + .78*238,
		"-(drop - 3mm) / 2":              -3.5,
		"max(drop, 2 * thickness, 4 mm)": 10,
		"\"min(drop, thickness)\"":       5,
		"hypot(3 mm, 4 mm)":              5,
		"sqrt(drop * drop)":              10,
		"10 mm * sin(30 deg)":            5,
		"10 mm * cos(acos(0.5))":         5,
		"drop * 7 / 2":                   35, // whole numbers divide like any others
		"0":                              0,
		"12 mm - 0":                      12,
		"wrist_girth / (2 * 3.14159)":    170 / (2 * 3.14159),
		"round(drop / 4 mm) * 1 mm":      3,
	} {
		p := parse(t, with(t, "wrist + drop", formula))
		v, err := p.Rings[0].At.Eval(env)
		if err != nil || math.Abs(v-want) > 1e-12 {
			t.Errorf("%s is %v, %v; want %v", formula, v, err, want)
		}
	}
}

func TestFormula_anglesAreRadians(t *testing.T) {
	p := parse(t, with(t, "-90 deg", "-90° + 0.5 rad"))
	v, err := p.Gap.At.Eval(nil)
	if err != nil || math.Abs(v-(-math.Pi/2+.5)) > 1e-15 {
		t.Errorf("-90° + 0.5 rad is %v, %v", v, err)
	}
}

func TestFormula_withoutAValueSaysWhere(t *testing.T) {
	p := parse(t, with(t, "wrist + drop", "10 mm * drop / (drop - 10 mm)"))
	for _, env := range []template.Env{{"drop": 10}, {}} {
		_, err := p.Rings[0].At.Eval(env)
		if err == nil || !strings.HasPrefix(err.Error(), "cuff.yaml:14:9: ") {
			t.Errorf("with %v: %v", env, err)
		}
	}
}

func TestCondition(t *testing.T) {
	for when, want := range map[string]bool{
		`style == "ridged"`:               true,
		`style != "ridged"`:               false,
		`"plain" == style`:                false,
		`drop > 5 mm`:                     true,
		`drop > 5 mm and drop <= 1 cm`:    true,
		`not (drop > 5 mm) or drop == 0`:  false,
		`drop > wrist_girth || drop >= 0`: true,
	} {
		p := parse(t, with(t, "    at: elbow - 60 mm", "    at: elbow - 60 mm\n    when: '"+when+"'"))
		got, err := p.Rings[1].When.On(template.Env{"style": 1, "drop": 10, "wrist_girth": 170})
		if err != nil || got != want {
			t.Errorf("%s is %v, %v", when, got, err)
		}
	}
}

const layered = `format: 1
title: Cap
about: A cap.
code: K
governs: [head girth]
thickness: 5 mm
settings:
  gores: {unit: count, default: 8, min: 6, max: 14, about: Number of gores.}
layouts:
  gores:
    frame: {segment: head}
    rings: [{name: rim, at: ear}]
    bands: [{from: rim, to: cap, bend: along, seams: {count: gores}}]
    cap: {kind: point}
  strips:
    frame: {segment: head, axis: across}
    rings: [{name: a, at: -60 mm}, {name: b, at: 60 mm}]
    bands: [{from: a, to: b}]
openings:
  - {name: hole, view: front, round: {x: 0, y: brow, radius: 4 mm}, when: 'layout == "strips"'}
`

func TestLayouts(t *testing.T) {
	p := parse(t, layered)
	if fmt.Sprint(p.Layouts()) != "[gores strips]" || p.Settings[0].Name != "layout" || fmt.Sprint(p.Settings[0].Choices) != "[gores strips]" {
		t.Fatalf("layouts %v, first setting %+v", p.Layouts(), p.Settings[0])
	}
	if r := p.Resolve("strips"); r.Frame.Axis != "across" || len(r.Rings) != 2 || len(r.Openings) != 1 {
		t.Errorf("strips: %+v", r)
	}
	if r := p.Resolve("gores"); r.Frame.Axis != "up" || r.Bands[0].To != "rim" || r.Cap == nil {
		t.Errorf("gores: %+v", r)
	}
	if p.Resolve("slats") != nil {
		t.Error("there is no layout called slats")
	}
	on, err := p.Openings[0].When.On(template.Env{"layout": 1})
	if err != nil || !on {
		t.Errorf("the hole of strips is %v, %v", on, err)
	}
}

// Each mistake gets its place, what was found, and what would be right.
func TestParse_faults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"ease: 6 mm", "eese: 6 mm", `10:1: a template has no key "eese"; did you mean ease?`},
		{"ease: 6 mm", "ease: 6", `10:7: "6" is a plain number, and a length is needed; a length has a unit, as in 10 mm`},
		{"ease: 6 mm", "ease: 6 mn", `10:9: in "6 mn" "mn" is not a unit; did you mean `},
		{"ease: 6 mm", "ease: {all: 6 mm, outter: 4 mm}", `10:19: ease has no key "outter"; did you mean outer?`},
		{"about: How far down.", "about: How far down, at most.", `8:80: drop has no key "at most."; put quotes round a text that has a comma in it`},
		{"ease: 6 mm", "ease: 6 mm\nease: 7 mm", `11:1: `},
		{"format: 1", "format: 2", `1:9: this program reads format 1, not "2"`},
		{"format: 1\n", "", `1:1: a template needs the key format`},
		{"code: C", "code: cuff", `4:7: the code is "cuff"`},
		{"title: Cuff", "title:", `2:1: title has no value`},
		{"[wrist girth]", "[wrist grith]", `5:11: "wrist grith" is not a measurement; did you mean wrist girth?`},
		{"wrist + drop", "wrst + drop", `14:9: in "wrst + drop" "wrst" is not known here; did you mean wrist?`},
		{"wrist + drop", "wrist + dropp", `14:17: in "wrist + dropp" "dropp" is not known here; did you mean drop?`},
		{"wrist + drop", "wrist + shoulder_forward", `14:17: in "wrist + shoulder_forward" "shoulder_forward" is not known here; did you mean shoulders_forward?`},
		{"wrist + drop", "knee + drop", `14:9: in "knee + drop" "knee" is not known here`},
		{"wrist + drop", "wrist + 10", `14:17: in "wrist + 10" a length and a plain number do not add up; a length has a unit, as in 10 mm`},
		{"wrist + drop", "wrist + 10 deg", `14:17: in "wrist + 10 deg" a length and an angle do not add up`},
		{"wrist + drop", "wrist * drop", `14:9: "wrist * drop" is an area, and a length is needed`},
		{"wrist + drop", "wrist +", `14:`},
		{"wrist + drop", "wrist / 0", `14:17: in "wrist / 0" this divides by zero`},
		{"wrist + drop", "maxx(wrist, drop)", `14:9: in "maxx(wrist, drop)" there is no function "maxx"; did you mean max?`},
		{"wrist + drop", "sqrt(wrist)", `14:9: in "sqrt(wrist)" sqrt cannot be taken: a length has no root`},
		{"wrist + drop", "abs(wrist, drop)", `14:9: in "abs(wrist, drop)" abs has 2 values; give it 1`},
		{"wrist + drop", "wrist ; drop", `14:15: in "wrist ; drop" a formula has no ';'`},
		{"wrist + drop", "'wrist < drop'", `14:16: in "wrist < drop" "<" is not arithmetic`},
		{"wrist + drop", "99999999999 mm", `14:9: in "99999999999 mm" the number is too large`},
		{"wrist + drop", "[wrist]", `14:9: at should be a single value, not a list`},
		{"wrist + drop", "true", `14:9: in "true" `},
		{"segment: forearm", "segment: foreram", `11:18: segment cannot be "foreram"; did you mean forearm?`},
		{"{segment: forearm}", "{axis: up}", `11:8: the frame has no segment`},
		{"from: low", "from: lwo", `18:23: there is no ring "lwo"; did you mean low?`},
		{"from: low, to: high", "from: high, to: low", `18:33: ring "low" does not lie above ring "high"`},
		{"to: high", "to: cap", `18:32: a band goes to the cap only where that is a point, a ridge or a dome; write cap: {kind: point}`},
		{"    at: elbow - 60 mm", "    at: elbow - 60 mm\n    creases: [{at: 0 deg, rise: 9 mm}]", `15:5: ring "high" has 0 corners and 1 creases, the first ring has 0 and 0`},
		{"name: high", "name: low", `15:11: there are two rings called "low"`},
		{"at: -90 deg", "at: -90", `19:11: "-90" is a plain number, and an angle is needed; an angle has a unit, as in 30 deg`},
		{"default: 10 mm", "default: 50 mm", `8:29: the default "50 mm" lies outside min and max, which are 0 mm and 40 mm; write one from min to max, or change those`},
		{"min: 0 mm", "min: drop", `8:`},
		{"default: plain", "default: plane", `9:34: the default "plane" is not one of the choices; did you mean plain?`},
		{"  drop:", "  wrist:", `8:3: the name "wrist" is taken`},
		{"  drop:", "  max:", `8:3: the name "max" is taken`},
		{"thickness: 5 mm", "thickness: 2 * thickness", `6:16: in "2 * thickness" "thickness" is not known here`},
		{"thickness: 5 mm", "thickness: &t 5 mm", `6:12: an anchor or alias (& or *) is not part of this language`},
		{"thickness: 5 mm", "thickness: !!str 5 mm", `6:12: a tag (!) is not part of this language`},
		{"gap: {at: -90 deg, lap: 40 mm}", "---\nformat: 1", `20:1: a second document starts here`},
		{"gap: {at: -90 deg, lap: 40 mm}", "openings:\n  - {name: x, view: left, round: {x: 0, y: wrist, radius: 3 mm}}", `20:21: a limb has an outer and an inner side, and no left one; write outer or inner`},
		{"gap: {at: -90 deg, lap: 40 mm}", "openings:\n  - {name: x, view: front, points: [[min(drop, 3 mm), 0], [1 mm, 2 mm], [3 mm, 4 mm]]}", `20:`},
		{"gap: {at: -90 deg, lap: 40 mm}", "fastenings:\n  - {kind: snap, where: gap}", `20:25: the piece has no gap to fasten`},
		{"    at: elbow - 60 mm", "    at: elbow - 60 mm\n    when: style == ridged", `17:20: in "style == ridged" "ridged" is a choice of style, which is a word; write it in quotes: "ridged"`},
		{"wrist + drop", "wrist + 1,5 mm", `14:18: "wrist + 1,5 mm" is not a formula: , does not belong there; write a decimal point, not a comma`},
		{"wrist + drop", "0.1 * wrist girth", `14:21: "0.1 * wrist girth" is not a formula: girth does not belong there; write the measurement as wrist_girth`},
		{"    at: elbow - 60 mm", "    at: elbow - 60 mm\n    when: 'style == \"rigded\"'", `did you mean ridged?`},
		{"    at: elbow - 60 mm", "    at: elbow - 60 mm\n    when: drop", `17:11: in "drop" this is not a condition`},
		{"    at: elbow - 60 mm", "\tat: elbow - 60 mm", `16:1: the line has a tab`},
	} {
		_, err := template.Parse("cuff.yaml", []byte(with(t, c.old, c.new)))
		if err == nil {
			t.Errorf("%q in place of %q is let in", c.new, c.old)
			continue
		}
		var fs template.Faults
		if !errors.As(err, &fs) {
			t.Errorf("%q gives %v, which is no list of faults", c.new, err)
		}
		if !strings.Contains("cuff.yaml:"+err.Error()[len("cuff.yaml:"):], c.want) {
			t.Errorf("%q in place of %q gives\n  %v\nwant\n  %s", c.new, c.old, err, c.want)
		}
	}
}

func TestParse_listsAllFaultsInOrder(t *testing.T) {
	src := strings.NewReplacer("wrist + drop", "wirst + drop", "lap: 40 mm", "lap: 40", "code: C", "code: CCC").Replace(piece)
	_, err := template.Parse("cuff.yaml", []byte(src))
	var fs template.Faults
	if !errors.As(err, &fs) || len(fs) != 3 || fs[0].Line != 4 || fs[1].Line != 14 || fs[2].Line != 19 {
		t.Errorf("three faults give\n%v", err)
	}
}

// A wrong key hides what is wrong with formulas, and the faults say so.
func TestParse_keysComeFirst(t *testing.T) {
	const later = "Formulas, units and names are looked at once this is right."
	for wrong, want := range map[string]bool{"title": true, "wrist + drop": false} {
		_, err := template.Parse("cuff.yaml", []byte(strings.Replace(piece, wrong, "wirst", 1)))
		if err == nil || strings.Contains(err.Error(), later) != want {
			t.Errorf("with %q wrong: %v", wrong, err)
		}
	}
}

// A stranger's file may be meant to cost time.
func TestParse_refusesWhatWouldCostTime(t *testing.T) {
	for name, src := range map[string]string{
		"brackets":    "a: " + strings.Repeat("[", 20000),
		"many lines":  strings.Repeat("a: [\n", 20000),
		"dashes":      strings.Repeat("- ", 100000) + "a",
		"questions":   strings.Repeat("? ", 100000) + "a",
		"indent":      "a:\n" + strings.Repeat(" ", 50000) + "b: 1",
		"size":        "# " + strings.Repeat("x", 300<<10),
		"alias bomb":  "a: &a [x,x]\nb: &b [*a,*a]\nc: [*b,*b]\n",
		"parentheses": strings.Replace(piece, "wrist + drop", strings.Repeat("(", 400)+"1 mm"+strings.Repeat(")", 400), 1),
		"long":        strings.Replace(piece, "wrist + drop", "wrist"+strings.Repeat(" + drop", 1000), 1),
		"entries":     strings.Replace(piece, "governs: [wrist girth]", "governs: ["+strings.Repeat("wrist girth, ", 600)+"]", 1),
		"empty":       "",
		"comment":     "# nothing\n",
		"list":        "- 1\n- 2\n",
		"scalar":      "1",
		"not text":    "format: \xff\xfe",
	} {
		var fs template.Faults
		if _, err := template.Parse("x.yaml", []byte(src)); !errors.As(err, &fs) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
