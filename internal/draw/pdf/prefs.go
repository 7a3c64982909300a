package pdf

import (
	"bytes"
	"errors"
	"regexp"
	"strconv"
)

var endOfFile = regexp.MustCompile(`\nstartxref\n(\d+)\n%%EOF\n?$`)

// addViewerPrefs puts a ViewerPreferences entry into the catalog. The catalog is
// the last object that gofpdf writes, so only the start of the cross-reference
// table moves.
func addViewerPrefs(pdf []byte, prefs string) ([]byte, error) {
	const mark = "\n/Type /Catalog\n"
	at, xref := bytes.LastIndex(pdf, []byte(mark)), bytes.LastIndex(pdf, []byte("\nxref\n"))
	m := endOfFile.FindSubmatchIndex(pdf)
	if at < 0 || xref < at || m == nil || bytes.Contains(pdf[at:xref], []byte(" obj\n")) {
		return nil, errors.New("the PDF library changed its layout: the catalog is not the last object")
	}
	start, err := strconv.Atoi(string(pdf[m[2]:m[3]]))
	if err != nil || start != xref+1 {
		return nil, errors.New("the PDF library changed its layout: startxref does not match")
	}
	entry := "/ViewerPreferences << " + prefs + " >>\n"
	var b bytes.Buffer
	b.Write(pdf[:at+len(mark)])
	b.WriteString(entry)
	b.Write(pdf[at+len(mark) : m[2]])
	b.WriteString(strconv.Itoa(start + len(entry)))
	b.Write(pdf[m[3]:])
	copy(b.Bytes(), "%PDF-1.7") // PrintScaling needs 1.6, PickTrayByPDFSize 1.7; the header keeps its length
	return b.Bytes(), nil
}
