package main

import (
	"tasset/body"
)

// wren is who the demo's pictures show: an invented woman, with the sizes that
// a tape would find.
var wren = body.Tape{Sex: body.Woman, Age: 27, Entries: []body.Entry{
	{Name: "stature", Value: 1710},
	{Name: "weight", Value: 64},
	{Name: "head girth", Value: 568},
	{Name: "head length", Value: 194},
	{Name: "head breadth", Value: 151},
	{Name: "ear to crown", Value: 131},
	{Name: "wrist girth", Value: 155},
	{Name: "forearm girth flexed", Value: 254},
	{Name: "forearm length", Value: 250},
	{Name: "calf girth", Value: 361},
	{Name: "ankle girth", Value: 216},
	{Name: "knee girth", Value: 369},
	{Name: "knee height", Value: 480},
}}

// wrensForm is her bare body.
func wrensForm() (*body.Form, error) {
	m, _, err := body.Estimate(body.LoadSurvey(), wren, nil)
	if err != nil {
		return nil, err
	}
	f, _, err := body.NewForm(m, nil, body.Posture{})
	return f, err
}
