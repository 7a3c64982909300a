package pattern

import (
	"context"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// A wall that is lower than the one it meets is told, with both and by how much; not one
// that is lower by a lid's foam.
func TestFreeRests_tellOfALowerWall(t *testing.T) {
	for high, want := range map[string][]string{
		"30 mm": nil,
		"25 mm": nil, // a lid of 5 mm lies on it
		"18 mm": {`tray.yaml:14 the flat part "wall" ends 12 mm before "end" where they meet, so that much of that edge stays free.`},
		"42 mm": {`tray.yaml:14 the flat part "end" ends 12 mm before "wall" where they meet, so that much of that edge stays free.`},
	} {
		yaml := strings.Replace(walled, "[60 mm, 30 mm], [0, 30 mm]]}\n  - {name: end", "[60 mm, "+high+"], [0, "+high+"]]}\n  - {name: end", 1)
		_, findings, err := Make(context.Background(), []Order{{Name: "tray", Template: "tray"}}, fstest.MapFS{"tray.yaml": {Data: []byte(yaml)}}, drawnForm(t), Material{K: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		var told []string
		for _, f := range findings {
			if strings.Contains(f.Said, "stays free") {
				told = append(told, f.Where+" "+f.Said)
			}
		}
		if !slices.Equal(told, want) {
			t.Errorf("a wall of %s: told %q, want %q", high, told, want)
		}
	}
}
