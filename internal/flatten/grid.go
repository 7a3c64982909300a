package flatten

// Grid is the triangles of a four-sided panel whose vertices stand in rows, the
// one in row r and column c being r·cols+c; both are 2 or more. Seen from the
// show face, columns run to the right and rows upwards. Diagonals alternate,
// but at a corner they go into it: a triangle with two border edges could not
// be distorted. Panels flatten fastest with rows along the short side.
func Grid(rows, cols int) [][3]int {
	t := make([][3]int, 0, 2*(rows-1)*(cols-1))
	for i := range rows - 1 {
		for j := range cols - 1 {
			a := i*cols + j
			b, c, d := a+1, a+cols+1, a+cols
			if rising(i, j, rows-2, cols-2) {
				t = append(t, [3]int{a, b, c}, [3]int{a, c, d})
			} else {
				t = append(t, [3]int{a, b, d}, [3]int{b, c, d})
			}
		}
	}
	return t
}

// rising tells whether the diagonal of cell (i, j) goes up to the right; the
// last cell is (m, n).
func rising(i, j, m, n int) bool {
	low, high, left, right := i == 0, i == m, j == 0, j == n
	switch {
	case low && left || high && right:
		return true
	case low && right || high && left:
		return false
	}
	return (i+j)%2 == 0
}
