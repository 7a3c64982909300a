package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/jpeg"
	"os"
	"runtime"
	"strings"
	"testing"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// pngSaying is a PNG whose header declares a size and that holds nothing.
func pngSaying(width, height uint32) []byte {
	b := []byte("\x89PNG\r\n\x1a\n")
	body := append([]byte("IHDR"), binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, width), height)...)
	body = append(body, 8, 2, 0, 0, 0)
	b = binary.BigEndian.AppendUint32(b, 13)
	b = append(b, body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(body))
}

func smallJPEG(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 64, 48)), nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// jpegSaying is a JPEG whose header declares another size than it holds.
func jpegSaying(t testing.TB, width, height uint16) []byte {
	src := smallJPEG(t)
	at := bytes.Index(src, []byte{0xff, 0xc0}) // start of frame: length, precision, height, width
	binary.BigEndian.PutUint16(src[at+5:], height)
	binary.BigEndian.PutUint16(src[at+7:], width)
	return src
}

// withEXIF puts a TIFF block into a JPEG as its first segment.
func withEXIF(jpeg, tiff []byte) []byte {
	body := append([]byte("Exif\x00\x00"), tiff...)
	out := append([]byte(nil), jpeg[:2]...)
	out = append(out, 0xff, 0xe1)
	out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
	return append(append(out, body...), jpeg[2:]...)
}

// directory is a TIFF block with one list of notes: pairs of tag and value, and
// where the next list is said to be.
func directory(next uint32, pairs ...[2]uint32) []byte {
	b := []byte("II*\x00\x08\x00\x00\x00")
	b = binary.LittleEndian.AppendUint16(b, uint16(len(pairs)))
	for _, p := range pairs {
		b = binary.LittleEndian.AppendUint16(b, uint16(p[0]))
		b = binary.LittleEndian.AppendUint16(b, 4) // LONG
		b = binary.LittleEndian.AppendUint32(b, 1)
		b = binary.LittleEndian.AppendUint32(b, p[1])
	}
	return binary.LittleEndian.AppendUint32(b, next)
}

func TestRead_refusesInWords(t *testing.T) {
	one := smallJPEG(t)
	many := append(one[:len(one)-2:len(one)-2], bytes.Repeat([]byte{0xff, 0xda, 0, 2}, 200)...)
	still := []byte("RIFF\x16\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\x3f\x00\x00\x2f\x00\x00")
	moving := append(still[:len(still):len(still)], "ANIM\x06\x00\x00\x00\xff\xff\xff\xff\x00\x00"...)
	for what, c := range map[string]struct {
		src  []byte
		says string
	}{
		"empty":                {nil, "front.jpg is empty"},
		"text":                 {[]byte("not a picture at all"), "begins neither like a JPEG nor like a PNG or WebP"},
		"HEIC":                 {[]byte("\x00\x00\x00\x1cftypheic\x00\x00\x00\x00mif1heicmiaf"), `"most compatible"`},
		"HEIC by its list":     {[]byte("\x00\x00\x00\x1cftypmif1\x00\x00\x00\x00mif1heicmiaf"), "share it from the phone as a JPEG"},
		"AVIF":                 {[]byte("\x00\x00\x00\x1cftypavif\x00\x00\x00\x00avifmif1miaf"), "AVIF"},
		"AVIF by its list":     {[]byte("\x00\x00\x00\x1cftypmif1\x00\x00\x00\x00avifmif1miaf"), "AVIF"},
		"film":                 {[]byte("\x00\x00\x00\x1cftypisom\x00\x00\x02\x00isomiso2mp41"), "a film"},
		"GIF":                  {[]byte("GIF89a..."), "a GIF"},
		"raw":                  {[]byte("II*\x00\x10\x00\x00\x00"), "raw file"},
		"20000 × 20000":        {pngSaying(20000, 20000), "20000 × 20000 pixels, 400 megapixels; at most 60"},
		"JPEG 65535":           {jpegSaying(t, 65535, 65535), "65535 × 65535"},
		"PNG without width":    {pngSaying(0, 5), "its header cannot be read"},
		"JPEG, begin only":     {[]byte("\xff\xd8\xff"), "its header cannot be read"},
		"WebP, begin only":     {[]byte("RIFF\x10\x00\x00\x00WEBPVP8 "), "its header cannot be read"},
		"hundreds of passes":   {many, "passes"},
		"JPEG cut short":       {one[:len(one)-9], "breaks off before the end"},
		"PNG without pixels":   {pngSaying(50, 50), "breaks off before the end"},
		"WebP, header only":    {still, "breaks off before the end"},
		"WebP that moves":      {moving, "is a moving picture"},
		"WebP that says large": {[]byte("RIFF\x16\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\xff\x7f\x00\xff\x7f\x00"), "32768 × 32768"},
	} {
		_, _, err := Read("front.jpg", c.src)
		if err == nil || !strings.HasPrefix(err.Error(), "front.jpg ") || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; want %q", what, err, c.says)
		}
	}
}

// Phones put a film behind the picture: it is neither read nor carried on, and
// what looks like a marker in it does not count.
func TestRead_filmBehindThePicture(t *testing.T) {
	bare := smallJPEG(t)
	src := append(withEXIF(bare, directory(0, [2]uint32{0x0112, 6})), bytes.Repeat([]byte{0xff, 0xda, 0, 2, 7}, 1_000_000)...)
	p, _, err := Read("x.jpg", src)
	if err != nil {
		t.Fatal(err)
	}
	if img, err := p.Upright(); err != nil || img.Rect.Size() != (image.Point{X: 48, Y: 64}) {
		t.Errorf("%v, %v", img, err)
	}
	pic, err := p.Place(draw.Rect{Max: r2.Vec{X: 10, Y: 10}})
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(pic.Encoded, bare) {
		t.Errorf("%d bytes go onto the page, want the picture's own %d", len(pic.Encoded), len(bare))
	}
}

// A file that lies about its size is refused before memory is taken for it.
func TestRead_takesNoMemoryForWhatAHeaderSays(t *testing.T) {
	src := append(pngSaying(20000, 20000), make([]byte, 48_000)...)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	if _, _, err := Read("big.png", src); err == nil {
		t.Error("400 megapixels were read")
	}
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; took > 1<<20 {
		t.Errorf("%d bytes were taken", took)
	}
}

func TestPixels_filesThatLieOrBreakOff(t *testing.T) {
	whole := map[string][]byte{"lying.jpg": jpegSaying(t, 640, 480), "none.png": pngSaying(50, 50)}
	for name, keep := range map[string]float64{"noted.jpg": 0.95, "noted.png": 0.6, "noted.webp": 0.3} { // among the pixels
		src, err := os.ReadFile("testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		whole["part of "+name] = src[:int(keep*float64(len(src)))]
	}
	for name, src := range whole {
		p, _, err := Read(name, src)
		if err != nil {
			continue // refused by its header: as good
		}
		if _, err := p.Upright(); err == nil || !strings.HasPrefix(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := p.Scaled(20); err == nil {
			t.Errorf("%s was scaled", name)
		}
	}
}

// Notes that loop, point outside or hold nonsense do no harm: the picture is
// read, and what cannot be is not taken up.
func TestRead_hostileNotes(t *testing.T) {
	for what, c := range map[string]struct {
		tiff []byte
		turn turn
		f35  float64
	}{
		"good":                  {directory(0, [2]uint32{0x0112, 6}, [2]uint32{0xa405, 28}), 6, 28},
		"next list is itself":   {directory(8, [2]uint32{0x0112, 6}), 6, 0},
		"sub-list is itself":    {directory(0, [2]uint32{0x0112, 6}, [2]uint32{0x8769, 8}), 6, 0},
		"sub-list outside":      {directory(0, [2]uint32{0x0112, 6}, [2]uint32{0x8769, 1 << 30}), 6, 0},
		"next list outside":     {directory(1<<31, [2]uint32{0x0112, 3}), 3, 0},
		"no such turning":       {directory(0, [2]uint32{0x0112, 77}, [2]uint32{0xa405, 28}), 0, 28},
		"focal length of 0":     {directory(0, [2]uint32{0xa405, 0}), 0, 0},
		"focal length too long": {directory(0, [2]uint32{0xa405, 60000}), 0, 0},
		"nothing":               {nil, 0, 0},
		"rubbish":               {bytes.Repeat([]byte{0xff}, 60000), 0, 0},
		"65535 entries":         {append([]byte("II*\x00\x08\x00\x00\x00\xff\xff"), make([]byte, 50000)...), 0, 0},
	} {
		p, _, err := Read("x.jpg", withEXIF(smallJPEG(t), c.tiff))
		if err != nil {
			t.Errorf("%s: %v", what, err)
			continue
		}
		if p.turn != c.turn || p.F35 != c.f35 {
			t.Errorf("%s: turn %d, focal length %v", what, p.turn, p.F35)
		}
		if _, err := p.Scaled(20); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, name := range []string{"noted.jpg", "noted.png", "noted.webp"} {
		src, err := os.ReadFile("testdata/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	f.Add(pngSaying(20000, 20000))
	f.Add(withEXIF(smallJPEG(f), directory(8, [2]uint32{0x8769, 8})))
	f.Fuzz(func(t *testing.T, src []byte) {
		p, _, err := Read("x", src)
		if err != nil {
			return
		}
		if p.Width < 1 || p.Height < 1 || p.Width*p.Height > MaxPixels {
			t.Fatalf("%d × %d pixels", p.Width, p.Height)
		}
		if p.Width*p.Height > 1_000_000 {
			return // sound, but slow to try by the thousand
		}
		if img, err := p.Scaled(50); err == nil && max(img.Rect.Dx(), img.Rect.Dy()) > 50 {
			t.Fatalf("scaled to %v", img.Rect)
		}
		bareJPEG(append([]byte("\xff\xd8"), src...))
		barePNG(append([]byte("\x89PNG\r\n\x1a\n"), src...))
	})
}
