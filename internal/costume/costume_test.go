package costume

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/units"
)

func quiet(string, int, int) {}

func TestReadWearer_readsAllThatCanBeSaid(t *testing.T) {
	w, err := ReadWearer("wearer.yaml", []byte(`format: 1
name: Ash
sex: man
age: 41
units: in
wears:
  undersuit: 2 mm
  mail: {thickness: 6 mm, on: [torso, upper arm]}
posture: {chest forward: 12 mm, waist forward: -5 mm, shoulders forward: -1 cm}
measurements:
  stature: 5 ft 11 in
  weight: 180 lb
  head girth: 22 5/8
  wrist girth: {left: 6 1/2, right: 6 5/8 in, over: undersuit}
  calf girth: {value: 38 cm, plus-minus: 9.8 mm}
`))
	if err != nil {
		t.Fatal(err)
	}
	if w.Name != "Ash" || w.Tape.Sex != body.Man || w.Tape.Age != 41 || w.Units != units.Inch {
		t.Errorf("read %+v", w)
	}
	if len(w.Layers) != 2 || w.Layers[1].Thickness != 6 || len(w.Layers[1].Segments) != 2 || len(w.Layers[0].Segments) == 0 {
		t.Errorf("layers %+v", w.Layers)
	}
	if w.Posture != (body.Posture{ChestForward: 12, WaistForward: -5, ShouldersForward: -10, ShouldersKnown: true}) {
		t.Errorf("posture %+v", w.Posture)
	}
	want := []body.Entry{
		{Name: "stature", Value: 71 * 25.4, Where: "wearer.yaml:11", Typed: "5 ft 11 in"},
		{Name: "weight", Value: 180 * units.Pound, Where: "wearer.yaml:12", Typed: "180 lb"},
		{Name: "head girth", Value: 22.625 * 25.4, Where: "wearer.yaml:13", Typed: "22 5/8 in"},
		{Name: "wrist girth", Side: body.Left, Value: 6.5 * 25.4, Over: "undersuit", Where: "wearer.yaml:14", Typed: "6 1/2 in"},
		{Name: "wrist girth", Side: body.Right, Value: 6.625 * 25.4, Over: "undersuit", Where: "wearer.yaml:14", Typed: "6 5/8 in"},
		{Name: "calf girth", Value: 380, SD: 5, Where: "wearer.yaml:15", Typed: "38 cm"},
	}
	if len(w.Tape.Entries) != len(want) {
		t.Fatalf("read %d entries, want %d: %+v", len(w.Tape.Entries), len(want), w.Tape.Entries)
	}
	for i, e := range w.Tape.Entries {
		if math.Abs(e.SD-want[i].SD) > 1e-9 || math.Abs(e.Value-want[i].Value) > 1e-9 {
			t.Errorf("entry %d is %v ± %v, want %v ± %v", i, e.Value, e.SD, want[i].Value, want[i].SD)
		}
		e.SD, e.Value = want[i].SD, want[i].Value
		if e != want[i] {
			t.Errorf("entry %d is %+v, want %+v", i, e, want[i])
		}
	}
}

func TestReadWearer_tellsWhatIsWrongAndWhere(t *testing.T) {
	for _, c := range []struct{ src, says string }{
		{"", "found 0 documents"},
		{"name: Ash\nmeasurements: {stature: 171 cm}", `wearer.yaml:1: found no "format"`},
		{"format: 2\nmeasurements: {stature: 171 cm}", `wearer.yaml:1: format: found "2"; this program reads format 1`},
		{"format: 1", `found no "measurements"`},
		{"format: 1\nmeasurements:", "wearer.yaml:2: measurements: found nothing"},
		{"format: 1\nmeasurements:\nphotographs:", "wearer.yaml:3: photographs: found nothing"},
		{"format: 1\n---\nformat: 1", "found 2 documents"},
		{"format: 1\nmeasurements: [171 cm]", "wearer.yaml:2: measurements: found a list"},
		{"format: 1\nmeasurements:\n  stature:", "wearer.yaml:3: stature: found nothing"},
		{"format: 1\nmeasurements:\n  stature: -171 cm", `"-171 cm"; a size is more than 0`},
		{"format: 1\nmeasurements:\n  stature: {left: 171 cm}", "wearer.yaml:3: stature: found a left or right"},
		{"format: 1\nmeasurements:\n  wrist girth: {value: 16 cm, left: 16 cm}", "found a value and a side"},
		{"format: 1\nmeasurements:\n  wrist girth: {over: undersuit}", "found no value"},
		{"format: 1\nmeasurements:\n  wrist girth: {value: 16 cm, ovr: undersuit}", `did you mean "over"?`},
		{"format: 1\nsex: womn\nmeasurements: {stature: 171 cm}", `wearer.yaml:2: sex: found "womn"; did you mean "woman"?`},
		{"format: 1\nage: old\nmeasurements: {stature: 171 cm}", `wearer.yaml:2: age: "old" is not a plain number`},
		{"format: 1\nage: 271\nmeasurements: {stature: 171 cm}", "write an age in years"},
		{"format: 1\nunits: feet\nmeasurements: {stature: 171 cm}", "wearer.yaml:2: units: found"},
		{"format: 1\nwears: {undersuite: 2 mm}\nmeasurements: {stature: 171 cm}", `did you mean "undersuit"?`},
		{"format: 1\nwears: {undersuit: 2 m}\nmeasurements: {stature: 171 cm}", "write a length from 0 to 120 mm"},
		{"format: 1\nwears: {mail: {thickness: 6 mm}}\nmeasurements: {stature: 171 cm}", `found no "on"`},
		{"format: 1\nname: &a Ash\nmeasurements: {stature: 171 cm}", "anchor, alias or tag"},
		{"format: 1\nmeasurements: {stature: 171 cm", "wearer.yaml:2: a { that was opened is not closed"},
		{"format: 1\nmeasurements:\n\tstature: 171 cm", "wearer.yaml:3: a tab stands here; indent with spaces"},
		{"format: 1\nmeasurements:\n  stature: 171 cm\n  stature: 172 cm", "wearer.yaml:4: stature stands here twice (first in line 3); keep one of them"},
		{strings.Repeat("[", 1000), "deeply nested"},
		{strings.Repeat("- ", 50000), "deeply nested"}, // took all memory
		{"format: 1\nname: M\xe4x\nmeasurements: {stature: 171 cm}", "wearer.yaml:2: the file is not UTF-8 text"},
		{"format: 1\nunits: cm\nmeasurements: {stature: 171 cm}\nposture:\n  shoulders forward: -34 cm", "wearer.yaml:5: shoulders forward: found -34 cm; write by how much farther forward over the hips than usual it stands, such as \"1.2 cm\", or \"-1.2 cm\" if farther back; no trunk stands more than 12.0 cm off"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nposture: {chest forward: 5 in}", "wearer.yaml:3: chest forward: found 5 in; write"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nposture: {waist forward: -121 mm}", "wearer.yaml:3: waist forward: found -121 mm; write"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nposture: {shoulder forward: -12 mm}", "wearer.yaml:3: found the key \"shoulder forward\", which is not known here; did you mean \"shoulders forward\"?"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nposture: {shoulders forward: back}", "wearer.yaml:3: shoulders forward: \"back\" is not a length; write a number and a unit, such as 12 mm"},
		{"format: 1\nunits: cm\nmeasurements: {stature: 171 cm}\nposture: {shoulders forward: back}", "a number and a unit, such as 1.2 cm"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nposture: {}", "wearer.yaml:3: posture: found nothing in it; write such as {chest forward: -1 cm}, or take it out"},
		{"format: 1\nunits: cm\nmeasurements: {stature: 171 cm}\nposture: {chest forward: 20}", "wearer.yaml:4: chest forward: found 20, read as 20 cm (units: cm); 20 mm is written \"20 mm\"; write by how much farther"},
		{"format: 1\nunits: mm\nmeasurements: {stature: 171 cm}\nposture: {chest forward: 200}", "wearer.yaml:4: chest forward: found 200, read as 200 mm (units: mm); write by how much farther"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nposture: {chest forward: 119 mm, waist forward: -119 mm}", "wearer.yaml:3: posture: found chest forward 119 mm and waist forward -119 mm: the chest would stand 238 mm farther forward over the waist than usual, and no trunk bends by more than 80 mm there. Look at the signs (a minus is farther back); what is left out is 0"},
		{"format: 1\nunits: cm\nmeasurements: {stature: 171 cm}\nposture: {chest forward: 6 cm, shoulders forward: -3 cm}", "wearer.yaml:4: posture: found shoulders forward -3.0 cm and chest forward 6.0 cm: the shoulders would stand 9.0 cm farther back over the chest than usual"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nwears: {undersuit: thick}", "wearer.yaml:3: undersuit: \"thick\" is not a length; write a number and a unit, such as 2 mm"},
		{"format: 1\nmeasurements: {stature: 171 cm}\nposture: -12 mm", "wearer.yaml:3: posture: found \"-12 mm\"; write keys and values here: chest forward, waist forward, shoulders forward"},
		{"\x00\x00", "wearer.yaml:1: the file is not UTF-8 text"},
		{"\uFEFFformat: 1\nmeasurements: [171 cm]", "wearer.yaml:2: measurements: found a list"}, // the mark before the text is no key
		{strings.Repeat("#", mostBytes+1), "larger"},
	} {
		_, err := ReadWearer("wearer.yaml", []byte(c.src))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%.60q gives %v; want a message that says %q", c.src, err, c.says)
		}
	}
}

func TestReadCostume_adjustments(t *testing.T) {
	const head = "format: 1\npieces:\n  - piece: vambrace\n    adjust: "
	for _, c := range []struct{ adjust, says string }{
		{"{wrist girth: +8 mm, length: -1 in, forearm girth flexed: 3 %}", ""},
		{"{calf girth: +8 mm}", "costume.yaml:4: calf girth: found a size that the vambrace does not hang on; adjust length, forearm girth flexed"},
		{"{wrist girth: +40 in}", "costume.yaml:4: wrist girth: found +40 in; a fitting changes a size by at most 100 mm"},
		{"{wrist girth: -30 %}", "costume.yaml:4: wrist girth: found -30 %"},
	} {
		_, err := ReadCostume("costume.yaml", []byte(head+c.adjust+"\n"), NewCatalogue(nil))
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%s gives %v; want %q", c.adjust, err, c.says)
		}
	}
}

// A name goes into file names, pages and the terminal: it must not steer them.
func TestReadCostume_names(t *testing.T) {
	for _, c := range []struct{ name, says string }{
		{"\"Ärmchen 左\"", ""},
		{"\"\"", "costume.yaml:4: name: found nothing"},
		{"\"a\\e[2Jb\"", "characters that can be printed"},
		{"\"a\\u202eb\"", "characters that can be printed"},
		{strings.Repeat("n", 61), "costume.yaml:4: name: found 61 characters; write at most 60"},
	} {
		_, err := ReadCostume("costume.yaml", []byte("format: 1\npieces:\n  - piece: vambrace\n    name: "+c.name+"\n"), NewCatalogue(nil))
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%s gives %v; want %q", c.name, err, c.says)
		}
	}
}

// demoFile is a file of the demonstration.
func demoFile(t testing.TB, name string) string {
	src, err := demo.ReadFile("demo/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(src)
}

// Any text gives a wearer or an error with a place, never a panic.
func FuzzReadWearer(f *testing.F) {
	f.Add(demoFile(f, WearerFile))
	f.Add("format: 1\nmeasurements: {stature: 171 cm, wrist girth: {left: 6 in}}")
	f.Add("? [a]\n: b\n")
	f.Add("format: 1\n<<: *x\n")
	f.Fuzz(func(t *testing.T, src string) {
		if _, err := ReadWearer("wearer.yaml", []byte(src)); err != nil && !strings.HasPrefix(err.Error(), "wearer.yaml:") {
			t.Errorf("an error without a place: %v", err)
		}
	})
}

func FuzzReadCostume(f *testing.F) {
	f.Add(demoFile(f, CostumeFile))
	f.Add("format: 1\npieces:\n- piece: helm\n  settings: {padding: 12 mm}\n")
	catalogue := NewCatalogue(nil)
	f.Fuzz(func(t *testing.T, src string) {
		if _, err := ReadCostume("costume.yaml", []byte(src), catalogue); err != nil && !strings.HasPrefix(err.Error(), "costume.yaml:") {
			t.Errorf("an error without a place: %v", err)
		}
	})
}

func TestSetMeasurement_changesNothingElse(t *testing.T) {
	const src = "# top\nformat: 1\nmeasurements:\n  stature: 171 cm # ü\n  wrist girth:\n    left: 16 cm\n    over: undersuit\n  neck girth: {right: 5 cm}\n\nname: x\n"
	for _, c := range []struct{ name, side, typed, old, new string }{
		{"stature", "", "5 ft 7 in", "171 cm # ü", "5 ft 7 in # ü"},
		{"wrist girth", "left", "16.4 cm", "left: 16 cm", "left: 16.4 cm"},
		{"wrist girth", "right", "16.4 cm", "    left: 16 cm", "    right: 16.4 cm\n    left: 16 cm"},
		{"neck girth", "left", "6 cm", "{right", "{left: 6 cm, right"},
		{"calf girth", "", "38 cm", "\n\nname", "\n  calf girth: 38 cm\n\nname"},
		{"calf girth", "left", "38 cm", "\n\nname", "\n  calf girth: {left: 38 cm}\n\nname"},
	} {
		got, err := SetMeasurement([]byte(src), body.Name(c.name), c.side, c.typed)
		want := strings.Replace(src, c.old, c.new, 1)
		if err != nil || string(got) != want {
			t.Errorf("%s %s: %v\ngot:\n%s\nwant:\n%s", c.name, c.side, err, got, want)
		}
	}
	for _, c := range []struct{ name, side string }{{"stature", "left"}, {"wrist girth", ""}} {
		if got, err := SetMeasurement([]byte(src), body.Name(c.name), c.side, "1 cm"); err == nil {
			t.Errorf("%s %q was written:\n%s", c.name, c.side, got)
		}
	}
}

func TestSetMeasurement_quotedAndAtTheEnd(t *testing.T) {
	got, err := SetMeasurement([]byte("format: 1\nmeasurements:\n  stature: \"171 cm\""), "stature", "", "172 cm")
	if err != nil || string(got) != "format: 1\nmeasurements:\n  stature: 172 cm" {
		t.Errorf("got %q, %v", got, err)
	}
	got, err = SetMeasurement([]byte("format: 1\nmeasurements:\n  stature: 171 cm"), "weight", "", "64 kg")
	if err != nil || string(got) != "format: 1\nmeasurements:\n  stature: 171 cm\n  weight: 64 kg\n" {
		t.Errorf("got %q, %v", got, err)
	}
}

// "I took all sizes out, as I have photographs, and it refused the file."
func TestSetMeasurement_whereThereIsNone(t *testing.T) {
	const rest = "photographs:\n  - {picture: a.jpg, view: head front}\n"
	for _, alone := range []string{"measurements:", "measurements: # none yet", "measurements: {}"} {
		if w, err := ReadWearer("wearer.yaml", []byte("format: 1\n"+alone+"\n"+rest)); err != nil || len(w.Photos) != 1 || len(w.Tape.Entries) != 0 {
			t.Errorf("%q beside photographs gives %v", alone, err)
		}
	}
	for src, want := range map[string]string{
		"format: 1\nmeasurements: # none yet\n" + rest: "format: 1\nmeasurements: # none yet\n  stature: 171 cm\n" + rest,
		"format: 1\n" + rest + "measurements:":         "format: 1\n" + rest + "measurements:\n  stature: 171 cm\n",
	} {
		if got, err := SetMeasurement([]byte(src), "stature", "", "171 cm"); err != nil || string(got) != want {
			t.Errorf("%v\ngot:\n%s\nwant:\n%s", err, got, want)
		}
	}
	if got, err := SetMeasurement([]byte("format: 1\nmeasurements: ~\n"), "stature", "", "171 cm"); err == nil {
		t.Errorf("was written:\n%s", got)
	}
}

// A maker's own template stands before a built-in one of the same name, and
// both are listed once.
func TestCatalogue_ownTemplates(t *testing.T) {
	builtIn := NewCatalogue(nil)
	greave, err := builtIn.FS().Open("greave.yaml")
	if err != nil {
		t.Fatal(err)
	}
	defer greave.Close()
	var src bytes.Buffer
	if _, err := src.ReadFrom(greave); err != nil {
		t.Fatal(err)
	}
	own := fstest.MapFS{"boot-shell.yaml": {Data: src.Bytes()}, "greave.yaml": {Data: bytes.Replace(src.Bytes(), []byte("title: Greave"), []byte("title: My greave"), 1)}}
	c := NewCatalogue(own)
	if got, want := len(c.Names()), len(builtIn.Names())+1; got != want {
		t.Errorf("%d names, want %d: %v", got, want, c.Names())
	}
	l, err := c.Describe("greave")
	if err != nil || l.Title != "My greave" {
		t.Errorf("greave is %q, %v", l.Title, err)
	}
	if _, err := c.Describe("boot-shell"); err != nil {
		t.Error(err)
	}
}

func openDemo(t testing.TB) *Folder {
	t.Helper()
	dir := t.TempDir()
	if err := Demo(dir); err != nil {
		t.Fatal(err)
	}
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The demonstration is what a newcomer judges by: it must be fit to cut, and
// every build of it the same bytes.
func TestDemo_passesAndIsTheSameTwice(t *testing.T) {
	f := openDemo(t)
	var docs [2][]byte
	for i := range docs {
		r, err := Build(context.Background(), f, Options{}, quiet)
		if err != nil {
			t.Fatal(err)
		}
		if !r.Passes() {
			t.Errorf("the demonstration does not pass: %v", r.Findings)
		}
		if docs[i], err = f.PDF(r); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(docs[0], docs[1]) {
		t.Error("the same folder gave other bytes the second time")
	}
}

// What is marked on the demonstration's pictures is what their generator says.
func TestDemo_marksAreThoseOfItsPictures(t *testing.T) {
	src, err := os.ReadFile("../synth/demogen/photographs.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, marks, ok := strings.Cut(string(src), "\nphotographs:\n")
	marks, _, _ = strings.Cut(marks, "# ")
	if !ok || !strings.HasSuffix(demoFile(t, WearerFile), "\nphotographs:\n"+marks) {
		t.Error("wearer.yaml does not end with the marks of internal/synth/demogen/photographs.yaml")
	}
}

func TestBuild_stopsWhenTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Build(ctx, openDemo(t), Options{}, quiet); err == nil {
		t.Error("a build went on after it was told to stop")
	}
}

// "It took a head of 27 cm, and then no command would have the folder."
func TestStart_writesNothingOfAnImpossiblePerson(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	a := Answers{Units: units.CM, Paper: "A4", Stature: "171", Weight: "64 kg", HeadGirth: "27"}
	if err := Start(dir, a); err == nil || !strings.Contains(err.Error(), "head girth is 27 cm, but people have") {
		t.Errorf("a head of 27 cm gives %v", err)
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("the folder was made")
	}
	a.HeadGirth = "57"
	if err := Start(dir, a); err != nil {
		t.Error(err)
	}
}

func TestSave_leavesNoHalfFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "print", "a.pdf")
	for _, content := range []string{"first, and longer", "second"} {
		if err := Save(path, []byte(content)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(path); err != nil || string(got) != content {
			t.Errorf("read back %q, %v", got, err)
		}
	}
	left, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(left) != 1 {
		t.Errorf("%d files are left, want 1 (%v)", len(left), err)
	}
}

// BenchmarkDemo is the whole way from the folder's sizes to the bytes of a PDF
// (aim: at most 1 s on two cores).
func BenchmarkDemo(b *testing.B) {
	f := openDemo(b)
	for b.Loop() {
		r, err := Build(context.Background(), f, Options{}, quiet)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := f.PDF(r); err != nil {
			b.Fatal(err)
		}
	}
}

// The posture that the files of a new folder show as a comment can be taken as it is.
func TestReadWearer_postureInTheComments(t *testing.T) {
	want := body.Posture{ChestForward: -10, ShouldersForward: -25, ShouldersKnown: true}
	for _, file := range []string{demoFile(t, WearerFile), string(suitWearer), Answers{Units: units.Inch, Stature: "68", Weight: "150 lb", HeadGirth: "22 1/2"}.wearer()} {
		w, err := ReadWearer(WearerFile, []byte(strings.Replace(file, "# posture:", "posture:", 1)))
		if err != nil || !w.Stands || w.Posture != want {
			t.Errorf("reads %+v (%v) from\n%s", w, err, file)
		}
	}
}
