package photo

import (
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// Landmark is a point that makers mark.
type Landmark struct {
	Name  string  // "left pupil"; left and right are the wearer's own
	HowTo string  // how to find it, in one sentence
	Pair  string  // the same landmark on the other side; "" on the mid-line
	Views []View  // where it can be seen
	Click float64 // how well it can be placed by hand, mm at the subject (standard deviation)

	mean  r3.Vec  // where it stands on a mean person, in the subject's axes
	prior float64 // standard deviation of that, in each axis
	rim   axis    // the picture's axis that its outline fixes
	bulge float64 // how much nearer than the point itself its outline is seen, mm; of a top of the outline, for each unit of slope up to it
}

// axis is an axis of a picture.
type axis int

const (
	noAxis axis = iota // a point: both axes count
	uAxis              // the outline's leftmost or rightmost place: only u counts
	vAxis              // its topmost place: only v counts
)

// rimSlack is how far along the outline a mark of a rim point may be off, mm.
const rimSlack = 10

// Rim tells whether the landmark is the outermost place of the outline, so that
// only its distance across the outline counts.
func (l Landmark) Rim() bool { return l.rim != noAxis }

// SeenIn tells whether a view shows the landmark.
func (l Landmark) SeenIn(v View) bool { return slices.Contains(l.Views, v) }

// side is +1 for the wearer's left, -1 for the right, 0 on the mid-line.
func (l Landmark) side() float64 {
	switch {
	case strings.HasPrefix(l.Name, "left "):
		return 1
	case strings.HasPrefix(l.Name, "right "):
		return -1
	}
	return 0
}

// both gives a landmark of the left side, and its mirror image on the right.
// The views are those of the left one.
func both(l Landmark) []Landmark {
	r := l
	l.Name, r.Name = "left "+l.Name, "right "+l.Name
	l.Pair, r.Pair = r.Name, l.Name
	r.mean.X = -l.mean.X
	r.Views = nil
	for _, v := range l.Views {
		r.Views = append(r.Views, v.mirrored())
	}
	return []Landmark{l, r}
}

// mirrored is the view from the other side.
func (v View) mirrored() View {
	switch v {
	case HeadLeft, HeadLeftQuarter, BodyLeft:
		return v + 1
	case HeadRight, BodyRight:
		return v - 1
	case HeadRightQuarter:
		return HeadLeftQuarter
	}
	return v
}
