package sheet

import (
	"fmt"
	"math"

	"tasset/body/photo"
	"tasset/internal/units"
)

// Device is a camera as its maker describes it. The zero value is a phone's main
// lens.
type Device struct {
	F35           float64 // focal length as on 36 × 24 mm film, mm; 0: 26
	Width, Height int     // px; 0: 12 megapixels
}

// Guide says how to shoot for measuring: what to have, where to stand, where the
// ruler goes, how to pose, and what each fault costs.
type Guide struct {
	Title    string
	For      string // the camera that its numbers are for
	Sections []Section
	Poses    []Pose
	Metres   []float64 // the distances of the table
	Costs    []Cost
}

// Section is a heading and what stands under it.
type Section struct {
	Title string
	Lines []string
}

// Pose is one view to shoot.
type Pose struct {
	View  photo.View
	Lines []string
}

// Cost is what a fault costs at each of the guide's distances, mm.
type Cost struct {
	Fault  string
	On     string    // on which size
	MM     []float64 // NaN: not reckoned
	Source string    // "pinhole arithmetic", "arithmetic", "simulated"
}

// Where to stand, mm. From the prototype's simulation: nearer than 1 m the depth
// of a face cannot be made up for; beyond 3 m nothing is gained.
const (
	headDistance = 2000.0
	headLeast    = 1500.0
	headMost     = 3000.0
	bodyDistance = 3000.0
)

// NewGuide is the guide for a camera.
func NewGuide(d Device) Guide {
	assumed := ""
	if d.F35 == 0 {
		d.F35, assumed = 26, " (taken as a phone's main lens; give the camera's own numbers for its own distances)"
	}
	if d.Width == 0 || d.Height == 0 {
		d.Width, d.Height = 3000, 4000
	}
	if d.Width > d.Height {
		d.Width, d.Height = d.Height, d.Width // held upright
	}
	g := Guide{
		Title:  "How to photograph for measuring",
		For:    fmt.Sprintf("for a focal length of %.0f mm (35 mm equivalent) and %.0f megapixels%s", d.F35, float64(d.Width)*float64(d.Height)/1e6, assumed),
		Metres: []float64{0.6, 1, 1.5, 2, 3},
	}
	g.Sections = []Section{needs(), stand(d), camera(), check()}
	g.Poses = poses()
	g.Costs = costs(d, g.Metres)
	return g
}

func needs() Section {
	return Section{"What to have", []string{
		"A stiff straight ruler of 300 mm or more, of steel or wood, with figures that can be read in the picture; a metre rule is better for the whole body. Cloth tapes, folding rules and school rulers that bend are no scales. Or the scale card, printed and glued to board.",
		"Someone to hold the camera, or a tripod and the self-timer. Even light, a plain wall.",
		"Hair pressed flat under a cap or wet; ears free. Tight clothes for the body. No glasses.",
		"A tape measure: one head girth by tape brings that girth from ± 29 mm to ± 6 mm (95 %, simulated, from 1.5 m), and length and breadth of the head with it.",
	}}
}

func stand(d Device) Section {
	across, up := photo.Field(headDistance, d.F35, d.Width, d.Height)
	least := max(math.Ceil(photo.DistanceFor(photo.WholeBody, d.F35, d.Width, d.Height)/100)*100, headLeast)
	perPx := across / float64(d.Width)
	lines := []string{
		fmt.Sprintf("Head: the lens %.1f m from the head (%.1f to %.0f m), at the height of the eyes, held upright and level. It sees %.2f × %.2f m there and one pixel is %.2f mm: the head is small in the picture, and that is right. Do not step closer to fill it.", headDistance/1000, headLeast/1000, headMost/1000, across/1000, up/1000, perPx),
	}
	if d.F35 < 45 {
		lines = append(lines, fmt.Sprintf("If the camera has a second lens of about 50 to 80 mm (\"2×\", \"3×\"), use it from the same place: with as many pixels, one is then %.2f mm. Digital zoom only cuts; leave it off.", perPx*d.F35/52))
	}
	lines = append(lines,
		fmt.Sprintf("Whole body: the lens %s (%.1f m of height must fit, and nearer than 1.5 m shapes are off), at the height of the navel, held upright and level.", bodyStand(least), photo.WholeBody/1000.0),
		"Distance, not the lens, makes the shape: on 30 people a nose was measured 6 % longer in a picture from 30 cm than from 1.5 m (Plastic and Reconstructive Surgery, 2022).")
	if d.F35 < 20 {
		lines = append(lines, "This lens is very wide: such lenses bend straight lines at the edges by several per cent. Keep the head in the middle of the picture, or better take a longer lens.")
	}
	return Section{"Where to stand", lines}
}

// bodyStand says from where to take the whole body with a lens that must stand
// least mm away.
func bodyStand(least float64) string {
	if least >= bodyDistance {
		return fmt.Sprintf("at least %.1f m away", least/1000)
	}
	return fmt.Sprintf("%.1f m away if there is room, at least %.1f m", bodyDistance/1000, least/1000)
}

func camera() Section {
	return Section{"The camera", []string{
		"Save as JPEG (\"most compatible\"). Take the file as the camera wrote it: messengers and editors make it smaller, cut it and drop the focal length.",
		"Ordinary photograph: no ultra-wide lens, no panorama, no portrait blur, no beauty or straightening effect, no frame out of a film.",
		"Not the lens above the screen: many such cameras store a mirror image, and a mirrored head cannot be told from the file.",
		"Do not crop, straighten or turn it by hand; a turned picture is turned upright by what the camera noted.",
		"One camera and one zoom for all pictures of a set.",
	}}
}

func check() Section {
	return Section{"After shooting", []string{
		"Look at each picture at full size: both ends of the ruler readable, chin, ears and crown in frame, nothing in front of them, not blurred.",
		"Measure one of the sizes by tape too. If tape and photographs differ by more than 3 % or 10 mm, trust the tape (rule of thumb) and look for a wrong ruler length or mark.",
		"A second side picture from the other side checks the back of the head, which nothing else does.",
	}}
}

func poses() []Pose {
	return []Pose{
		{photo.HeadFront, []string{
			"Look straight ahead into the lens, mouth closed, teeth together, face at rest. The same face in all pictures: the chin must not move.",
			"Ruler upright beside the face, as far from the camera as the ear hole, square to the view, not touching the cheek.",
			"Not with the ruler before the face, nor leaning towards the camera.",
		}},
		{photo.HeadLeft, []string{
			"Turn the whole body by a quarter; look straight ahead, not at the camera. One eyebrow hides the other, one ear is seen.",
			"Ruler upright before the face in line with the nose: as far from the camera as the middle of the nose, not as the near ear.",
			"Once more from the other side, if you can.",
		}},
		{photo.HeadLeftQuarter, []string{
			"Turn by half of that: one ear and both eyes are seen.",
			"Ruler upright beside the head, as far from the camera as the middle of the head.",
		}},
		{photo.BodyFront, []string{
			"Stand tall, feet a hand's length apart, toes to the front; arms straight and a hand's length away from the body, palms in; breathe out halfway.",
			"Ruler upright at arm's length beside the hip, as far from the camera as the side of the hip. Nothing hides hip, crotch, knees, ankles.",
			"A side picture as well tells how you stand, which shapes breastplate and backplate: the same place, turned by a quarter, standing as in the costume. Arms back only if they hide the chest, and not the shoulders with them.",
		}},
	}
}

// Sizes of a mean head (2012 US Army survey, means of both sexes) on which costs
// are told, mm, and how far features stand from the ruler beside the ear.
const (
	headLength  = 196.3
	headBreadth = 152.1
	faceLength  = 119.5
	faceBefore  = 88 // the face's mid-line, as in the solver's mean head
)

// costs are the faults with what they cost, by pinhole arithmetic where that
// tells it, else as simulated.
func costs(d Device, metres []float64) []Cost {
	over := func(f func(mm float64) float64) []float64 {
		out := make([]float64, len(metres))
		for i, m := range metres {
			out[i] = f(m * 1000)
		}
		return out
	}
	same := func(v float64) []float64 { return over(func(float64) float64 { return v }) }
	lean := func(deg float64) float64 { return headLength * (1/math.Cos(units.Rad(deg)) - 1) }
	const pinhole, plain = "pinhole arithmetic", "arithmetic"
	return append([]Cost{
		{"Reading the face off one front picture by the ruler at the ear (solving several views takes this out)", "face length", over(func(mm float64) float64 { return faceLength * faceBefore / (mm - faceBefore) }), pinhole},
		{"Ruler 20 mm nearer to the camera than what is measured", "head length", over(func(mm float64) float64 { return headLength * 20 / mm }), pinhole},
		{"Ruler leaning 5° towards or away from the camera", "head length", same(lean(5)), pinhole},
		{"Ruler leaning 15°", "head length", same(lean(15)), pinhole},
		{"Each of two marks 1.5 mm off", "any length", same(1.5 * math.Sqrt2), plain},
		{"The same in both breadth and depth", "a girth made of them", same(math.Pi / 2 * math.Sqrt2 * 1.5 * math.Sqrt2), plain},
		{"One pixel", "any mark", over(func(mm float64) float64 {
			a, _ := photo.Field(mm, d.F35, d.Width, d.Height)
			return a / float64(d.Width)
		}), pinhole},
		{"Ruler length written 305 for 300 mm (only a tape shows it)", "head length", same(headLength * 5 / 300), plain},
		{"Head turned 5° when breadth is read off one picture", "head breadth", same(headBreadth * (1 - math.Cos(units.Rad(5)))), plain},
	}, simulations()...)
}
