package pattern

import (
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// Every view of the language shows what lies there and not its mirror image:
// right, up and towards the viewer are a right-handed frame. Source: the
// definition of one.
func TestEyeFrom_rightHanded(t *testing.T) {
	for _, view := range []string{"front", "back", "left", "outer", "right", "inner", "top", "bottom"} {
		e, xToLeft := eyeFrom(view)
		if d := geom.Dist(r3.Cross(e.right, e.up), e.toward); d > 0 {
			t.Errorf("from %s right and up do not point at the viewer", view)
		}
		along := e.right // where the language's x runs to
		if xToLeft {
			along = r3.Scale(-1, along)
		}
		want := r3.Vec{X: 1}
		if e.toward.X != 0 {
			want = r3.Vec{Z: 1}
		}
		if along != want {
			t.Errorf("from %s the language's x runs along %v; want %v", view, along, want)
		}
	}
}
