package photo

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
)

// A head girth is a ratio times the girth of the ellipse over head length and
// head breadth, give or take a scatter: least squares over the people of the 2012
// US Army survey, all 5187, 3484 men and 1703 women, whose tape runs over more
// hair.
const (
	girthRatio, girthScatter = 1.0368, 10.4 // mm
	manRatio, manScatter     = 1.0291, 6.4
	womanRatio, womanScatter = 1.0540, 11.1
)

// SeenOf is Seen for a person whose sex is known: a head girth goes with the
// length and the breadth of a head more closely then, so that a tape round the
// head tells more of them.
func (s *Solution) SeenOf(sex body.Sex) *body.Seen {
	ratio, scatter := girthRatio, girthScatter
	switch sex {
	case body.Man:
		ratio, scatter = manRatio, manScatter
	case body.Woman:
		ratio, scatter = womanRatio, womanScatter
	}
	if s.Seen == nil {
		return nil
	}
	n := len(s.Seen.Names)
	out := &body.Seen{Names: s.Seen.Names, Values: slices.Clone(s.Seen.Values), Covariance: slices.Clone(s.Seen.Covariance)}
	i := slices.Index(out.Names, "head girth")
	if i < 0 {
		return out
	}
	k := ratio / girthRatio
	out.Values[i] *= k
	out.Covariance[i*n+i] -= girthScatter * girthScatter
	for j := range n {
		out.Covariance[i*n+j] *= k
		out.Covariance[j*n+i] *= k
	}
	out.Covariance[i*n+i] += scatter * scatter
	return out
}

// headMeasures are the lengths that photographs tell of a head. Eye to crown is
// none of them: a head is levelled by its eyes, so that it would always come out
// as the mean person's, and people's eyes miss that by 8 mm (2012 US Army survey).
// One that stands here twice can be had from either side's landmark.
var headMeasures = []measure{
	{name: "head girth", needs: []string{"brow middle", "back of the head", "left side of the head", "right side of the head"}, length: headGirth, own: girthScatter,
		howTo: "Round brow and back of the head; reckoned from its length and breadth as on surveyed people."},
	{name: "head length", needs: []string{"brow middle", "back of the head"}, length: along(r3.Vec{Z: 1}, "back of the head", "brow middle"),
		howTo: "From between the brows straight back to the hindmost place."},
	{name: "head breadth", needs: []string{"left side of the head", "right side of the head"}, length: along(r3.Vec{X: 1}, "right side of the head", "left side of the head"),
		howTo: "Across the widest place above the ears."},
	{name: "ear to crown", needs: []string{"left tragion", "crown"}, length: earToCrown,
		howTo: "From the notch in front of the ear straight up to the height of the crown, head level."},
	{name: "ear to crown", needs: []string{"right tragion", "crown"}, length: earToCrown,
		howTo: "From the notch in front of the ear straight up to the height of the crown, head level."},
	{name: "face length", needs: []string{"nose root", "chin"}, length: between("nose root", "chin"),
		howTo: "From the nose root to under the chin."},
	{name: "face breadth", needs: []string{"left cheekbone", "right cheekbone"}, length: between("left cheekbone", "right cheekbone"),
		howTo: "Across the cheekbones."},
	{name: "pupil distance", needs: []string{"left pupil", "right pupil"}, length: between("left pupil", "right pupil"),
		howTo: "From pupil to pupil."},
	{name: "ear to ear", needs: []string{"left tragion", "right tragion"}, length: between("left tragion", "right tragion"),
		howTo: "From the notch in front of one ear to that of the other, straight through the head."},
	{name: "chin to crown", needs: []string{"chin", "crown"}, length: along(r3.Vec{Y: 1}, "chin", "crown"),
		howTo: "From under the chin straight up to the height of the crown, head level."},
}

// earToCrown is how far the crown stands above the middle of the tragions.
func earToCrown(at func(string) r3.Vec) (float64, map[string]r3.Vec) {
	const l, r = "left tragion", "right tragion"
	return at("crown").Y - (at(l).Y+at(r).Y)/2, map[string]r3.Vec{"crown": {Y: 1}, l: {Y: -.5}, r: {Y: -.5}}
}

func headGirth(at func(string) r3.Vec) (float64, map[string]r3.Vec) {
	long := at("brow middle").Z - at("back of the head").Z
	broad := at("left side of the head").X - at("right side of the head").X
	const h = 1e-3
	girth := func(l, b float64) float64 { return girthRatio * ellipse(l/2, b/2) }
	dl, db := (girth(long+h, broad)-girth(long-h, broad))/(2*h), (girth(long, broad+h)-girth(long, broad-h))/(2*h)
	return girth(long, broad), map[string]r3.Vec{
		"brow middle": {Z: dl}, "back of the head": {Z: -dl},
		"left side of the head": {X: db}, "right side of the head": {X: -db},
	}
}

// ellipse is the girth of an ellipse with half axes a and b, to 1e-9 of itself
// at a head's shape. Source: Ramanujan, "Modular equations and approximations to
// π", 1914.
func ellipse(a, b float64) float64 {
	h := (a - b) / (a + b) * (a - b) / (a + b)
	return math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
}
