package report

import (
	"encoding/json"
	"testing"
)

func TestFinding_isOneSentenceWithItsPlace(t *testing.T) {
	f := Finding{Doubt, "knee girth", "wearer.yaml:14", "15.2 cm is far below what the other sizes suggest.", "Was 15.2 in meant?"}
	want := "wearer.yaml:14: doubt: knee girth: 15.2 cm is far below what the other sizes suggest. Was 15.2 in meant?"
	if got := f.String(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := Notef("", "All is well.").String(); got != "note: All is well." {
		t.Errorf("a finding without a subject reads %q", got)
	}
}

func TestWorst(t *testing.T) {
	fs := []Finding{Notef("a", "x"), Problemf("b", "y"), Doubtf("c", "z")}
	if got := Worst(fs); got != Problem {
		t.Errorf("Worst = %v, want problem", got)
	}
	if got := Worst(fs[2:]); got != Doubt {
		t.Errorf("Worst = %v, want doubt", got)
	}
	if got := Worst(nil); got != Note {
		t.Errorf("Worst of nothing = %v, want note", got)
	}
}

// Scripts read the level as a word, not as a number that may change.
func TestFinding_inJSON(t *testing.T) {
	got, err := json.Marshal(Doubtf("helm", "It is narrow by %d mm.", 3))
	want := `{"level":"doubt","subject":"helm","said":"It is narrow by 3 mm."}`
	if err != nil || string(got) != want {
		t.Errorf("got %s, %v; want %s", got, err, want)
	}
}
