package costume

import (
	"strings"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/units"
)

// Wearer is what wearer.yaml says of the person who will wear the costume.
type Wearer struct {
	Name    string
	Units   units.Unit // how to write lengths for this maker; None if not stated
	Tape    body.Tape
	Layers  []body.Layer
	Posture body.Posture
	Stands  bool         // the maker stated a posture
	Photos  []photo.Shot // as marked; their files are not read yet
	Over    Photographed // what they were taken over
}

// Photographed is what pictures of the head and of the body were taken over: a
// layer's name, or "".
type Photographed struct{ Head, Body string }

var sexes = []string{"not stated", "woman", "man", "female", "male"}

var wearerKeys = []string{"format", "name", "sex", "age", "units", "wears", "posture", "measurements", "photographs"}

// ReadWearer reads wearer.yaml. The error tells everything that is wrong with
// the file, each with its line; file is the name that it uses.
func ReadWearer(file string, src []byte) (*Wearer, error) {
	r := &reader{file: file}
	root, ok := r.parse(src)
	if !ok {
		return nil, r.done()
	}
	at := r.keyed(root, wearerKeys)
	r.format(at["format"])
	w := &Wearer{Units: r.units(at["units"])}
	if v := at["name"]; v != nil {
		w.Name = v.label()
	}
	if v := at["sex"]; v != nil {
		w.Tape.Sex = [...]body.Sex{body.NotStated, body.Woman, body.Man, body.Woman, body.Man}[v.among(sexes)]
	}
	if v := at["age"]; v != nil {
		w.Tape.Age = v.within(0, 120, "an age in years, such as 27")
	}
	if v := at["wears"]; v != nil {
		w.Layers = readLayers(*v, w.Units)
	}
	w.Tape.Layers = w.Layers
	if v := at["posture"]; v != nil {
		w.Posture, w.Stands = readPosture(*v, w.Units), true
	}
	switch v := at["measurements"]; {
	case at["photographs"] != nil && (v == nil || v.isNothing()): // they are enough
	case v != nil:
		w.Tape.Entries = readMeasurements(*v, w.Units)
	default:
		r.fail(1, "found no \"measurements\"; write at least stature, weight and head girth under it")
	}
	if v := at["photographs"]; v != nil {
		w.readPhotographs(*v)
	}
	return w, r.done()
}

// keyed sorts a mapping's entries by key and records those that are not known.
func (r *reader) keyed(v value, known []string) map[string]*value {
	at := map[string]*value{}
	for _, e := range r.known(v, known) {
		at[e.key] = &e
	}
	return at
}

// known gives a mapping's known entries in the file's order and records the
// others.
func (r *reader) known(v value, known []string) []value {
	var out []value
	for _, e := range v.entries("write keys and values here: " + strings.Join(known, ", ")) {
		if contains(known, e.key) {
			out = append(out, e)
		} else {
			e.unknown(known)
		}
	}
	return out
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

func (r *reader) units(v *value) units.Unit {
	if v == nil {
		return units.None
	}
	u, err := units.ParseUnit(v.text())
	if err != nil {
		v.fail("found %v", err)
	}
	return u
}

// wornOn says where the layers that makers commonly wear are. Common practice,
// no source.
var wornOn = []struct {
	name string
	on   []body.Segment
}{
	{"undersuit", []body.Segment{body.Neck, body.Torso, body.UpperArm, body.Forearm, body.Thigh, body.Shank}},
	{"padded coat", []body.Segment{body.Torso, body.UpperArm, body.Forearm}},
	{"shirt", []body.Segment{body.Torso, body.UpperArm, body.Forearm}},
	{"trousers", []body.Segment{body.Thigh, body.Shank}},
	{"hair", []body.Segment{body.Head}},
	{"wig", []body.Segment{body.Head}},
	{"hood", []body.Segment{body.Head, body.Neck}},
	{"glasses", []body.Segment{body.Head}},
	{"gloves", []body.Segment{body.Hand}},
	{"shoes", []body.Segment{body.Foot}},
	{"boots", []body.Segment{body.Foot, body.Shank}},
}

var segments = []string{"head", "neck", "torso", "upper arm", "forearm", "hand", "thigh", "shank", "foot"}

// mostWorn is thicker than anything that armour goes over, glasses with their
// distance from the eyes and thick soles included.
const mostWorn = 120 // mm

func readLayers(v value, def units.Unit) []body.Layer {
	var layers []body.Layer
	for _, e := range v.entries("write what is worn with its thickness, such as \"undersuit: 2 mm\"") {
		layers = append(layers, readLayer(e, def))
	}
	return layers
}

func readLayer(e value, def units.Unit) body.Layer {
	l := body.Layer{Name: e.key}
	var known []string
	for _, w := range wornOn {
		known = append(known, w.name)
		if w.name == e.key {
			l.Segments = w.on
		}
	}
	if !e.isMapping() {
		if l.Segments == nil {
			e.unknown(known)
		}
		l.Thickness = e.thickness(def, mostWorn)
		return l
	}
	at := e.r.keyed(e, []string{"thickness", "on"})
	if t := at["thickness"]; t != nil {
		l.Thickness = t.thickness(def, mostWorn)
	} else {
		e.fail("found no thickness; write {thickness: 4 mm, on: [torso]}")
	}
	if on := at["on"]; on != nil {
		l.Segments = nil
		for _, s := range on.items("write a list of body parts, such as [forearm, torso]") {
			l.Segments = append(l.Segments, body.Segment(segments[s.among(segments)]))
		}
	} else if l.Segments == nil {
		e.fail("found no \"on\"; write where it is worn, such as on: [torso]")
	}
	return l
}
