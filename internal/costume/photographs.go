package costume

import (
	"slices"
	"strings"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/report"
	"tasset/internal/units"
)

// More photographs or marks than these are an accident: a person is measured
// from eight views at most, and a view has some thirty landmarks.
const (
	mostPhotographs = 20
	mostMarks       = 200
)

var photographKeys = []string{"picture", "view", "over", "focal length", "distance", "ruler", "card", "marks"}

// readPhotographs reads the marked photographs. How large the pictures are and
// which lens took them stands in the pictures themselves.
func (w *Wearer) readPhotographs(v value) {
	first := map[string]string{}
	for _, item := range v.some(1, mostPhotographs, "photograph", "write a list of photographs, such as \"- picture: photos/head-front.jpg\"") {
		s, over := readShot(item, w.Units)
		if at, twice := first[s.Name]; twice && s.Name != "" {
			item.fail("found %s a second time (the first is at %s); keep one of them", s.Name, at)
		}
		first[s.Name] = item.where()
		w.takenOver(item, s.View, over)
		w.Photos = append(w.Photos, s)
	}
}

// takenOver notes what a picture was taken over. All of the head's and all of
// the body's must be taken over the same: they are solved together.
func (w *Wearer) takenOver(item value, view photo.View, over *value) {
	layer, of, those := "", &w.Over.Body, "body"
	if view.OfHead() {
		of, those = &w.Over.Head, "head"
	}
	if over != nil {
		layer = over.layer(w.Layers)
	}
	begun := slices.ContainsFunc(w.Photos, func(s photo.Shot) bool { return s.View.OfHead() == view.OfHead() })
	if begun && *of != layer {
		item.fail("found a picture of the %s over %s, but the one before it is over %s; write the same \"over\" to each", those, orSkin(layer), orSkin(*of))
	}
	*of = layer
}

func orSkin(layer string) string {
	if layer == "" {
		return "skin"
	}
	return layer
}

// layer reads the name of something worn; "" for skin.
func (v value) layer(worn []body.Layer) string {
	name := v.text()
	known := []string{"skin"}
	for _, l := range worn {
		known = append(known, l.Name)
	}
	switch near := report.Nearest(name, known); {
	case name == "" || name == "skin":
		return ""
	case contains(known, name):
		return name
	case near != "":
		v.fail("found %q; did you mean %q?", name, near)
	default:
		v.fail("found %q, which is not among what is worn; write it there with its thickness, such as \"wears: {hair: 5 mm}\"", name)
	}
	return ""
}

func readShot(v value, def units.Unit) (s photo.Shot, over *value) {
	at := v.r.keyed(v, photographKeys)
	s.Where = v.where()
	if e := v.need(at, "picture", "picture: photos/head-front.jpg"); e != nil {
		s.Name = e.file()
	}
	if e := v.need(at, "view", "view: head front"); e != nil {
		s.View = photo.View(e.among(viewWords()))
	}
	if e := at["focal length"]; e != nil {
		s.F35 = e.between(shortestFocal, longestFocal, units.MM, "the focal length as on 35 mm film, from 8 mm to 1500 mm, such as 26 mm")
	}
	if e := at["distance"]; e != nil {
		s.Distance = e.between(200, 50000, def, "the distance from the lens to the wearer, from 20 cm to 50 m")
	}
	if e := at["ruler"]; e != nil {
		s.Ruler = readRuler(*e, def)
	}
	if e := at["card"]; e != nil {
		s.Card = readCard(*e)
	}
	if e := at["marks"]; e != nil {
		s.Marks = readMarks(*e, def)
	}
	return s, at["over"]
}

// Shortest and longest focal length of a camera, as on 35 mm film, mm.
const (
	shortestFocal = 8
	longestFocal  = 1500
)

// viewWords are the views as makers write them, in photo's order.
func viewWords() []string {
	var words []string
	for _, v := range photo.Views() {
		words = append(words, v.String())
	}
	return words
}

// Shortest and longest stretch of a ruler that tells a scale, mm.
const (
	shortestRuler = 20
	longestRuler  = 5000
)

func readRuler(v value, def units.Unit) *photo.Ruler {
	const example = "ruler: {from: [812, 2210], to: [1840, 2203], length: 300 mm}"
	at := v.r.keyed(v, []string{"from", "to", "length"})
	r := &photo.Ruler{Where: v.where()}
	if e := v.need(at, "from", example); e != nil {
		r.From = e.pixel()
	}
	if e := v.need(at, "to", example); e != nil {
		r.To = e.pixel()
	}
	if e := v.need(at, "length", example); e != nil {
		r.Length = e.between(shortestRuler, longestRuler, def, "how far the two marks on the ruler are apart, from 2 cm to 5 m")
	}
	return r
}

func readCard(v value) *photo.Card {
	c := &photo.Card{Where: v.where()}
	copy(c.Corners[:], v.pixels(4, 4))
	return c
}

// readMarks reads landmarks with their places. Which landmarks there are is for
// package photo to say.
func readMarks(v value, def units.Unit) []photo.Mark {
	list := v.entries("write landmarks with their places, such as \"left pupil: [1204, 988]\"")
	if len(list) > mostMarks {
		v.fail("found %d marks; write at most %d", len(list), mostMarks)
		return nil
	}
	var out []photo.Mark
	for _, e := range list {
		out = append(out, readMark(e, def))
	}
	return out
}

// readMark reads one landmark: a place, or a place with how far off it may be.
func readMark(e value, def units.Unit) photo.Mark {
	m := photo.Mark{Name: strings.TrimSpace(e.key), Where: e.where()}
	if strings.ContainsFunc(m.Name, unprintable) {
		e.r.fail(e.line, "found the landmark %q; \"tasset photo landmarks\" lists those that there are", shortened(m.Name))
	}
	if !e.isMapping() {
		m.At = e.pixel()
		return m
	}
	at := e.r.keyed(e, []string{"at", "plus-minus"})
	if p := e.need(at, "at", e.key+": {at: [1204, 988], plus-minus: 4 mm}"); p != nil {
		m.At = p.pixel()
	}
	if pm := at["plus-minus"]; pm != nil {
		m.SD = pm.between(0.1, 100, def, "how far off the mark may be on the wearer, from 0.1 mm to 10 cm") / coverage
	}
	return m
}
