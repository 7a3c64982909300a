package pattern

import (
	"context"
	"math"
	"testing"

	"tasset/internal/geom"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// edgesOf are joined edges along the sides of a ring, each cut beyond its seam line by
// so much.
func edgesOf(ring []r2.Vec, beyond ...float64) (out []Edge) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		out = append(out, Edge{Kind: Butt, Seam: i + 1, Line: []r2.Vec{a, geom.Lerp(a, b, 0.5), b}, Length: geom.Dist(a, b), Beyond: []float64{beyond[i], beyond[i]}})
	}
	return out
}

// A line to cut beside its seam lines has mitred corners. Source: the outline of a
// rectangle moved out by d is one that is 2·d wider and higher; where only one side
// moves, by d.
func TestOutlineOf_besideTheSeamLines(t *testing.T) {
	square := []r2.Vec{{}, {X: 100}, {X: 100, Y: 60}, {Y: 60}}
	for _, c := range []struct {
		beyond     []float64
		wide, high float64
	}{
		{[]float64{0, 0, 0, 0}, 100, 60},
		{[]float64{5, 5, 5, 5}, 110, 70},
		{[]float64{-5, -5, -5, -5}, 90, 50},
		{[]float64{0, 4, 0, 0}, 104, 60},
		{[]float64{0, -4, 0, 3}, 99, 60},
	} {
		ring := outlineOf(edgesOf(square, c.beyond...))
		box := geom.Bounds(ring)
		if w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y; math.Abs(w-c.wide) > 1e-9 || math.Abs(h-c.high) > 1e-9 || math.Abs(geom.Area(ring)-c.wide*c.high) > 1e-6 {
			t.Errorf("beyond %v: %g by %g mm, %g mm²; want %g by %g", c.beyond, w, h, geom.Area(ring), c.wide, c.high)
		}
	}
	tip := []r2.Vec{{}, {X: 40}, {X: 20, Y: 300}} // 7.6°
	for _, d := range []float64{-3, 3} {
		ring := outlineOf(edgesOf(tip, 0, d, d))
		if _, _, bad := geom.Crossing(ring); bad || len(ring) < 3 {
			t.Errorf("a sharp tip moved by %g: the outline crosses itself: %v", d, ring)
		}
	}
}

// The walls of a box stand round its floor: traced outside, the floor's template is as
// large as the outside, traced inside as the inside, and the two differ by what both
// walls take up. Source: the mitre of two plates of thickness t that meet at a fold is
// t·tan(fold/2) longer outside than inside.
func TestOutlineOf_facesDifferByTheMitre(t *testing.T) {
	const thick = 8.0
	of := func(f Face) map[string]Panel {
		set, _, err := Make(context.Background(), []Order{{Name: "axe", Template: "axe-head", Thickness: thick, Traced: f}}, templates.FS, drawnForm(t), Material{K: 0.4})
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]Panel{}
		for _, p := range set.Pieces[0].Panels {
			out[p.Label] = p
		}
		return out
	}
	middle, outer, inner := of(Middle), of(Outer), of(Inner)
	checked := 0
	for label, m := range middle {
		for i, e := range m.Edges {
			if e.Beyond != nil || e.Bevel.Max-e.Bevel.Min > 1e-3 {
				continue
			}
			want := thick * math.Tan(e.Bevel.Max)
			if !e.Bevel.Undercut {
				want = -want
			}
			outside, inside := &outer[label].Edges[i], &inner[label].Edges[i]
			if outside.Beyond == nil || inside.Beyond == nil {
				continue // less than a knife strays
			}
			o, n := outside.BeyondAt(0.3), inside.BeyondAt(0.3)
			checked++
			if math.Abs(o-n-want) > 1e-2 || math.Abs(o-0.6*want) > 1e-2 {
				t.Errorf("%s, edge %d: %.3f mm outside, %.3f inside; they should differ by %.3f", label, i, o, n, want)
			}
		}
	}
	if checked < 20 {
		t.Errorf("only %d edges checked", checked)
	}
}

// Where a bevel changes along an edge, the line to cut follows it. Source: the mitre
// setback t·tan(fold/2) of two plates, of the fold between the normals of both panels at
// the places of the edge.
func TestOutlineOf_followsTheBevel(t *testing.T) {
	const thick, k = 8.0, 0.4
	varied := 0
	for _, name := range []string{"open-helmet", "couter", "gauntlet", "pauldron", "faceted-breastplate"} {
		set, _, err := Make(context.Background(), []Order{{Name: name, Template: name, Thickness: thick, Traced: Outer}}, templates.FS, drawnForm(t), Material{K: k})
		if err != nil {
			t.Fatal(err)
		}
		p := &set.Pieces[0]
		for _, s := range p.Seams {
			for _, span := range s.Spans {
				for i := range 2 {
					mine, other := span.Sides[i], span.Sides[1-i]
					e := &p.Panels[mine.Panel].Edges[mine.Edge]
					if e.Beyond == nil || p.Panels[mine.Panel].Lame != p.Panels[other.Panel].Lame || len(p.CopiesOf(&p.Panels[other.Panel])) > 1 {
						continue
					}
					if !e.Bevel.Even() {
						varied++
					}
					for _, share := range []float64{0.06, 0.2, 0.5, 0.8, 0.94} {
						want := (1 - k) * thick * math.Tan(foldAt(p, mine, other, share)/2)
						q := geom.At(e.Line, share*e.Length)
						if got := math.Abs(e.BeyondAt(share)); math.Abs(got-want) > 0.15 {
							t.Errorf("%s, %s to %s, at %.0f %%: cut %.2f mm beside the seam line, want %.2f", name, p.Panels[mine.Panel].Label, e.Partner, 100*share, got, want)
						} else if off := geom.DistToRing(p.Panels[mine.Panel].Outline, q); off > got+0.05 || share == 0.5 && off < got-0.05 {
							t.Errorf("%s, %s to %s, at %.0f %%: the outline is %.2f mm from the seam line, not %.2f", name, p.Panels[mine.Panel].Label, e.Partner, 100*share, off, got)
						}
					}
				}
			}
		}
	}
	if varied < 10 {
		t.Errorf("only %d edges with a bevel that changes", varied)
	}
}

// foldAt is the angle between the panels on either side of a seam, 1 mm inside each, at a
// share of the way along the first one's edge.
func foldAt(p *Piece, mine, other EdgeRef, share float64) float64 {
	place := func(ref EdgeRef, share float64) (r3.Vec, r3.Vec) {
		panel := &p.Panels[ref.Panel]
		e := &panel.Edges[ref.Edge]
		on := geom.At(e.Line, share*e.Length)
		along := r2.Sub(geom.At(e.Line, (share+0.001)*e.Length), geom.At(e.Line, (share-0.001)*e.Length))
		in := r2.Unit(r2.Vec{X: -along.Y, Y: along.X})
		_, n := panel.Surface.LiftWithNormal(r2.Add(on, in))
		return panel.Surface.Lift(on), n
	}
	at, n := place(mine, share)
	least, m := math.Inf(1), r3.Vec{}
	for s := 0.002; s < 1; s += 0.002 {
		if q, o := place(other, s); geom.Dist(q, at) < least {
			least, m = geom.Dist(q, at), o
		}
	}
	return foldAngle(n, m)
}
