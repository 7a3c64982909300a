package costume

import (
	"bytes"
	"context"
	"runtime"
	"testing"
)

// The default suit is the same bytes and has the same findings in the same order
// on one processor and on two.
func TestSuit_sameBytes(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var first []byte
	var said []string
	for _, processors := range []int{1, 2} {
		runtime.GOMAXPROCS(processors)
		f := openSuit(t)
		r, err := Build(context.Background(), f, Options{}, quiet)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := f.PDF(r)
		if err != nil {
			t.Fatal(err)
		}
		var found []string
		for _, x := range r.Findings {
			found = append(found, x.String())
		}
		if first == nil {
			first, said = doc, found
			continue
		}
		if !bytes.Equal(doc, first) {
			t.Errorf("on %d processors the document differs (%d and %d bytes)", processors, len(first), len(doc))
		}
		for i := range max(len(found), len(said)) {
			if i >= len(found) || i >= len(said) || found[i] != said[i] {
				t.Fatalf("on %d processors finding %d differs", processors, i)
			}
		}
	}
}
