package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
	"tasset/internal/report"
)

func newCheck() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "check [piece …]",
		Short: "Check sizes and fit without making pages",
		Long: `Check the folder's files, the sizes and the fit, and print every finding.

The exit status is 0 if foam can be cut, 1 if there is a problem or a piece is
still a draft, 2 if the files cannot be read.`,
		ValidArgsFunction: completePieces,
		RunE: func(cmd *cobra.Command, args []string) error {
			f, err := costume.Open(folderOf(cmd))
			if err != nil {
				return err
			}
			r, err := shape(cmd, f, costume.Options{Only: args})
			if err != nil {
				return err
			}
			return sayCheck(cmd, f.Summarise(r, ""), asJSON)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the findings as JSON")
	return cmd
}

// readiness ends a check that passes: doubts keep no piece from being cut, but are to
// be looked at first.
func readiness(findings []report.Finding) string {
	if report.Worst(findings) >= report.Doubt {
		return "Ready to cut, once the doubts above are settled."
	}
	return "Ready to cut."
}

// shape makes a folder's pieces without pages.
func shape(cmd *cobra.Command, f *costume.Folder, o costume.Options) (*costume.Result, error) {
	tell := progress(cmd.ErrOrStderr())
	r, err := costume.Shape(cmd.Context(), f, o, tell)
	tell("", 1, 1) // the line is taken off, however it ends
	if err != nil && r != nil {
		sayBefore(cmd.ErrOrStderr(), r.Findings)
	}
	return r, err
}

func sayCheck(cmd *cobra.Command, s costume.Summary, asJSON bool) error {
	w := cmd.OutOrStdout()
	if asJSON {
		if err := sayJSON(w, s); err != nil {
			return err
		}
	} else {
		sayPieces(w, s)
		if len(s.Findings) > many {
			fmt.Fprintln(w)
		}
		sayFindings(w, s.Findings)
	}
	if !asJSON && len(s.Findings) > many {
		fmt.Fprintln(w)
	}
	if !s.Passes {
		if !asJSON {
			fmt.Fprintln(w, "Not yet: mend the problems, and measure what the drafts ask for.")
		}
		return errFails
	}
	if !asJSON {
		fmt.Fprintln(w, readiness(s.Findings))
	}
	return nil
}
