package body_test

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/geom"
)

// skin is the mesh of a whole standing body that no one of this project drew,
// in body axes, and what a tape reads off it.
type skin struct {
	mesh    geom.Mesh
	stature float64
	crotch  float64
}

func readSkin(t testing.TB, name string) *skin {
	t.Helper()
	dir := os.Getenv("TASSET_DATA")
	if dir == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("TASSET_DATA does not name the folder that holds meshes/")
		}
		t.Skip("needs the bodies' meshes: set TASSET_DATA to the folder that holds meshes/")
	}
	f, err := os.Open(filepath.Join(dir, "meshes", name+".obj"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s := &skin{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var x, y, z float64
		switch line := lines.Text(); {
		case strings.HasPrefix(line, "v "):
			fmt.Sscanf(line, "v %f %f %f", &x, &y, &z)
			s.mesh.V = append(s.mesh.V, r3.Vec{X: x, Y: y, Z: z})
			s.stature = max(s.stature, y)
		case strings.HasPrefix(line, "f "):
			var ids []int
			for _, w := range strings.Fields(line)[1:] {
				var i int
				fmt.Sscanf(w, "%d", &i)
				ids = append(ids, i-1)
			}
			for k := 2; k < len(ids); k++ {
				s.mesh.T = append(s.mesh.T, [3]int{ids[0], ids[k-1], ids[k]})
			}
		}
	}
	s.crotch = s.findCrotch()
	return s
}

// ring is one closed cut of the skin in a frame's plane, in the frame's axes.
type ring []r3.Vec

// cut gives the ring nearest to the frame's axis where y is level; rings inside
// another (mouth, eyes) do not count.
func (s *skin) cut(f geom.Frame, level float64) ring {
	var rings []ring
	for _, loop := range geom.Chain(geom.Slice(s.mesh, f.Point(r3.Vec{Y: level}), f.Y)) {
		r := make(ring, len(loop))
		for i, p := range loop {
			r[i] = f.Local(p)
		}
		rings = append(rings, r)
	}
	var best ring
	nearest := math.Inf(1)
	for i, r := range rings {
		inner := slices.ContainsFunc(rings, func(o ring) bool { return &o[0] != &rings[i][0] && r.within(o) })
		if m := r.middle(); !inner && len(r) >= 8 && math.Hypot(m.X, m.Z) < nearest {
			best, nearest = r, math.Hypot(m.X, m.Z)
		}
	}
	return best
}

// within tells whether the box round r lies in the box round o.
func (r ring) within(o ring) bool {
	a, b := r.bounds()
	c, d := o.bounds()
	return a.X >= c.X && a.Y >= c.Y && b.X <= d.X && b.Y <= d.Y
}

// bounds of a ring: X is x, Y is z.
func (r ring) bounds() (low, high r2.Vec) {
	low, high = r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, p := range r {
		low = r2.Vec{X: min(low.X, p.X), Y: min(low.Y, p.Z)}
		high = r2.Vec{X: max(high.X, p.X), Y: max(high.Y, p.Z)}
	}
	return low, high
}

func (r ring) breadth() float64 { low, high := r.bounds(); return high.X - low.X }
func (r ring) depth() float64   { low, high := r.bounds(); return high.Y - low.Y }
func (r ring) middle() r3.Vec {
	low, high := r.bounds()
	return r3.Vec{X: (low.X + high.X) / 2, Y: r[0].Y, Z: (low.Y + high.Y) / 2}
}

// girth is what a tape reads: it bridges hollows.
func (r ring) girth() float64 {
	pts := make([]r2.Vec, len(r))
	for i, p := range r {
		pts[i] = r2.Vec{X: p.X, Y: p.Z}
	}
	return geom.Perimeter(geom.Hull(pts))
}

func (s *skin) level(y float64) ring { return s.cut(geom.Identity(), y) }

// findCrotch is the lowest level whose ring crosses the mid-plane, in mm steps.
func (s *skin) findCrotch() float64 {
	for y := .40 * s.stature; y < .56*s.stature; y++ {
		r := s.level(y)
		if low, high := r.bounds(); r != nil && low.X < -20 && high.X > 20 {
			return y
		}
	}
	panic("no crotch")
}

// extreme is the level between two shares of stature where f is greatest.
func (s *skin) extreme(from, to float64, f func(ring) float64) float64 {
	best, at := math.Inf(-1), 0.0
	for y := from * s.stature; y <= to*s.stature; y += 2 {
		if r := s.level(y); r != nil && f(r) > best {
			best, at = f(r), y
		}
	}
	return at
}

// volume in litres.
func (s *skin) volume() float64 {
	var v float64
	for _, t := range s.mesh.T {
		v += r3.Dot(s.mesh.V[t[0]], r3.Cross(s.mesh.V[t[1]], s.mesh.V[t[2]])) / 6e6
	}
	return v
}

// limb is a straight axis through the skin with the length between its joints.
type limb struct {
	frame  geom.Frame
	length float64
}

func newLimb(lower, upper r3.Vec) limb {
	y := r3.Unit(r3.Sub(upper, lower))
	z := r3.Unit(r3.Sub(r3.Vec{Z: 1}, r3.Scale(y.Z, y)))
	return limb{geom.Frame{O: lower, X: r3.Cross(y, z), Y: y, Z: z}, r3.Norm(r3.Sub(upper, lower))}
}

// down is the ring at a share of the length from the upper joint.
func (s *skin) down(l limb, share float64) ring { return s.cut(l.frame, (1-share)*l.length) }

// widest and narrowest girth between two shares.
func (s *skin) widest(l limb, from, to, sign float64) float64 {
	best := math.Inf(-1)
	for d := from; d <= to; d += .01 {
		if r := s.down(l, d); r != nil {
			best = max(best, sign*r.girth())
		}
	}
	return sign * best
}

// readings is what a tape reads off a skin, with the axes that it was read on.
type readings struct {
	tape                            body.Tape
	values                          map[body.Name]float64
	hipZ                            float64
	posture                         body.Posture
	thigh, shank, upperArm, forearm limb
	neck                            geom.Frame
	ringLevel, ringZ                float64
	armpit                          float64
}

// read takes the tape to the skin. Levels that only landmarks under the skin
// would tell (navel, knee cap, ankle, shoulder) are the survey's mean share of
// stature.
func (s *skin) read(sex body.Sex, mean map[body.Name]float64) *readings {
	r := &readings{values: map[body.Name]float64{}}
	set := func(n body.Name, v float64) { r.values[n] = v }
	share := func(n body.Name) float64 { return mean[n] / mean["stature"] * s.stature }
	three := func(part string, y float64) ring {
		c := s.level(y)
		set(body.Name(part+" height"), y)
		set(body.Name(part+" girth"), c.girth())
		set(body.Name(part+" depth"), c.depth())
		if part != "chest" {
			set(body.Name(part+" breadth"), c.breadth())
		}
		return c
	}
	set("stature", s.stature)
	set("weight", s.volume()*1.01)
	set("crotch height", s.crotch)
	back := func(c ring) float64 { low, _ := c.bounds(); return -low.Y }
	front := func(c ring) float64 { _, high := c.bounds(); return high.Y }
	hip := three("hip", s.extreme(s.crotch/s.stature, s.crotch/s.stature+.08, back))
	waist := three("waist", share("waist height"))
	chest := three("chest", s.extreme(.70, .76, front))
	for r.armpit = r.values["chest height"]; s.level(r.armpit+2).breadth() < 1.35*chest.breadth(); r.armpit += 2 {
	}
	set("armpit height", r.armpit)
	r.hipZ = hip.middle().Z
	r.posture = s.stands(r.hipZ, chest, waist, s.level(share("shoulder height")))
	s.readLeg(r, share)
	s.readArm(r, share)
	s.readHead(r, sex, share)
	r.tape = body.Tape{Sex: sex, Age: 30}
	for _, d := range body.Catalogue() {
		if v, ok := r.values[d.Name]; ok {
			r.tape.Entries = append(r.tape.Entries, body.Entry{Name: d.Name, Value: v})
		}
	}
	return r
}

// stands is the posture as a picture from the side shows it: by the middles of what
// is seen foremost and hindmost at chest, waist and the height of the shoulders' edges.
func (s *skin) stands(hipZ float64, chest, waist, shoulders ring) body.Posture {
	forward := func(c ring) float64 { return c.middle().Z - hipZ }
	ofChest, ofWaist, ofShoulders := body.StandsForward(s.stature)
	return body.Posture{ChestForward: forward(chest) - ofChest, WaistForward: forward(waist) - ofWaist,
		ShouldersForward: forward(shoulders) - ofShoulders, ShouldersKnown: true}
}

// left is the horizontal ring of the left limb nearest to an x.
func (s *skin) left(x, y float64) ring {
	return s.cut(geom.Frame{O: r3.Vec{X: x}, X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}, y)
}

func (s *skin) readLeg(r *readings, share func(body.Name) float64) {
	kneeY, ankleY := share("knee height"), share("ankle height")
	centre := func(x, y float64) r3.Vec { return r3.Add(s.left(x, y).middle(), r3.Vec{X: x}) }
	hip := centre(100, s.crotch-10)
	hip.Y = s.crotch
	knee, ankle := centre(hip.X+20, kneeY), centre(hip.X+40, ankleY+.1*kneeY)
	ankle = r3.Add(knee, r3.Scale((kneeY-ankleY)/(knee.Y-ankle.Y), r3.Sub(ankle, knee)))
	r.thigh, r.shank = newLimb(knee, hip), newLimb(ankle, knee)
	r.values["knee height"], r.values["ankle height"] = kneeY, ankleY
	r.values["thigh girth"] = s.left(hip.X, s.crotch-10).girth()
	r.values["lower thigh girth"] = s.down(r.thigh, .86).girth()
	r.values["knee girth"] = s.down(r.thigh, 1).girth()
	r.values["calf girth"] = s.widest(r.shank, .15, .45, 1)
	r.values["foot length"], r.values["foot breadth"] = s.foot(ankleY)
	r.values["ankle girth"] = s.widest(r.shank, .7, .92, -1)
}

// foot is how long and broad the box round the left foot is, below the ankle.
func (s *skin) foot(ankle float64) (long, broad float64) {
	var r ring
	for _, v := range s.mesh.V {
		if v.X > 0 && v.Y < .6*ankle {
			r = append(r, v)
		}
	}
	return r.depth(), r.breadth()
}

// readArm walks up the arm from the hand to where it joins the trunk. The wrist
// is the narrowest place, the elbow the corner of the path.
func (s *skin) readArm(r *readings, share func(body.Name) float64) {
	hand := slices.MaxFunc(s.mesh.V, func(a, b r3.Vec) int { return int(math.Copysign(1, a.X-b.X)) })
	shoulder := r3.Vec{X: .5 * share("shoulder breadth"), Y: share("shoulder height") - 35, Z: s.level(share("shoulder height")).middle().Z}
	whole := newLimb(hand, shoulder)
	var path []r3.Vec
	least, long := math.Inf(1), share("hand length")
	for d := .75 * long; d < whole.length; d += 4 {
		c := s.cut(whole.frame, d)
		if c.breadth() > .2*s.stature { // the trunk has joined it
			break
		}
		if g := c.girth(); g < least && d < 1.3*long {
			least, path = g, nil
		}
		path = append(path, whole.frame.Point(c.middle()))
	}
	wrist, top := path[0], path[len(path)-1]
	across := r3.Unit(r3.Sub(top, wrist))
	elbow := slices.MaxFunc(path, func(a, b r3.Vec) int {
		away := func(p r3.Vec) float64 { return r3.Norm(r3.Cross(r3.Sub(p, wrist), across)) }
		return int(math.Copysign(1, away(a)-away(b)))
	})
	lower, upper := r3.Norm(r3.Sub(elbow, wrist))/.95, share("upper arm length")
	r.forearm = newLimb(r3.Sub(elbow, r3.Scale(lower, r3.Unit(r3.Sub(elbow, wrist)))), elbow)
	r.upperArm = newLimb(elbow, r3.Add(elbow, r3.Scale(upper, r3.Unit(r3.Sub(top, elbow)))))
	r.values["forearm length"], r.values["upper arm length"] = lower, upper
	r.values["wrist girth"] = s.down(r.forearm, .95).girth()
	r.values["forearm girth flexed"] = s.widest(r.forearm, .1, .35, 1) / .95
	r.values["upper arm girth flexed"] = s.down(r.upperArm, .55).girth() / .93
}

func (s *skin) readHead(r *readings, sex body.Sex, share func(body.Name) float64) {
	crown := share("ear to crown")
	r.ringLevel = s.stature - .68*crown
	c := s.level(r.ringLevel)
	r.ringZ = c.middle().Z
	r.values["head girth"], r.values["head length"], r.values["head breadth"] = c.girth(), c.depth(), c.breadth()
	r.values["face breadth"] = s.cheeks(s.stature-crown, r.ringZ+20)
	tilt := 15.0
	sin, cos := math.Sincos(tilt * math.Pi / 180)
	least := math.Inf(1)
	for y := share("back neck height"); y < share("back neck height")+.06*s.stature; y += 3 {
		m := s.level(y)
		if m == nil {
			continue
		}
		f := geom.Frame{O: m.middle(), X: r3.Vec{X: 1}, Y: r3.Vec{Y: cos, Z: sin}, Z: r3.Vec{Y: -sin, Z: cos}}
		if g := s.cut(f, 0); g != nil && g.girth() < least {
			least, r.neck = g.girth(), f
			r.neck.O = f.Point(g.middle())
		}
	}
	r.values["neck girth"] = least
}

// cheeks is the breadth over the cheekbones: the widest within 15 mm of the ears'
// level, in front of the ears.
func (s *skin) cheeks(level, front float64) float64 {
	var widest float64
	for y := level - 15; y <= level+15; y += 5 {
		c := s.level(y)
		closed := append(slices.Clone(c), c[0])
		for _, p := range geom.Resample([]r3.Vec(closed), 300) {
			if p.Z > front {
				widest = max(widest, 2*math.Abs(p.X))
			}
		}
	}
	return widest
}
