package photo

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// Subject is a head or a body as its photographs show it: cameras and points in
// the subject's own axes.
type Subject struct {
	Shots   []Shot   // those that were used, without the marks that were left out
	Cameras []Camera // one a shot
	Points  []Point  // every landmark that was marked, in the table's order
	Fits    []Fit    // every mark
	Spread  float64  // how far marks are off against what was expected: 1 as expected, 2 twice as far
	Steps   int      // of the search
	Settled bool     // false: the search was stopped before it came to rest

	model *model
	best  *minimum
}

// Point is a landmark in the subject's axes.
type Point struct {
	Name    string
	At      r3.Vec
	SD      r3.Vec // standard deviation in each axis
	Checked bool   // other marks would show it if one of its marks were wrong
}

// Fit is how well one mark agrees with all others.
type Fit struct {
	Shot, Mark int // Subject.Shots[Shot].Marks[Mark]
	Name       string
	Expected   Pixel   // where all other marks expect it; of an outline's place, only across the outline counts
	MM         float64 // how far the solved point is from the mark, at the subject; of an outline's place, across it
	Surprise   float64 // squared distance from where the other marks expect it, in deviations; over 16 it does not fit
	Redundancy float64 // 0: nothing checks it; 1: the others know the place without it
}

// Limits on a mark. The first is the .05 % point of clean marks' surprise in the
// reference's simulation: 1 clean set of photographs in 100 has one above it.
const (
	surprising = 16
	unchecked  = .3 // redundancy below which a wrong mark would hardly show
)

// solve brings a figure before the cameras of shots. Shots must have passed
// admit. It starts from a solve of much the same shots, if there is one.
func (f *figure) solve(ctx context.Context, shots []Shot, from *Subject) (*Subject, error) {
	m, x := newModel(f, shots)
	if from != nil {
		m.resume(x, from)
	}
	best, err := minimise(ctx, m, x)
	if err != nil {
		return nil, err
	}
	steps, spread := best.steps, m.measureSpread(best)
	m.spread = spread
	if best, err = minimise(ctx, m, best.x); err != nil {
		return nil, err
	}
	s := &Subject{Shots: shots, Spread: spread, Steps: steps + best.steps, Settled: best.settled, model: m, best: best}
	for _, v := range m.views {
		c := v.camera(best.x)
		c.Frame.O = r3.Sub(c.Frame.O, s.origin())
		s.Cameras = append(s.Cameras, c)
	}
	usual, err := m.usual(best)
	if err != nil {
		return nil, err
	}
	s.addFits(usual)
	s.addPoints()
	return s, nil
}

// resume takes the unknowns that an earlier solve of the same figure knows.
func (m *model) resume(x []float64, from *Subject) {
	if from.model.fig.name != m.fig.name {
		return
	}
	old := from.best.x
	copy(x, old[:3*len(m.fig.landmarks)+1])
	for _, v := range m.views {
		for _, o := range from.model.views {
			if o.shot.Name != v.shot.Name || o.shot.View != v.shot.View {
				continue
			}
			copy(x[v.at:v.at+poseSize], old[o.at:])
			x[v.lens] = old[o.lens]
			for i := range min(len(v.sticks), len(o.sticks)) {
				if n := v.sticks[i].unknowns(); n == o.sticks[i].unknowns() {
					copy(x[v.sticks[i].at:v.sticks[i].at+n], old[o.sticks[i].at:])
				}
			}
		}
	}
}

func (v *view) camera(x []float64) Camera {
	p := newPose(x[v.at : v.at+poseSize])
	return Camera{Frame: p.frame(), Focal: v.diag * math.Exp(x[v.lens]), Centre: Pixel{v.cx, v.cy}}
}

// addPoints gives the landmarks that were marked.
func (s *Subject) addPoints() {
	marked, checked := map[string]bool{}, map[string]bool{}
	for _, f := range s.Fits {
		marked[f.Name] = true
		checked[f.Name] = checked[f.Name] || f.Redundancy >= unchecked
	}
	at, o := s.model.landmark(s.best.x), s.origin()
	for i, l := range s.model.fig.landmarks {
		if marked[l.Name] {
			s.Points = append(s.Points, Point{l.Name, r3.Sub(at(i), o), s.deviation(i), checked[l.Name]})
		}
	}
}

// origin is where the origin of the subject's axes lies in the model's, which
// are level with it.
func (s *Subject) origin() (o r3.Vec) {
	at, soles := s.model.landmark(s.best.x), s.model.fig.soles
	for _, i := range soles {
		o.Y += at(i).Y / float64(len(soles))
	}
	return o
}

// deviation is that of a landmark in each of the subject's axes.
func (s *Subject) deviation(landmark int) r3.Vec {
	soles := s.model.fig.soles
	var slopes [3][]float64
	for axis := range slopes {
		slopes[axis] = make([]float64, s.model.n)
		slopes[axis][3*landmark+axis] = 1
	}
	for _, i := range soles {
		slopes[1][3*i+1] -= 1 / float64(len(soles))
	}
	cov := s.spreadOf(slopes[:])
	return r3.Vec{X: math.Sqrt(cov.At(0, 0)), Y: math.Sqrt(cov.At(1, 1)), Z: math.Sqrt(cov.At(2, 2))}
}

// Point gives a landmark by name, if it was marked.
func (s *Subject) Point(name string) (Point, bool) {
	for _, p := range s.Points {
		if p.Name == name {
			return p, true
		}
	}
	return Point{}, false
}

// Camera gives the camera of a shot by the shot's name.
func (s *Subject) Camera(shot string) (Camera, bool) {
	for i, q := range s.Shots {
		if q.Name == shot {
			return s.Cameras[i], true
		}
	}
	return Camera{}, false
}

// Distance is how far the subject's origin is from the lens along the view, with
// its standard deviation, mm.
func (s *Subject) Distance(shot int) (d, sd float64) {
	at := s.model.views[shot].at + 3
	d = math.Exp(s.best.x[at])
	return d, d * math.Sqrt(s.best.cov.At(at, at))
}

// Rays are the lens and the directions of places in a shot's picture, in the
// axes that stand gives (stand: parentFromSubject).
func (s *Subject) Rays(shot int, stand geom.Frame, curve []Pixel) (eye r3.Vec, dirs []r3.Vec) {
	c := s.Cameras[shot]
	for _, p := range curve {
		dirs = append(dirs, stand.Dir(c.Ray(p)))
	}
	return stand.Point(c.Frame.O), dirs
}
