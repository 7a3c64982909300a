package photo

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// What people's bodies are like before they are marked, as standard deviations.
// Along the axes that a picture shows they are so wide that they pull nothing;
// along the view they are how far people's places in front of each other
// differ, so that a front view alone takes d/D off with its honest doubt. All
// judgement; the prototype took 20 to 30 mm along the view.
const (
	bodyUp     = 250.0 // mm, y
	bodyAcross = 80.0  // x where a front view shows it, z where a side view does
	bodyAlong  = 25.0  // z of what only a front view shows, and of bones
	bodyEdge   = 40.0  // x of an outline seen from the side: it may run beside the mid-line
	stance     = 8.0   // mm that a standing body misses its mirror image
	footing    = 25.0  // mm that feet do
	hands      = 100.0 // mm that hands do
	flatFloor  = 3.0   // mm that a sole is off the floor
)

// bodyRuler is how far a ruler that is held beside the body stands off the
// upright plane through its middle, mm; the same as of a head.
const bodyRuler = 20.0

// bodyMiddle is the origin that the solve uses, in the mean body's axes: as high
// as the hips, because distances are taken to the middle of a body, not to its
// soles.
var bodyMiddle = r3.Vec{Y: 900}

// newBody is the standing body as a figure: the middle of the hips is z = 0, the
// mid-plane x = 0, and the soles are level. What a tilt takes off a ruler is even
// in the tilt, so that no slope at rest tells of it; on lengths of a body it is
// as much as all clicks, and so its mean is taken off the ruler and its scatter
// counted among the ruler's own deviations.
func newBody() *figure {
	f := &figure{name: "body", landmarks: BodyLandmarks(), depth: bodyRuler,
		shortens: tiltSlack * tiltSlack / 2, scatter: tiltSlack * tiltSlack / math.Sqrt2, // 1 − cos of normal tilts
		smallest: .45, largest: 1.5, // from small children on
		mislabels: 80, // right labels miss by 13 to 60 mm, wrong ones by 120 and more
		near:      1800, nearCosts: "heights come out about half as sure as from 3 m", stand: "Stand 3 m away or more and zoom until head and feet just fit.",
		own: (*Subject).doubtBody}
	for i := range f.landmarks {
		l := &f.landmarks[i]
		l.mean = r3.Sub(l.mean, bodyMiddle)
		f.hold(i, 0, l.mean.X, l.acrossSD())
		f.hold(i, 1, l.mean.Y, bodyUp)
		if l.onFloor() {
			f.soles = append(f.soles, i)
			f.hold(i, 1, l.mean.Y, flatFloor)
		}
		f.hold(i, 2, l.mean.Z, l.alongSD())
	}
	f.addStance()
	front, back := f.must("hip front"), f.must("hip back")
	f.linear = append(f.linear, linear{[]coordinate{{front, 2, .5}, {back, 2, .5}}, 0, exact})
	return f
}

// hold keeps a coordinate of a landmark near its value on a body of this size.
func (f *figure) hold(landmark, axis int, value, sd float64) {
	f.linear = append(f.linear, linear{[]coordinate{{landmark, axis, 1}}, value, sd})
}

// addStance holds pairs near mirror images, and the mid-line near x = 0.
func (f *figure) addStance() {
	for i, l := range f.landmarks {
		if l.Pair == "" {
			if l.SeenIn(BodyFront) {
				f.hold(i, 0, 0, stance)
			}
			continue
		}
		j, sd := f.must(l.Pair), stance
		if j < i {
			continue
		}
		switch {
		case l.onFloor():
			sd = footing
		case strings.HasSuffix(l.Name, "wrist"):
			sd = hands
		}
		f.linear = append(f.linear, linear{[]coordinate{{i, 0, 1}, {j, 0, 1}}, 0, sd})
		for axis := 1; axis <= 2; axis++ {
			f.linear = append(f.linear, linear{[]coordinate{{i, axis, 1}, {j, axis, -1}}, 0, sd})
		}
	}
}

// acrossSD is how well a body's x is known beforehand.
func (l Landmark) acrossSD() float64 {
	if l.SeenIn(BodyFront) || l.Pair != "" {
		return bodyAcross
	}
	return bodyEdge
}

// alongSD is how well a body's z is known beforehand: outlines that a side view
// shows are free.
func (l Landmark) alongSD() float64 {
	if l.SeenIn(BodyFront) {
		return bodyAlong
	}
	return bodyAcross
}

// onFloor tells whether the landmark stands on the floor.
func (l Landmark) onFloor() bool {
	return strings.HasSuffix(l.Name, "toe") || strings.HasSuffix(l.Name, "heel")
}
