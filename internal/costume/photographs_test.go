package costume

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"tasset/body/photo"
)

const wearerHead = "format: 1\nmeasurements: {stature: 171 cm}\nphotographs:\n"

func TestReadWearer_photographs(t *testing.T) {
	w, err := ReadWearer("wearer.yaml", []byte(wearerHead+`
  - picture: photos/head-front.jpg
    view: head front
    focal length: 26 mm
    distance: 1.5 m
    ruler: {from: [812, 2210], to: [1840.5, 2203], length: 300 mm}
    marks:
      left pupil: [1204, 988]
      right pupil: {at: [1001, 990], plus-minus: 1.96 mm}
  - picture: ./photos/../photos/body.jpg
    view: body left side
    card: [[10, 10], [90, 10], [90, 60], [10, 60]]
`))
	if err != nil {
		t.Fatal(err)
	}
	want := []photo.Shot{
		{Name: "photos/head-front.jpg", View: photo.HeadFront, F35: 26, Distance: 1500, Where: "wearer.yaml:5",
			Ruler: &photo.Ruler{From: photo.Pixel{X: 812, Y: 2210}, To: photo.Pixel{X: 1840.5, Y: 2203}, Length: 300, Where: "wearer.yaml:9"},
			Marks: []photo.Mark{
				{Name: "left pupil", At: photo.Pixel{X: 1204, Y: 988}, Where: "wearer.yaml:11"},
				{Name: "right pupil", At: photo.Pixel{X: 1001, Y: 990}, SD: 1, Where: "wearer.yaml:12"}}},
		{Name: "photos/body.jpg", View: photo.BodyLeft, Where: "wearer.yaml:13",
			Card: &photo.Card{Corners: [4]photo.Pixel{{X: 10, Y: 10}, {X: 90, Y: 10}, {X: 90, Y: 60}, {X: 10, Y: 60}}, Where: "wearer.yaml:15"}},
	}
	if !reflect.DeepEqual(w.Photos, want) {
		t.Errorf("read  %+v\nwant %+v", w.Photos, want)
	}
}

func TestReadWearer_photographsThatAreWrong(t *testing.T) {
	many := strings.Repeat("  - {picture: a.jpg, view: head front}\n", mostPhotographs+1)
	marks := ""
	for i := range mostMarks + 1 {
		marks += fmt.Sprintf("      m%d: [1, 2]\n", i)
	}
	for _, c := range []struct{ src, says string }{
		{"  picture: a.jpg", "wearer.yaml:3: photographs: found keys and values; write a list of photographs"},
		{"  []", "found 0 photographs; write at least 1"},
		{many, "found 21 photographs; write at most 20"},
		{"  - {view: head front}", `wearer.yaml:4: found no "picture" here; write it, such as "picture: photos/head-front.jpg"`},
		{"  - {picture: a.jpg}", `found no "view" here; write it, such as "view: head front"`},
		{"  - {picture: a.jpg, view: head frnt}", `view: found "head frnt"; did you mean "head front"?`},
		{"  - {picture: a.jpg, view: head front, focal lenght: 26 mm}", `found the key "focal lenght", which is not known here; did you mean "focal length"?`},
		{"  - {picture: a.jpg, view: head front, focal length: 26 cm}\n  - {picture: a.jpg, view: head front}", "found a.jpg a second time (the first is at wearer.yaml:4)"},
		{"  - {picture: a.jpg, view: head front, focal length: 2 mm}", "focal length: found 2 mm; write the focal length as on 35 mm film"},
		{"  - {picture: a.jpg, view: head front, over: hair}", `over: found "hair", which is not among what is worn`},
		{"  - {picture: a.jpg, view: head front}\n  - {picture: b.jpg, view: head left side, over: hair}\nwears: {hair: 5 mm}", "wearer.yaml:5: photographs: found a picture of the head over hair, but the one before it is over skin"},
		{"  - {picture: a.jpg, view: head front, distance: 150 mm}", "distance: found 150 mm; write the distance"},
		{"  - {picture: a.jpg, view: head front, ruler: 300 mm}", `ruler: found "300 mm"; write keys and values here: from, to, length`},
		{"  - {picture: a.jpg, view: head front, ruler: {from: [1, 2], to: [3, 4]}}", `found no "length" here`},
		{"  - {picture: a.jpg, view: head front, ruler: {from: [1, 2], to: [3, 4], length: 3 mm}}", "length: found 3 mm; write how far the two marks on the ruler are apart"},
		{"  - {picture: a.jpg, view: head front, card: [[1, 2], [3, 4], [5, 6]]}", "card: found 3 places; write at least 4"},
		{"  - {picture: a.jpg, view: head front, marks: [left pupil]}", "marks: found a list; write landmarks with their places"},
		{"  - {picture: a.jpg, view: head front, marks: {left pupil: 12}}", `left pupil: found "12"; write a place in the picture as [x, y]`},
		{"  - {picture: a.jpg, view: head front, marks: {left pupil: [12]}}", "left pupil: found 1 value; write a place in the picture as two numbers"},
		{"  - {picture: a.jpg, view: head front, marks: {left pupil: []}}", "left pupil: found 0 values; write a place in the picture as two numbers"},
		{"  - {picture: a.jpg, view: head front, marks: {left pupil: [12, x]}}", `left pupil: "x" is not a plain number; write a number, such as 8`},
		{"  - {picture: a.jpg, view: head front, marks: {left pupil: [12, -3]}}", "left pupil: found -3; write how many pixels it is from the left"},
		{"  - {picture: a.jpg, view: head front, marks: {left pupil: [.nan, .inf]}}", `left pupil: ".nan" is not a plain number`},
		{"  - {picture: a.jpg, view: head front, marks: {left pupil: [1, 2], left pupil: [3, 4]}}", "wearer.yaml:4: "},
		{"  - {picture: a.jpg, view: head front, marks: {\"a\\e[2J\": [1, 2]}}", `wearer.yaml:4: found the landmark "a\x1b[2J"`},
		{"  - picture: a.jpg\n    view: head front\n    marks:\n" + marks, "marks: found 201 marks; write at most 200"},
	} {
		_, err := ReadWearer("wearer.yaml", []byte(wearerHead+c.src+"\n"))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%.80q gives %v; want a message that says %q", c.src, err, c.says)
		}
	}
}

// A file that a maker was handed must not make the program read others.
func TestReadWearer_picturesStayInTheFolder(t *testing.T) {
	for _, c := range []struct{ file, says string }{
		{"../other/a.jpg", "is not inside the costume's folder"},
		{"photos/../../a.jpg", "is not inside the costume's folder"},
		{"/etc/hostname", "is not inside the costume's folder"},
		{"~/a.jpg", "is not inside the costume's folder"},
		{"c:/a.jpg", "is not inside the costume's folder"},
		{"http://a.example/a.jpg", "found the web address"},
		{`'photos\a.jpg'`, `found "photos\a.jpg"; write / between`},
		{`""`, "found nothing; copy the picture into the folder"},
		{strings.Repeat("n", 251), "found 251 characters"},
		{`"a\e[2J.jpg"`, "characters that can be printed"},
	} {
		_, err := ReadWearer("wearer.yaml", []byte(wearerHead+"  - picture: "+c.file+"\n    view: head front\n"))
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.HasPrefix(err.Error(), "wearer.yaml:4: picture: ") {
			t.Errorf("%.80q gives %v; want a message that says %q", c.file, err, c.says)
		}
	}
}

func TestReadCostume_pictures(t *testing.T) {
	c, err := ReadCostume("costume.yaml", []byte(`format: 1
pictures:
  - picture: props/blade.jpg
    name: blade
    over: photos/body-front.jpg
    at: [1200, 1800]
    turn: 90 deg
    scale: [140 %, 150 %]
    flip: true
    depth: -15 cm
    rulers: [{name: grip, from: [1, 2], to: [3, 4]}]
    outline: [[1, 2], [3, 4, corner], [5, 2]]
    thickness: 10 mm
  - {picture: props/lamp.png, name: lamp, over: photos/body-front.jpg, at: [1, 2], scale: 50 %, known: {from: [1, 2], to: [3, 4], length: 30 cm}}
rulers:
  - {over: photos/body-front.jpg, name: staff, from: [1, 2], to: [3, 4], depth: 100 mm}
pieces:
  - piece: open-helmet
    name: cap
    drawn:
      - {opening: face, on: photos/head-front.jpg, curve: [[1, 2], [3, 4, corner]]}
`), NewCatalogue(nil))
	if err != nil {
		t.Fatal(err)
	}
	px := func(x, y float64) photo.Pixel { return photo.Pixel{X: x, Y: y} }
	line := func(name, where string, depth float64) photo.LongRuler {
		return photo.LongRuler{Name: name, From: px(1, 2), To: px(3, 4), Depth: photo.Depth{Value: depth}, Where: where}
	}
	wantLaid := []Laid{
		{Overlay: photo.Overlay{Picture: "props/blade.jpg", Name: "blade", At: px(1200, 1800), Turn: math.Pi / 2,
			ScaleX: 1.4, ScaleY: 1.5, Flip: true, Depth: photo.Depth{Value: -150}, Where: "costume.yaml:3"},
			On: "photos/body-front.jpg", Rulers: []Stretch{{LongRuler: line("grip", "costume.yaml:11", 0)}},
			Outline: []photo.TracePoint{{At: px(1, 2)}, {At: px(3, 4), Corner: true}, {At: px(5, 2)}}, OutlineAt: "costume.yaml:12", Thickness: 10},
		{Overlay: photo.Overlay{Picture: "props/lamp.png", Name: "lamp", At: px(1, 2), ScaleX: 0.5, ScaleY: 0.5, Where: "costume.yaml:14",
			Known: &photo.Known{From: px(1, 2), To: px(3, 4), Length: 300, Where: "costume.yaml:14"}}, On: "photos/body-front.jpg"},
	}
	if !reflect.DeepEqual(c.Pictures, wantLaid) {
		t.Errorf("read  %+v\nwant %+v", c.Pictures, wantLaid)
	}
	wantRulers := []Stretch{{LongRuler: line("staff", "costume.yaml:16", 100), On: "photos/body-front.jpg"}}
	if !reflect.DeepEqual(c.Rulers, wantRulers) {
		t.Errorf("read  %+v\nwant %+v", c.Rulers, wantRulers)
	}
	wantDrawn := []Drawn{{Piece: "cap", Kind: "opening", Name: "face", On: "photos/head-front.jpg",
		Curve: []photo.TracePoint{{At: photo.Pixel{X: 1, Y: 2}}, {At: photo.Pixel{X: 3, Y: 4}, Corner: true}}, Where: "costume.yaml:21"}}
	if !reflect.DeepEqual(c.Drawn, wantDrawn) {
		t.Errorf("read  %+v\nwant %+v", c.Drawn, wantDrawn)
	}
}

func TestReadCostume_picturesThatAreWrong(t *testing.T) {
	const laid = "pictures:\n  - {picture: a.jpg, name: a, over: b.jpg, at: [1, 2], "
	const drawn = "pieces:\n  - piece: helm\n    drawn:\n      - "
	for _, c := range []struct{ src, says string }{
		{laid + "depth: 1 mm, known: {from: [1, 2], to: [3, 4], length: 30 cm}}", "depth: found a depth beside a known length"},
		{"pictures:\n  - {picture: a.jpg, name: a, at: [1, 2], known: {from: [1, 2], to: [3, 4], length: 30 cm}}", `found no "over" here`},
		{laid + "turn: 3 deg}", `costume.yaml:3: found neither "depth" nor "known" here`},
		{laid + "depth: 3 m}", "depth: found 3 m; write how far it is before the middle of the body"},
		{laid + "depth: 0, scale: 0 %}", "scale: found 0 %; write a percentage"},
		{laid + "depth: 0, scale: 36}", `scale: "36" has no %; write 36 %`},
		{laid + "depth: 0, scale: [90 %, 90 %, 90 %]}", "scale: found 3 values; write at most 2"},
		{laid + "depth: 0, outline: [[1, 2], [3, 4]]}", "outline: found 2 points; write at least 3"},
		{laid + "depth: 0, outline: [[1, 2], [3, 4], [5, 6, cornr]]}", `outline: found "cornr" behind the two numbers; only "corner" may stand there`},
		{laid + "depth: 0, outline: [[1, 2], [3, 4], [5, 6, corner, 7]]}", "outline: found 4 values"},
		{laid + "depth: 0, outline: [" + strings.Repeat("[1, 2],", mostNodes+1) + "]}", "outline: found 501 points; write at most 500"},
		{laid + "depth: 0, rulers: [{from: [1, 2], to: [3, 4]}]}", `found no "name" here`},
		{laid + "depth: 0, rulers: [{name: x, from: [1, 2], to: [3, 4], over: b.jpg}]}", `found the key "over"`},
		{laid + "depth: 0}\n  - {picture: c.jpg, name: a, over: b.jpg, at: [1, 2], depth: 0}", `found a second picture called "a"`},
		{"pictures:\n  - {picture: ../a.jpg, name: a, over: b.jpg, at: [1, 2], depth: 0}", "is not inside the costume's folder"},
		{"rulers:\n  - {name: a, from: [1, 2], to: [3, 4]}", `found no "over" here`},
		{drawn + "{on: a.jpg, curve: [[1, 2], [3, 4]]}", "found none of opening, edge and seam"},
		{drawn + "{opening: face, edge: rim, on: a.jpg, curve: [[1, 2], [3, 4]]}", `edge: found it beside "opening"`},
		{drawn + "{opening: face, curve: [[1, 2], [3, 4]]}", `found no "on" here`},
		{drawn + "{opening: face, on: a.jpg, curve: [[1, 2]]}", "curve: found 1 point; write at least 2"},
	} {
		_, err := ReadCostume("costume.yaml", []byte("format: 1\n"+c.src+"\n"), NewCatalogue(nil))
		if err == nil || strings.Count(err.Error(), c.says) != 1 {
			t.Errorf("%.100q gives %v; want a message that says %q once", c.src, err, c.says)
		}
	}
}
