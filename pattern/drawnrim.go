package pattern

import "fmt"

// drawnRim is what lies beyond a drawn edge.
func (b *builder) drawnRim(*sketch, *walls) (*cutout, error) {
	return nil, fmt.Errorf("an edge cannot be cut yet")
}
