package pattern_test

import (
	"context"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/pattern"
	"tasset/templates"

	"gonum.org/v1/gonum/spatial/r3"
)

// overIt are pieces that lie over another of the catalogue, or over each other.
var overIt = map[string]string{
	"guard": `ease: 6 mm
mirror: true
frame: {over: open-helmet, gap: 4 mm}
span: {from: -80 deg, to: 80 deg}
rings:
  - {name: low, at: eyes, creases: [{at: 0 deg, rise: 15 mm}]}
  - {name: high, at: brow + 30 mm, creases: [{at: 0 deg, rise: 5 mm}]}
bands:
  - {name: guard, from: low, to: high}
`,
	"plate": `ease: 2 mm
frame: {over: guard, gap: 2 mm}
span: {from: -40 deg, to: 40 deg}
rings:
  - {name: low, at: eyes + 5 mm}
  - {name: high, at: brow + 20 mm}
bands:
  - {name: plate, from: low, to: high}
`,
	"sleeve": `ease: 2 mm
frame: {over: vambrace, gap: 3 mm}
rings:
  - {name: low, at: lower_forearm}
  - {name: high, at: mid_forearm}
bands:
  - {name: sleeve, from: low, to: high, seams: {at: [90 deg]}}
`,
	"hen": `frame: {over: egg, gap: 2 mm}
rings:
  - {name: low, at: 0}
  - {name: high, at: 20 mm}
bands:
  - {name: hen, from: low, to: high, seams: {at: [90 deg]}}
`,
}

func overFiles(t *testing.T) fs.FS {
	t.Helper()
	files := fstest.MapFS{}
	for name, yaml := range overIt {
		files[name+".yaml"] = &fstest.MapFile{Data: []byte(head + yaml)}
	}
	files["egg.yaml"] = &fstest.MapFile{Data: []byte(head + strings.ReplaceAll(overIt["hen"], "over: egg", "over: hen"))}
	for _, name := range []string{"open-helmet", "vambrace"} {
		src, err := fs.ReadFile(templates.FS, name+".yaml")
		if err != nil {
			t.Fatal(err)
		}
		files[name+".yaml"] = &fstest.MapFile{Data: src}
	}
	return files
}

func named(names ...string) []pattern.Order {
	var out []pattern.Order
	for i, n := range names {
		name, side := n, body.Both
		if s, ok := strings.CutPrefix(n, "left "); ok {
			n, side = s, body.Left
		}
		if s, ok := strings.CutPrefix(n, "right "); ok {
			n, side = s, body.Right
		}
		out = append(out, pattern.Order{Name: name, Template: n, Side: side, Where: "costume.yaml:" + ftoa(float64(i+1))})
	}
	return out
}

// What lies over a piece clears that piece's outer face by its gap, whichever
// of them the costume names first.
func TestMake_overAnotherPiece(t *testing.T) {
	fsys, form := overFiles(t), drawBody(t, 3)
	for _, c := range []struct {
		orders       []pattern.Order
		upper, lower int
		gap          float64
	}{
		{named("open-helmet", "guard"), 1, 0, 4},
		{named("guard", "open-helmet"), 0, 1, 4},
		{named("plate", "guard", "open-helmet"), 0, 1, 2},
		{named("vambrace", "sleeve"), 1, 0, 3},
		{named("vambrace", "right sleeve"), 1, 0, 3},
		{named("left vambrace", "right vambrace", "right sleeve"), 2, 1, 3},
	} {
		set, _, err := pattern.Make(context.Background(), c.orders, fsys, form, pattern.Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		upper, lower := &set.Pieces[c.upper], &set.Pieces[c.lower]
		pattern.CheckPiece(t, upper)
		if upper.Name != c.orders[c.upper].Name || upper.GapAsked != c.gap || upper.Gap < 0.98*c.gap-0.1 || upper.Clearance < 0.98*upper.Asked {
			t.Errorf("%s: a gap of %.2f mm of %.1f asked, %.2f mm clear of %.1f", upper.Name, upper.Gap, upper.GapAsked, upper.Clearance, upper.Asked)
		}
		apart := neutralsApart(upper, lower)
		if want := c.gap + upper.K*upper.Thickness + (1-lower.K)*lower.Thickness; apart < 0.98*want-0.1 || apart > 3*want {
			t.Errorf("%s: its neutral surface is %.2f mm from that of the %s; want %.2f", upper.Name, apart, lower.Name, want)
		}
	}
}

// neutralsApart is the least distance between the neutral surfaces of two
// pieces, at the corners of the upper one's triangles.
func neutralsApart(upper, lower *pattern.Piece) float64 {
	body := func(p *pattern.Piece) geom.Mesh {
		var m geom.Mesh
		for i := range p.Panels {
			part := geom.Mesh{V: append([]r3.Vec(nil), p.Panels[i].Surface.Bent...), T: p.Panels[i].Surface.T}
			if p.Panels[i].Copies > p.Copies {
				part.Append(part.MirroredX())
			}
			m.Append(part)
		}
		for i, v := range m.V {
			m.V[i] = p.Frame.Point(v)
		}
		if p.Copies == 2 {
			m.Append(m.MirroredX())
		}
		return m
	}
	l := geom.NewLocator(body(lower))
	least := math.Inf(1)
	for _, v := range body(upper).V {
		d, _ := l.Distance(v)
		least = min(least, math.Abs(d))
	}
	return least
}

func TestMake_overWhatIsNotThere(t *testing.T) {
	fsys, form := overFiles(t), drawBody(t, 3)
	for _, c := range []struct {
		orders []pattern.Order
		says   []string
	}{
		{named("guard"), []string{"costume.yaml:1", "lies over the open-helmet", "- piece: open-helmet"}},
		{named("left vambrace", "right sleeve"), []string{"costume.yaml:2", "none on the right"}},
		{named("vambrace", "hen", "egg"), []string{"costume.yaml:2", "hen.yaml", "egg.yaml"}},
	} {
		_, _, err := pattern.Make(context.Background(), c.orders, fsys, form, pattern.Material{K: 0.5})
		for _, s := range c.says {
			if err == nil || !strings.Contains(err.Error(), s) {
				t.Errorf("got %v; want an error that says %q", err, s)
			}
		}
	}
}
