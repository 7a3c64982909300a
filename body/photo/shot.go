// Package photo turns marks on reference photographs that have a ruler in frame
// into cameras, points and lengths with honest errors, and gives curves drawn
// on a photograph back as rays in body axes.
//
// A photograph is a pinhole camera. Pictures are upright: turned as their EXIF
// says. The subject's axes are body axes: x to the wearer's left, y up, z
// forward; a head's origin lies midway between the tragions, a body's on the
// floor under the middle of the hips. Lengths are millimetres, angles radians;
// places in a picture are pixels, a type of their own.
package photo

// Pixel is a place in an upright picture: X to the right and Y down from the
// upper left corner of the upper left pixel, so that the middle of that pixel
// is (0.5, 0.5).
type Pixel struct{ X, Y float64 }

// View is what a photograph shows, and from where. Left and right are the
// wearer's own: HeadLeft shows the left ear.
type View int

// The views. A quarter view stands between the front and the side.
const (
	HeadFront View = iota
	HeadLeft
	HeadRight
	HeadLeftQuarter
	HeadRightQuarter
	BodyFront
	BodyLeft
	BodyRight
)

// Shot is one photograph as the maker has marked it. The zero value of a field
// that is not stated means that it is not known.
type Shot struct {
	Name          string // "photos/front.jpg"
	View          View
	Width, Height int     // px, upright
	F35           float64 // focal length as on 36 × 24 mm film by equal diagonal, mm; 0: not known
	Lens          string  // camera and lens; shots that agree in it and in F35 share one focal length
	Distance      float64 // from the lens to the ears (body: its middle) along the view, if taped, mm; 0: not known
	Ruler         *Ruler
	Card          *Card
	Marks         []Mark
	Where         string // place in the maker's file: "wearer.yaml:20"
}

// Ruler is a straight ruler in frame, marked at two of its figures.
type Ruler struct {
	From, To Pixel
	Length   float64 // between the two, mm
	Where    string
}

// Card is the printed scale card in frame: its four corner marks, from the
// upper left one clockwise as the card is read.
type Card struct {
	Corners [4]Pixel
	Where   string
}

// Mark is a landmark that the maker has marked.
type Mark struct {
	Name  string // "left pupil"
	At    Pixel
	SD    float64 // how well it can be placed, mm at the subject; 0: usual for this landmark
	Where string
}
