package flatten

// Rows says how many vertices stand in each row of a panel, from the lowest row
// up; vertices are numbered row by row, left to right as seen from the show
// face. Four-sided panels have rows of one length; towards a tip rows get
// shorter, to a single vertex at it. A panel flattens fastest with its rows
// along the short side.
type Rows []int

// GridRows are rows of one length.
func GridRows(rows, cols int) Rows {
	r := make(Rows, rows)
	for i := range r {
		r[i] = cols
	}
	return r
}

// Vertices is how many vertices there are.
func (r Rows) Vertices() int {
	sum := 0
	for _, n := range r {
		sum += n
	}
	return sum
}

// Triangles fill the bands between rows, counter-clockwise. Between rows of one
// length diagonals alternate, but at a corner of the panel they go into it: a
// triangle with two border edges could hardly be distorted.
func (r Rows) Triangles() [][3]int {
	var t [][3]int
	low := 0
	for i := range len(r) - 1 {
		high := low + r[i]
		if r[i] == r[i+1] {
			t = r.cells(t, i, low, high)
		} else {
			t = r.zip(t, i, low, high)
		}
		low = high
	}
	return t
}

// cells fills band i, whose rows begin at vertices low and high.
func (r Rows) cells(t [][3]int, i, low, high int) [][3]int {
	last := r[i] - 2
	for j := range r[i] - 1 {
		a, b, c, d := low+j, low+j+1, high+j+1, high+j
		if rising(i, j, len(r)-2, last) {
			t = append(t, [3]int{a, b, c}, [3]int{a, c, d})
		} else {
			t = append(t, [3]int{a, b, d}, [3]int{b, c, d})
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

// zip fills band i between rows of unlike lengths.
func (r Rows) zip(t [][3]int, i, low, high int) [][3]int {
	rungs := r.rungs(i)
	for k, to := range rungs[1:] {
		a, b := low+rungs[k][0], high+rungs[k][1]
		if to[0] > rungs[k][0] {
			t = append(t, [3]int{a, a + 1, b})
		} else {
			t = append(t, [3]int{a, b + 1, b})
		}
	}
	return t
}

// rungs are the edges from row i to the next that zip lays: the row that is
// behind goes on. At the corners of the panel it is the inner row's turn, as in
// Triangles.
func (r Rows) rungs(i int) [][2]int {
	m, n := r[i]-1, r[i+1]-1
	bottom, top := i == 0 && n > 1, i == len(r)-2 && m > 1
	a, b := 0, 0
	out := [][2]int{{0, 0}}
	for a < m || b < n {
		goLow := (2*a+1)*n <= (2*b+1)*m // compares (a+½)/m with (b+½)/n
		switch {
		case bottom && (b == 0 || b == n-1):
			goLow = b > 0
		case top && (a == 0 || a == m-1):
			goLow = a == 0
		}
		if b == n || a < m && goLow {
			a++
		} else {
			b++
		}
		out = append(out, [2]int{a, b})
	}
	return out
}

// Lines are the two lines of the grid through a vertex, from border to border:
// its row, and from row to row the vertex that is in the same part of its row.
// A row of one vertex is no line and is left out.
func (r Rows) Lines(v int) [][]int {
	row, base := 0, 0
	for v >= base+r[row] {
		base += r[row]
		row++
	}
	var lines [][]int
	if row > 0 && row < len(r)-1 && r[row] > 1 {
		line := make([]int, r[row])
		for k := range line {
			line[k] = base + k
		}
		lines = append(lines, line)
	}
	if across := r.across(row, v-base); across != nil {
		lines = append(lines, across)
	}
	return lines
}

// across is the line through vertex k of a row, nil when it runs on the border.
func (r Rows) across(row, k int) []int {
	if k == 0 || k == r[row]-1 {
		return nil
	}
	at := make([]int, len(r))
	at[row] = k
	for i := row + 1; i < len(r); i++ {
		at[i] = r.step(i-1, i, at[i-1])
	}
	for i := row - 1; i >= 0; i-- {
		at[i] = r.step(i+1, i, at[i+1])
	}
	base := 0
	for i := range at {
		at[i] += base
		base += r[i]
	}
	return at
}

// step is the vertex of row to that vertex k of row from, beside it, has an edge
// to and that is most nearly in the same part of its row.
func (r Rows) step(from, to, k int) int {
	m, n := r[from]-1, r[to]-1
	if m == n {
		return k
	}
	if m == 0 {
		return n / 2
	}
	best, off := 0, -1
	for _, rung := range r.rungs(min(from, to)) {
		a, b := rung[0], rung[1]
		if from > to {
			a, b = b, a
		}
		if d := max(k*n-b*m, b*m-k*n); a == k && (off < 0 || d < off) {
			best, off = b, d
		}
	}
	return best
}
