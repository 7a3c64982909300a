// Package body turns what is known about one person into a body form: the
// measurements (taken, or estimated from a survey), the sections and segments
// that they make, and the questions that a piece of armour asks of a body.
//
// Lengths are millimetres, weight is kilograms. Body axes: x to the wearer's
// left, y up, z forward.
package body

// Name is a measurement's name as makers write it: "head girth", "stature".
type Name string

// Side tells which limb a measurement was taken on.
type Side int

// Both is a measurement that stands for the two sides, or has no side.
const (
	Both Side = iota
	Left
	Right
)

// String is the side as makers write it; Both is empty.
func (s Side) String() string { return [...]string{"", "left", "right"}[s] }

// Origin tells where a value comes from.
type Origin int

// A value is taken with a tape, read off photographs, or estimated.
const (
	Estimated Origin = iota
	Taped
	Photographed
)

// String is the origin in the word that goes on a page.
func (o Origin) String() string { return [...]string{"estimated", "tape", "photograph"}[o] }

// Sex selects the survey's model; NotStated uses the model of all people.
type Sex int

// The survey has men and women.
const (
	NotStated Sex = iota
	Man
	Woman
)

// Measurement is one size of one body.
type Measurement struct {
	Name   Name
	Side   Side
	Value  float64 // mm; kg for weight
	SD     float64 // standard deviation, in the same unit
	Origin Origin
	Over   string // what it was taken over; "" or "skin" is the skin
	Where  string // place in the maker's file; "" if estimated
}

// HalfWidth is half the width of the 95 % interval.
func (m Measurement) HalfWidth() float64 { return 1.96 * m.SD }

// Entry is one measurement as a maker wrote it down.
type Entry struct {
	Name  Name
	Side  Side
	Value float64 // mm; kg for weight
	SD    float64 // 0: the tape's usual deviation for this measurement
	Over  string  // "" or "skin", or the name of a layer
	Where string  // "wearer.yaml:14"
	Typed string  // as typed, for findings: "57.4 cm"
}

// Tape is what a maker wrote about a wearer.
type Tape struct {
	Sex     Sex
	Age     float64 // years; 0: not stated
	Entries []Entry
	Layers  []Layer // what entries may have been taken over
}

// Layer is something worn under the armour, by thickness.
type Layer struct {
	Name      string  // "undersuit", "shoes", "hair", "wig", "glasses"
	Thickness float64 // mm; glasses stand this far in front of the eyes
	Segments  []Segment
}

// Seen is what photographs told: lengths with their full covariance, row-major
// in the order of Names. A nil *Seen is none.
type Seen struct {
	Names      []Name
	Values     []float64
	Covariance []float64
	Over       []string // what each was photographed over: "" or "skin", or the name of a layer; nil: skin
}
