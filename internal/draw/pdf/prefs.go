package pdf

import (
	"bytes"
	"errors"
	"regexp"
	"strconv"
)

var endOfFile = regexp.MustCompile(`\nstartxref\n(\d+)\n%%EOF\n?$`)

// tablePlace is where, at the document's end, the place of its table of objects is written:
// the digits' beginning and end.
func tablePlace(pdf []byte) (from, to int, ok bool) {
	const ending = 64 // bytes: more than what stands after the table
	last := max(0, len(pdf)-ending)
	m := endOfFile.FindSubmatchIndex(pdf[last:])
	if m == nil {
		return 0, 0, false
	}
	return last + m[2], last + m[3], true
}

// addViewerPrefs puts a ViewerPreferences entry into the catalog. The catalog is
// the last object that gofpdf writes, so only the start of the cross-reference
// table moves.
func addViewerPrefs(pdf []byte, prefs string) ([]byte, error) {
	const mark = "\n/Type /Catalog\n"
	at, xref := bytes.LastIndex(pdf, []byte(mark)), bytes.LastIndex(pdf, []byte("\nxref\n"))
	from, to, ok := tablePlace(pdf)
	if at < 0 || xref < at || !ok || bytes.Contains(pdf[at:xref], []byte(" obj\n")) {
		return nil, errors.New("the PDF library changed its layout: the catalog is not the last object")
	}
	start, err := strconv.Atoi(string(pdf[from:to]))
	if err != nil || start != xref+1 {
		return nil, errors.New("the PDF library changed its layout: startxref does not match")
	}
	entry := "/ViewerPreferences << " + prefs + " >>\n"
	var b bytes.Buffer
	b.Grow(len(pdf) + 2*len(entry))
	b.Write(pdf[:at+len(mark)])
	b.WriteString(entry)
	b.Write(pdf[at+len(mark) : from])
	b.WriteString(strconv.Itoa(start + len(entry)))
	b.Write(pdf[to:])
	copy(b.Bytes(), "%PDF-1.7") // PrintScaling needs 1.6, PickTrayByPDFSize 1.7; the header keeps its length
	return b.Bytes(), nil
}
