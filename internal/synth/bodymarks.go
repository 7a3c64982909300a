package synth

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/geom"
)

// BodyPoints are the places of photo's body landmarks on a form, in body axes,
// as far as its shape tells them; those of an outline are where it is outermost
// for a camera that is far away.
func BodyPoints(f *body.Form) map[string]r3.Vec {
	b := &bodyPlaces{form: f, skin: geom.NewLocator(f.Mesh()), at: map[string]r3.Vec{}}
	b.middle()
	for word, side := range map[string]body.Side{"left ": body.Left, "right ": body.Right} {
		b.trunk(word, side)
		b.limbs(word, side)
	}
	return b.at
}

type bodyPlaces struct {
	form *body.Form
	skin *geom.Locator
	at   map[string]r3.Vec
}

func (b *bodyPlaces) part(s body.Segment, side body.Side) *body.Part {
	p, _ := b.form.Part(s, side)
	return p
}

func (b *bodyPlaces) size(n body.Name) float64 {
	m, _ := b.form.Measurements().Get(n, body.Both)
	return m.Value
}

// front is the skin on the mid-line at a height.
func (b *bodyPlaces) front(y float64) r3.Vec {
	return meets(b.skin, r3.Vec{Y: y, Z: 900}, r3.Vec{Z: -1})
}

func (b *bodyPlaces) middle() {
	head, torso := FormHead(b.form), b.part(body.Torso, body.Both)
	b.at["crown"] = head.Place.Point(head.Points["crown"])
	b.at["chin"] = head.Place.Point(head.Points["chin"])
	b.at["neck pit"] = b.front(b.size("front neck height"))
	waist, _ := torso.Station("waist")
	crotch, _ := torso.Station("crotch")
	b.at["navel"] = b.front(waist)
	b.at["crotch"] = torso.Centre(crotch)
}

// trunk: the outermost places of the torso's sections at its own stations.
func (b *bodyPlaces) trunk(word string, side body.Side) {
	torso := b.part(body.Torso, body.Both)
	way := 1.0
	if side == body.Right {
		way = -1
	}
	outer := func(station string) r3.Vec {
		level, _ := torso.Station(station)
		return torso.Point(way*math.Pi/2, level)
	}
	for landmark, station := range map[string]string{"shoulder edge": "shoulder", "armpit": "armpit", "waist side": "waist", "hip side": "hip"} {
		b.at[word+landmark] = outer(station)
	}
}

func (b *bodyPlaces) limbs(word string, side body.Side) {
	way := 1.0
	if side == body.Right {
		way = -1
	}
	arm, lower, thigh, shank, foot := b.part(body.UpperArm, side), b.part(body.Forearm, side), b.part(body.Thigh, side), b.part(body.Shank, side), b.part(body.Foot, side)
	deltoid, _ := arm.Station("deltoid")
	b.at[word+"upper arm"] = arm.Frame.Point(arm.Point(way*math.Pi/2, deltoid))
	b.at[word+"wrist"] = lower.Frame.Point(lower.Point(0, 0))
	b.at[word+"knee"] = thigh.Frame.Point(thigh.Point(0, 0))
	b.at[word+"ankle"] = shank.Frame.Point(shank.Point(way*math.Pi/2, 0))
	low, high := foot.Range()
	b.at[word+"toe"] = foot.Frame.Point(r3.Vec{Y: low})
	b.at[word+"heel"] = foot.Frame.Point(r3.Vec{Y: high})
}

// LookAtBody gives the landmarks that a body picture shows, in the order of
// photo's table. A rim stands where the landmark is; the outline beside it is
// less than a millimetre further out at the distances of body pictures.
func LookAtBody(f *body.Form, view photo.View, cam photo.Camera) []Sighted {
	points := BodyPoints(f)
	var out []Sighted
	for _, l := range photo.BodyLandmarks() {
		if p, ok := points[l.Name]; ok && l.SeenIn(view) {
			out = append(out, Sighted{l, cam.Project(p), p, l.Name != "crown"})
		}
	}
	return out
}
