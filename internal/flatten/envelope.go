package flatten

import "math"

// envelope is the shape of a symmetric matrix whose unknowns come in pairs: for
// each pair of rows, the first pair of columns that holds anything. Cholesky
// factors fill the envelope and nothing outside it. A band is an envelope; here
// a few long rows (border bending reaches two vertices back) cost only
// themselves.
type envelope struct {
	first []int // per pair of rows, its first pair of columns
	base  []int // where the first of the two rows begins; the other follows it
	size  int
}

func newEnvelope(first []int) *envelope {
	e := &envelope{first: first, base: make([]int, len(first))}
	for r, f := range first {
		e.base[r] = e.size
		e.size += 4 * (r - f + 1)
	}
	return e
}

// work counts the multiplications of a factorisation, in a common unit.
func (e *envelope) work() int {
	sum := 0
	for r, f := range e.first {
		sum += (r - f + 1) * (r - f + 1)
	}
	return sum
}

// matrix is a symmetric matrix in an envelope, or its factor after factor.
type matrix struct {
	*envelope
	val []float64
	inv []float64 // reciprocals of the factor's diagonal
}

func newMatrix(e *envelope) *matrix {
	return &matrix{e, make([]float64, e.size), make([]float64, 2*len(e.first))}
}

// rows are the two rows of pair r, from column 2·first[r] to 2r+1.
func (m *matrix) rows(r int) (x, y []float64) {
	w := 2 * (r - m.first[r] + 1)
	b := m.base[r]
	return m.val[b : b+w : b+w], m.val[b+w : b+2*w : b+2*w]
}

// add adds the block (xx xy; yx yy) at rows r and columns c ≤ r.
func (m *matrix) add(r, c int, xx, xy, yx, yy float64) {
	w := 2 * (r - m.first[r] + 1)
	x := m.base[r] + 2*(c-m.first[r])
	at, below := m.val[x:x+2:x+2], m.val[x+w:x+w+2:x+w+2]
	at[0] += xx
	at[1] += xy
	below[0] += yx
	below[1] += yy
}

// factor replaces the matrix by its Cholesky factor; false when it is not
// positive definite.
func (m *matrix) factor() bool {
	for r, f := range m.first {
		x, y := m.rows(r)
		c := f
		for ; c+1 < r; c += 2 {
			m.eliminateTwo(x, y, f, c)
		}
		for ; c < r; c++ {
			m.eliminate(x, y, f, c)
		}
		if !m.pivot(r, x, y) {
			return false
		}
	}
	return true
}

// eliminate turns columns 2c and 2c+1 of rows x and y, which begin at pair f,
// into the factor's.
func (m *matrix) eliminate(x, y []float64, f, c int) {
	p, q := m.rows(c)
	lo := max(f, m.first[c])
	n := 2 * (c - lo)
	i, j := 2*(lo-f), 2*(lo-m.first[c])
	xp, xq, yp, yq := dots(x[i:i+n], y[i:i+n], p[j:j+n], q[j:j+n])
	i, j = i+n, j+n
	m.finish(x[i:i+2], y[i:i+2], q[j], c, xp, xq, yp, yq)
}

// eliminateTwo is eliminate for pairs c and c+1 at once: the sums that both
// need are taken in one pass over x and y.
func (m *matrix) eliminateTwo(x, y []float64, f, c int) {
	lo := max(f, m.first[c])
	if lo != max(f, m.first[c+1]) {
		m.eliminate(x, y, f, c)
		m.eliminate(x, y, f, c+1)
		return
	}
	p, q := m.rows(c)
	u, v := m.rows(c + 1)
	n := 2 * (c - lo)
	i, j, k := 2*(lo-f), 2*(lo-m.first[c]), 2*(lo-m.first[c+1])
	s := dots8(x[i:i+n], y[i:i+n], p[j:j+n], q[j:j+n], u[k:k+n], v[k:k+n])
	i, j, k = i+n, j+n, k+n
	m.finish(x[i:i+2], y[i:i+2], q[j], c, s[0], s[1], s[2], s[3])
	x0, x1, y0, y1 := x[i], x[i+1], y[i], y[i+1]
	m.finish(x[i+2:i+4], y[i+2:i+4], v[k+2], c+1,
		s[4]+x0*u[k]+x1*u[k+1], s[5]+x0*v[k]+x1*v[k+1],
		s[6]+y0*u[k]+y1*u[k+1], s[7]+y0*v[k]+y1*v[k+1])
}

// finish divides a 2×2 block, less what was eliminated, by pivot block c, whose
// entry below the diagonal is low.
func (m *matrix) finish(x, y []float64, low float64, c int, xp, xq, yp, yq float64) {
	x[0] = (x[0] - xp) * m.inv[2*c]
	x[1] = (x[1] - xq - x[0]*low) * m.inv[2*c+1]
	y[0] = (y[0] - yp) * m.inv[2*c]
	y[1] = (y[1] - yq - y[0]*low) * m.inv[2*c+1]
}

// pivot factors the 2×2 block on the diagonal.
func (m *matrix) pivot(r int, x, y []float64) bool {
	n := len(x) - 2
	xx, _, yx, yy := dots(x[:n], y[:n], x[:n], y[:n])
	d := x[n] - xx
	if !(d > 0) {
		return false
	}
	d = math.Sqrt(d)
	low := (y[n] - yx) / d
	e := y[n+1] - yy - low*low
	if !(e > 0) {
		return false
	}
	e = math.Sqrt(e)
	x[n], x[n+1], y[n], y[n+1] = d, 0, low, e
	m.inv[2*r], m.inv[2*r+1] = 1/d, 1/e
	return true
}

// solve replaces b by the solution, after factor.
func (m *matrix) solve(b []float64) {
	for r, f := range m.first {
		x, y := m.rows(r)
		n := len(x) - 2
		sx, sy := 0.0, 0.0
		done := b[2*f:][:n]
		x, low := x[:n], y[n]
		y = y[:n]
		for i, d := range done {
			sx += x[i] * d
			sy += y[i] * d
		}
		b[2*r] = (b[2*r] - sx) * m.inv[2*r]
		b[2*r+1] = (b[2*r+1] - sy - low*b[2*r]) * m.inv[2*r+1]
	}
	for r := len(m.first) - 1; r >= 0; r-- {
		x, y := m.rows(r)
		n := len(x) - 2
		by := b[2*r+1] * m.inv[2*r+1]
		bx := (b[2*r] - y[n]*by) * m.inv[2*r]
		b[2*r], b[2*r+1] = bx, by
		left := b[2*m.first[r]:][:n]
		x, y = x[:n], y[:n]
		for i := range left {
			left[i] -= x[i]*bx + y[i]*by
		}
	}
}

// dots are the four inner products of x and y with p and q.
func dots(x, y, p, q []float64) (xp, xq, yp, yq float64) {
	y, p, q = y[:len(x)], p[:len(x)], q[:len(x)]
	for i, xi := range x {
		yi, pi, qi := y[i], p[i], q[i]
		xp += xi * pi
		xq += xi * qi
		yp += yi * pi
		yq += yi * qi
	}
	return
}

// dots8 are the inner products of x and y with p and q, then with u and v.
func dots8(x, y, p, q, u, v []float64) (s [8]float64) {
	n := len(x)
	y, p, q, u, v = y[:n], p[:n], q[:n], u[:n], v[:n]
	var a, b, c, d, e, f, g, h float64
	for i, xi := range x {
		yi, pi, qi, ui, vi := y[i], p[i], q[i], u[i], v[i]
		a += xi * pi
		b += xi * qi
		c += yi * pi
		d += yi * qi
		e += xi * ui
		f += xi * vi
		g += yi * ui
		h += yi * vi
	}
	return [8]float64{a, b, c, d, e, f, g, h}
}
