package nest

import (
	"context"
	"encoding/json"
	"math"
	"testing"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// instance is a published strip-packing problem.
type instance struct {
	Strip float64 `json:"strip_height"`
	Items []struct {
		Demand int       `json:"demand"`
		Turns  []float64 `json:"allowed_orientations"`
		Shape  struct {
			Data [][2]float64 `json:"data"`
		} `json:"shape"`
	} `json:"items"`
}

// parts are the instance's parts, scaled so that the strip is a metre wide.
func (in instance) parts() (parts []Part, area float64) {
	scale := 1000 / in.Strip
	for _, item := range in.Items {
		var p Part
		for _, xy := range item.Shape.Data[1:] { // the first point is repeated
			p.Outline = append(p.Outline, r2.Vec{X: -xy[1] * scale, Y: xy[0] * scale})
		}
		for _, deg := range item.Turns {
			p.Turns = append(p.Turns, deg*math.Pi/180)
		}
		for range item.Demand {
			parts = append(parts, p)
			area += math.Abs(geom.Area(p.Outline))
		}
	}
	return parts, area
}

func TestPack_publishedInstances_density(t *testing.T) {
	// Source: the instances of the nesting literature (ESICUP) and the density
	// of one naive pass of a raster bottom-left fill over each, in the data
	// folder's README. A single pass depends on details of its rules; we ask for
	// no instance to fall 5 points below, nor the mean 1 point.
	naive := []struct {
		name    string
		density float64
	}{
		{"albano", 76.5}, {"blaz1", 70.0}, {"dagli", 74.2}, {"fu", 75.4},
		{"jakobs1", 74.9}, {"marques", 81.9}, {"shapes0", 53.6}, {"shirts", 80.2},
	}
	var sum, sumNaive float64
	for _, n := range naive {
		var in instance
		if err := json.Unmarshal(data(t, "nesting/"+n.name+".json"), &in); err != nil {
			t.Fatal(err)
		}
		parts, area := in.parts()
		sheet := Sheet{Width: 1000}
		places, err := Pack(context.Background(), parts, sheet, 0)
		if err != nil {
			t.Fatal(err)
		}
		checkPlaces(t, parts, places, sheet, 0, nil)
		top := 0.0
		for i, at := range places {
			if !at.OK || at.Sheet != 0 {
				t.Fatalf("%s: part %d lies at %+v, not on the roll", n.name, i, at)
			}
			top = max(top, geom.Bounds(laid(parts[i], at)).Max.Y)
		}
		density := 100 * area / (1000 * top)
		t.Logf("%-8s %5.1f %% (naive %.1f)", n.name, density, n.density)
		if density < n.density-5 {
			t.Errorf("%s: %.1f %% dense, more than 5 points below %.1f", n.name, density, n.density)
		}
		sum, sumNaive = sum+density/8, sumNaive+n.density/8
	}
	t.Logf("mean     %5.1f %% (naive %.1f)", sum, sumNaive)
	if sum < sumNaive-1 {
		t.Errorf("the mean density is %.1f %%, more than 1 point below %.1f", sum, sumNaive)
	}
}
