package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
)

func newTemplate() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "template",
		Short: "Work on templates of your own",
		Long: `Templates are files that say how a piece is shaped in terms of a body's sizes.
Put your own into the folder "templates" of a costume; they work as the built-in
ones do.`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(&cobra.Command{
		Use:   "check FILE",
		Short: "Check a template file: everything that is wrong, with its line",
		Args:  cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			title, notes, err := costume.CheckTemplate(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "%s is a good template: %s.\n", args[0], title)
			for _, n := range notes {
				fmt.Fprintln(cmd.OutOrStdout(), n)
			}
			return nil
		},
	})
	return cmd
}
