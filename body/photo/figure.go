package photo

import "tasset/internal/report"

// figure is what is known of a subject before anyone has marked it: its
// landmarks near their mean places, and equations between their coordinates.
type figure struct {
	name      string // "head"
	landmarks []Landmark
	linear    []linear
	soles     []int   // landmarks that stand on the floor, which is y = 0 of the subject; none: the model's axes are the subject's
	skull     *skull  // whose outline the rim landmarks are; nil: they are points
	depth     float64 // how far off the subject's middle a ruler stands, mm (standard deviation)
	shortens  float64 // how much its tilt shortens a ruler on average, as a share of its length, where the search does not see it
	scatter   float64 // standard deviation of that

	smallest, largest float64 // sizes that people have, as shares of the mean person's

	mislabels float64                         // how far marks miss the mean figure seen as labelled, if the label may be wrong, mm
	near      float64                         // mm: from nearer than this,
	nearCosts string                          // perspective costs so much; better
	stand     string                          // stand there
	own       func(*Subject) []report.Finding // doubts of this figure alone; nil: none
}

// linear says that a weighted sum of landmarks' coordinates is near a target,
// on a person of mean size. On others both grow with the size.
type linear struct {
	terms  []coordinate
	target float64 // mm
	sd     float64 // mm
}

// coordinate is k times a coordinate (0 x, 1 y, 2 z) of a landmark.
type coordinate struct {
	landmark, axis int
	k              float64
}

// Deviations of the equations that every figure has.
const (
	asymmetry = 1.5 // mm that a landmark misses the mirror image of its pair
	exact     = .02 // mm; holds the subject's axes fast
	sizeSlack = .3  // of the mean person's size

	widestSlack = 10 // mm that a head's widest place is off the usual one, to front or back
)

// index finds a landmark by name; -1 if there is none.
func (f *figure) index(name string) int {
	for i, l := range f.landmarks {
		if l.Name == name {
			return i
		}
	}
	return -1
}

// must is index for names that the table has.
func (f *figure) must(name string) int {
	i := f.index(name)
	if i < 0 {
		panic("no landmark " + name)
	}
	return i
}

// addMeans holds each landmark weakly to its mean place.
func (f *figure) addMeans() {
	for i, l := range f.landmarks {
		for axis, v := range [3]float64{l.mean.X, l.mean.Y, l.mean.Z} {
			f.linear = append(f.linear, linear{[]coordinate{{i, axis, 1}}, v, l.prior})
		}
	}
}

// addSymmetry holds pairs to mirror images, and the mid-line to x = 0.
func (f *figure) addSymmetry() {
	for i, l := range f.landmarks {
		if l.Pair == "" {
			f.linear = append(f.linear, linear{[]coordinate{{i, 0, 1}}, 0, asymmetry})
			continue
		}
		j := f.must(l.Pair)
		if j < i {
			continue
		}
		f.linear = append(f.linear, linear{[]coordinate{{i, 0, 1}, {j, 0, 1}}, 0, asymmetry})
		for axis := 1; axis <= 2; axis++ {
			f.linear = append(f.linear, linear{[]coordinate{{i, axis, 1}, {j, axis, -1}}, 0, asymmetry})
		}
	}
}

// newHead is the head as a figure. Its axes are those of HeadFrame.
func newHead() *figure {
	f := &figure{name: "head", landmarks: HeadLandmarks(), depth: 20,
		smallest: .7, largest: 1.4, // of sizes that are not solved yet
		mislabels: 18, // right labels miss by 5 to 10 mm
		near:      1000, nearCosts: "head length and breadth come out about a third less sure than from 1.5 m", stand: "Stand 1.5 to 3 m away and zoom in."}
	for i := range f.landmarks {
		f.landmarks[i].prior = 20
	}
	f.addMeans()
	f.addSymmetry()
	for _, n := range []string{"left side of the head", "right side of the head"} {
		f.hold(f.must(n), 2, widest, widestSlack) // no view shows it, and breadth hangs on it
	}
	ears := [2]int{f.must("left tragion"), f.must("right tragion")}
	eyes := [2]int{f.must("left outer eye corner"), f.must("right outer eye corner")}
	for axis := 1; axis <= 2; axis++ {
		f.linear = append(f.linear, linear{[]coordinate{{ears[0], axis, .5}, {ears[1], axis, .5}}, 0, exact})
	}
	f.linear = append(f.linear, linear{[]coordinate{
		{eyes[0], 1, .5}, {eyes[1], 1, .5}, {eyes[0], 2, -earEye / 2}, {eyes[1], 2, -earEye / 2}}, 0, exact})
	f.skull = &skull{
		left: f.must("left side of the head"), right: f.must("right side of the head"),
		front: f.must("brow middle"), back: f.must("back of the head"), top: f.must("crown"),
	}
	return f
}
