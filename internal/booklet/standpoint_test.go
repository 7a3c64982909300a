package booklet

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// What goes all round is drawn from the left front and the right behind; a plate
// over the front and the wearer's right, whose outside those two hardly see, is
// not.
func TestStandpoints(t *testing.T) {
	facing := func(text string, x, z float64) label {
		return label{text: text, faces: []r3.Vec{r3.Unit(r3.Vec{X: x, Z: z})}}
	}
	whole := []label{facing("a", 1, 1), facing("b", 1, -1), facing("c", -1, -1), facing("d", -1, 1)}
	if got := standpoints(whole); got[0] != around[0] || got[1] != around[1] {
		t.Errorf("a tube is drawn %s and %s", got[0].says, got[1].says)
	}
	plate := []label{facing("a", 1, 1), facing("b", 0, 1), facing("c", -1, 1)}
	if got := standpoints(plate); got[0] != around[0] || got[1] != around[2] {
		t.Errorf("a plate over the front is drawn %s and %s", got[0].says, got[1].says)
	}
	// Of a panel and its mirror image one is enough.
	twins := []label{facing("a", 1, 1), facing("a", -1, 1)}
	if got := standpoints(twins); got[1] != around[1] {
		t.Errorf("twins are drawn %s", got[1].says)
	}
}
