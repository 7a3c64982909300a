package fit_test

import (
	"context"
	"reflect"
	"testing"

	"tasset/pattern"
	"tasset/pattern/fit"
	"tasset/templates"
)

// With an earlier result only what has changed is looked at: nothing of the same
// pieces, all of another body.
func TestAgain_looksOnlyAtWhatChanged(t *testing.T) {
	form := wearer(t)
	orders := []pattern.Order{{Name: "cuisse", Template: "cuisse"}, {Name: "greave", Template: "greave"}, {Name: "vambrace", Template: "vambrace"}}
	var set *pattern.Set
	remade := func() *pattern.Set {
		var err error
		if set, _, err = set.Remake(context.Background(), orders, templates.FS, form, pattern.Material{K: 0.5}); err != nil {
			t.Fatal(err)
		}
		return set
	}
	first := fit.Check(remade(), form)
	same := first.Again(remade(), form)
	orders[1].Thickness = 10
	changed := same.Again(remade(), form)
	if all, none, some := first.Looked(), same.Looked(), changed.Looked(); all == 0 || none != 0 || some == 0 || some >= all {
		t.Errorf("looked %d times at first, %d at the same pieces, %d with another greave", all, none, some)
	}
	if !reflect.DeepEqual(first.Findings, same.Findings) {
		t.Errorf("of the same pieces it says %v, then %v", first.Findings, same.Findings)
	}
	form = tall(t, 1850)
	other, fresh := changed.Again(remade(), form), fit.Check(set, form)
	if other.Looked() != fresh.Looked() || !reflect.DeepEqual(other.Findings, fresh.Findings) {
		t.Errorf("on another body: looked %d times and said %v, afresh %d times and %v", other.Looked(), other.Findings, fresh.Looked(), fresh.Findings)
	}
}
