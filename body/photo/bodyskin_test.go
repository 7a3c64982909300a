package photo_test

import (
	"bufio"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/geom"
)

// skin is a whole standing body that no one of this project drew, in body axes.
// Its arms are held far out, so that its shoulders and arms are left out here.
type skin struct {
	mesh  geom.Mesh
	truth map[string]float64
	level map[string]float64 // heights of stations
	hipZ  float64
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
	file, err := os.Open(filepath.Join(dir, "meshes", name+".obj"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	s := &skin{truth: map[string]float64{}, level: map[string]float64{}}
	for lines := bufio.NewScanner(file); lines.Scan(); {
		var v r3.Vec
		if n, _ := fmt.Sscanf(lines.Text(), "v %f %f %f", &v.X, &v.Y, &v.Z); n == 3 {
			s.mesh.V = append(s.mesh.V, v)
			s.truth["stature"] = max(s.truth["stature"], v.Y)
		}
		if line, face := strings.CutPrefix(lines.Text(), "f "); face {
			var ids []int
			for _, w := range strings.Fields(line) {
				var i int
				fmt.Sscanf(w, "%d", &i)
				ids = append(ids, i-1)
			}
			for k := 2; k < len(ids); k++ {
				s.mesh.T = append(s.mesh.T, [3]int{ids[0], ids[k-1], ids[k]})
			}
		}
	}
	s.measure()
	return s
}

// ring is the horizontal cut whose middle is nearest to x.
func (s *skin) ring(x, y float64) []r3.Vec {
	var best []r3.Vec
	for _, loop := range geom.Chain(geom.Slice(s.mesh, r3.Vec{Y: y}, r3.Vec{Y: 1})) {
		if len(loop) >= 8 && (best == nil || math.Abs(middle(loop).X-x) < math.Abs(middle(best).X-x)) {
			best = loop
		}
	}
	return best
}

func extent(ring []r3.Vec) (low, high r3.Vec) {
	low, high = ring[0], ring[0]
	for _, v := range ring {
		low = r3.Vec{X: min(low.X, v.X), Y: v.Y, Z: min(low.Z, v.Z)}
		high = r3.Vec{X: max(high.X, v.X), Y: v.Y, Z: max(high.Z, v.Z)}
	}
	return low, high
}

func middle(ring []r3.Vec) r3.Vec {
	low, high := extent(ring)
	return r3.Scale(.5, r3.Add(low, high))
}

// measure takes rods and callipers to the skin. Levels that landmarks under the
// skin would tell are the survey's mean share of stature.
func (s *skin) measure() {
	stature := s.truth["stature"]
	most := func(from, to float64, f func(low, high r3.Vec) float64) float64 {
		best, at := math.Inf(-1), from
		for y := from; y < to; y += 2 {
			if v := f(extent(s.ring(0, y))); v > best {
				best, at = v, y
			}
		}
		return at
	}
	crotch := .40 * stature
	for ; ; crotch++ {
		if low, high := extent(s.ring(0, crotch)); low.X < -20 && high.X > 20 {
			break
		}
	}
	s.level["crotch"] = crotch
	s.level["hip"] = most(crotch, crotch+.08*stature, func(low, _ r3.Vec) float64 { return -low.Z })
	s.level["chest"] = most(.70*stature, .76*stature, func(_, high r3.Vec) float64 { return high.Z })
	s.level["waist"], s.level["knee"], s.level["ankle"], s.level["shoulders"] = .602*stature, .277*stature, .040*stature, .820*stature
	for _, n := range []string{"hip", "waist", "chest"} {
		low, high := extent(s.ring(0, s.level[n]))
		s.truth[n+" depth"], s.truth[n+" breadth"] = high.Z-low.Z, high.X-low.X
	}
	for n, y := range s.level {
		s.truth[n+" height"] = y
	}
	s.hipZ = middle(s.ring(0, s.level["hip"])).Z
	chest, waist, shoulders := body.StandsForward(stature)
	s.truth["chest forward"] = middle(s.ring(0, s.level["chest"])).Z - s.hipZ - chest
	s.truth["shoulders forward"] = middle(s.ring(0, s.level["shoulders"])).Z - s.hipZ - shoulders
	s.truth["waist forward"] = middle(s.ring(0, s.level["waist"])).Z - s.hipZ - waist
}

// mark is where a landmark is seen; false if it is left out.
func (s *skin) mark(name string, cam photo.Camera, lift float64) (r3.Vec, bool) {
	seen := func(points []r3.Vec, far func(photo.Pixel) float64) (r3.Vec, bool) {
		best := points[0]
		for _, v := range points {
			if far(cam.Project(v)) > far(cam.Project(best)) {
				best = v
			}
		}
		return best, true
	}
	right := func(p photo.Pixel) float64 { return p.X }
	left := func(p photo.Pixel) float64 { return -p.X }
	if cam.Frame.X.Z > .5 { // the wearer looks to the right of the picture
		left, right = right, left
	}
	side, x := 1.0, 100.0
	if strings.HasPrefix(name, "right ") {
		side, x = -1, -100
	}
	station, of, _ := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(name, "left "), "right "), " ")
	switch {
	case name == "crown":
		return seen(s.mesh.V, func(p photo.Pixel) float64 { return -p.Y })
	case name == "crotch":
		return middle(s.ring(0, s.level["crotch"])), true
	case name == "navel":
		_, high := extent(s.ring(0, s.level["waist"]))
		return r3.Vec{Y: s.level["waist"], Z: high.Z}, true
	case name == "upper chest":
		return seen(s.ring(0, s.level["shoulders"]+lift), left)
	case name == "upper back":
		return seen(s.ring(0, s.level["shoulders"]+lift), right)
	case of == "front": // the wearer's left in the picture of their left side is its left
		return seen(s.ring(0, s.level[station]+lift), left)
	case of == "back":
		return seen(s.ring(0, s.level[station]+lift), right)
	case of == "side" && side > 0:
		return seen(s.ring(0, s.level[station]+lift), right)
	case of == "side":
		return seen(s.ring(0, s.level[station]+lift), left)
	case station == "knee":
		low, high := extent(s.ring(x, s.level["knee"]))
		return r3.Vec{X: (low.X + high.X) / 2, Y: s.level["knee"], Z: high.Z}, true
	case station == "ankle":
		low, high := extent(s.ring(x, s.level["ankle"]))
		return r3.Vec{X: max(side*low.X, side*high.X) * side, Y: s.level["ankle"], Z: (low.Z + high.Z) / 2}, true
	case station == "toe" || station == "heel":
		way := map[string]float64{"toe": 1, "heel": -1}[station]
		best := r3.Vec{Z: -way * 1e4}
		for _, v := range s.mesh.V {
			if v.Y < 60 && side*v.X > 0 && way*v.Z > way*best.Z {
				best = v
			}
		}
		return r3.Vec{X: best.X, Z: best.Z}, true
	}
	return r3.Vec{}, false
}

// Bodies that no form stands for, photographed as usual: their outlines are not
// those of the body form, on which the corrections rest. Source: the open meshes
// of the data folder, cut where callipers go.
func TestBody_skins(t *testing.T) {
	all := map[string]*tally{}
	for k, name := range []string{"male-average", "female-average", "check-man", "check-woman"} {
		s := readSkin(t, name)
		chance := rand.New(rand.NewPCG(17, uint64(k)))
		one := map[string]*tally{}
		for range 25 {
			var shots []photo.Shot
			for _, v := range []photo.View{photo.BodyFront, photo.BodyLeft} {
				shots = append(shots, usualStudio(3000).shoot(&person{seen: s.mark, truth: map[body.Name]float64{"stature": s.truth["stature"]}, cameras: map[photo.View]photo.Camera{}}, v, chance))
			}
			_, lengths, stance, err := photo.SolveBody(context.Background(), shots)
			if err != nil {
				t.Fatal(err)
			}
			add := func(n string, got, doubt, sd float64) {
				for _, into := range []map[string]*tally{all, one} {
					if into[n] == nil {
						into[n] = &tally{}
					}
					into[n].add(got-s.truth[n], got-s.truth[n]+doubt*chance.NormFloat64(), sd)
				}
			}
			for _, l := range lengths {
				if _, known := s.truth[l.Name]; known {
					add(l.Name, l.Value, photo.BodyDoubt(l.Name), l.SD)
				}
			}
			add("chest forward", stance.Posture.ChestForward, photo.UsualStance, stance.ChestSD)
			add("waist forward", stance.Posture.WaistForward, photo.UsualStance, stance.WaistSD)
			add("shoulders forward", stance.Posture.ShouldersForward, photo.UsualStance, stance.ShouldersSD)
		}
		for _, n := range sorted(one) {
			t.Logf("%s %-16s %v", name, n, one[n])
		}
	}
	within(t, all, map[string]float64{"hip breadth": 8, "waist breadth": 8, "hip depth": 8, "waist depth": 9, "chest depth": 11,
		"chest forward": 8, "waist forward": 6, "shoulders forward": 9})
	for n, a := range all {
		if told := math.Sqrt(a.sd / float64(a.n)); a.covered() < .88 || a.rms() > 1.2*told {
			t.Errorf("%s: %v, want 88 %% at least, and errors of the size that is told", n, a)
		}
	}
}
