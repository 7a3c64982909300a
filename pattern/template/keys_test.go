package template_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tasset/body"
	"tasset/pattern/template"
)

// rich is a good template with most keys that a cuff does not need, with lines
// to exchange.
const rich = `format: 1
title: Knee
about: A knee cup with lames below it.
code: PO
governs: [knee girth]
thickness: 5 mm
settings:
  lames: {unit: count, default: 3, min: 0, max: 6, about: Number of lames.}
  trim: {unit: mm, default: 8 mm, min: 0 mm, max: 20 mm, about: Width of the raised edge.}
after: [greave, cuisse]
frame: {joint: knee, segment: shank, axis: up}
span: {from: -100 deg, to: 100 deg}
rings:
  - {name: low, at: below_knee - 20 mm}
  - {name: middle, at: knee}
  - {name: high, at: lower_thigh, size: {width: 120 mm, depth: 130 mm, z: 5 mm, full: 2.4}}
bands:
  - {name: cup, from: middle, to: high, bend: formed, seams: {count: 2, within: 3 mm, most: 6}}
  - {name: top, from: high, to: cap}
lames: {name: lame, from: low, to: middle, count: lames, overlap: 15 mm, through: 60 deg, over: lower over upper, pivot: true, when: lames > 0}
cap: {kind: ridge, at: mid_thigh, along: 90 deg, across: 40 mm}
base: {kind: dome, name: button, at: calf, rings: 3, plate: 50 %}
repeat:
  as: toe
  for:
    big: {length: 40 mm + trim, girth: 70 mm, x: 12 mm}
    little: {length: 25 mm, girth: 50 mm}
flats:
  - {name: fan, points: [[0, -40 mm], [50 mm, 0], [0, 40 mm]], smooth: true, follow: {piece: greave, gap: 1 mm}, count: 2, facing: outer, x: 60 mm, when: trim > 0}
layers:
  - {name: edge, along: low, width: trim, thickness: 3 mm, inset: 2 mm}
pads:
  - {name: knee pad, angle: 0 deg, level: knee, width: 60 mm, height: toe_length, thickness: 10 mm, mirror: true}
fastenings:
  - {kind: strap and buckle, angle: 90 deg, level: knee, width: 25 mm, to: cuisse, to-angle: 80 deg, to-level: mid_thigh + 10 mm}
`

func TestParse_readsEveryKey(t *testing.T) {
	p := parse(t, rich)
	env := template.Env{"knee": 5, "below_knee": -40, "mid_thigh": 200, "trim": 8, "lames": 3, "toe_length": 48}
	eval := func(f template.Formula) string {
		v, err := f.Eval(env)
		if err != nil {
			t.Error(err)
		}
		return fmt.Sprint(math.Round(v*1000) / 1000)
	}
	f, l, s, fan := p.Frame, p.Lames, p.Bands[0].Seams, p.Flats[0]
	strap, toe := p.Fastenings[0], p.Repeat.Copies[0]
	for what, got := range map[string][2]string{
		"frame":   {fmt.Sprint(f.Kind, f.Joint, f.Segment, f.Axis, f.Line), "joint knee shank up 11"},
		"size":    {eval(p.Rings[2].Size.Width) + eval(p.Rings[2].Size.Z) + eval(p.Rings[2].Size.Full), "12052.4"},
		"seams":   {eval(s.Count) + eval(s.Within) + eval(s.Most), "236"},
		"bends":   {p.Bands[0].Bend + p.Bands[1].To + l.Bend, "formedhigharound"},
		"lames":   {eval(l.Count) + eval(l.Overlap) + eval(l.Through) + fmt.Sprint(l.UpperOut, l.Pivot), "3151.047false true"},
		"ridge":   {eval(p.Cap.Along) + eval(p.Cap.Across), "1.57140"},
		"dome":    {p.Base.Name + eval(p.Base.Rings) + eval(p.Base.Plate), "button30.5"},
		"repeat":  {p.Repeat.As + toe.Name + eval(toe.Length) + eval(toe.X), "toebig4812"},
		"flat":    {fan.Facing + fan.Follow.Piece + eval(fan.Follow.Gap) + eval(fan.X), "leftgreave160"},
		"layer":   {p.Layers[0].Along + eval(p.Layers[0].Inset), "low2"},
		"pad":     {eval(p.Pads[0].Height) + fmt.Sprint(p.Pads[0].Mirror), "48true"},
		"strap":   {strap.To + eval(strap.ToAngle) + eval(strap.ToLevel), "cuisse1.396210"},
		"after":   {fmt.Sprint(p.After), "[greave cuisse]"},
		"default": {fmt.Sprint(parse(t, strings.Replace(rich, "over: lower over upper, ", "", 1)).Lames.UpperOut), "true"},
	} {
		if strings.ReplaceAll(got[0], " ", "") != strings.ReplaceAll(got[1], " ", "") {
			t.Errorf("%s reads as %s; want %s", what, got[0], got[1])
		}
	}
}

const spined = `format: 1
title: Horn
about: A horn.
code: HO
governs: [head breadth]
thickness: 3 mm
frame:
  over: helm
  spine: [{name: root}, {name: tip, y: 100 mm, tilt: 20 deg}]
rings:
  - {name: a, at: root, size: {width: 60 mm, depth: 50 mm}, corners: [0, 90 deg, 180 deg, 270 deg]}
  - {name: b, at: 0.5 * (root + tip), points: [[0, 20 mm], [20 mm, 0], [0, -20 mm], [-20 mm, 0]], corners: [0, 90 deg, 180 deg, 270 deg]}
bands:
  - {from: a, to: cap}
cap: {kind: point, at: tip}
`

const half = `format: 1
title: Half
about: Half a tube, open behind.
code: HA
governs: []
thickness: 3 mm
frame: {free: true}
span: {from: -90 deg, to: 90 deg}
rings: [{name: a, at: 0 mm, size: {width: 60 mm, depth: 50 mm}}, {name: b, at: 60 mm, size: {width: 60 mm, depth: 50 mm}}]
bands:
  - {name: half, from: a, to: b, seams: {at: [0 deg], panels: [right, left]}}
`

// Parts that a piece passes give it their stations.
func TestParse_readsWhatAPieceIsKeptClearOf(t *testing.T) {
	p := parse(t, strings.NewReplacer("axis: up}", "axis: up, clear: [foot]}", "at: knee}", "at: knee + 0.1 * instep}").Replace(rich))
	if c := p.Frame.Clear; len(c) != 1 || c[0] != body.Foot {
		t.Errorf("it is kept clear of %v; want the foot", c)
	}
}

func TestParse_readsASpine(t *testing.T) {
	p := parse(t, spined)
	if f := p.Frame; f.Kind != "over" || f.Over != "helm" || len(f.Spine) != 2 || f.Spine[1].Ident != "tip" || f.Spine[0].X.Set() {
		t.Errorf("the frame reads as %+v", f)
	}
	if v, err := p.Rings[1].At.Eval(template.Env{"root": 0, "tip": 120}); err != nil || v != 60 {
		t.Errorf("halfway up the spine is %v, %v", v, err)
	}
}

// What a maker can write wrong in each of these keys, and what is said to it.
func TestParse_faultsOfEveryKey(t *testing.T) {
	for _, c := range []struct{ src, old, new, want string }{
		{rich, "joint: knee", "joint: kneee", `11:16: joint cannot be "kneee"; did you mean knee?`},
		{rich, "segment: shank", "segment: head", `11:31: what stands at the knee cannot move with the head; write one of thigh, shank`},
		{rich, "joint: knee, ", "", `16:22: in "lower_thigh" "lower_thigh" is not known here; it is a station of the thigh, and the piece does not stand there`},
		{rich, "joint: knee,", "joint: knee, free: true,", `11:8: a frame stands at a joint, over another piece, or free; leave all but one`},
		{rich, "joint: knee, segment: shank, axis: up", "segment: shank, axis: out", `11:31: only at a joint an axis points out; write joint: elbow`},
		{rich, "axis: up", "axis: across", `11:44: at a joint an axis goes up the limb or points out of it; write axis: up or axis: out`},
		{rich, "axis: up", "axis: up, gap: 3 mm", `11:53: a frame's gap is the distance from another piece; say over which piece`},
		{rich, "axis: up", "axis: up, clear: [torsoo]", `11:56: clear cannot be "torsoo"; did you mean torso?`},
		{rich, "axis: up", "axis: up, clear: [foot, thigh]", `11:62: the piece is kept clear of the thigh already; leave it out here`},
		{rich, "joint: knee, segment: shank, axis: up", "over: greave, clear: [foot]", `11:31: clear is for pieces that stand on a segment or at a joint, with a straight axis; leave clear out`},
		{rich, "joint: knee, segment: shank, axis: up", "over: x", `11:15: a piece cannot lie over itself; name another template`},
		{rich, "joint: knee, segment: shank, axis: up", "over: greave.yaml", `11:15: a template is named without .yaml; write greave`},
		{rich, "joint: knee, segment: shank", "free: true", `14:5: ring "low" has no outline: on a free frame there is no body to take it from; write size: {width:`},
		{rich, "full: 2.4}", "full: 2.4}, points: [[0, 9 mm], [9 mm, 0], [0, -9 mm]]", `16:5: a ring has points or a size, not both`},
		{rich, "size: {width: 120 mm, depth: 130 mm, z: 5 mm, full: 2.4}", "size: {width: 120 mm}", `16:41: size needs the key depth`},
		{rich, "full: 2.4}", "full: 2.4 mm}", `16:87: "2.4 mm" is a length, and a plain number is needed`},
		{rich, "full: 2.4}", "full: 2.4}, section: knee", `a drawn ring takes no section of the body; leave it out`},
		{rich, "at: knee}", "at: knee, points: [[0, 9 mm], [9 mm, 0]]}", `a ring of 2 points goes round nothing; give it three or more`},
		{rich, "bend: formed", "bend: fromed", `18:47: bend cannot be "fromed"; did you mean formed?`},
		{rich, "{count: 2, within: 3 mm, most: 6}", "{at: [0], within: 3 mm}", `18:80: within says how near counted seams must bring the panels; add count`},
		{rich, "{count: 2, within: 3 mm, most: 6}", "{at: [0, 90 deg], panels: [a, b, c, d]}", `18:89: 4 names for the 3 panels that 2 seams make here; write the panels' names from one edge of the shell to the other`},
		{rich, "{count: 2, within: 3 mm, most: 6}", "{at: [0, 90 deg], panels: [a, a]}", `18:92: two panels of one band are called "a"; give each panel a name of its own`},
		{half, "panels: [right, left]", "panels: [both]", `11:64: 1 name for the 2 panels that 1 seam makes here; write the panels' names from one edge of the shell to the other`},
		{rich, "{count: 2, within: 3 mm, most: 6}", "{count: 2, most: 6}", `18:79: most caps what within asks for; add within`},
		{rich, "cap: {kind: ridge, at: mid_thigh, along: 90 deg, across: 40 mm}", "cap: {kind: plate}", `a band goes to the cap only where that is a point, a ridge or a dome`},
		{rich, "kind: ridge", "kind: rigde", `21:13: kind cannot be "rigde"; did you mean ridge?`},
		{rich, "kind: ridge", "kind: point", `21:42: a point has no along; leave it out, or write kind: ridge`},
		{rich, "across: 40 mm}", "rings: 3}", `a ridge has no rings; leave it out, or write kind: dome`},
		{rich, "across: 40 mm}", "name: keel}", `a ridge has no panel of its own to name; leave it out`},
		{rich, "kind: dome, name: button, at: calf, rings: 3, plate: 50 %", "kind: point", `22:14: a base cannot be a point; turn the order of the rings round`},
		{rich, "from: low, to: middle,", "from: middle, to: low,", `20:39: ring "low" does not lie above ring "middle"; lames go up along the axis`},
		{rich, "from: low, to: middle,", "from: low, to: high,", `20:27: the lames and the band "cup" lie between the same rings; let the lames begin or end at one of its rings`},
		{rich, "over: lower over upper", "over: lower on upper", `over cannot be "lower on upper"; did you mean lower over upper?`},
		{rich, "through: 60 deg", "through: 60", `"60" is a plain number, and an angle is needed`},
		{rich, "overlap: 15 mm, ", "", `20:8: lames needs the key overlap`},
		{rich, "as: toe", "as: knee", `24:7: the name "knee_girth" is taken by a measurement; choose another`},
		{rich, "length: 40 mm + trim", "length: 0.5 * toe_girth", `"toe_girth" is not known here`},
		{rich, "little: {length: 25 mm, girth: 50 mm}", "little: {length: 25 mm}", `27:13: little needs the key girth`},
		{rich, "[[0, -40 mm], [50 mm, 0], [0, 40 mm]]", "[[0, -40 mm], [50 mm, 0]]", `29:5: the flat part "fan" has no outline; give it three or more points`},
		{rich, "facing: outer", "facing: left", `a limb has an outer and an inner side, and no left one; write outer or inner`},
		{rich, "facing: outer", "facing: outher", `facing cannot be "outher"; did you mean outer?`},
		{rich, "piece: greave, ", "", `follow needs the key piece`},
		{rich, "piece: greave,", "piece: x,", `a piece cannot follow itself; name another template`},
		{rich, "along: low", "along: lwo", `31:25: there is no ring at a rim and no opening "lwo" to run along; did you mean low?`},
		{rich, "along: low", "along: gap", `31:25: there is no ring at a rim and no opening "gap" to run along`},
		{rich, "along: low", "along: high", `31:25: ring "high" lies inside the shell and is no edge; name a rim, an opening, or gap`},
		{rich, "mirror: true}\nfast", "miror: true}\nfast", `an entry of pads has no key "miror"; did you mean mirror?`},
		{rich, "to-level: mid_thigh + 10 mm", "to_level: mid_thigh", `an entry of fastenings has no key "to_level"; did you mean to-level?`},
		{rich, ", to-angle: 80 deg, to-level: mid_thigh + 10 mm", "", `35:5: the strap and buckle does not say where its other part stands; write to-angle and to-level`},
		{rich, "to-level: mid_thigh", "to-level: mid_thihg", `in "mid_thihg + 10 mm" "mid_thihg" is not known here; did you mean mid_thigh?`},
		{rich, "angle: 90 deg, level: knee, width: 25 mm, to", "where: gap, to", `the piece has no gap to fasten`},
		{rich, "[greave, cuisse]", "[greave, greave]", `10:17: after names greave twice; keep one of them`},
		{sword, "thickness: rod", "thickness: rodd", `14:36: in "rodd" "rodd" is not known here; did you mean rod?`},
		{sword, "thickness: rod", "thickness: teeth", `14:36: "teeth" is a plain number, and a length is needed; a length has a unit, as in 10 mm`},
		{sword, "count: teeth", "count: rod", `"rod" is a length, and a plain number is needed`},
		{sword, "length: 0.4", "lenght: 0.4", `an entry of buy has no key "lenght"; did you mean length?`},
		{sword, "name: rod of wood, ", "", `14:5: an entry of buy needs the key name`},
		{sword, ", text: it runs inside", "", `14:5: an entry of buy needs the key text`},
		{sword, "name: rod of wood", "name: ''", `the name is empty; say in plain words what is asked for in a shop`},
		{sword, "when: teeth > 0", "when: teeth > 0 mm", `in "teeth > 0 mm"`},
		{sword, "buy:\n", "buys:\n", `has no key "buys"; did you mean buy?`},
		{sword, "doubts:\n", "doubt:\n", `has no key "doubt"; did you mean doubts?`},
		{sword, "    perhaps: Take a thinner one.\n", "", `16:5: an entry of doubts needs the key perhaps`},
		{sword, "when: rod > 3 * thickness\n    text", "text", `16:5: an entry of doubts needs the key when`},
		{sword, "rod > 3 * thickness", "rod > 3 * thicknes", `16:21: in "rod > 3 * thicknes" "thicknes" is not known here; did you mean thickness?`},
		{sword, "rod > 3 * thickness", "rod > 3", `in "rod > 3"`},
		{sword, "rod > 3 * thickness", "3 * rod", `16:13: in "3 * rod" this is not a condition; write a comparison`},
		{sword, "rod > 3 * thickness", "2 > 1", `16:11: a doubt that reads nothing of the piece is there for all or for none; compare one of its settings`},
		{sword, "Take a thinner one.", "''", `the perhaps is empty; say what to do about it`},
		{sword, "{rod} thick", "{rood} thick", `17:24: in "rood" "rood" is not known here; did you mean rod?`},
		{sword, "{rod - 3 * thickness}", "{rod - 3}", `17:43: in "rod - 3" a length and a plain number do not add up; a length has a unit, as in 10 mm`},
		{sword, "{rod} thick", "{teeth} thick", `17:24: "teeth" is a plain number, and a length is needed`},
		{sword, "{rod} thick", "{rod thick", `17:23: a brace is opened in "the rod is {rod thick, {rod - 3 * thickness} too much" and not closed`},
		{sword, "* thickness} too", "* thickness too", `17:36: a brace is opened in "the rod is {rod} thick, {rod - 3 * thickness too much" and not closed; write a length between braces, as in {rod}`},
		{sword, "{rod} thick", "rod} thick", `17:12: a brace is closed in "the rod is rod} thick, {rod - 3 * thickness} too much" that was not opened; write a length`},
		{sword, "{rod} thick", "{} thick", `17:23: nothing stands between two braces`},
		{sword, "on: [blade], ", "", `20:5: x and y are places on flat parts, and the mark "groove" names none; write on: and the names of flat parts in [ ]`},
		{sword, "on: [blade]", "on: [blad]", `20:25: there is no flat part "blad" to be marked; did you mean blade?`},
		{sword, "on: [blade], x: 20 mm, y: 30 mm, ", "", `20:5: the mark "groove" does not say where it stands; write angle and level, or on, x and y`},
		{sword, "y: 30 mm", "level: 30 mm", `20:5: the mark "groove" is on the shell and on flat parts; leave angle and level out, or on`},
		{sword, ", y: 30 mm", "", `20:5: the mark "groove" does not say where it stands on the flat parts; write x and y`},
		{spined, "180 deg, 270 deg]}\nbands", "max(90 deg, 180 deg), 270 deg]}\nbands", `"max(90 deg" is not a formula: it ends too early; close its parentheses, and inside [ ] or { } quote`},
		{rich, "[greave, cuisse]", "[x]", `10:9: a piece cannot come after itself; name another template`},
		{rich, "[greave, cuisse]", "greave", `10:8: after should be a list, not a single value`},
		{rich, "  trim: ", "  shoulders forward: ", `9:3: the name "shoulders forward" is taken by how the wearer stands; choose another`},
		{rich, "  trim: ", "  knee: ", `9:3: the name "knee" is taken by a station of the thigh; choose another`},
		{spined, "name: tip", "name: root", `two steps called "root"; give it another name`},
		{spined, "name: tip", "name: crown", `the name "crown" is taken by a station of the head; choose another`},
		{spined, ", {name: tip, y: 100 mm, tilt: 20 deg}", "", `9:11: a spine of one step goes nowhere; give it two or more`},
		{spined, "  over: helm", "  over: helm\n  axis: up", `9:9: the axis is the spine, so it has no direction of its own; leave one of them out`},
		{spined, ", size: {width: 60 mm, depth: 50 mm}", "", `11:5: ring "a" has no outline: along a spine every ring is drawn`},
		{spined, "[-20 mm, 0]], corners: [0, 90 deg, 180 deg, 270 deg]", "[-20 mm, 0]], corners: [0, 90 deg, 180 deg]", `12:109: ring "b" has 4 points and 3 corners; give one angle for each point`},
		{spined, "size: {width: 60 mm, depth: 50 mm}, corners: [0, 90 deg, 180 deg, 270 deg]", "size: {width: 60 mm, depth: 50 mm}", `12:5: ring "b" has 4 corners and 0 creases, the first ring has 0 and 0; give all rings the same`},
	} {
		if strings.Count(c.src, c.old) != 1 {
			t.Fatalf("%q stands %d times in the piece", c.old, strings.Count(c.src, c.old))
		}
		_, err := template.Parse("x.yaml", []byte(strings.Replace(c.src, c.old, c.new, 1)))
		if err == nil {
			t.Errorf("%q in place of %q is let in", c.new, c.old)
		} else if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q in place of %q gives\n  %v\nwant\n  %s", c.new, c.old, err, c.want)
		}
	}
}

const sword = `format: 1
title: Sword
about: A blade over a rod.
code: SW
governs: [stature]
thickness: 5 mm
settings:
  rod: {unit: mm, default: 10 mm, min: 6 mm, max: 16 mm, about: Its rod.}
  teeth: {unit: count, default: 2, min: 0, max: 6, about: Its teeth.}
frame: {free: true}
flats:
  - {name: blade, points: [[0, 0], [60 mm, 0], [0, 700 mm]]}
buy:
  - {name: rod of wood, thickness: rod, width: 2 * rod, length: 0.4 * stature, count: teeth, when: teeth > 0, text: it runs inside}
doubts:
  - when: rod > 3 * thickness
    text: "the rod is {rod} thick, {rod - 3 * thickness} too much"
    perhaps: Take a thinner one.
marks:
  - {name: groove, on: [blade], x: 20 mm, y: 30 mm, text: "groove, {0.5 * (rod - thickness)} deep"}
`

// What is bought, doubts, and texts with lengths in them.
func TestParse_readsWhatIsBoughtAndDoubted(t *testing.T) {
	p := parse(t, sword)
	env := template.Env{"rod": 16, "teeth": 3, "stature": 1700, "thickness": 5}
	b, d, m := p.Buy[0], p.Doubts[0], p.Marks[0]
	for f, want := range map[*template.Formula]float64{&b.Thickness: 16, &b.Width: 32, &b.Length: 680, &b.Count: 3, &m.X: 20, &m.Y: 30} {
		if v, err := f.Eval(env); err != nil || math.Abs(v-want) > 1e-9 {
			t.Errorf("%s is %v, %v; want %v", f, v, err, want)
		}
	}
	for rod, want := range map[float64]bool{15: false, 16: true} {
		if on, err := d.When.On(template.Env{"rod": rod, "thickness": 5}); on != want || err != nil {
			t.Errorf("a rod of %v mm is doubted: %v, %v", rod, on, err)
		}
	}
	write := func(mm float64) string { return fmt.Sprintf("%g mm", mm) }
	for _, c := range []struct {
		said template.Said
		want string
	}{{b.Text, "it runs inside"}, {d.Text, "the rod is 16 mm thick, 1 mm too much"}, {d.Perhaps, "Take a thinner one."}, {m.Text, "groove, 5.5 mm deep"}} {
		if got, err := c.said.In(env, write); got != c.want || err != nil {
			t.Errorf("%q, %v; want %q", got, err, c.want)
		}
	}
	if uses := template.Uses(d); !uses["rod"] || !uses["thickness"] || uses["teeth"] {
		t.Errorf("the doubt reads %v", uses)
	}
	if b.Name != "rod of wood" || fmt.Sprint(m.On) != "[blade]" {
		t.Errorf("it reads %q and a mark on %q", b.Name, m.On)
	}
}

// A piece may be of flat parts alone; then nothing stands on a shell.
func TestFlatsAlone(t *testing.T) {
	const head = "format: 1\ntitle: Fin\nabout: A fin.\ncode: F\ngoverns: []\nthickness: 5 mm\nframe: {free: true}\n"
	const fin = "flats:\n  - {name: fin, points: [[0, 0], [30 mm, 0], [0, 30 mm]]}\n"
	for text, want := range map[string]string{
		head + fin: "",
		head:       "fin.yaml:2:8: the template has no shape",
		head + fin + "marks:\n  - {name: a, text: b, angle: 0, level: 0}\n": "fin.yaml:11:5: a piece of flat parts alone has no shell",
	} {
		_, err := template.Parse("fin.yaml", []byte(text))
		if got := fmt.Sprint(err); (want == "") != (err == nil) || !strings.Contains(got, want) {
			t.Errorf("%v, want %q, of\n%s", err, want, text)
		}
	}
}

// A long list on one line is long and not deep; what the YAML reader says of files
// that are none is told in plain words, with the line.
func TestParse_longLinesAndBrokenOnes(t *testing.T) {
	const head = "format: 1\ntitle: Fin\nabout: A fin.\ncode: F\ngoverns: []\nthickness: 5 mm\nframe: {free: true}\n"
	var points []string
	for i := range 1500 {
		a := 2 * math.Pi * float64(i) / 1500
		points = append(points, fmt.Sprintf("[%.2f mm, %.2f mm]", 200*math.Cos(a), 200*math.Sin(a)))
	}
	long := func(n int) string {
		return head + "flats:\n  - {name: fin, points: [" + strings.Join(points[:n], ", ") + "]}\n"
	}
	if p, err := template.Parse("fin.yaml", []byte(long(500))); err != nil || len(p.Flats[0].Points) != 500 {
		t.Errorf("500 points on one line: %v", err)
	}
	for text, want := range map[string]string{
		long(1500): "fin.yaml:9:25: points has 1500 entries; 500 is the most",
		head + "flats: " + strings.Repeat("[", 40) + strings.Repeat("]", 40): "fin.yaml:8:1: lists and mappings nest too deeply",
		head + "code: G\n":          "fin.yaml:8:1: code stands here twice (first in line 4)",
		head + "base: {kind: plate": "fin.yaml:8:7: a { that was opened is not closed",
		head + "layouts: \"a":       "fin.yaml:8:10: a quotation mark that was opened is not closed",
		head + "cap\nbase:\n":       "fin.yaml:8:1: a colon is missing",
		head + "   cap: 3\n":        "fin.yaml:8:4: this does not fit here: the line is indented otherwise",
	} {
		if _, err := template.Parse("fin.yaml", []byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
