package photo

import "math"

// rows are the weighted residuals of a least-squares problem with their
// derivatives, sparse, in blocks.
type rows struct {
	res    []float64
	end    []int // where each row's terms end
	col    []int
	val    []float64
	blocks []block
}

// block is a run of rows that stand or fall together: the two axes of a mark.
type block struct {
	from, to int
	robust   bool // a mark, which may be a slip: its loss is Cauchy's
	observed bool // read off a picture, not a prior
}

func (r *rows) reset() {
	r.res, r.end, r.col, r.val, r.blocks = r.res[:0], r.end[:0], r.col[:0], r.val[:0], r.blocks[:0]
}

// row starts a row with its residual; its derivatives follow by term.
func (r *rows) row(residual float64) {
	r.res = append(r.res, residual)
	r.end = append(r.end, len(r.col))
}

// term is the derivative of the row started last by one unknown.
func (r *rows) term(col int, d float64) {
	r.col, r.val = append(r.col, col), append(r.val, d)
	r.end[len(r.end)-1] = len(r.col)
}

// block closes the rows since the last block; it gives the block's index.
func (r *rows) block(robust, observed bool) int {
	from := 0
	if n := len(r.blocks); n > 0 {
		from = r.blocks[n-1].to
	}
	r.blocks = append(r.blocks, block{from, len(r.res), robust, observed})
	return len(r.blocks) - 1
}

// terms are a row's columns and derivatives.
func (r *rows) terms(i int) ([]int, []float64) {
	from := 0
	if i > 0 {
		from = r.end[i-1]
	}
	return r.col[from:r.end[i]], r.val[from:r.end[i]]
}

// square is a block's sum of squares.
func (r *rows) square(b block) float64 {
	var s float64
	for _, v := range r.res[b.from:b.to] {
		s += v * v
	}
	return s
}

// cauchy is the scale of the Cauchy loss, in deviations of a mark: it loses
// almost nothing on clean marks and bears gross slips (reference: 2.385 gives
// 95 % efficiency on normal errors; Holland and Welsch 1977).
const cauchy = 2.5

// loss is half the sum of the blocks' losses, and weights, one a block, are the
// losses' slopes.
func (r *rows) loss(weights []float64) (float64, []float64) {
	weights = weights[:0]
	var sum float64
	for _, b := range r.blocks {
		s := r.square(b)
		if !b.robust {
			sum, weights = sum+s, append(weights, 1)
			continue
		}
		q := s / (cauchy * cauchy)
		sum, weights = sum+cauchy*cauchy*math.Log1p(q), append(weights, 1/(1+q))
	}
	return sum / 2, weights
}
