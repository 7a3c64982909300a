package picture

import "image"

// shrink makes a JPEG's planes smaller by the mean over the area that each new
// pixel covers. Brightness and colour are each made smaller from their own
// plane, which is several times quicker than on colours of full size and, unlike
// picking single pixels, does not make ripples of fine hair or of a ruler's lines.
func shrink(src *image.YCbCr, to image.Rectangle) *image.YCbCr {
	out := image.NewYCbCr(to, image.YCbCrSubsampleRatio444)
	w, h := src.Rect.Dx(), src.Rect.Dy()
	cw, ch := chroma(src.SubsampleRatio)
	x := covers(float64(w), w, to.Dx())
	y := covers(float64(h), h, to.Dy())
	mean(out.Y, src.Y, src.YStride, x, y)
	x = covers(float64(w)/float64(cw), (w+cw-1)/cw, to.Dx())
	y = covers(float64(h)/float64(ch), (h+ch-1)/ch, to.Dy())
	mean(out.Cb, src.Cb, src.CStride, x, y)
	mean(out.Cr, src.Cr, src.CStride, x, y)
	return out
}

// chroma is how many pixels one sample of colour covers, across and down.
func chroma(r image.YCbCrSubsampleRatio) (int, int) {
	switch r {
	case image.YCbCrSubsampleRatio422:
		return 2, 1
	case image.YCbCrSubsampleRatio420:
		return 2, 2
	case image.YCbCrSubsampleRatio440:
		return 1, 2
	case image.YCbCrSubsampleRatio411:
		return 4, 1
	case image.YCbCrSubsampleRatio410:
		return 4, 2
	}
	return 1, 1
}

// cover is the samples that a new pixel covers: from From up to before To, the
// first and the last by a part.
type cover struct {
	From, To    int
	First, Last float32
	Whole       float32 // 1 / the length covered
}

// covers divides a length of samples, whose last may stand out over its end, into
// n pixels.
func covers(length float64, samples, n int) []cover {
	out := make([]cover, n)
	step := length / float64(n)
	for i := range out {
		a, b := step*float64(i), step*float64(i+1)
		c := cover{From: min(int(a), samples-1), Whole: float32(1 / step)}
		c.To = max(min(int(b)+1, samples), c.From+1)
		c.First = float32(float64(c.From+1) - a)
		c.Last = float32(b - float64(c.To-1))
		if c.To == c.From+1 {
			c.First = float32(step)
		}
		out[i] = c
	}
	return out
}

func (c cover) weight(i int) float32 {
	switch i {
	case c.From:
		return c.First
	case c.To - 1:
		return c.Last
	}
	return 1
}

// mean fills dst, row by row without gaps, with means over what x and y cover.
func mean(dst, src []uint8, stride int, x, y []cover) {
	sum := make([]float32, len(x))
	for j, cy := range y {
		clear(sum)
		for row := cy.From; row < cy.To; row++ {
			line, w := src[row*stride:], cy.weight(row)*cy.Whole
			for i, cx := range x {
				s := float32(line[cx.From]) * cx.First
				if last := cx.To - 1; last > cx.From {
					whole := 0
					for _, v := range line[cx.From+1 : last] {
						whole += int(v)
					}
					s += float32(whole) + float32(line[last])*cx.Last
				}
				sum[i] += s * cx.Whole * w
			}
		}
		for i, s := range sum {
			dst[j*len(x)+i] = uint8(min(max(s+0.5, 0), 255))
		}
	}
}
