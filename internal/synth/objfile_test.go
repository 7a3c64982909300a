package synth_test

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/geom"
)

// meshNames are the bodies that no one of this project drew.
var meshNames = []string{"male-average", "female-average", "check-man", "check-woman"}

// readMesh reads one of them, in body axes.
func readMesh(t testing.TB, name string) geom.Mesh {
	t.Helper()
	dir := os.Getenv("TASSET_DATA")
	if dir == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("TASSET_DATA does not name the folder that holds meshes/")
		}
		t.Skip("needs the bodies' meshes: set TASSET_DATA to the folder that holds meshes/")
	}
	f, err := os.Open(filepath.Join(dir, "meshes", name+".obj"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var m geom.Mesh
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var v r3.Vec
		switch line := lines.Text(); {
		case strings.HasPrefix(line, "v "):
			fmt.Sscanf(line, "v %f %f %f", &v.X, &v.Y, &v.Z)
			m.V = append(m.V, v)
		case strings.HasPrefix(line, "f "):
			var ids []int
			for _, w := range strings.Fields(line)[1:] {
				var i int
				fmt.Sscanf(w, "%d", &i)
				ids = append(ids, i-1)
			}
			for k := 2; k < len(ids); k++ {
				m.T = append(m.T, [3]int{ids[0], ids[k-1], ids[k]})
			}
		}
	}
	return m
}
