package sheet

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"tasset/body/photo"
	"tasset/body/photo/picture"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sheet is a set of views of one subject at one true scale, upright and levelled,
// with rulers and a grid, to draw on.
type Sheet struct {
	title string
	views []*view
	zero  float64 // height at which rulers begin, subject's axes
	from  string  // what that is
	notes []string
}

// view is one photograph, brought to its plane.
type view struct {
	shows     photo.View
	plane     plane
	low, high r2.Vec // what of the plane is shown
	encoded   []byte
	levels    []level
	seen      []r2.Vec // where the landmarks of the levels appear in this view
	says      string   // what is true in it and what is not
	eyes      []r2.Vec // where joins of pages must not run first of all
	marks     []r2.Vec // and then
	limbs     []limb   // what pages must show; none: all that there is
}

// level is a height that runs through all views.
type level struct {
	name   string
	height float64
}

// Head is the reference sheet of a solved head. Pictures are found by the names
// of the shots.
func Head(solved *photo.Solution, pictures map[string]*picture.Picture) (*Sheet, error) {
	s := &Sheet{title: "Reference sheet of the head", from: "the chin"}
	if solved == nil || solved.Head == nil {
		return nil, errors.New("a reference sheet of the head needs solved head pictures; mark a front and a side picture first")
	}
	h := solved.Head
	levels := levelsOf(h, "crown", "pupil", "chin")
	low, high := -96.0, 130.0 // a mean head, should chin or crown not be marked
	if p, ok := h.Point("chin"); ok {
		low = p.At.Y
	}
	if p, ok := h.Point("crown"); ok {
		high = p.At.Y
	}
	s.zero = low
	const aside, under, over = 120, 60, 45 // room to draw on round a head, mm
	const ahead = 16                       // the middle between nose tip and back of the head stands before the ears
	for i, shot := range h.Shots {
		middle := ahead * planeOf(shot.View, h.Cameras[i]).right.Z
		v, err := newView(h, i, pictures[shot.Name], levels, r2.Vec{X: middle - aside, Y: low - under}, r2.Vec{X: middle + aside, Y: high + over})
		if err != nil {
			return nil, err
		}
		v.say(h, i, "nose tip", "chin", "left tragion", "right tragion")
		s.views = append(s.views, v)
	}
	s.order(photo.HeadRight, photo.HeadRightQuarter, photo.HeadFront, photo.HeadLeftQuarter, photo.HeadLeft)
	s.scaleNotes(solved, "chin to crown", "ear to ear")
	return s, nil
}

// Body is the sheet of a solved body, with a height scale from the floor.
func Body(solved *photo.Solution, pictures map[string]*picture.Picture) (*Sheet, error) {
	s := &Sheet{title: "Reference sheet of the body", from: "the floor"}
	if solved == nil || solved.Body == nil {
		return nil, errors.New("a reference sheet of the body needs a solved body picture; mark a front picture of the whole body first")
	}
	b := solved.Body
	levels := levelsOf(b, "crown", "chin", "shoulder edge", "armpit", "navel", "crotch", "knee", "ankle")
	for i, shot := range b.Shots {
		p := planeOf(shot.View, b.Cameras[i])
		low, high := r2.Vec{X: -200, Y: 0}, r2.Vec{X: 200, Y: 0}
		for _, q := range b.Points {
			at := p.seen(q.At)
			low = r2.Vec{X: min(low.X, at.X), Y: min(low.Y, at.Y)}
			high = r2.Vec{X: max(high.X, at.X), Y: max(high.Y, at.Y)}
		}
		v, err := newView(b, i, pictures[shot.Name], levels, r2.Sub(low, at(130, 60)), r2.Add(high, at(130, 100)))
		if err != nil {
			return nil, err
		}
		v.limbs = limbsOf(b, v, shot)
		v.say(b, i, "left toe", "navel", "left knee")
		s.views = append(s.views, v)
	}
	s.order(photo.BodyRight, photo.BodyFront, photo.BodyLeft)
	s.scaleNotes(solved, "stature", "shoulder width (biacromial)")
	return s, nil
}

// levelsOf are the heights of landmarks that were marked, the highest first; of
// a pair, the mean of both sides.
func levelsOf(s *photo.Subject, names ...string) []level {
	var out []level
	for _, n := range names {
		sum, count := 0.0, 0
		for _, full := range []string{n, "left " + n, "right " + n} {
			if p, ok := s.Point(full); ok {
				sum, count = sum+p.At.Y, count+1
			}
		}
		if count > 0 {
			out = append(out, level{n, sum / float64(count)})
		}
	}
	slices.SortStableFunc(out, func(a, b level) int { return int(math.Copysign(1, b.height-a.height)) })
	return out
}

func newView(s *photo.Subject, shot int, p *picture.Picture, levels []level, low, high r2.Vec) (*view, error) {
	sh := s.Shots[shot]
	if p == nil {
		return nil, fmt.Errorf("the picture %s is not there; the reference sheet needs it", sh.Name)
	}
	if p.Width != sh.Width || p.Height != sh.Height {
		return nil, fmt.Errorf("%s is %d × %d pixels, but its marks are for %d × %d", p.Name, p.Width, p.Height, sh.Width, sh.Height)
	}
	v := &view{shows: sh.View, plane: planeOf(sh.View, s.Cameras[shot]), low: low, high: high, levels: levels}
	v.withScales(sh)
	v.places(s, sh)
	if v.plane.distance() < 150 {
		return nil, fmt.Errorf("%s: the camera came out %.0f mm from the middle of the subject, which cannot be; look at its marks and its view first", sh.Name, v.plane.distance())
	}
	img, err := p.Upright()
	if err != nil {
		return nil, err
	}
	if v.encoded, err = v.plane.photograph(img, low, high); err != nil {
		return nil, err
	}
	for _, m := range sh.Marks {
		if q, ok := s.Point(m.Name); ok && slices.ContainsFunc(levels, func(l level) bool { return isOf(m.Name, l.name) }) {
			v.seen = append(v.seen, v.plane.seen(q.At))
		}
	}
	return v, nil
}

// isOf tells whether a landmark is the named one of either side.
func isOf(full, name string) bool {
	return full == name || full == "left "+name || full == "right "+name
}

// say writes down what is true in a view: what stands nearer than its plane
// reads larger, by d / (D − d).
func (v *view) say(s *photo.Subject, shot int, names ...string) {
	v.says = fmt.Sprintf("%s: true on the upright plane through %s; the lens stood %.2f m from it.", v.shows, planes[v.shows], v.plane.distance()/1000)
	for _, n := range names {
		p, ok := s.Point(n)
		here := slices.ContainsFunc(s.Shots[shot].Marks, func(m photo.Mark) bool { return m.Name == n })
		near := v.plane.near(p.At)
		if !ok || !here || math.Abs(near) < 15 { // less than 1 % from 1.5 m
			continue
		}
		where, larger := "nearer", "larger"
		if near < 0 {
			where, larger = "further away", "smaller"
		}
		part := v.plane.larger(near)
		v.says += fmt.Sprintf(" The %s is %.0f mm %s, so what is there reads %.1f %% %s (100 mm on the sheet are %.0f)%s.",
			n, math.Abs(near), where, 100*math.Abs(part), larger, 100/(1+part), v.height(p.At))
	}
}

// planes are what the plane of a view goes through, in the order of photo's views.
var planes = [...]string{
	photo.HeadFront:        "both ears, square to straight ahead",
	photo.HeadLeft:         "the mid-line of the head",
	photo.HeadRight:        "the mid-line of the head",
	photo.HeadLeftQuarter:  "the middle between the ears, square to the view",
	photo.HeadRightQuarter: "the middle between the ears, square to the view",
	photo.BodyFront:        "the middle of the body, square to straight ahead",
	photo.BodyLeft:         "the mid-line of the body",
	photo.BodyRight:        "the mid-line of the body",
}

// centres are what u = 0 is in a view.
var centres = [...]string{
	photo.HeadFront:        "mid-line",
	photo.HeadLeft:         "ear line",
	photo.HeadRight:        "ear line",
	photo.HeadLeftQuarter:  "ear middle",
	photo.HeadRightQuarter: "ear middle",
	photo.BodyFront:        "mid-line",
	photo.BodyLeft:         "body's axis",
	photo.BodyRight:        "body's axis",
}

// height says how much higher or lower than it is a point appears.
func (v *view) height(q r3.Vec) string {
	off := v.plane.seen(q).Y - q.Y
	switch {
	case off > 1:
		return fmt.Sprintf(", and it stands %.0f mm too high", off)
	case off < -1:
		return fmt.Sprintf(", and it stands %.0f mm too low", -off)
	}
	return ""
}

// order puts the views side by side as they follow when one walks round.
func (s *Sheet) order(views ...photo.View) {
	rank := func(v *view) int { return slices.Index(views, v.shows) }
	slices.SortStableFunc(s.views, func(a, b *view) int { return rank(a) - rank(b) })
}

// scaleNotes say how well the scale itself is known, and how to read the sheet.
func (s *Sheet) scaleNotes(solved *photo.Solution, names ...string) {
	s.notes = append(s.notes, "Photographs, turned upright and brought to one scale by the cameras as they were solved. Nothing is drawn over or made up: each view is what its lens saw, so only what lies on the named plane has its true size. What is nearer reads larger, by d / (D − d) (pinhole arithmetic).")
	for _, n := range names {
		for _, l := range solved.Lengths {
			if l.Name == n {
				s.notes = append(s.notes, fmt.Sprintf("How well the scale is known: %s %.0f ± %.0f mm (95 %%, from these photographs%s).", n, l.Value, l.HalfWidth(), unchecked(l)))
			}
		}
	}
	for _, v := range s.views {
		s.notes = append(s.notes, v.says)
	}
	s.notes = append(s.notes,
		fmt.Sprintf("Level lines stand at true heights, in mm over %s, and run through all views. A small diamond is where that landmark appears in a view: it leaves the line where it stands nearer or further than the plane. Draw what lies on a face to the diamonds, what lies at the sides to the lines.", s.from),
		"Grid: 10 mm, every fifth line stronger (50 mm and 100 mm where the sheet is made smaller). Rulers: mm at the left and below, inches at the right and above.")
}

func unchecked(l photo.Length) string {
	if l.Checked {
		return ""
	}
	return "; nothing checks it"
}
