package template_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tasset/pattern/template"
)

const tray = `format: 1
title: Tray
about: A tray.
code: TR
governs: []
thickness: 5 mm
frame: {free: true}
flats:
  - {name: floor, facing: bottom, points: [[0, 0], [80 mm, 0], [80 mm, 60 mm], [0, 60 mm]]}
  - {name: wall, facing: left, x: 80 mm, points: [[0, 0], [60 mm, 0], [60 mm, 30 mm], [0, 30 mm]]}
  - {name: cover, facing: left, x: 85 mm, points: [[0, 0], [60 mm, 0], [60 mm, 30 mm], [0, 30 mm]]}
  - {name: tag, points: [[0, 0], [60 mm, 0], [60 mm, 30 mm]]}
joins:
  - {part: floor, to: [wall], by: cloth}
fastenings:
  - {kind: snap, on: wall, x: 30 mm, y: 20 mm, part: cover}
`

func TestParse_readsJoins(t *testing.T) {
	p := parse(t, tray)
	j, f := p.Joins[0], p.Fastenings[0]
	x, _ := f.X.Eval(nil)
	y, _ := f.Y.Eval(nil)
	if len(p.Joins) != 1 || j.Part != "floor" || !slices.Equal(j.To, []string{"wall"}) || !j.Cloth || j.Line != 14 || f.On != "wall" || f.Part != "cover" || x != 30 || y != 20 {
		t.Errorf("joins %+v, fastening %+v", p.Joins, f)
	}
	if glued := parse(t, strings.Replace(tray, ", by: cloth", "", 1)); glued.Joins[0].Cloth {
		t.Error("what says nothing of cloth is joined by it")
	}
}

// What a maker gets wrong about flats that are joined or fastened to each other.
func TestParse_faultsOfJoins(t *testing.T) {
	for _, c := range [][3]string{
		{"to: [wall]", "to: [wal]", `14:24: there is no flat part "wal" to be joined; did you mean wall?`},
		{"part: floor", "part: roof", `14:12: there is no flat part "roof" to be joined; write one of floor, wall, cover, tag`},
		{"to: [wall]", "to: [tag]", `14:24: the flat part "tag" cannot be joined: nothing says where it stands; write facing, and x, y and z, at that flat part`},
		{"to: [wall]", "to: [floor]", `14:24: the flat part "floor" is joined to itself; name another of its flats`},
		{"to: [wall]", "to: [wall, wall]", `14:30: "floor" and "wall" are joined twice; leave one of the two joins out`},
		{"name: tag", "name: wall", `there are two flat parts "wall", the first in line 10; give one of them another name`},
		{"to: [wall]", "to: []", `the join does not say what "floor" meets; write to: and the names of other flats in [ ]`},
		{"to: [wall]", "to: wall", `to should be a list, not a single value`},
		{"by: cloth", "by: clothes", `by cannot be "clothes"; did you mean cloth?`},
		{", to: [wall]", "", `an entry of joins needs the key to`},
		{"on: wall", "on: wal", `16:22: there is no flat part "wal" to be fastened; did you mean wall?`},
		{"kind: snap", "kind: lacing", `16:12: a lacing does not hold one flat part on another; use hook-and-loop, a snap or a magnet pair`},
		{", part: cover", "", `16:5: the snap does not say which flat part its other part is on; write part: and the flat part that lies over that place`},
		{", y: 20 mm", "", `16:5: the snap does not say where on "wall" it is; write x and y`},
		{"x: 30 mm", "level: 10 mm, x: 30 mm", `16:5: a fastening on a flat part has its place by on, x and y, and its other part by part; leave the other keys of places out`},
		{"on: wall, ", "", `x and y are a place on a flat part, and the snap does not say on which; write on:`},
		{"part: cover", "part: tag", `the piece has no flat part "tag" that stands on it`},
	} {
		if strings.Count(tray, c[0]) != 1 {
			t.Fatalf("%q stands %d times in the piece", c[0], strings.Count(tray, c[0]))
		}
		_, err := template.Parse("x.yaml", []byte(strings.Replace(tray, c[0], c[1], 1)))
		if got := fmt.Sprint(err); !strings.Contains(got, c[2]) {
			t.Errorf("%q in place of %q gives\n  %v\nwant\n  %s", c[1], c[0], got, c[2])
		}
	}
}
