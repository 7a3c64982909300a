package body

// reserves are what a piece keeps beyond its ease where the form is known to fall
// short of skins, mm. Source: the default suit on the two average bodies of the
// meshes' README (male-average and female-average): what a piece lacked of four
// fifths of its ease at its worst place. With figures that are the mean of both it was
// 2 mm on the upper arm and 1 on the foot. Of leg pieces what counts for a stranger is
// what each body lacked when built with the other's own figures of shape: 2 and 4 mm on
// the thigh, and 5 and 8 on the shank, where calves are bowed each their own way; of
// these 7 is kept (their root mean square), for more would look puffed up. Elsewhere
// nothing lacked that a reserve would mend.
var reserves = map[Segment]float64{UpperArm: 2, Thigh: 4, Shank: 7, Foot: 2}

// Reserve is how much farther than its ease a piece on a segment stands off the
// form, because a body may lie that much outside it; 0 where nothing is known.
func Reserve(s Segment) float64 { return reserves[s] }
