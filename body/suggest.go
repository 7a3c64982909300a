package body

import (
	"strings"

	"tasset/internal/report"
)

// otherWords are what makers may call a measurement; left and right of them are
// plain words that mean the same.
var otherWords = strings.NewReplacer("_", " ", "-", " ", "circumference", "girth", "round", "girth", "width", "breadth",
	"biceps", "upper arm girth flexed", "bust", "chest", "interpupillary", "pupil", "seat", "hip", "buttock", "hip", "inseam", "crotch height")

var nicknames = map[string]Name{
	"height": "stature", "body height": "stature", "mass": "weight", "body weight": "weight", "ipd": "pupil distance",
	"upper arm girth": "upper arm girth flexed", "bicep": "upper arm girth flexed", "forearm girth": "forearm girth flexed",
	"arm girth": "upper arm girth flexed", "neck": "neck girth", "head": "head girth", "chest": "chest girth",
	"waist": "waist girth", "natural waist": "natural waist girth", "hip": "hip girth", "hips": "hip girth",
	"thigh": "thigh girth", "knee": "knee girth", "calf": "calf girth", "ankle": "ankle girth", "wrist": "wrist girth",
	"forearm": "forearm girth flexed", "inner leg": "crotch height", "inside leg": "crotch height", "shoe length": "foot length",
}

// Suggest gives the measurement that a wrong or misspelt name probably means,
// or "" if none is near.
func Suggest(typo string) Name {
	word := strings.Join(strings.Fields(strings.ToLower(typo)), " ")
	for _, w := range []string{word, otherWords.Replace(word)} {
		if n, ok := nicknames[w]; ok {
			return n
		}
	}
	word = plainWords(word)
	best, least := Name(""), 1+len(word)/3
	for _, d := range catalogue {
		if k := report.Edits(word, strings.ReplaceAll(string(d.Name), "-", " ")); k < least {
			best, least = d.Name, k
		}
	}
	return best
}

// plainWords puts the catalogue's words for those that makers use, a misspelt
// circumference too.
func plainWords(s string) string {
	words := strings.Fields(otherWords.Replace(s))
	for i, w := range words {
		if report.Edits(w, "circumference") <= 3 {
			words[i] = "girth"
		}
	}
	return strings.Join(words, " ")
}
