package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"tasset/internal/report"
)

const rootLong = `Tasset makes paper templates for foam armour that fit one body.

Write down a few sizes of the wearer and which pieces you want, print the
pages at 100 %, measure the square on page one, cut, trace, and glue edge to
edge where the numbers are the same.

  tasset demo my-demo     a whole costume to look at, made at once
  tasset new my-costume   start your own: six questions, then pages
  tasset measure --next   what to measure next, and how
  tasset photo guide      how to take photographs to measure by

A costume is a folder with wearer.yaml (the person) and costume.yaml (the
pieces). Both are made to be read and changed by hand.`

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:           "tasset",
		Short:         "Paper templates for foam armour that fit one body",
		Long:          rootLong,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          knownCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.PersistentFlags().StringP("folder", "f", ".", "the costume's folder")
	root.AddCommand(newDemo(), newNew(), newMeasure(), newPhoto(), newPieces(), newPicture(), newPrint(), newCheck(), newTemplate())
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return fmt.Errorf("%w; \"%s --help\" lists what there is", err, cmd.CommandPath())
	})
	return root
}

// knownCommand refuses a word that is no command, and says which was meant.
func knownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var known []string
	for _, c := range cmd.Commands() {
		known = append(known, c.Name())
	}
	if near := report.Nearest(args[0], known); near != "" {
		return fmt.Errorf("there is no command %q; did you mean %q?", args[0], near)
	}
	return fmt.Errorf("there is no command %q; \"tasset --help\" lists what there is", args[0])
}

// folderOf is the folder that a command works in.
func folderOf(cmd *cobra.Command) string {
	dir, _ := cmd.Flags().GetString("folder")
	return dir
}

// quoteIfSpaced writes a word as a shell takes it.
func quoteIfSpaced(s string) string {
	if strings.ContainsAny(s, " '") {
		return `"` + s + `"`
	}
	return s
}

// inFolder is how to name a folder in a command that we suggest.
func inFolder(dir string) string {
	if dir == "." {
		return ""
	}
	return " --folder " + quoteIfSpaced(dir)
}
