package synth

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"io"
)

// Exif is what a camera writes beside a picture.
type Exif struct {
	Make, Model string
	Orientation int     // 1: as stored; 6: to be turned a quarter clockwise before it is looked at
	F35         int     // focal length as on 36 × 24 mm film, mm; 0: not written
	Zoom        float64 // digital zoom ratio; 0: not written
}

// WriteJPEG writes a picture that stands upright as a camera would: turned as
// the orientation (1, 3, 6 or 8) says, with an Exif block.
func WriteJPEG(w io.Writer, upright image.Image, quality int, e Exif) error {
	stored := stand(upright, e.Orientation)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, stored, &jpeg.Options{Quality: quality}); err != nil {
		return err
	}
	block := e.block(stored.Bounds().Dx(), stored.Bounds().Dy())
	for _, part := range [][]byte{b.Bytes()[:2], block, b.Bytes()[2:]} { // after the start marker
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// stand gives the picture as it lies in the file.
func stand(upright image.Image, orientation int) image.Image {
	size := upright.Bounds().Size()
	w, h := size.X, size.Y
	var from func(x, y int) (int, int) // upright place of a stored one
	switch orientation {
	case 3:
		from = func(x, y int) (int, int) { return w - 1 - x, h - 1 - y }
	case 6: // the stored first row is the right side, the first column the top
		w, h = h, w
		from = func(x, y int) (int, int) { return size.X - 1 - y, x }
	case 8: // the stored first row is the left side, the first column the bottom
		w, h = h, w
		from = func(x, y int) (int, int) { return y, size.Y - 1 - x }
	default:
		return upright
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			out.Set(x, y, upright.At(from(x, y)))
		}
	}
	return out
}

// field is one entry of an image file directory.
type field struct {
	tag, kind uint16
	count     uint32
	value     []byte
}

// The kinds of values and the tags that are written. Source: CIPA DC-008
// (Exif 2.32), tables 4, 7 and 8; TIFF 6.0 for the directories.
const (
	kindASCII, kindShort, kindLong, kindRational, kindUndefined = 2, 3, 4, 5, 7

	tagMake, tagModel, tagOrientation = 0x010F, 0x0110, 0x0112
	tagExif, tagVersion               = 0x8769, 0x9000
	tagWide, tagHigh                  = 0xA002, 0xA003
	tagZoom, tagF35                   = 0xA404, 0xA405
)

func short(tag uint16, v int) field {
	return field{tag, kindShort, 1, binary.BigEndian.AppendUint16(nil, uint16(v))}
}

func long(tag uint16, v int) field {
	return field{tag, kindLong, 1, binary.BigEndian.AppendUint32(nil, uint32(v))}
}

func text(tag uint16, s string) field {
	return field{tag, kindASCII, uint32(len(s) + 1), append([]byte(s), 0)}
}

// block is the APP1 segment.
func (e Exif) block(width, height int) []byte {
	inner := []field{{tagVersion, kindUndefined, 4, []byte("0232")}, long(tagWide, width), long(tagHigh, height)}
	if e.Zoom > 0 {
		v := binary.BigEndian.AppendUint32(nil, uint32(e.Zoom*100+.5))
		inner = append(inner, field{tagZoom, kindRational, 1, binary.BigEndian.AppendUint32(v, 100)})
	}
	if e.F35 > 0 {
		inner = append(inner, short(tagF35, e.F35))
	}
	outer := []field{text(tagMake, e.Make), text(tagModel, e.Model), short(tagOrientation, max(1, e.Orientation)), long(tagExif, 0)}
	const start = 8 // after the TIFF header
	at := start + len(directory(outer, start))
	outer[len(outer)-1] = long(tagExif, at)
	body := append([]byte("Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08"), directory(outer, start)...)
	body = append(body, directory(inner, at)...)
	head := binary.BigEndian.AppendUint16([]byte{0xFF, 0xE1}, uint16(len(body)+2))
	return append(head, body...)
}

// directory writes fields in the order given (rising tags), values longer than
// four bytes behind them; at is where it will stand.
func directory(fields []field, at int) []byte {
	out := binary.BigEndian.AppendUint16(nil, uint16(len(fields)))
	var behind []byte
	for _, f := range fields {
		out = binary.BigEndian.AppendUint16(out, f.tag)
		out = binary.BigEndian.AppendUint16(out, f.kind)
		out = binary.BigEndian.AppendUint32(out, f.count)
		if len(f.value) <= 4 {
			out = append(out, append(f.value, make([]byte, 4-len(f.value))...)...)
			continue
		}
		out = binary.BigEndian.AppendUint32(out, uint32(at+2+12*len(fields)+4+len(behind)))
		behind = append(behind, f.value...)
		if len(behind)%2 == 1 { // values start on even bytes
			behind = append(behind, 0)
		}
	}
	return append(append(out, 0, 0, 0, 0), behind...)
}
