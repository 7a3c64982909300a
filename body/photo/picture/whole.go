package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// whole refuses files whose header is right and whose picture is not there, as
// far as their parts tell without decoding them. The error continues a sentence
// that begins with the file's name.
func (f format) whole(src []byte) error {
	var parts []string
	switch f {
	case jpegFile:
		// Where parts cannot be told apart, its last bytes decide.
		ends := bytes.HasSuffix(bytes.TrimRight(src, "\x00"), []byte{0xff, endOfImage})
		for kind := range segments(src) {
			ends = ends || kind == endOfImage
		}
		if !ends {
			return errBreaksOff
		}
		return nil
	case pngFile:
		const signature = 8
		parts = chunks(src[signature:], 4, 4, binary.BigEndian)
	default:
		const head = 12 // RIFF, its length, WEBP
		parts = chunks(src[head:], 0, 0, binary.LittleEndian)
	}
	has := map[string]bool{}
	for _, p := range parts {
		has[p] = true
	}
	switch {
	case has["ANIM"] || has["ANMF"]:
		return errors.New("is a moving picture (an animated WebP) and not a photograph. Take a photograph")
	case f == pngFile && !has["IEND"], f == webpFile && !has["VP8 "] && !has["VP8L"]:
		return errBreaksOff
	}
	return nil
}

var errBreaksOff = errors.New("breaks off before the end of the picture: it was not copied whole. Copy it again from the camera")

// chunks are the names of the chunks of a PNG or a WebP that are there in full.
// A PNG has the length before the name and a check sum behind, a WebP the name
// before the length and fills to an even length (sources: W3C PNG, 5.3; RFC 9649,
// 2.3).
func chunks(src []byte, nameAt, sum int, order binary.ByteOrder) []string {
	const head = 8
	var out []string
	for len(src) >= head {
		n := int(order.Uint32(src[4-nameAt:])) + sum
		if n > len(src)-head {
			return out
		}
		out = append(out, string(src[nameAt:nameAt+4]))
		if nameAt == 0 {
			n += n % 2
		}
		src = src[min(head+n, len(src)):]
	}
	return out
}
