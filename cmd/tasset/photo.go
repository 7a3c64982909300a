package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
	"tasset/internal/report"
)

func newPhoto() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "photo",
		Short: "Say what the wearer's photographs tell, and what is wrong with them",
		Long: `Say what the photographs in wearer.yaml tell: where each camera stood, how well
the marks fit together, which marks nothing checks, the sizes with their ±, what
was measured over the pictures, and what is wrong with which picture.

How to take photographs: "tasset photo guide". How to mark them: the list of
"tasset photo landmarks", and docs/photographs.md. How to check the marks:
"tasset photo marks".`,
		Args: knownCommand,
		RunE: func(cmd *cobra.Command, _ []string) error {
			f, err := costume.Open(folderOf(cmd))
			if err != nil {
				return err
			}
			r, err := f.PhotoReport(cmd.Context())
			if err != nil {
				sayBefore(cmd.ErrOrStderr(), r.Findings)
				return err
			}
			if asJSON {
				return sayJSON(cmd.OutOrStdout(), r)
			}
			return sayPhotos(cmd.OutOrStdout(), r)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	cmd.AddCommand(newGuide(), newCard(), newLandmarks(), newMarks(), newSheet())
	return cmd
}

func sayPhotos(w io.Writer, r costume.PhotoReport) error {
	if len(r.Photographs) == 0 && len(r.Readings) == 0 && len(r.Traced) == 0 && len(r.Findings) == 0 {
		fmt.Fprintf(w, "There are no photographs in %s yet. \"tasset photo guide\" says how to take them, docs/photographs.md how to write them down.\n", costume.WearerFile)
		return nil
	}
	for _, p := range r.Photographs {
		sayPhotograph(w, p)
	}
	if len(r.Photographs) > 0 {
		fmt.Fprintln(w)
	}
	if err := saySizes(w, r.Sizes); err != nil {
		return err
	}
	sayReadings(w, r)
	if len(r.Findings) > 0 {
		fmt.Fprintln(w, heading(r.Findings))
		sayFindings(w, r.Findings)
	}
	return nil
}

func sayPhotograph(w io.Writer, p costume.PhotographReport) {
	fmt.Fprintf(w, "%s: %s\n", p.Picture, p.View)
	if !p.Solved {
		fmt.Fprintln(w, "  It could not be used; see below.")
		return
	}
	fmt.Fprintf(w, "  The camera stood %s away (± %s, estimated), %s.\n", metres(p.Distance), metres(p.DistancePM), stood(p))
	worst, most := "", 0.0
	for _, m := range p.Marks {
		if math.Abs(m.Off) > most {
			most, worst = math.Abs(m.Off), m.Name
		}
	}
	fmt.Fprintf(w, "  %s fit together to %.1f mm; the worst is %s, %.1f mm.\n", capital(report.Counted(len(p.Marks), "mark")), p.Off, worst, most)
}

// metres writes how far a camera stood.
func metres(mm float64) string {
	if mm < 995 {
		return fmt.Sprintf("%.0f cm", mm/10)
	}
	return fmt.Sprintf("%.2f m", mm/1000)
}

// square is how far off a camera may stand without being told so, degrees.
const square = 1

// stood says how a camera stood against what its view asks for.
func stood(p costume.PhotographReport) string {
	var parts []string
	for _, a := range []struct {
		angle    float64
		way, not string
	}{
		{p.Turn, "%.0f° too far to the wearer's left", "%.0f° too far to the wearer's right"},
		{p.Above, "looking %.0f° down", "looking %.0f° up"},
		{p.Lean, "turned %.0f° clockwise", "turned %.0f° against the clock"},
	} {
		switch {
		case a.angle >= square:
			parts = append(parts, fmt.Sprintf(a.way, a.angle))
		case a.angle <= -square:
			parts = append(parts, fmt.Sprintf(a.not, -a.angle))
		}
	}
	if len(parts) == 0 {
		return "level and square to the wearer"
	}
	return strings.Join(parts, ", ")
}

func saySizes(w io.Writer, sizes []costume.SizeReport) error {
	if len(sizes) == 0 {
		return nil
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "SIZE\tVALUE\t±\tCHECKED BY\tWHAT IT IS")
	for _, s := range sizes {
		by := "nothing"
		if s.Checked {
			by = "other marks"
		}
		name := s.Name
		if s.Over != "" {
			name += ", over " + s.Over
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\n", name, s.Shown, s.ShownPM, by, s.HowTo)
	}
	fmt.Fprintln(t)
	return t.Flush()
}

// sayReadings prints what was measured over pictures.
func sayReadings(w io.Writer, r costume.PhotoReport) {
	if len(r.Readings)+len(r.Traced) == 0 {
		return
	}
	fmt.Fprintln(w, "Over the pictures:")
	for _, x := range r.Readings {
		fmt.Fprintf(w, "  %s: %s (± %s, %s), over %s\n", x.Name, x.Shown, x.ShownPM, basis(x.Checked), x.Picture)
	}
	for _, t := range r.Traced {
		fmt.Fprintf(w, "  %s: its outline is %s as it stands in %s (± %.1f %%, %s); \"tasset print\" makes its template\n", t.Name, t.Shown, t.Picture, 100*t.Share, basis(t.Checked))
	}
	fmt.Fprintln(w)
}

// basis is what a size over a picture rests on.
func basis(known bool) string {
	if known {
		return "estimated by a length that you know on it"
	}
	return "estimated by how far it is from the camera"
}

func newLandmarks() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "landmarks",
		Short: "List the points that can be marked on photographs, and where each is",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			lists := costume.Landmarks()
			if asJSON {
				return sayJSON(cmd.OutOrStdout(), map[string]any{"landmarks": lists})
			}
			return sayLandmarks(cmd.OutOrStdout(), lists)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return cmd
}

func sayLandmarks(w io.Writer, list []costume.LandmarkRow) error {
	fmt.Fprintln(w, "Left and right are the wearer's own.")
	of := ""
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, l := range list {
		if l.Of != of {
			fmt.Fprintf(t, "\nON PICTURES OF THE %s\tSEEN FROM\tWHERE IT IS\n", strings.ToUpper(l.Of))
			of = l.Of
		}
		fmt.Fprintf(t, "%s\t%s\t%s\n", l.Name, strings.Join(l.Views, ", "), l.HowTo)
	}
	return t.Flush()
}
