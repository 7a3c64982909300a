package photo

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// A level head stands in its own frame, however it is turned beforehand.
func TestHeadFrame(t *testing.T) {
	turn := r3.NewRotation(.7, r3.Vec{X: 1, Y: 2, Z: -1})
	shift := r3.Vec{X: 5, Y: -7, Z: 900}
	at := func(name string) r3.Vec {
		for _, l := range headTable {
			if l.Name == name {
				return l.mean
			}
		}
		t.Fatal(name)
		return r3.Vec{}
	}
	moved := func(p r3.Vec) r3.Vec { return r3.Add(turn.Rotate(p), shift) }
	f := HeadFrame(moved(at("left tragion")), moved(at("right tragion")), moved(at("left outer eye corner")), moved(at("right outer eye corner")))
	for _, l := range headTable {
		if d := r3.Norm(r3.Sub(f.Local(moved(l.mean)), l.mean)); d > 1e-9 {
			t.Errorf("%s is off by %g mm", l.Name, d)
		}
	}
	if d := r3.Dot(r3.Cross(f.X, f.Y), f.Z) - 1; math.Abs(d) > 1e-12 {
		t.Errorf("the frame is not right-handed: %g", d)
	}
}
