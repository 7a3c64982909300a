package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
	"tasset/internal/units"
)

func newNew() *cobra.Command {
	var given [6]string
	var name string
	var suit bool
	cmd := &cobra.Command{
		Use:   "new [folder]",
		Short: "Start a costume: a few questions, then pages at once",
		Long: `Start a costume in a folder (the present one unless you name another). It asks
for units, paper, height, weight, head girth and sex, makes a helmet and a vambrace
at once, and says which sizes turn what is still a draft into a real one. With --suit
it makes a whole suit, head to foot.

Answers given as flags are not asked. Sizes may be in mm, cm or inches with
fractions, whichever units you choose.`,
		Example: `  tasset new
  tasset new my-suit --suit
  tasset new my-costume --units in --paper Letter --stature "5 ft 7 in" --weight "141 lb" --head "22 5/8"`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := folderOf(cmd)
			if len(args) == 1 {
				dir = args[0]
			}
			if err := costume.Vacant(dir); err != nil {
				return err
			}
			a, err := interview(cmd.Context(), cmd.InOrStdin(), cmd.OutOrStdout(), given)
			if err != nil {
				return err
			}
			a.Name, a.Suit = name, suit
			if err := costume.Start(dir, a); err != nil {
				return err
			}
			return firstPages(cmd, dir)
		},
	}
	cmd.Flags().StringVar(&name, "name", "", "a name for the wearer (not asked)")
	cmd.Flags().BoolVar(&suit, "suit", false, "ask for a whole suit, head to foot, instead of two pieces")
	for i, q := range questions {
		cmd.Flags().StringVar(&given[i], q.flag, "", q.asks)
	}
	return cmd
}

// question is one thing that `new` asks.
type question struct {
	flag, asks, fallback string
	optional             bool
	check                func(a *costume.Answers, typed string) error
}

var questions = [6]question{
	{flag: "units", asks: "units that you measure in: cm, mm or in", fallback: "cm", check: func(a *costume.Answers, s string) (err error) {
		a.Units, err = units.ParseUnit(s)
		return err
	}},
	{flag: "paper", asks: "paper in your printer: A4, Letter, A3, tabloid …", check: func(a *costume.Answers, s string) error {
		a.Paper = s
		return costume.CheckPaper(s)
	}},
	{flag: "stature", asks: "the wearer's height without shoes", check: size("stature", func(a *costume.Answers) *string { return &a.Stature })},
	{flag: "weight", asks: "the wearer's weight, with kg or lb", check: size("weight", func(a *costume.Answers) *string { return &a.Weight })},
	{flag: "head", asks: "girth of the head, over the brows and round the back", check: size("head girth", func(a *costume.Answers) *string { return &a.HeadGirth })},
	{flag: "sex", asks: "whose survey to guess the other sizes from: woman, man or not stated", fallback: "not stated", optional: true, check: func(a *costume.Answers, s string) error {
		a.Sex = strings.ToLower(s)
		return costume.CheckSex(a.Sex)
	}},
}

func size(name string, field func(*costume.Answers) *string) func(*costume.Answers, string) error {
	return func(a *costume.Answers, s string) error {
		*field(a) = s
		return costume.CheckSize(name, s, a.Units)
	}
}

// interviewer puts questions; where nobody sees the answers being typed it
// writes them out.
type interviewer struct {
	ctx   context.Context
	lines *bufio.Scanner
	out   io.Writer
	echo  bool
}

// interview asks what was not given, and asks again with the reason when an
// answer cannot be used. What was given as a flag and cannot be used is an error.
func interview(ctx context.Context, in io.Reader, out io.Writer, given [6]string) (costume.Answers, error) {
	var a costume.Answers
	asker := interviewer{ctx, bufio.NewScanner(in), out, !isTerminal(in)}
	for i, q := range questions {
		if given[i] != "" {
			if err := q.check(&a, given[i]); err != nil {
				return a, fmt.Errorf("--%s: %w", q.flag, err)
			}
			continue
		}
		if q.optional && allGiven(given[:5]) {
			if q.fallback != "" {
				_ = q.check(&a, q.fallback)
			}
			continue
		}
		if err := asker.ask(q, fallback(q, a), &a); err != nil {
			return a, err
		}
	}
	return a, nil
}

func allGiven(answers []string) bool {
	for _, s := range answers {
		if s == "" {
			return false
		}
	}
	return true
}

// fallback is what an empty answer stands for; "" if there must be one.
func fallback(q question, a costume.Answers) string {
	if q.flag != "paper" {
		return q.fallback
	}
	if a.Units == units.Inch {
		return "Letter"
	}
	return "A4"
}

// ask puts one question until its answer can be used.
func (i interviewer) ask(q question, fallback string, a *costume.Answers) error {
	out := i.out
	for {
		prompt := capital(q.asks)
		if fallback != "" {
			prompt += " [" + fallback + "]"
		}
		fmt.Fprint(out, prompt+": ")
		typed, more := i.line()
		if err := i.ctx.Err(); err != nil {
			fmt.Fprintln(out)
			return err
		}
		if !more {
			fmt.Fprintln(out)
			if q.optional {
				if fallback != "" {
					return q.check(a, fallback)
				}
				return nil
			}
			return fmt.Errorf("the answers ended before the question %q; give it as --%s", q.asks, q.flag)
		}
		answer := strings.TrimSpace(typed)
		if i.echo {
			fmt.Fprintln(out, answer)
		}
		if answer == "" {
			answer = fallback
		}
		if answer == "" && q.optional {
			return nil
		}
		err := q.check(a, answer)
		if err == nil {
			return nil
		}
		fmt.Fprintf(out, "  %v. Once more:\n", err)
	}
}

// line is the next line that is typed, unless Ctrl-C comes first.
func (i interviewer) line() (typed string, more bool) {
	done := make(chan bool, 1)
	go func() { done <- i.lines.Scan() }()
	select {
	case more = <-done:
		return i.lines.Text(), more
	case <-i.ctx.Done():
		return "", false
	}
}

// firstPages builds the new folder and says what makes its drafts real.
func firstPages(cmd *cobra.Command, dir string) error {
	s, err := build(cmd.Context(), dir, costume.Options{}, "", cmd.ErrOrStderr())
	if err != nil {
		return err
	}
	w := cmd.OutOrStdout()
	fmt.Fprintf(w, "\nMade %s and %s.\n", filepath.Join(dir, costume.WearerFile), filepath.Join(dir, costume.CostumeFile))
	sayBuild(w, s)
	if len(s.ToMeasure) > 0 {
		fmt.Fprintln(w, "\nLook at a draft, do not cut foam by it. To make the drafts real, measure:")
		for _, name := range s.ToMeasure {
			how, _ := costume.HowTo(name)
			fmt.Fprintf(w, "  %s: %s\n", name, how)
		}
		fmt.Fprintf(w, "and write each down, then print again:\n  tasset measure set %s VALUE%s\n  tasset print%s\n", quoteIfSpaced(s.ToMeasure[0]), inFolder(dir), inFolder(dir))
	}
	return nil
}
