// Command surveygen computes the model that package body embeds, from the rows
// of the 2012 US Army survey, and writes it to body/survey.json. Run it from
// the project's root, with TASSET_DATA naming the folder that holds survey/:
//
//	TASSET_DATA=... go run ./body/surveygen
package main

import (
	"fmt"
	"os"

	"tasset/body"
	"tasset/body/internal/surveyed"
)

func main() {
	if err := run(os.Getenv("TASSET_DATA"), "body/survey.json"); err != nil {
		fmt.Fprintln(os.Stderr, "surveygen:", err)
		os.Exit(1)
	}
}

func run(dir, path string) error {
	text, err := compute(dir)
	if err != nil {
		return err
	}
	return os.WriteFile(path, text, 0o644)
}

// compute gives the model's file for the survey in dir.
func compute(dir string) ([]byte, error) {
	people, err := surveyed.Read(dir)
	if err != nil {
		return nil, err
	}
	var men, women [][]float64
	for _, p := range people {
		if p.Sex == body.Man {
			men = append(men, p.Row())
		} else {
			women = append(women, p.Row())
		}
	}
	text, err := body.FitSurvey(men, women).MarshalJSON()
	return append(text, '\n'), err
}
