package view

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"tasset/internal/geom"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// Named is a mesh with the name that it has in a file.
type Named struct {
	Name string
	Mesh geom.Mesh
}

// WriteOBJ writes meshes as Wavefront OBJ, one object each, in millimetres.
// Names may hold no line break.
func WriteOBJ(w io.Writer, meshes []Named) error {
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, "# millimetres; x to the wearer's left, y up, z forward")
	base := 1
	for _, m := range meshes {
		fmt.Fprintf(out, "o %s\n", m.Name)
		for _, v := range m.Mesh.V {
			fmt.Fprintf(out, "v %g %g %g\n", units.Round(v.X), units.Round(v.Y), units.Round(v.Z))
		}
		for _, t := range m.Mesh.T {
			fmt.Fprintf(out, "f %d %d %d\n", base+t[0], base+t[1], base+t[2])
		}
		base += len(m.Mesh.V)
	}
	return out.Flush()
}

// WriteSTL writes a mesh as binary STL, in millimetres.
func WriteSTL(w io.Writer, m geom.Mesh) error {
	out := bufio.NewWriter(w)
	var head [84]byte
	copy(head[:], "millimetres; x to the wearer's left, y up, z forward")
	binary.LittleEndian.PutUint32(head[80:], uint32(len(m.T)))
	out.Write(head[:])
	for _, t := range m.T {
		a, b, c := rounded(m.V[t[0]]), rounded(m.V[t[1]]), rounded(m.V[t[2]])
		n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
		if l := r3.Norm(n); l > 0 {
			n = r3.Scale(1/l, n)
		}
		var facet [50]byte
		for i, v := range [4]r3.Vec{rounded(n), a, b, c} {
			for j, x := range [3]float64{v.X, v.Y, v.Z} {
				binary.LittleEndian.PutUint32(facet[12*i+4*j:], math.Float32bits(float32(x)))
			}
		}
		out.Write(facet[:])
	}
	return out.Flush()
}

func rounded(v r3.Vec) r3.Vec {
	return r3.Vec{X: units.Round(v.X), Y: units.Round(v.Y), Z: units.Round(v.Z)}
}
