package picture

import (
	"bytes"
	"encoding/binary"
	"image/jpeg"
	"iter"

	"tasset/internal/draw"
)

// maxScans is more passes than any picture has that was made to be looked at;
// each pass costs time for the whole picture, and a small file can hold very many.
const maxScans = 100

// Markers of a JPEG (source: ITU-T T.81, table B.1).
const (
	startOfImage = 0xd8
	endOfImage   = 0xd9
	startOfScan  = 0xda
)

// segments are the parts of a JPEG from its first to its end-of-image marker,
// by their marker; a scan's part holds its pixels. Phones put films and further
// pictures behind the end: they are left out. Where a file is broken, what is left
// comes as one part with the marker 0.
func segments(src []byte) iter.Seq2[byte, []byte] {
	return func(yield func(byte, []byte) bool) {
		if !yield(startOfImage, src[:2]) {
			return
		}
		for at := 2; at < len(src); {
			kind, end := next(src, at)
			if !yield(kind, src[at:end]) || kind == endOfImage {
				return
			}
			at = end
		}
	}
}

// next is the marker of the part that begins at a place, and where it ends.
func next(src []byte, at int) (kind byte, end int) {
	mark := at
	for mark+1 < len(src) && src[mark] == 0xff && src[mark+1] == 0xff { // markers may be led by any number of these
		mark++
	}
	if mark+1 >= len(src) || src[mark] != 0xff {
		return 0, len(src)
	}
	if src[mark+1] == endOfImage {
		return endOfImage, mark + 2
	}
	if mark+4 > len(src) {
		return 0, len(src)
	}
	end = mark + 2 + max(2, int(binary.BigEndian.Uint16(src[mark+2:])))
	if end > len(src) {
		return 0, len(src)
	}
	if kind = src[mark+1]; kind == startOfScan {
		end += pixels(src[end:])
	}
	return kind, end
}

// pixels is how long the pixels of a scan are: until a marker that is neither a
// stuffed zero nor a restart (source: ITU-T T.81, B.1.1.5).
func pixels(src []byte) int {
	for i := 0; i+1 < len(src); i++ {
		if src[i] == 0xff && src[i+1] != 0 && (src[i+1] < 0xd0 || src[i+1] > 0xd7) {
			return i
		}
	}
	return len(src)
}

// scans counts the passes over the picture.
func scans(src []byte) int {
	n := 0
	for kind := range segments(src) {
		if kind == startOfScan {
			n++
		}
	}
	return n
}

// Place is the photograph on a page so that it stands upright in a rectangle.
// JPEG and PNG keep their pixels as they were stored, without what the camera
// noted (the place where it was taken among it); WebP, which pages cannot hold,
// becomes a JPEG. The error names a file that cannot be read to its end.
func (p *Picture) Place(r draw.Rect) (*draw.Picture, error) {
	img, err := p.decode()
	if err != nil {
		return nil, err
	}
	switch p.format {
	case jpegFile:
		return p.turn.placed(bareJPEG(p.src), r), nil
	case pngFile:
		return p.turn.placed(barePNG(p.src), r), nil
	}
	img = p.turn.apply(onWhite(img))
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		return nil, err
	}
	return draw.Placed(b.Bytes(), r), nil
}

// bareJPEG leaves out the segments that hold notes: APP1 (EXIF, XMP), APP3 to
// APP13 and comments, and what stands behind the picture. APP0, APP2 (colours) and
// APP14 say how colours are meant.
func bareJPEG(src []byte) []byte {
	var out []byte
	for kind, part := range segments(src) {
		if notes := kind == 0xe1 || kind >= 0xe3 && kind <= 0xed || kind == 0xfe; !notes {
			out = append(out, part...)
		}
	}
	return out
}

// barePNG leaves out the chunks that hold notes.
func barePNG(src []byte) []byte {
	const signature = 8
	out := append([]byte(nil), src[:signature]...)
	for at := signature; at+12 <= len(src); {
		n := int(binary.BigEndian.Uint32(src[at:]))
		if n > len(src)-at-12 {
			return append(out, src[at:]...)
		}
		switch string(src[at+4 : at+8]) {
		case "eXIf", "tEXt", "zTXt", "iTXt", "tIME":
		default:
			out = append(out, src[at:at+12+n]...)
		}
		at += 12 + n
	}
	return out
}
