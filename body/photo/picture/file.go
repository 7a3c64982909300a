package picture

import (
	"bytes"
	"encoding/binary"
	"image/jpeg"

	"tasset/internal/draw"
)

// maxScans is more passes than any picture has that was made to be looked at;
// each pass costs time for the whole picture, and a small file can hold very many.
const maxScans = 100

// scans counts the passes over the picture: their marker cannot occur among
// the pixels (source: ITU-T T.81, B.1.1.5).
func scans(src []byte) int { return bytes.Count(src, []byte{0xff, 0xda}) }

// Place is the photograph on a page so that it stands upright in a rectangle.
// JPEG and PNG keep their pixels as they were stored, without what the camera
// noted (the place where it was taken among it); WebP, which pages cannot hold,
// becomes a JPEG.
func (p *Picture) Place(r draw.Rect) (*draw.Picture, error) {
	switch p.format {
	case jpegFile:
		return p.turn.placed(bareJPEG(p.src), r), nil
	case pngFile:
		return p.turn.placed(barePNG(p.src), r), nil
	}
	img, err := p.Upright()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		return nil, err
	}
	return draw.Placed(b.Bytes(), r), nil
}

// bareJPEG leaves out the segments that hold notes: APP1 (EXIF, XMP), APP3 to
// APP13 and comments. APP0, APP2 (colours) and APP14 say how colours are meant.
func bareJPEG(src []byte) []byte {
	out := append([]byte(nil), src[:2]...)
	at := 2
	for at+4 <= len(src) && src[at] == 0xff && src[at+1] != 0xda {
		kind := src[at+1]
		if kind == 0xff { // markers may be led by any number of these
			at++
			continue
		}
		end := at + 2 + int(binary.BigEndian.Uint16(src[at+2:]))
		if end > len(src) {
			break
		}
		notes := kind == 0xe1 || kind >= 0xe3 && kind <= 0xed || kind == 0xfe
		if !notes {
			out = append(out, src[at:end]...)
		}
		at = end
	}
	return append(out, src[at:]...)
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
