package main

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"tasset/internal/costume"
	"tasset/internal/report"
)

// many findings are told piece by piece.
const many = 10

// sayFindings prints findings, each on a line of its own, the gravest first. Of
// many, those on one piece stand together under its name, with how many
// there are, and the gravest pieces come first.
func sayFindings(w io.Writer, findings []report.Finding) {
	if len(findings) <= many {
		sayGraveFirst(w, findings)
		return
	}
	var subjects []string
	on := map[string][]report.Finding{}
	for _, f := range findings {
		s := about(f)
		if on[s] == nil {
			subjects = append(subjects, s)
		}
		on[s] = append(on[s], f)
	}
	slices.SortStableFunc(subjects, func(a, b string) int { return int(report.Worst(on[b]) - report.Worst(on[a])) })
	for i, s := range subjects {
		if i > 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintf(w, "%s: %s\n", s, tally(on[s]))
		sayGraveFirst(w, on[s])
	}
}

func sayGraveFirst(w io.Writer, findings []report.Finding) {
	for level := report.Problem; level >= report.Note; level-- {
		for _, f := range findings {
			if f.Level == level {
				fmt.Fprintln(w, " ", f)
			}
		}
	}
}

// about is the piece or the thing that a finding is on. Labels of panels stand
// for the pages.
func about(f report.Finding) string {
	s, _, _ := strings.Cut(f.Subject, ":")
	switch {
	case s == "":
		return "the costume"
	case panelLabel.MatchString(s):
		return "panels on pages"
	}
	return s
}

var panelLabel = regexp.MustCompile(`^[A-Z]{1,2}[a-z]?[0-9]+(,|$)`)

// tally counts findings by how grave they are.
func tally(findings []report.Finding) string {
	var out []string
	for level := report.Problem; level >= report.Note; level-- {
		n := 0
		for _, f := range findings {
			if f.Level == level {
				n++
			}
		}
		if n > 0 {
			out = append(out, report.Counted(n, level.String()))
		}
	}
	return strings.Join(out, ", ")
}

// heading stands above findings.
func heading(findings []report.Finding) string {
	if report.Worst(findings) == report.Problem {
		return "Problems, doubts and notes:"
	}
	return "Doubts and notes:"
}

// sayBefore prints what was found before an error, which is often why it came.
func sayBefore(w io.Writer, findings []report.Finding) {
	if report.Worst(findings) == report.Note {
		return
	}
	fmt.Fprintln(w, "Found before the error below, and perhaps its cause:")
	sayFindings(w, slices.DeleteFunc(slices.Clone(findings), func(f report.Finding) bool { return f.Level == report.Note }))
}

// sayPieces prints what was made, a line a piece.
func sayPieces(w io.Writer, s costume.Summary) {
	for _, p := range s.Pieces {
		state := "ready to cut"
		switch {
		case p.Draft:
			state = "DRAFT: " + p.DraftWhy
		case p.Problem:
			state = "NOT to cut yet: see the problem below"
		}
		fmt.Fprintf(w, "  %s%s: %s, %s; %s\n", p.Name, pair(p.Copies), report.Counted(p.Panels, "panel"), stuff(p), state)
	}
}

// stuff is what a piece is cut from, and what that weighs.
func stuff(p costume.PieceSummary) string {
	if p.MockUp {
		return "a mock-up in card"
	}
	if p.Weighs != "" {
		return p.FoamSaid + " foam, " + p.Weighs
	}
	return p.FoamSaid + " foam"
}

func pair(copies int) string {
	if copies == 2 {
		return " (pair)"
	}
	return ""
}

// sayBuild prints what a build made, where, and every finding.
func sayBuild(w io.Writer, s costume.Summary) {
	fmt.Fprintf(w, "Wrote %s: %s on %s, %s to cut.\n", s.File, report.Counted(s.Pages, "page"), s.Paper, report.Counted(s.Panels, "panel"))
	sayPieces(w, s)
	if len(s.Findings) > 0 {
		fmt.Fprintf(w, "\n%s:\n", capital(report.Counted(len(s.Findings), "finding")))
		sayFindings(w, s.Findings)
	}
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// sayJSON prints a value for scripts.
func sayJSON(w io.Writer, v any) error {
	b, err := costume.JSON(v)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}
