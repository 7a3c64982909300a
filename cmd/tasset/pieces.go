package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
)

func newPieces() *cobra.Command {
	var asJSON bool
	var drawing string
	var untitled bool
	cmd := &cobra.Command{
		Use:   "pieces [name]",
		Short: "List the pieces that can be made; one piece's settings and drawing",
		Example: `  tasset pieces
  tasset pieces vambrace
  tasset pieces vambrace --drawing vambrace.svg
  tasset pieces --drawing drawings
  tasset pieces --drawing catalogue.pdf`,
		Args: cobra.MaximumNArgs(1),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return costume.OpenCatalogue(folderOf(cmd)).Names(), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			c := costume.OpenCatalogue(folderOf(cmd))
			if len(args) == 0 {
				if drawing != "" {
					return writeDrawings(cmd, c, drawing, !untitled)
				}
				return sayCatalogue(cmd.OutOrStdout(), c, asJSON)
			}
			l, err := c.Describe(args[0])
			if err != nil {
				return err
			}
			l.AddHere(folderOf(cmd))
			if drawing != "" {
				return writeDrawing(cmd, c, l.Name, drawing, !untitled)
			}
			if asJSON {
				return sayJSON(cmd.OutOrStdout(), l)
			}
			return sayPiece(cmd.OutOrStdout(), l)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	cmd.Flags().StringVar(&drawing, "drawing", "", "write a drawing of the piece to this .svg, .png or .pdf file; without a piece, all of them into this file, or one of each into this folder")
	cmd.Flags().BoolVar(&untitled, "no-title", false, "leave the title out of drawings")
	return cmd
}

func sayCatalogue(w io.Writer, c *costume.Catalogue, asJSON bool) error {
	list, err := c.List()
	if err != nil {
		return err
	}
	if asJSON {
		return sayJSON(w, map[string]any{"pieces": list})
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "PIECE\tWORN ON\tWHAT IT IS")
	for _, l := range list {
		fmt.Fprintf(t, "%s\t%s\t%s\n", l.Name, l.WornOn, l.About)
	}
	fmt.Fprintln(t, "\nOne piece's settings: tasset pieces NAME")
	return t.Flush()
}

func sayPiece(w io.Writer, l costume.Listed) error {
	fmt.Fprintf(w, "%s: %s\n%s\nHangs on these sizes: %s.\n\nSettings, to write under \"settings\" in %s:\n", l.Name, l.Title, l.About, strings.Join(l.Governs, ", "), costume.CostumeFile)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, s := range l.Settings {
		reach := s.Least + " to " + s.Most
		if len(s.Choices) > 0 {
			reach = strings.Join(s.Choices, " or ")
		}
		fmt.Fprintf(t, "  %s\t%s\tunless set: %s\t%s\n", s.Name, reach, s.Default, s.About)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	sayHere(w, l)
	sayDrawable(w, l)
	return nil
}

// sayHere tells what the folder's costume sets, and where.
func sayHere(w io.Writer, l costume.Listed) {
	for i, h := range l.Here {
		if i == 0 || h.Piece != l.Here[i-1].Piece {
			fmt.Fprintf(w, "\nSet here for the %s:\n", h.Piece)
		}
		fmt.Fprintf(w, "  %s: %s (%s)\n", h.Setting, h.Value, h.From)
	}
	if l.Unread != "" {
		fmt.Fprintf(w, "\n%s\n", l.Unread)
	}
}

// sayDrawable names what of a piece may be drawn on a photograph.
func sayDrawable(w io.Writer, l costume.Listed) {
	fmt.Fprintf(w, "\nWhat can be drawn for it on a photograph, under \"drawn\" in %s:\n", costume.CostumeFile)
	if len(l.Openings) > 0 {
		fmt.Fprintf(w, "  opening: %s; any other name cuts one more\n", strings.Join(l.Openings, ", "))
	} else {
		fmt.Fprintln(w, "  opening: any name; it has none of its own")
	}
	if len(l.Edges) > 0 {
		fmt.Fprintf(w, "  edge: %s\n", strings.Join(l.Edges, ", "))
	}
	fmt.Fprintln(w, "  seam: new; where flat panels meet upright, also the number of the seam whose place it takes, as its panels say")
}

// writeDrawings draws all pieces, into one picture if the place names one, else
// into a folder, each into a file of its name. What could not be made does not keep
// the others from it.
func writeDrawings(cmd *cobra.Command, c *costume.Catalogue, to string, titled bool) error {
	var failed []error
	if costume.Drawable(to) == nil {
		var all []*costume.Sampled
		for _, name := range c.Names() {
			s, err := c.Sample(cmd.Context(), folderOf(cmd), name)
			if err != nil {
				failed = append(failed, err)
				continue
			}
			all = append(all, s)
		}
		doc, err := costume.CataloguePicture(all, to)
		return errors.Join(append(failed, err, saveDrawing(cmd, to, doc))...)
	}
	for _, name := range c.Names() {
		if err := writeDrawing(cmd, c, name, filepath.Join(to, name+".png"), titled); err != nil {
			failed = append(failed, err)
		}
	}
	return errors.Join(failed...)
}

func writeDrawing(cmd *cobra.Command, c *costume.Catalogue, piece, file string, titled bool) error {
	if err := costume.Drawable(file); err != nil {
		return err
	}
	s, err := c.Sample(cmd.Context(), folderOf(cmd), piece)
	if err != nil {
		return err
	}
	doc, err := s.Drawing(file, titled)
	if err != nil {
		return err
	}
	return saveDrawing(cmd, file, doc)
}

func saveDrawing(cmd *cobra.Command, file string, doc []byte) error {
	if err := costume.Save(file, doc); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s.\n", file)
	return nil
}
