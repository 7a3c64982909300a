package flatten

// laplacian is the cotangent Laplacian of a panel over the vertices that are
// not held, factored.
type laplacian struct {
	index []int // of each place among the unknowns, -1 if it is held
	tri   []element
	m     *matrix
	ok    bool
	rhs   []float64
}

// newLaplacian holds the places that held names.
func newLaplacian(tri []element, held []bool) *laplacian {
	l := &laplacian{index: make([]int, len(held)), tri: tri}
	n := 0
	for at, h := range held {
		l.index[at] = -1
		if !h {
			l.index[at] = n
			n++
		}
	}
	first := make([]int, (n+1)/2)
	for i := range first {
		first[i] = i
	}
	l.eachPair(func(i, j int, _ float64) { first[i/2] = min(first[i/2], j/2) })
	l.m = newMatrix(newEnvelope(first))
	l.eachPair(l.add)
	if n%2 == 1 {
		l.add(n, n, 1)
	}
	l.rhs = make([]float64, 2*len(first))
	l.ok = l.m.factor()
	return l
}

// eachPair visits the entries between unknowns i ≥ j, triangle by triangle.
func (l *laplacian) eachPair(visit func(i, j int, w float64)) {
	for k := range l.tri {
		e := &l.tri[k]
		for n, jk := range pairs {
			i, j := l.index[e.at[jk[0]]], l.index[e.at[jk[1]]]
			if i >= 0 && j >= 0 {
				visit(i, j, real(e.turn[n]))
			}
		}
	}
}

func (l *laplacian) add(i, j int, w float64) {
	x := l.m.base[i/2] + j - 2*l.m.first[i/2]
	if i%2 == 1 {
		x += 2 * (i/2 - l.m.first[i/2] + 1)
	}
	l.m.val[x] += w
}

// solve gives the function that is f where it is held and whose Laplacian is
// load elsewhere (load may be nil), in place of f.
func (l *laplacian) solve(f, load []float64) {
	clear(l.rhs)
	for at, i := range l.index {
		if i >= 0 && load != nil {
			l.rhs[i] = load[at]
		}
	}
	for k := range l.tri {
		e := &l.tri[k]
		for n, jk := range pairs[3:] {
			a, b := e.at[jk[0]], e.at[jk[1]]
			i, j := l.index[a], l.index[b]
			switch w := real(e.turn[3+n]); {
			case i >= 0 && j < 0:
				l.rhs[i] -= w * f[b]
			case i < 0 && j >= 0:
				l.rhs[j] -= w * f[a]
			}
		}
	}
	l.m.solve(l.rhs)
	for at, i := range l.index {
		if i >= 0 {
			f[at] = l.rhs[i]
		}
	}
}
