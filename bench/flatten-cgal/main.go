// Command flatten-cgal flattens the same meshes by tasset's patches and by
// CGAL's as-rigid-as-possible parameterizer, one after the other in one run,
// judges both by one yardstick and prints a table. It fails when a panel of
// ours with a free border is distorted more than CGAL's.
//
//	flatten-cgal -arap path/to/arap [-small]
//
// See README.md and the script run.
package main

import (
	"bufio"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"tasset/internal/flatten"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// slack (rounding): CGAL stops when its energy falls by less than 1e-6 a round;
// ours may not be above its energy by more than this part.
const slack = 1e-6

func main() {
	arap := flag.String("arap", "", "the program made of cgal/arap.cpp")
	small := flag.Bool("small", false, "only meshes of 1,000 triangles")
	flag.Parse()
	if err := compare(*arap, *small); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func compare(arap string, small bool) error {
	dir, err := os.MkdirTemp("", "flatten-cgal")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	sizes := []float64{1000, 3000, 10000}
	if small {
		sizes = sizes[:1]
	}
	fmt.Println("| panel | triangles | CGAL E/area | ours, free | ours, held | CGAL p95 | ours, free | ours, held | CGAL s | ours s, free | held | CGAL/ours, free | held |")
	fmt.Println("| --- |" + strings.Repeat(" ---: |", 12))
	var worse []string
	for _, size := range sizes {
		for _, s := range surfaces {
			m := s.mesh(size)
			row, ok, err := both(arap, dir, m)
			if err != nil {
				return fmt.Errorf("%s of %d triangles: %w", m.name, len(m.t), err)
			}
			fmt.Println(row)
			if !ok {
				worse = append(worse, fmt.Sprintf("%s of %d triangles", m.name, len(m.t)))
			}
		}
	}
	if worse != nil {
		return fmt.Errorf("distorted more than by CGAL: %s", strings.Join(worse, ", "))
	}
	return nil
}

// both flattens one mesh by both programs; ok tells whether ours is distorted
// no more.
func both(arap, dir string, m mesh) (row string, ok bool, err error) {
	runs := 3
	theirs, theirTime, err := cgal(arap, dir, m, runs)
	if err != nil {
		return "", false, err
	}
	free, freeTime, err := ours(m, runs, func(p *flatten.Patch) (*flatten.Formed, error) { return p.SolveFree(m.v) })
	if err != nil {
		return "", false, err
	}
	held, heldTime, err := ours(m, runs, func(p *flatten.Patch) (*flatten.Formed, error) { return p.Solve(m.v, nil) })
	if err != nil {
		return "", false, err
	}
	a, b, c := measure(m, theirs), measure(m, free), measure(m, held)
	row = fmt.Sprintf("| %s | %d | %.6e | %.6e | %.4e | %.4f | %.4f | %.4f | %.3f | %.4f | %.4f | %.0f | %.0f |",
		m.name, len(m.t), a.energy, b.energy, c.energy, a.p95, b.p95, c.p95,
		theirTime, freeTime, heldTime, theirTime/freeTime, theirTime/heldTime)
	return row, b.energy <= a.energy*(1+slack), nil
}

// ours takes the fastest of some runs, each from bare triangles.
func ours(m mesh, runs int, solve func(*flatten.Patch) (*flatten.Formed, error)) (flat []r2.Vec, best float64, err error) {
	for run := range runs {
		from := time.Now()
		p, err := flatten.Prepare(len(m.v), m.t)
		if err != nil {
			return nil, 0, err
		}
		f, err := solve(p)
		if err != nil {
			return nil, 0, err
		}
		if took := time.Since(from).Seconds(); run == 0 || took < best {
			best = took
		}
		flat = f.Flat
	}
	return flat, best, nil
}

func cgal(arap, dir string, m mesh, runs int) (flat []r2.Vec, seconds float64, err error) {
	in, out := filepath.Join(dir, "mesh.off"), filepath.Join(dir, "flat.txt")
	if err := os.WriteFile(in, m.off(), 0o600); err != nil {
		return nil, 0, err
	}
	var said strings.Builder
	run := exec.Command(arap, in, out, strconv.Itoa(runs))
	run.Stderr = &said
	if err := run.Run(); err != nil {
		return nil, 0, fmt.Errorf("%w: %s", err, said.String())
	}
	if _, err := fmt.Sscan(said.String(), &seconds); err != nil {
		return nil, 0, fmt.Errorf("the time %q: %w", said.String(), err)
	}
	file, err := os.Open(out)
	if err != nil {
		return nil, 0, err
	}
	defer file.Close()
	for lines := bufio.NewScanner(file); lines.Scan(); {
		var p r2.Vec
		if _, err := fmt.Sscan(lines.Text(), &p.X, &p.Y); err != nil {
			return nil, 0, err
		}
		flat = append(flat, p)
	}
	if len(flat) != len(m.v) {
		return nil, 0, fmt.Errorf("%d flat points of %d", len(flat), len(m.v))
	}
	return flat, seconds, nil
}

// mesh is a triangulated disc in space.
type mesh struct {
	name string
	v    []r3.Vec
	t    [][3]int
}

func (m mesh) off() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "OFF\n%d %d 0\n", len(m.v), len(m.t))
	for _, v := range m.v {
		fmt.Fprintf(&b, "%.17g %.17g %.17g\n", v.X, v.Y, v.Z)
	}
	for _, t := range m.t {
		fmt.Fprintf(&b, "3 %d %d %d\n", t[0], t[1], t[2])
	}
	return []byte(b.String())
}
