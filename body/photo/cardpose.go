package photo

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// cardShape is the card's corners, in its middle's axes: x to the right and y up
// as it is read.
var cardShape = []r3.Vec{
	{X: -CardWidth / 2, Y: CardHeight / 2}, {X: CardWidth / 2, Y: CardHeight / 2},
	{X: CardWidth / 2, Y: -CardHeight / 2}, {X: -CardWidth / 2, Y: -CardHeight / 2},
}

// cardPose is roughly how a card lies before the camera (yaw, pitch and roll, as
// newTurns takes them) and how far, by the homography of its four corners. A
// start that faces the camera would often end in the card's mirror image.
func cardPose(shape []r3.Vec, corners []Pixel, cx, cy, focal float64) (turned [3]float64, distance float64, ok bool) {
	a, b := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	for i, p := range corners {
		x, y := (p.X-cx)/focal, (p.Y-cy)/focal
		u, v := shape[i].X/CardWidth, shape[i].Y/CardWidth
		a.SetRow(2*i, []float64{u, v, 1, 0, 0, 0, -x * u, -x * v})
		a.SetRow(2*i+1, []float64{0, 0, 0, u, v, 1, -y * u, -y * v})
		b.SetVec(2*i, x)
		b.SetVec(2*i+1, y)
	}
	var h mat.VecDense
	if err := h.SolveVec(a, b); err != nil {
		return turned, 0, false
	}
	right, up := r3.Vec{X: h.AtVec(0), Y: h.AtVec(3), Z: h.AtVec(6)}, r3.Vec{X: h.AtVec(1), Y: h.AtVec(4), Z: h.AtVec(7)}
	distance = CardWidth / math.Sqrt(r3.Norm(right)*r3.Norm(up))
	right, up = r3.Unit(right), r3.Unit(up)
	out := r3.Cross(right, up)
	const most = math.Pi / 3
	turned = [3]float64{min(max(math.Atan2(right.Z, -out.Z), -most), most), min(max(-math.Asin(up.Z), -most), most), math.Atan2(up.X, -up.Y)}
	return turned, distance, !math.IsNaN(turned[0]+turned[1]+turned[2]+distance) && !math.IsInf(distance, 0)
}
