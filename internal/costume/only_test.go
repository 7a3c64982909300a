package costume

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"

	"tasset/internal/report"
	"tasset/pattern"
)

// suitOf is a costume of some pieces of the demo suit.
func suitOf(t *testing.T, pieces ...string) *Folder {
	t.Helper()
	f := openSuit(t)
	f.Costume.Orders = slices.DeleteFunc(f.Costume.Orders, func(o pattern.Order) bool { return !slices.Contains(pieces, o.Template) })
	return f
}

func TestBuild_aPieceAloneIsThatOfTheWhole(t *testing.T) {
	f := suitOf(t, "breastplate", "backplate", "faulds", "tassets")
	whole, err := Build(context.Background(), f, Options{}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	one, err := Build(context.Background(), f, Options{Only: []string{"faulds"}}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	if len(one.Set.Pieces) != 1 || !slices.Equal(one.Set.Dressing, []string{"faulds"}) {
		t.Fatalf("%d pieces, put on in the order %v", len(one.Set.Pieces), one.Set.Dressing)
	}
	for _, p := range whole.Set.Pieces {
		if alone := one.Set.Pieces[0]; p.Name == "faulds" && (!reflect.DeepEqual(p.Panels, alone.Panels) || !reflect.DeepEqual(p.Straps, alone.Straps)) {
			t.Errorf("the panels or straps of the faulds alone are not those of the whole")
		}
	}
	if p := one.Set.Pieces[0]; !slices.ContainsFunc(p.Straps, func(s pattern.Strap) bool { return s.Other == "breastplate" }) {
		t.Errorf("no strap goes to the breastplate: %v", p.Straps)
	}
	for _, g := range one.Findings {
		if slices.Contains([]string{"breastplate", "backplate", "tassets"}, g.Subject) {
			t.Errorf("said of one piece alone: %v", g)
		}
	}
}

func TestBuild_whatHoldsUpAnotherPieceDoesNotHoldUpTheOneThatWasAskedFor(t *testing.T) {
	f := suitOf(t, "vambrace", "gorget")
	for i := range f.Costume.Orders {
		if o := &f.Costume.Orders[i]; o.Template == "gorget" {
			o.Template = "gorgot"
		}
	}
	if _, err := Build(context.Background(), f, Options{}, quiet); err == nil {
		t.Fatal("made a piece of no template")
	}
	one, err := Build(context.Background(), f, Options{Only: []string{"vambrace"}}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(one.Findings, func(g report.Finding) bool {
		return g.Level == report.Doubt && strings.Contains(g.Said, "gorgot") && strings.Contains(g.Perhaps, "before you cut it")
	}) {
		t.Errorf("nothing said of the piece that was left out: %v", one.Findings)
	}
}
