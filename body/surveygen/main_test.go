package main

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// The embedded figures are those that this program computes from the rows now.
// Other processors may round the last figure the other way.
func TestEmbeddedModelIsWhatIsComputed(t *testing.T) {
	dir := os.Getenv("TASSET_DATA")
	if dir == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("TASSET_DATA does not name the folder that holds survey/")
		}
		t.Skip("needs the survey's rows: set TASSET_DATA to the folder that holds survey/")
	}
	want, err := compute(dir)
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile("../survey.json")
	if err != nil {
		t.Fatal(err)
	}
	var a, b any
	if err := json.Unmarshal(got, &a); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(want, &b); err != nil {
		t.Fatal(err)
	}
	same(t, "", a, b)
}

func same(t *testing.T, path string, a, b any) {
	switch x := a.(type) {
	case map[string]any:
		y, _ := b.(map[string]any)
		if len(x) != len(y) {
			t.Fatalf("%s has %d members, computed %d", path, len(x), len(y))
		}
		for k := range x {
			same(t, path+"."+k, x[k], y[k])
		}
	case []any:
		y, _ := b.([]any)
		if len(x) != len(y) {
			t.Fatalf("%s has %d members, computed %d", path, len(x), len(y))
		}
		for i := range x {
			same(t, path, x[i], y[i])
		}
	case float64:
		if y, ok := b.(float64); !ok || math.Abs(x-y) > 1.01e-5 {
			t.Errorf("%s: %v, computed %v", path, a, b)
		}
	default:
		if a != b {
			t.Errorf("%s: %v, computed %v", path, a, b)
		}
	}
}
