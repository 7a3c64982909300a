package photo

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// cardPose is roughly how a card lies before the camera (yaw, pitch and roll, as
// newTurns takes them), by the homography of its four corners. A start that faces
// the camera would often end in the card's mirror image.
func cardPose(shape []r3.Vec, corners []Pixel, cx, cy, focal float64) (yaw, pitch, roll float64, ok bool) {
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
		return 0, 0, 0, false
	}
	right := r3.Unit(r3.Vec{X: h.AtVec(0), Y: h.AtVec(3), Z: h.AtVec(6)})
	up := r3.Unit(r3.Vec{X: h.AtVec(1), Y: h.AtVec(4), Z: h.AtVec(7)})
	out := r3.Cross(right, up)
	const most = math.Pi / 3
	yaw, pitch = math.Atan2(right.Z, -out.Z), -math.Asin(up.Z)
	return min(max(yaw, -most), most), min(max(pitch, -most), most), math.Atan2(up.X, -up.Y), !math.IsNaN(yaw + pitch)
}
