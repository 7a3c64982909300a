package picture

import (
	"bytes"
	"errors"
	"slices"
)

// format is a kind of file that is read.
type format int

const (
	jpegFile format = iota
	pngFile
	webpFile
)

// String is the name that makers know.
func (f format) String() string { return [...]string{"JPEG", "PNG", "WebP"}[f] }

// sniff tells the format by how a file begins, whatever its name ends in. The
// error says what was found instead and continues a sentence that begins with
// the file's name.
func sniff(src []byte) (format, error) {
	switch {
	case bytes.HasPrefix(src, []byte("\xff\xd8\xff")):
		return jpegFile, nil
	case bytes.HasPrefix(src, []byte("\x89PNG\r\n\x1a\n")):
		return pngFile, nil
	case riff(src, "WEBP"):
		return webpFile, nil
	case len(src) == 0:
		return 0, errors.New("is empty. Copy it again from the camera")
	}
	if media := mediaKind(src); media != "" {
		return 0, errors.New(media)
	}
	for _, k := range others {
		if bytes.HasPrefix(src, []byte(k.begins)) {
			return 0, errors.New("is " + k.is + ". Save it as a JPEG, the whole picture at its full size, and name that file")
		}
	}
	return 0, errors.New("is no picture that is known: it begins neither like a JPEG nor like a PNG or WebP. If it opens in a picture viewer, save it there as a JPEG and name that file")
}

var others = []struct{ begins, is string }{
	{"GIF8", "a GIF, which has too few colours to measure by"},
	{"II*\x00", "a TIFF or a camera's raw file, which is not read"},
	{"MM\x00*", "a TIFF or a camera's raw file, which is not read"},
	{"BM", "a bitmap (BMP), which is not read"},
	{"%PDF", "a PDF and not a photograph"},
	{"<", "a text or a drawing (SVG, HTML) and not a photograph"},
	{"\xff\x0a", "a JPEG XL, which is not read yet"},
	{"\x00\x00\x00\x0cJXL ", "a JPEG XL, which is not read yet"},
	{"\x00\x00\x00\x0cjP  ", "a JPEG 2000, which is not read"},
}

func riff(src []byte, kind string) bool {
	return len(src) >= 12 && string(src[:4]) == "RIFF" && string(src[8:12]) == kind
}

// Brands of the first box of files that are made of boxes (source: ISO/IEC
// 14496-12, 4.3; ISO/IEC 23008-12, annex B; the AVIF specification, 1.2).
var (
	heicBrands = []string{"heic", "heix", "hevc", "hevx", "heim", "heis", "hevm", "hevs"}
	avifBrands = []string{"avif", "avis"}
	heifBrands = []string{"mif1", "msf1"} // says HEIF, not what is in it
)

// mediaKind says what a file made of boxes is and how to get a JPEG; "" if it is
// none.
func mediaKind(src []byte) string {
	if len(src) < 12 || string(src[4:8]) != "ftyp" {
		return ""
	}
	brands := []string{string(src[8:12])}
	if slices.Contains(heifBrands, brands[0]) {
		for at := 16; at+4 <= min(len(src), 64, int(src[3])); at += 4 {
			brands = append(brands, string(src[at:at+4]))
		}
	}
	has := func(known []string) bool {
		return slices.ContainsFunc(brands, func(b string) bool { return slices.Contains(known, b) })
	}
	switch {
	case has(heicBrands), !has(avifBrands) && has(heifBrands):
		return "is a HEIC picture, which is not read. Either share it from the phone as a JPEG (\"actual size\", not smaller), or set the phone's camera to \"most compatible\" or \"JPEG\" (usually under camera, formats) and shoot again; then name that file"
	case has(avifBrands):
		return "is an AVIF picture, which is not read. Save it as a JPEG, the whole picture at its full size, and name that file"
	}
	return "is a film and not a photograph. Take a photograph: a film's frames are cut from the lens's picture, and its focal length is not known"
}
