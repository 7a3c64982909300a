package svg

import (
	"encoding/base64"
	"fmt"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// picture embeds a picture as a data URI on the unit square, which a matrix
// brings to its place. The clip stands on a group round it, in page axes.
func (s *writer) picture(p *draw.Picture) error {
	format, err := p.Format()
	if err != nil {
		return err
	}
	fade := ""
	if p.Fade > 0 {
		fade = fmt.Sprintf(` opacity="%s"`, n(1-min(p.Fade, 1)))
	}
	clip := s.clip(p.Clip)
	top := r2.Add(p.At, p.Up) // SVG's picture hangs down from its upper left corner
	s.printf("<g%s>", clip)
	s.printf(`<image width="1" height="1" preserveAspectRatio="none" style="image-orientation:none" transform="matrix(%s %s %s %s %s %s)"%s href="data:image/%s;base64,%s"/></g>`+"\n",
		n(p.Across.X), n(-p.Across.Y), n(-p.Up.X), n(p.Up.Y), n(top.X), n(s.height-top.Y), fade,
		format, base64.StdEncoding.EncodeToString(p.Encoded))
	return nil
}
