// Package surveyed reads the people of the 2012 US Army survey, for the program
// that computes the embedded model and for tests that hold results against real
// bodies. The rows themselves are never part of the project.
package surveyed

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"tasset/body"
)

// Person is one surveyed person.
type Person struct {
	Sex   body.Sex
	Age   float64 // years
	sizes map[string]float64
}

// Column is a column of the survey's file in mm or kg; a difference of two
// columns is written "a-b".
func (p Person) Column(name string) float64 {
	a, b, isDifference := strings.Cut(name, "-")
	if isDifference {
		return p.Column(a) - p.Column(b)
	}
	v, ok := p.sizes[a]
	if !ok {
		panic("the survey has no column " + a)
	}
	return v
}

// Row is the person's sizes in the order of body.SurveyedNames.
func (p Person) Row() []float64 {
	var row []float64
	for _, n := range body.SurveyedNames() {
		row = append(row, p.Size(n))
	}
	return row
}

// Size is the size of one measurement that the survey took.
func (p Person) Size(n body.Name) float64 {
	d, ok := body.Describe(n)
	if !ok || d.Survey == "" {
		panic(fmt.Sprintf("the survey did not take %q", n))
	}
	return p.Column(d.Survey)
}

// Tape is what a maker would write down about this person: the measurements
// named, read without error, or all that the survey took if none is named.
func (p Person) Tape(names ...body.Name) body.Tape {
	if len(names) == 0 {
		names = body.SurveyedNames()
	}
	t := body.Tape{Sex: p.Sex, Age: p.Age}
	for _, n := range names {
		t.Entries = append(t.Entries, body.Entry{Name: n, Value: p.Size(n)})
	}
	return t
}

// Read reads the men, then the women, of the folder that holds survey/.
func Read(dir string) ([]Person, error) {
	men, err := readFile(filepath.Join(dir, "survey", "ansur2-male.csv"), body.Man)
	if err != nil {
		return nil, err
	}
	women, err := readFile(filepath.Join(dir, "survey", "ansur2-female.csv"), body.Woman)
	return append(men, women...), err
}

func readFile(path string, sex body.Sex) ([]Person, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("reading the survey: %w", err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", filepath.Base(path), err)
	}
	var people []Person
	for i, row := range rows[1:] {
		p, err := person(rows[0], row, sex)
		if err != nil {
			return nil, fmt.Errorf("reading %s, row %d: %w", filepath.Base(path), i+2, err)
		}
		people = append(people, p)
	}
	return people, nil
}

// person reads a row. Weight is kept in 0.1 kg and the pupil distance in 0.1 mm.
func person(header, row []string, sex body.Sex) (Person, error) {
	p := Person{Sex: sex, sizes: map[string]float64{}}
	for i, name := range header {
		v, err := strconv.ParseFloat(row[i], 64)
		if err != nil {
			return p, fmt.Errorf("column %s: %q is no number", name, row[i])
		}
		switch name {
		case "subjectid":
			continue
		case "Age":
			p.Age = v
			continue
		case "weightkg", "interpupillarybreadth":
			v /= 10
		}
		p.sizes[name] = v
	}
	return p, nil
}
