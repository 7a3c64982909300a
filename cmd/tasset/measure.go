package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
	"tasset/internal/report"
)

func newMeasure() *cobra.Command {
	var all, next, sheet, asJSON bool
	var out, paper string
	cmd := &cobra.Command{
		Use:   "measure [name]",
		Short: "Show the wearer's sizes: value, ±, where it comes from, how to take it",
		Long: `Show every size of the wearer that makers take: its value, how far off it may
be (19 times out of 20), whether it comes from a tape or is estimated, and how to
take it. Doubts about what was written down follow.

With a name, show that one alone. "tasset measure set" writes one down.`,
		Example: `  tasset measure
  tasset measure "wrist girth"
  tasset measure --next
  tasset measure --sheet --paper Letter
  tasset measure set "wrist girth" "6 5/8 in"`,
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeMeasurements,
		RunE: func(cmd *cobra.Command, args []string) error {
			f, err := costume.Open(folderOf(cmd))
			if err != nil {
				return err
			}
			if next {
				return sayNext(cmd, f, asJSON)
			}
			r, err := f.Estimate(cmd.Context())
			if err != nil && r != nil {
				sayBefore(cmd.ErrOrStderr(), r.Findings)
			}
			if err != nil {
				return err
			}
			rows := f.Rows(r.Measurements)
			if sheet {
				return writeSheet(cmd, f, rows, out, paper)
			}
			if rows, err = chosen(rows, args, all || asJSON); err != nil {
				return err
			}
			if asJSON {
				return sayJSON(cmd.OutOrStdout(), map[string]any{"measurements": rows, "findings": append([]report.Finding{}, r.Findings...)})
			}
			return sayRows(cmd.OutOrStdout(), rows, r.Findings)
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "also sizes that makers hardly ever tape")
	cmd.Flags().BoolVar(&next, "next", false, "what to measure next for the costume's pieces")
	cmd.Flags().BoolVar(&sheet, "sheet", false, "write a form to print and fill in by hand, as a PDF")
	cmd.Flags().StringVar(&out, "out", "", "the sheet's file (default: print/measuring-sheet.pdf in the folder)")
	cmd.Flags().StringVar(&paper, "paper", "", "the sheet's paper (default: the costume's)")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print as JSON, with every size")
	cmd.AddCommand(newSet())
	return cmd
}

// chosen are the rows to show.
func chosen(rows []costume.Row, args []string, all bool) ([]costume.Row, error) {
	var out []costume.Row
	for _, r := range rows {
		if len(args) == 1 && r.Name == args[0] || len(args) == 0 && (all || !r.Rare || r.Origin == "tape" || r.Origin == "photograph") {
			out = append(out, r)
		}
	}
	if len(out) > 0 {
		return out, nil
	}
	return nil, costume.NoMeasurement(args[0])
}

func sayRows(w io.Writer, rows []costume.Row, findings []report.Finding) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "MEASUREMENT\tVALUE\t±\tFROM\tHOW TO TAKE IT")
	for _, r := range rows {
		name, value, pm := r.Name, r.Shown, r.ShownPM
		if r.Side != "" {
			name += ", " + r.Side
		}
		if r.Origin == "unknown" {
			value, pm = "–", ""
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\n", name, value, pm, from(r), r.HowTo)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	if len(findings) > 0 {
		fmt.Fprintln(w, "\n"+heading(findings))
		sayFindings(w, findings)
	}
	return nil
}

// from is a value's origin in a word or two.
func from(r costume.Row) string {
	switch {
	case r.Origin == "unknown":
		return "not known"
	case r.Over != "" && r.Over != "skin":
		return r.Origin + ", over " + r.Over
	}
	return r.Origin
}

func sayNext(cmd *cobra.Command, f *costume.Folder, asJSON bool) error {
	r, err := shape(cmd, f, costume.Options{})
	if err != nil {
		return err
	}
	steps, w := r.Next(), cmd.OutOrStdout()
	if asJSON {
		return sayJSON(w, map[string]any{"next": append([]costume.Step{}, steps...), "drafts": append([]string{}, r.Drafts()...)})
	}
	if len(steps) == 0 {
		fmt.Fprintln(w, "Nothing that a tape could tell would make these pieces fit noticeably better.")
		return nil
	}
	fmt.Fprintln(w, "Measure in this order; each line takes away that share of what is uncertain about the pieces:")
	for i, s := range steps {
		fmt.Fprintf(w, "%2d. %s (%.0f %%): %s\n", i+1, s.Name, 100*s.Gain, s.HowTo)
	}
	return nil
}

func writeSheet(cmd *cobra.Command, f *costume.Folder, rows []costume.Row, file, paper string) error {
	if file == "" {
		file = filepath.Join(f.Dir, "print", "measuring-sheet.pdf")
	}
	doc, err := f.MeasuringSheet(rows, paper)
	if err != nil {
		return err
	}
	if err := costume.Save(file, doc); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s: a form to print, fill in by hand, and copy into %s.\n", file, filepath.Join(f.Dir, costume.WearerFile))
	return nil
}

func newSet() *cobra.Command {
	var side string
	cmd := &cobra.Command{
		Use:               "set NAME VALUE",
		Short:             "Write a size into wearer.yaml, comments kept",
		Example:           "  tasset measure set \"wrist girth\" \"6 5/8 in\"\n  tasset measure set \"calf girth\" \"38.2 cm\" --side left",
		Args:              nameAndValue,
		ValidArgsFunction: completeMeasurements,
		RunE: func(cmd *cobra.Command, args []string) error {
			if side != "" && side != "left" && side != "right" {
				return fmt.Errorf("found --side %q; write left or right", side)
			}
			findings, err := costume.TakeDown(folderOf(cmd), args[0], side, args[1])
			if err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s into %s.\n", strings.Join(args, ": "), costume.WearerFile)
			sayFindings(cmd.OutOrStdout(), findings)
			return nil
		},
	}
	cmd.Flags().StringVar(&side, "side", "", "left or right, where the two differ")
	_ = cmd.RegisterFlagCompletionFunc("side", cobra.FixedCompletions([]string{"left", "right"}, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

// nameAndValue wants two words, and says how to write sizes of several.
func nameAndValue(_ *cobra.Command, args []string) error {
	if len(args) == 2 {
		return nil
	}
	return fmt.Errorf("found %s; write a name and a value, each in quotes: tasset measure set \"wrist girth\" \"6 5/8 in\"", report.Counted(len(args), "word"))
}

// completeMeasurements completes the first argument with names of measurements.
func completeMeasurements(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return costume.MeasurementNames(), cobra.ShellCompDirectiveNoFileComp
}
