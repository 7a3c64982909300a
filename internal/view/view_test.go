package view

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

var page = draw.Rect{Max: r2.Vec{X: 100, Y: 100}}

// cube is a cube with side 40 about the origin.
func cube() geom.Mesh {
	var m geom.Mesh
	for i := range 8 {
		m.V = append(m.V, r3.Vec{X: float64(i&1)*40 - 20, Y: float64(i>>1&1)*40 - 20, Z: float64(i>>2)*40 - 20})
	}
	for _, q := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.T = append(m.T, [3]int{q[0], q[1], q[2]}, [3]int{q[0], q[2], q[3]})
	}
	return m
}

func cubeScene() Scene {
	m := cube()
	s := Scene{Faces: []Face{{Mesh: m}}}
	for i := range 8 {
		for _, bit := range []int{1, 2, 4} {
			if i&bit == 0 {
				s.Lines = append(s.Lines, Line{[]r3.Vec{m.V[i], m.V[i|bit]}, Seam})
			}
		}
	}
	return s
}

// sphere has its poles on the y axis.
func sphere(r float64, n int) geom.Mesh {
	var m geom.Mesh
	at := func(i, j int) int { return i*2*n + j%(2*n) }
	for i := 0; i <= n; i++ {
		for j := range 2 * n {
			a, b := math.Pi*float64(i)/float64(n), math.Pi*float64(j)/float64(n)
			m.V = append(m.V, r3.Vec{X: r * math.Sin(a) * math.Sin(b), Y: r * math.Cos(a), Z: r * math.Sin(a) * math.Cos(b)})
		}
	}
	for i := range n {
		for j := range 2 * n {
			if i > 0 {
				m.T = append(m.T, [3]int{at(i, j), at(i+1, j), at(i, j+1)})
			}
			if i < n-1 {
				m.T = append(m.T, [3]int{at(i, j+1), at(i+1, j), at(i+1, j+1)})
			}
		}
	}
	return m
}

func lines(items []draw.Item) (out [][]r2.Vec) {
	for _, it := range items {
		out = append(out, it.(*draw.Path).Subpaths...)
	}
	return out
}

// A convex body with three faces towards the viewer: of a cube's 12 edges the
// three at the far corner are hidden (source: Euler's formula leaves 9 edges
// for three quadrilaterals round one corner).
func TestDraw_cubeShowsNineEdges(t *testing.T) {
	for _, cam := range []Camera{{0.5, 0.4}, {-0.7, 0.3}, {2.5, -0.6}, {4, 0.9}} {
		v := New(cubeScene(), cam, page)
		if got := len(lines(v.Items())); got != 9 {
			t.Errorf("%v: %d edges seen, want 9", cam, got)
		}
		hidden := lines(v.Hidden(draw.Style{Width: 0.1}))
		if len(hidden) != 3 {
			t.Errorf("%v: %d edges hidden, want 3", cam, len(hidden))
		}
		far := v.At(farthest(cube(), cam))
		for _, l := range hidden {
			if geom.Dist(l[0], far) > 0.1 && geom.Dist(l[len(l)-1], far) > 0.1 {
				t.Errorf("%v: hidden edge %v does not end at the far corner %v", cam, l, far)
			}
		}
	}
}

func farthest(m geom.Mesh, c Camera) r3.Vec {
	_, _, eye := c.axes()
	far := m.V[0]
	for _, p := range m.V {
		if r3.Dot(p, eye) < r3.Dot(far, eye) {
			far = p
		}
	}
	return far
}

// A sphere looks like a circle of its own radius from everywhere, and nothing
// is drawn inside it.
func TestDraw_sphereIsACircle(t *testing.T) {
	const r = 50
	for _, cam := range []Camera{{}, {0.6, 0.35}, {3, -1.1}} {
		s := Scene{Faces: []Face{{Mesh: sphere(r, 60), Silhouette: Outline}}}
		v := Scaled(s, cam, page, 0.8)
		var length float64
		for _, l := range lines(v.Items()) {
			length += geom.Length(l)
			for _, p := range l {
				if d := geom.Dist(p, v.At(r3.Vec{})); math.Abs(d-0.8*r) > 0.15 {
					t.Fatalf("%v: a line %.2f mm from the centre, want %.2f", cam, d, 0.8*r)
				}
			}
		}
		if want := 2 * math.Pi * 0.8 * r; math.Abs(length-want) > 0.02*want {
			t.Errorf("%v: %.1f mm of line, want the circle's %.1f", cam, length, want)
		}
	}
}

// A stick behind a plate 40 wide, seen from the front, lacks its middle 40.
func TestDraw_plateHidesWhatIsBehind(t *testing.T) {
	plate := geom.Mesh{V: []r3.Vec{{X: -20, Y: -20}, {X: 20, Y: -20}, {X: 20, Y: 20}, {X: -20, Y: 20}}, T: [][3]int{{0, 1, 2}, {0, 2, 3}}}
	stick := func(z float64) Scene {
		return Scene{Faces: []Face{{Mesh: plate}}, Lines: []Line{{[]r3.Vec{{X: -50, Z: z}, {X: 50, Z: z}}, Seam}}}
	}
	behind := lines(Draw(stick(-30), Camera{}, page))
	if len(behind) != 2 {
		t.Fatalf("%d parts seen, want 2", len(behind))
	}
	for i, want := range [][2]float64{{0, 30}, {70, 100}} {
		l := behind[i]
		if math.Abs(l[0].X-want[0]) > 0.05 || math.Abs(l[len(l)-1].X-want[1]) > 0.05 {
			t.Errorf("part %d runs from %.2f to %.2f, want %v", i, l[0].X, l[len(l)-1].X, want)
		}
	}
	if front := lines(Draw(stick(30), Camera{}, page)); len(front) != 1 {
		t.Errorf("in front: %d parts, want the whole stick", len(front))
	}
	if on := lines(Draw(stick(0), Camera{0.4, 0.3}, page)); len(on) != 1 {
		t.Errorf("on the plate: %d parts, want the whole stick", len(on))
	}
	if back := lines(Draw(stick(-30), Camera{Yaw: math.Pi}, page)); len(back) != 1 {
		t.Errorf("from behind: %d parts, want the whole stick", len(back))
	}
}

// What is outside the box is cut off at its border.
func TestScaled_clips(t *testing.T) {
	zigzag := []r3.Vec{{X: -80}, {X: 10}, {Y: 10}, {X: 80, Y: 10}}
	s := Scene{Lines: []Line{{zigzag, Seam}}, Focus: []r3.Vec{{X: -50, Y: -50}, {X: 50, Y: 50}}}
	got := lines(Draw(s, Camera{}, page))
	want := []r2.Vec{{X: 0, Y: 50}, {X: 60, Y: 50}, {X: 50, Y: 60}, {X: 100, Y: 60}}
	if len(got) != 1 || len(got[0]) != len(want) {
		t.Fatalf("drawn as %v, want %v", got, want)
	}
	for i, p := range got[0] {
		if geom.Dist(p, want[i]) > 1e-9 {
			t.Errorf("point %d is %v, want %v", i, p, want[i])
		}
	}
}

// From the front the wearer's left is at the right; after a quarter turn to the
// wearer's left the viewer sees the front at the left.
func TestCamera_seesAsAViewerDoes(t *testing.T) {
	left, up, front := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	for _, c := range []struct {
		cam  Camera
		p    r3.Vec
		want r2.Vec
	}{
		{Camera{}, left, r2.Vec{X: 1}},
		{Camera{}, up, r2.Vec{Y: 1}},
		{Camera{Yaw: math.Pi / 2}, front, r2.Vec{X: -1}},
		{Camera{Pitch: math.Pi / 2}, front, r2.Vec{Y: -1}},
	} {
		if got := c.cam.Sees(c.p); geom.Dist(got, c.want) > 1e-12 {
			t.Errorf("%v sees %v at %v, want %v", c.cam, c.p, got, c.want)
		}
	}
}

func TestDraw_sameTwice(t *testing.T) {
	s := Scene{Faces: []Face{{Mesh: sphere(30, 20), Silhouette: Ghost}, {Mesh: cube(), Silhouette: Outline}}, Lines: cubeScene().Lines}
	a, b := Draw(s, Camera{0.3, 0.2}, page), Draw(s, Camera{0.3, 0.2}, page)
	if !reflect.DeepEqual(a, b) {
		t.Error("two drawings of one scene differ")
	}
}

func TestWriteOBJ_readsBack(t *testing.T) {
	var buf bytes.Buffer
	if err := WriteOBJ(&buf, []Named{{"V1", cube()}, {"V2", sphere(12.3456, 4)}}); err != nil {
		t.Fatal(err)
	}
	var got geom.Mesh
	var names []string
	for _, l := range strings.Split(buf.String(), "\n") {
		var v r3.Vec
		var f [3]int
		switch {
		case strings.HasPrefix(l, "o "):
			names = append(names, l[2:])
		case strings.HasPrefix(l, "v "):
			fmt.Sscanf(l, "v %f %f %f", &v.X, &v.Y, &v.Z)
			got.V = append(got.V, v)
		case strings.HasPrefix(l, "f "):
			fmt.Sscanf(l, "f %d %d %d", &f[0], &f[1], &f[2])
			got.T = append(got.T, [3]int{f[0] - 1, f[1] - 1, f[2] - 1})
		}
	}
	want := cube()
	want.Append(sphere(12.3456, 4))
	checkMesh(t, got, want, 0.0005+1e-9)
	if !reflect.DeepEqual(names, []string{"V1", "V2"}) {
		t.Errorf("objects %v", names)
	}
}

func checkMesh(t *testing.T, got, want geom.Mesh, within float64) {
	t.Helper()
	if len(got.V) != len(want.V) || !reflect.DeepEqual(got.T, want.T) {
		t.Fatalf("%d vertices and %d triangles, want %d and %d", len(got.V), len(got.T), len(want.V), len(want.T))
	}
	for i := range got.V {
		if d := r3.Sub(got.V[i], want.V[i]); max(math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z)) > within {
			t.Fatalf("vertex %d is %v, want %v", i, got.V[i], want.V[i])
		}
	}
}

func TestWriteSTL_readsBack(t *testing.T) {
	var buf bytes.Buffer
	want := cube()
	if err := WriteSTL(&buf, want); err != nil {
		t.Fatal(err)
	}
	b := buf.Bytes()
	if n := binary.LittleEndian.Uint32(b[80:]); int(n) != len(want.T) || len(b) != 84+50*len(want.T) {
		t.Fatalf("%d facets in %d bytes, want %d", n, len(b), len(want.T))
	}
	volume := 0.0
	for i := range want.T {
		var f [12]float32
		if _, err := binary.Decode(b[84+50*i:], binary.LittleEndian, &f); err != nil {
			t.Fatal(err)
		}
		vec := func(k int) r3.Vec { return r3.Vec{X: float64(f[k]), Y: float64(f[k+1]), Z: float64(f[k+2])} }
		n, p, q, r := vec(0), vec(3), vec(6), vec(9)
		volume += r3.Dot(p, r3.Cross(q, r)) / 6
		if r3.Dot(n, p) < 19.99 { // every face of this cube is 20 from the middle
			t.Errorf("facet %d: normal %v does not point out of the cube at %v", i, n, p)
		}
	}
	if math.Abs(volume-64000) > 0.1 {
		t.Errorf("the facets hold %.2f mm³, want 64000", volume)
	}
}
