package synth_test

import (
	"bytes"
	"context"
	"image"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/geom"
	"tasset/internal/synth"
)

// meshBody is a whole mesh with its places for a body picture, found by rules.
type meshBody struct {
	mesh   geom.Mesh
	points map[string]r3.Vec
	sizes  map[string]float64
}

// readBody finds on a mesh: the crown, the highest place; the chin, as picked;
// the crotch, the lowest place of the mid-line between the legs; waist and hip,
// the trunk's sides at 0.6 of the stature and where the buttocks stand out most;
// the toes, the foremost places near the floor.
func readBody(t *testing.T, name string) *meshBody {
	h, err := synth.MeshHead(readMesh(t, name))
	if err != nil {
		t.Fatal(err)
	}
	b := &meshBody{mesh: readMesh(t, name), points: map[string]r3.Vec{}, sizes: map[string]float64{}}
	crown := slices.MaxFunc(b.mesh.V, func(a, c r3.Vec) int { return int(math.Copysign(1, a.Y-c.Y)) })
	b.points["crown"], b.sizes["stature"] = crown, crown.Y
	b.points["chin"] = h.Place.Point(h.Points["chin"])
	crotch, hip, back := r3.Vec{Y: crown.Y}, 0.0, 0.0
	toes := [2]r3.Vec{{Z: -1e3}, {Z: -1e3}}
	for _, v := range b.mesh.V {
		if math.Abs(v.X) < 3 && v.Y > .4*crown.Y && v.Y < crotch.Y {
			crotch = v
		}
		if v.Y > .45*crown.Y && v.Y < .56*crown.Y && math.Abs(v.X) < 120 && v.Z < back {
			hip, back = v.Y, v.Z
		}
		side := 0
		if v.X < 0 {
			side = 1
		}
		if v.Y < 40 && v.Z > toes[side].Z {
			toes[side] = r3.Vec{X: v.X, Z: v.Z}
		}
	}
	crotch.X = 0
	b.points["crotch"], b.points["left toe"], b.points["right toe"] = crotch, toes[0], toes[1]
	b.sizes["crotch height"] = crotch.Y
	for part, level := range map[string]float64{"waist": .6 * crown.Y, "hip": hip} {
		left, right := b.sides(level)
		b.points["left "+part+" side"], b.points["right "+part+" side"] = left, right
		b.sizes[part+" breadth"] = left.X - right.X
	}
	return b
}

// sides are the outermost places of the trunk at a level; the arms are held away.
func (b *meshBody) sides(level float64) (left, right r3.Vec) {
	var trunk []r3.Vec
	for _, loop := range geom.Chain(geom.Slice(b.mesh, r3.Vec{Y: level}, r3.Vec{Y: 1})) {
		if slices.ContainsFunc(loop, func(p r3.Vec) bool { return math.Abs(p.X) < 10 }) {
			trunk = append(trunk, loop...)
		}
	}
	for _, p := range trunk {
		if p.X > left.X {
			left = p
		}
		if p.X < right.X {
			right = p
		}
	}
	return left, right
}

// A body from 2 m with a bar of 400 mm that someone holds 150 mm before it:
// rendered into a file, read, marked in its pixels, solved. The body's sizes
// agree within the stated errors; the bar, read at its depth, within 2 %.
func TestMeshBodyThroughPictureFile(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"male-average", "check-woman"} {
		b := readBody(t, name)
		const wide, high, f35, depth = 900, 1200, 26, 150
		cam := synth.Pose{Distance: 2000, Yaw: .02, Pitch: -.015, Roll: .01, Target: r3.Vec{Y: .5 * b.sizes["stature"]}}.Camera(f35, wide, high)
		ruler := synth.Ruler{Frame: geom.Frame{O: r3.Vec{X: -430, Y: 900}, X: r3.Vec{Y: 1}, Y: r3.Vec{X: -1}, Z: r3.Vec{Z: 1}}, Length: 300}
		bar := geom.Frame{O: r3.Vec{X: -200, Y: 1150, Z: depth}, X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
		barColour := synth.RGB(0x208040)
		scene := synth.Scene{Behind: wallColour}
		scene.Add(synth.Surface{Mesh: b.mesh, Paint: synth.Plain(skinColour)})
		scene.Add(ruler.Surface())
		scene.Add(synth.Surface{Mesh: synth.Box(bar, r3.Vec{Y: -8}, r3.Vec{X: 400, Y: 8, Z: 1}), Paint: synth.Plain(barColour), Glow: true})
		var file bytes.Buffer
		if err := synth.WriteJPEG(&file, synth.Render(scene, cam, wide, high), 92, synth.Exif{Make: "invented", Model: "invented", Orientation: 6, F35: f35}); err != nil {
			t.Fatal(err)
		}
		p, _, err := picture.Read(name+".jpg", file.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		img, err := p.Upright()
		if err != nil {
			t.Fatal(err)
		}
		s := photo.Shot{Name: "body", View: photo.BodyFront, Width: p.Width, Height: p.Height, F35: p.F35, Lens: p.Lens,
			Ruler: &photo.Ruler{From: cam.Project(ruler.At(0)), To: cam.Project(ruler.At(300)), Length: 300}, Marks: bodyMarks(img, b, cam)}
		got, findings, err := photo.Solve(context.Background(), []photo.Shot{s})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings {
			t.Log(name, f)
		}
		for _, l := range got.Lengths {
			if v, ok := b.sizes[l.Name]; ok {
				t.Logf("%s: %-14s %6.1f ± %.1f, on the mesh %.1f", name, l.Name, l.Value, l.HalfWidth(), v)
				if math.Abs(l.Value-v) > l.HalfWidth() {
					t.Errorf("%s: %s is read as %.1f ± %.1f mm; on the mesh it is %.1f", name, l.Name, l.Value, l.HalfWidth(), v)
				}
			}
		}
		from, to := barEnds(img)
		read, _, err := got.Body.Sight(0).Read(photo.LongRuler{Name: "bar", From: from, To: to, Depth: photo.Depth{Value: depth}})
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: the bar of 400 mm is read as %.1f ± %.1f mm", name, read.Value, read.HalfWidth())
		if math.Abs(read.Value-400) > 8 {
			t.Errorf("%s: the bar of 400 mm is read as %.1f mm", name, read.Value)
		}
	}
}

// bodyMarks marks a body: sides of waist and hip where the trunk gives way to
// the wall in their row, from the middle outwards; the rest where it is.
func bodyMarks(img *image.RGBA, b *meshBody, cam photo.Camera) []photo.Mark {
	var out []photo.Mark
	for _, l := range photo.BodyLandmarks() {
		p, ok := b.points[l.Name]
		if !ok {
			continue
		}
		at := cam.Project(p)
		if l.Name != "crown" && l.Rim() {
			way := int(math.Copysign(1, p.X))
			x := int(cam.Project(r3.Vec{Y: p.Y}).X)
			for !wall(img, x, int(at.Y)) {
				x += way
			}
			if at.X = float64(x); way < 0 {
				at.X++
			}
		}
		out = append(out, photo.Mark{Name: l.Name, At: at})
	}
	return out
}

// barEnds are the ends of the green in the picture.
func barEnds(img *image.RGBA) (from, to photo.Pixel) {
	from.X = math.Inf(1)
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if c := img.RGBAAt(x, y); int(c.G) > int(c.R)+45 && int(c.G) > int(c.B)+25 {
				if float64(x) < from.X {
					from = photo.Pixel{X: float64(x), Y: float64(y) + .5}
				}
				if float64(x+1) > to.X {
					to = photo.Pixel{X: float64(x + 1), Y: float64(y) + .5}
				}
			}
		}
	}
	return from, to
}
