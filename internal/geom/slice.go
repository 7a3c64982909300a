package geom

import "gonum.org/v1/gonum/spatial/r3"

// Slice cuts a mesh by the plane through origin. Each segment is where the
// plane crosses one triangle; seen from the tip of normal, the mesh's inside is
// on the left. A vertex in the plane counts as above it. Triangles that share
// an edge give exactly the same point on it, so that Chain can join segments.
func Slice(m Mesh, origin, normal r3.Vec) [][2]r3.Vec {
	height := make([]float64, len(m.V))
	for i, v := range m.V {
		height[i] = r3.Dot(r3.Sub(v, origin), normal)
	}
	var out [][2]r3.Vec
	for _, t := range m.T {
		up := height[t[0]] >= 0
		if up == (height[t[1]] >= 0) && up == (height[t[2]] >= 0) { // as of most
			continue
		}
		if s := sliceTriangle(m.V, height, t); s[0] != s[1] {
			out = append(out, s)
		}
	}
	return out
}

// sliceTriangle finds the one corner of a triangle that lies alone on its side of the
// plane; the segment joins the crossings on the two edges that meet there.
func sliceTriangle(v []r3.Vec, height []float64, t [3]int) (s [2]r3.Vec) {
	for k := range 3 {
		a, b, c := t[k], t[(k+1)%3], t[(k+2)%3]
		up := height[a] >= 0
		if (height[b] >= 0) == up || (height[c] >= 0) == up {
			continue
		}
		onAB, onAC := crossing(v, height, a, b), crossing(v, height, a, c)
		if up {
			return [2]r3.Vec{onAB, onAC}
		}
		return [2]r3.Vec{onAC, onAB}
	}
	return s
}

// crossing is where edge ab meets the plane, the same bits for edge ba.
func crossing(v []r3.Vec, height []float64, a, b int) r3.Vec {
	if a > b {
		a, b = b, a
	}
	return Lerp(v[a], v[b], height[a]/(height[a]-height[b]))
}

// Chain joins segments end to start into polylines, in the order of the
// segments. A polyline whose last point is its first is closed.
func Chain(segments [][2]r3.Vec) [][]r3.Vec {
	from := make(map[r3.Vec][]int, len(segments))
	into := make(map[r3.Vec]int, len(segments))
	for i, s := range segments {
		from[s[0]] = append(from[s[0]], i)
		into[s[1]]++
	}
	used := make([]bool, len(segments))
	follow := func(i int) []r3.Vec {
		line := []r3.Vec{segments[i][0]}
		for i >= 0 {
			used[i] = true
			end := segments[i][1]
			line = append(line, end)
			i = -1
			for _, k := range from[end] {
				if !used[k] {
					i = k
					break
				}
			}
		}
		return line
	}
	var out [][]r3.Vec
	for _, openOnly := range []bool{true, false} {
		for i, s := range segments {
			if !used[i] && (!openOnly || into[s[0]] == 0) {
				out = append(out, follow(i))
			}
		}
	}
	return out
}
