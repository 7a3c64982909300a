package pattern

import (
	"math"
	"math/rand/v2"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Walking round a limit from side to side finds what trying all its points does.
func TestInsideBy_agreesWithTryingAll(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	for range 50 {
		cloud := make([]r2.Vec, 300)
		for i := range cloud {
			cloud[i] = r2.Scale(90+20*random.Float64(), direction(7*random.Float64()))
		}
		limit, line := geom.Hull(cloud), circle(r2.Vec{X: 30 * random.Float64()}, 100)
		want := math.Inf(-1)
		for i, p := range line {
			out := outward(p, line[(i+1)%len(line)])
			want = max(want, geom.Support(limit, out)-r2.Dot(out, p))
		}
		if got := insideBy(line, limit, true); got != want {
			t.Errorf("the limit stands out by %g, want %g", got, want)
		}
	}
}
