package pattern

import (
	"context"
	"math"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Hook-and-loop that holds something on a piece has its hooks on both copies, and its
// loops on what it holds: a flat part, or another piece; its patches lie on the foam.
func TestFasten_hooksFindTheirLoops(t *testing.T) {
	var orders []Order
	for _, name := range []string{"belt", "side-plates", "backplate", "breastplate"} {
		orders = append(orders, Order{Name: name, Template: name})
	}
	set, _, err := Make(context.Background(), orders, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	hooks, loops, lines, ends := map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}
	var pouch []Mark
	for _, p := range set.Pieces {
		for i := range p.Panels {
			for _, m := range p.Panels[i].Marks {
				name := naming(m)
				switch {
				case m.Kind == "line" && strings.Contains(m.Text, "pouch") && !strings.Contains(m.Text, "pouch back lies over"):
					t.Errorf("%s: %q", p.Panels[i].Label, m.Text)
				case m.Kind == "line", m.Text == oneTailOnly:
					if lines[m.Text]++; strings.Contains(m.Text, "pouch back lies over") {
						pouch = append(pouch, m)
					}
					continue
				case name == "belt ends": // its two ends meet each other
					ends[m.Only]++
					continue
				case strings.Contains(m.Text, "turned over") && !strings.Contains(m.Text, "buckle"):
					t.Errorf("%s: %q", p.Panels[i].Label, m.Text)
				case strings.Contains(m.Text, ", hooks"):
					hooks[name] += p.Panels[i].Copies
				case strings.Contains(m.Text, ", loops"):
					loops[name] += p.Panels[i].Copies
				default:
					continue
				}
				if on := p.Panels[i].onFoam(m.Line); on < leastOnFoam {
					t.Errorf("%s: %.0f %% of %q lie on it", p.Panels[i].Label, 100*on, m.Text)
				}
			}
		}
	}
	if len(ends) != 2 || ends[onTheOther] != 1 || ends[onTheFlipped] != 1 {
		t.Errorf("hook-and-loop of the belt's ends: %v, want one part on either copy", ends)
	}
	if lines[oneTailOnly] != 1 || lines["BE5 pouch back lies over this line, on the outside"] != 2 {
		t.Errorf("lines %v: want one for the belt's end, and both sides of the pouch", lines)
	}
	for i, m := range pouch { // it covers what lies between its two sides
		half := geom.Length(m.Line) / 2
		at, left := geom.At(m.Line, half), quarterTurn(headingAt(m.Line, geom.Lengths(m.Line), half))
		if other := geom.Centroid(pouch[1-i].Line); !m.Covers || r2.Dot(left, r2.Unit(r2.Sub(other, at))) < 0.9 {
			t.Errorf("the pouch lies %.2f of the way to its other side left of %v; covered: %t", r2.Dot(left, r2.Unit(r2.Sub(other, at))), m.Line, m.Covers)
		}
	}
	for _, name := range []string{"pouch 2", "flap 3", "under the breastplate 1", "under the backplate 2"} {
		if hooks[name] != 2 || loops[name] != 2 {
			t.Errorf("%s: %d hooks and %d loops, want 2 of each", name, hooks[name], loops[name])
		}
	}
}

// A helmet's chin strap goes from one cheek to the other by way of the chin: it is
// longer than both straight ways there, and by less than a third (judgement). It is glued
// on beside the pads.
func TestFasten_chinStraps(t *testing.T) {
	for _, name := range []string{"open-helmet", "visored-helmet", "t-face-helmet", "skull-cap"} {
		set, _, err := Make(context.Background(), []Order{{Name: name, Template: name}}, templates.FS, drawnForm(t), Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		p := &set.Pieces[0]
		if len(p.Straps) != 1 || p.Straps[0].Kind != pullStrap || p.Straps[0].Count != 1 {
			t.Errorf("%s: straps %+v, want one from cheek to cheek", name, p.Straps)
			continue
		}
		for i := range p.Panels {
			for k, m := range p.Panels[i].Marks {
				if len(m.Axis) == 0 {
					continue
				}
				for _, o := range p.Panels[i].Marks {
					if d := depth(m.Line, o.Line); o.Kind == "pad" && d > mostShared {
						t.Errorf("%s: %q lies %.0f mm under %q", p.Panels[i].Label, m.Text, d, o.Text)
					}
				}
				at, _ := anchor{piece: p, panel: i, q: geom.Centroid(m.Line), mark: k}.place()
				s := p.Straps[0]
				chin := chinOf(drawnForm(t))
				if straight := 2 * geom.Dist(at, chin); s.Path < straight || s.Path > 1.35*straight || s.Length <= s.Path+s.Patch {
					t.Errorf("%s: %+v; straight by way of the chin are %.0f mm", name, s, straight)
				}
			}
		}
	}
}

// chinOf is the point of the chin, body axes.
func chinOf(form *body.Form) r3.Vec {
	head, _ := form.Part(body.Head, body.Both)
	level, _ := head.Station("chin")
	return head.Frame.Point(head.Point(0, level))
}

// A band from one tragion to the other by way of the chin's point is as long as the
// survey's bitragion-chin arc of such a man, but for what a smooth head and an
// estimate differ by (5 %, judgement).
func TestPathRound_theChinArc(t *testing.T) {
	form, chin := drawnForm(t), chinOf(drawnForm(t))
	head, _ := form.Part(body.Head, body.Both)
	ear := func(side float64) anchor { // the tragions stand in the plane of the frame's axis
		at, _, _ := geom.NewLocator(head.Mesh()).Hit(r3.Vec{X: 500 * side}, r3.Vec{X: -side})
		a := anchorAt(0, side*math.Pi/2)
		a.piece.Frame.O = r3.Sub(head.Frame.Point(r3.Vec{X: side * (500 - at)}), r3.Vec{Y: 10})
		return a
	}
	middle := head.Frame.Point(r3.Vec{})
	way := r3.Sub(chin, middle)
	skull := head.Mesh()
	for i, v := range skull.V {
		skull.V[i] = head.Frame.Point(v)
	}
	got := pathRound(skull, ear(1), ear(-1), r3.Sub(chin, r3.Scale(justInside, r3.Unit(way))), way)
	arc, _ := form.Measurements().Get("chin arc", body.Both)
	want := arc.Value
	if math.Abs(got/want-1) > 0.05 {
		t.Errorf("the band is %.0f mm long, and the arc %.0f mm", got, want)
	}
}

// upperEdges are how high the lames of a piece reach, piece axes.
func upperEdges(p *Piece) map[int]float64 {
	top := map[int]float64{}
	for i := range p.Panels {
		for _, q := range p.Panels[i].Outline {
			top[p.Panels[i].Lame] = max(top[p.Panels[i].Lame], p.Panels[i].Surface.Lift(q).Y)
		}
	}
	return top
}

// keepsAbove holds a mark to a level, piece axes.
func keepsAbove(t *testing.T, panel *Panel, m Mark, level float64) {
	t.Helper()
	for _, q := range m.Line {
		if y := panel.Surface.Lift(q).Y; y < level {
			t.Errorf("%s: %q reaches %.0f mm below what the lame below leaves free", panel.Label, m.Text, level-y)
		}
	}
}

// The strap that carries lames is glued on where the lame below leaves it free inside:
// above that one's upper edge.
func TestLameStraps_lieOnFreeFoam(t *testing.T) {
	set, _, err := Make(context.Background(), []Order{{Name: "tassets", Template: "tassets"}}, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	p, n := &set.Pieces[0], 0
	top := upperEdges(p)
	for i := range p.Panels {
		panel := &p.Panels[i]
		for _, m := range panel.Marks {
			if panel.Lame < 2 || !strings.HasPrefix(m.Text, "strap ") {
				continue
			}
			n++
			keepsAbove(t, panel, m, top[panel.Lame-1]-2)
		}
	}
	if n != 6 {
		t.Errorf("%d patches on the two upper lames, want 6", n)
	}
}

// The end of a strap that hangs tassets on faulds, and those on plates, is glued where
// the lame that lies below on the inner face leaves it free, and is as long at either
// end; the strap that closes the faulds lies outside, where none lies.
func TestStraps_keepOffTheLameBehind(t *testing.T) {
	var orders []Order
	for _, name := range []string{"backplate", "breastplate", "faulds", "tassets"} {
		orders = append(orders, Order{Name: name, Template: name})
	}
	set, _, err := Make(context.Background(), orders, templates.FS, drawnForm(t), Material{K: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	long := map[string]float64{} // of a strap's patches, by its name
	n := 0
	for _, p := range set.Pieces {
		for _, s := range p.Straps { // behind the belly and the small of the back, and the faulds
			if s.Other != "" && s.Hidden != (p.Name != "breastplate") {
				t.Errorf("%s: %+v", p.Name, s)
			}
		}
		top := upperEdges(&p)
		for i := range p.Panels {
			panel := &p.Panels[i]
			for _, m := range panel.Marks {
				if len(m.Axis) == 0 || !strings.Contains(m.Text, "of the faulds") && !strings.Contains(m.Text, "of the tassets") && p.Name != "faulds" && p.Name != "tassets" {
					continue
				}
				if was, is := long[naming(m)], geom.Length(m.Axis); was > 0 && math.Abs(was-is) > 1e-6 {
					t.Errorf("%s: %q is %.1f mm long, and %.1f mm at the other end", panel.Label, m.Text, is, was)
				}
				long[naming(m)] = geom.Length(m.Axis)
				if panel.Lame < 2 || strings.Contains(m.Text, "outside") {
					continue
				}
				n++
				keepsAbove(t, panel, m, top[panel.Lame-1]-mostShared)
			}
		}
	}
	if n != 9 {
		t.Errorf("%d patches on lames over others, want 9", n)
	}
}
