package pdf

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"
)

// errLayout is for whoever takes a newer library.
var errLayout = errors.New("the PDF library changed its layout: the pages' contents are not where they were")

// stream is what a page shows, within the document.
type stream struct {
	from, to int    // from its "<<" to before "endstream"
	content  []byte // as it was written
	packed   []byte // the same from "<<" on, compressed
}

// compress packs what the pages show, which gofpdf would do page after page.
// The pages are the first of its objects, in order.
func compress(pdf []byte, pages int) ([]byte, error) {
	streams, err := streamsOf(pdf, pages)
	if err != nil {
		return nil, err
	}
	beside(pages, func() func(int) {
		var b bytes.Buffer
		z, _ := zlib.NewWriterLevel(&b, zlib.BestSpeed) // a level that there is
		return func(i int) {
			b.Reset()
			z.Reset(&b)
			z.Write(streams[i].content) // into memory, which takes it
			z.Close()
			streams[i].packed = fmt.Appendf(nil, "<</Filter /FlateDecode /Length %d>>\nstream\n%s\n", b.Len(), b.Bytes())
		}
	})
	return put(pdf, streams)
}

// beside does something for each number below n on all processors, each with what it
// was handed to do it.
func beside(n int, with func() func(int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			do := with()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
}

// streamsOf finds what the pages show.
func streamsOf(pdf []byte, pages int) ([]stream, error) {
	const begin, between, end = "\n<</Length ", ">>\nstream\n", "\nendstream\n"
	out := make([]stream, pages)
	at := 0
	for i := range out {
		n := bytes.Index(pdf[at:], []byte(begin))
		if n < 0 {
			return nil, errLayout
		}
		from := at + n + 1
		digits, rest, ok := bytes.Cut(pdf[from+len(begin)-1:], []byte(between))
		length, err := strconv.Atoi(string(digits[:min(len(digits), 12)]))
		if !ok || err != nil || length > len(rest)-len(end) || string(rest[length:length+len(end)]) != end {
			return nil, errLayout
		}
		at = len(pdf) - len(rest) + length + 1
		out[i] = stream{from: from, to: at, content: rest[:length]}
	}
	return out, nil
}

// put puts the packed contents into the document, and moves the places of its objects
// in the table of them (source: ISO 32000-1:2008, 7.5.4).
func put(pdf []byte, streams []stream) ([]byte, error) {
	const offset = 10 // digits
	table := bytes.LastIndex(pdf, []byte("\nxref\n")) + 1
	digits, after, ok := tablePlace(pdf)
	if table == 0 || !ok {
		return nil, errLayout
	}
	out := make([]byte, 0, len(pdf)/2)
	moved := func(place int) int { // once the streams before it are written
		by := 0
		for _, s := range streams {
			if s.to <= place {
				by += len(s.packed) - (s.to - s.from)
			}
		}
		return place + by
	}
	at := 0
	for _, s := range streams {
		out = append(append(out, pdf[at:s.from]...), s.packed...)
		at = s.to
	}
	out = append(out, pdf[at:table]...)
	for line := range bytes.Lines(pdf[table:digits]) {
		if bytes.HasSuffix(line, []byte(" 00000 n \n")) {
			place, err := strconv.Atoi(string(line[:offset]))
			if err != nil {
				return nil, errLayout
			}
			out = fmt.Appendf(out, "%0*d", offset, moved(place))
			line = line[offset:]
		}
		out = append(out, line...)
	}
	out = strconv.AppendInt(out, int64(moved(table)), 10)
	return append(out, pdf[after:]...), nil
}
