package booklet

import (
	"math"

	"tasset/internal/view"

	"gonum.org/v1/gonum/spatial/r3"
)

// standpoint is where a piece is drawn from.
type standpoint struct {
	cam  view.Camera
	says string
}

// fromFront is where most pieces show best.
var fromFront = view.Camera{Yaw: math.Pi / 5, Pitch: math.Pi / 10}

// around are the standpoints, so that the first two together see every side of
// what goes all round.
var around = []standpoint{
	{fromFront, "from the front and the wearer's left"},
	{view.Camera{Yaw: math.Pi + math.Pi/5, Pitch: math.Pi / 10}, "from behind and the wearer's right"},
	{view.Camera{Yaw: -math.Pi / 5, Pitch: math.Pi / 10}, "from the front and the wearer's right"},
	{view.Camera{Yaw: math.Pi - math.Pi/5, Pitch: math.Pi / 10}, "from behind and the wearer's left"},
}

// standpoints are two that together see the outside of all panels best; the first
// two unless others are clearly better.
func standpoints(labels []label) [2]standpoint {
	const clearly = 1.08
	best, most := [2]standpoint{around[0], around[1]}, clearly*seen(labels, around[0], around[1])
	for i, a := range around {
		for _, b := range around[i+1:] {
			if s := seen(labels, a, b); s > most {
				best, most = [2]standpoint{a, b}, s
			}
		}
	}
	return best
}

// seen is how square on the outside of panels is seen from either of two
// standpoints, over all templates. Of copies the best counts.
func seen(labels []label, from ...standpoint) (sum float64) {
	best := map[string]float64{}
	for _, l := range labels {
		if l.seam {
			continue
		}
		for _, n := range l.faces {
			for _, f := range from {
				best[l.text] = max(best[l.text], r3.Dot(n, f.cam.Eye()))
			}
		}
	}
	for _, l := range labels { // in their order: sums of floats depend on it
		sum += best[l.text]
		delete(best, l.text)
	}
	return sum
}
