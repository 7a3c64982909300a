package body

// reserves are what a piece keeps beyond its ease where the form is known to fall
// short of skins, mm. Source: the default suit on the two average bodies of the
// meshes' README (male-average and female-average), each built with its own figures
// of shape and with the other's: what a piece lacked of four fifths of its ease at
// its worst place. It was 2 mm on the upper arm, 1 on the thigh, 1 on the foot and 2,
// 4, 5 and 8 on the shank, where calves are bowed each their own way; of these 5 is
// kept (their root mean square), for more would look puffed up. Elsewhere nothing
// lacked that a reserve would mend.
var reserves = map[Segment]float64{UpperArm: 2, Thigh: 1, Shank: 5, Foot: 2}

// Reserve is how much farther than its ease a piece on a segment stands off the
// form, because a body may lie that much outside it; 0 where nothing is known.
func Reserve(s Segment) float64 { return reserves[s] }
