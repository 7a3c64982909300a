package photo

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Views in which the body's landmarks can be seen.
var (
	bodyFront = []View{BodyFront}
	bodySides = []View{BodyLeft, BodyRight}
	bodyAll   = []View{BodyFront, BodyLeft, BodyRight}
	ownSide   = []View{BodyFront, BodyLeft} // of a left landmark
)

// bodyTable is the mean body, standing: places on the form of the mean of the
// survey's men and women; the crown between the form's (21 mm in front of the
// hips' middle) and four open meshes' (13 to 49). Deviations of clicks are
// judgement: bones under skin and clothes, and the ends of soft parts, are found
// worse than outlines. A trunk's sections are flatter than ellipses, so that an
// outline is seen well in front of the widest place: bulges are means over forms
// of surveyed people, seen from 3 m, times the share of them that the outline's
// place in the picture shows (1 − 1/n of a superellipse's exponent n).
var bodyTable = slices.Concat(
	[]Landmark{
		{Name: "crown", mean: r3.Vec{Y: 1692, Z: 28}, Click: 4, Views: bodyAll, rim: vAxis, bulge: 60,
			HowTo: "The top of the outline of the head, hair pressed flat."},
		{Name: "chin", mean: r3.Vec{Y: 1469, Z: 110}, Click: 3, Views: bodyAll,
			HowTo: "The lowest place of the chin on the mid-line, looking straight ahead."},
		{Name: "neck bone", mean: r3.Vec{Y: 1456, Z: -62}, Click: 8, Views: bodySides,
			HowTo: "The big bone at the back of the neck, on the outline seen from the side."},
		{Name: "neck pit", mean: r3.Vec{Y: 1384, Z: 70}, Click: 4, Views: bodyFront,
			HowTo: "The pit between the collar bones."},
	},
	both(Landmark{Name: "shoulder edge", mean: r3.Vec{X: 195, Y: 1388, Z: -5}, Click: 6, Views: ownSide,
		HowTo: "The outer bony edge at the top of the shoulder, before it drops to the arm."}),
	both(Landmark{Name: "upper arm", mean: r3.Vec{X: 256, Y: 1300, Z: -20}, Click: 3, Views: bodyFront, rim: uAxis, bulge: 4,
		HowTo: "The outermost place of the upper arm at the bulge of the shoulder muscle, arms hanging a little out."}),
	both(Landmark{Name: "armpit", mean: r3.Vec{X: 165, Y: 1284, Z: 20}, Click: 6, Views: bodyFront,
		HowTo: "The upper end of the gap between arm and chest."}),
	[]Landmark{
		{Name: "upper chest", mean: r3.Vec{Y: 1388, Z: 77}, Click: 3, Views: bodySides, rim: uAxis, bulge: 50,
			HowTo: "The outline in front at the height of the shoulder edges, about as high as the neck pit, seen from the side."},
		{Name: "upper back", mean: r3.Vec{Y: 1388, Z: -89}, Click: 3, Views: bodySides, rim: uAxis, bulge: 50,
			HowTo: "The outline of the back at the same height, some 7 cm below the neck bone, seen from the side."},
		{Name: "chest front", mean: r3.Vec{Y: 1231, Z: 156}, Click: 3, Views: bodySides, rim: uAxis, bulge: 27,
			HowTo: "The foremost place of the chest (fullest place of the bust), seen from the side, arms held back."},
		{Name: "chest back", mean: r3.Vec{Y: 1231, Z: -95}, Click: 3, Views: bodySides, rim: uAxis, bulge: 27,
			HowTo: "The outline of the back at the same height."},
		{Name: "navel", mean: r3.Vec{Y: 1018, Z: 148}, Click: 4, Views: bodyFront,
			HowTo: "The middle of the navel."},
		{Name: "waist front", mean: r3.Vec{Y: 1018, Z: 148}, Click: 3, Views: bodySides, rim: uAxis, bulge: 18,
			HowTo: "The outline of the belly at the height of the navel, belly relaxed."},
		{Name: "waist back", mean: r3.Vec{Y: 1018, Z: -77}, Click: 3, Views: bodySides, rim: uAxis, bulge: 16,
			HowTo: "The outline of the back at the height of the navel."},
	},
	both(Landmark{Name: "waist side", mean: r3.Vec{X: 157, Y: 1018, Z: 13}, Click: 3, Views: bodyFront, rim: uAxis, bulge: 14,
		HowTo: "The outline of the trunk at the height of the navel, arms away from it."}),
	[]Landmark{
		{Name: "hip front", mean: r3.Vec{Y: 861, Z: 120}, Click: 3, Views: bodySides, rim: uAxis, bulge: 36,
			HowTo: "The outline of the lower belly at the height of the greatest bulge of the buttocks."},
		{Name: "hip back", mean: r3.Vec{Y: 861, Z: -120}, Click: 3, Views: bodySides, rim: uAxis, bulge: 30,
			HowTo: "The greatest bulge of the buttocks, seen from the side."},
	},
	both(Landmark{Name: "hip side", mean: r3.Vec{X: 175, Y: 861, Z: 29}, Click: 3, Views: bodyFront, rim: uAxis, bulge: 13,
		HowTo: "The outline of the hip about 5 cm above the crotch, where the buttocks bulge most, hands away from it."}),
	[]Landmark{
		{Name: "crotch", mean: r3.Vec{Y: 814, Z: 12}, Click: 6, Views: bodyFront,
			HowTo: "The upper end of the gap between the legs, in tight clothes."},
	},
	both(Landmark{Name: "wrist", mean: r3.Vec{X: 375, Y: 830, Z: 0}, Click: 5, Views: ownSide,
		HowTo: "The bone at the thumb side of the wrist."}),
	both(Landmark{Name: "knee", mean: r3.Vec{X: 105, Y: 469, Z: 73}, Click: 4, Views: bodyFront,
		HowTo: "The middle of the knee cap, leg straight."}),
	both(Landmark{Name: "ankle", mean: r3.Vec{X: 151, Y: 68, Z: -12}, Click: 4, Views: ownSide,
		HowTo: "The middle of the outer ankle bone."}),
	both(Landmark{Name: "toe", mean: r3.Vec{X: 119, Y: 0, Z: 185}, Click: 4, Views: ownSide,
		HowTo: "Where the tip of the longest toe meets the floor, or that of the sole."}),
	both(Landmark{Name: "heel", mean: r3.Vec{X: 119, Y: 0, Z: -74}, Click: 4, Views: []View{BodyLeft},
		HowTo: "Where the back of the heel meets the floor."}),
)

// BodyLandmarks lists the landmarks of a whole body.
func BodyLandmarks() []Landmark { return slices.Clone(bodyTable) }
