package costume

import (
	"slices"
	"strings"

	"tasset/body/photo"
)

// LandmarkRow is a landmark, or a pair of them, as the maker reads it.
type LandmarkRow struct {
	Of    string   `json:"of"`   // "head" or "body": which pictures show it
	Name  string   `json:"name"` // "chin"; "left and right pupil"
	Names []string `json:"names"`
	Views []string `json:"views"` // without "head" or "body"; "own side" is the left side for a left landmark
	HowTo string   `json:"howTo"`
}

// Landmarks lists what can be marked, pairs on one line.
func Landmarks() []LandmarkRow {
	return append(landmarkRows("head", photo.HeadLandmarks()), landmarkRows("body", photo.BodyLandmarks())...)
}

func landmarkRows(of string, list []photo.Landmark) []LandmarkRow {
	var out []LandmarkRow
	for _, l := range list {
		name, isRight := strings.CutPrefix(l.Name, "right ")
		if isRight {
			continue // it stands with the left one
		}
		row := LandmarkRow{Of: of, Name: l.Name, Names: []string{l.Name}, HowTo: l.HowTo}
		if l.Pair != "" {
			name = strings.TrimPrefix(name, "left ")
			row.Name, row.Names = "left and right "+name, append(row.Names, l.Pair)
		}
		for _, v := range l.Views {
			if word := viewWord(of, l, v); !slices.Contains(row.Views, word) {
				row.Views = append(row.Views, word)
			}
		}
		out = append(out, row)
	}
	return out
}

// viewWord is a view in a word or two; a landmark of a pair may be seen from its
// own side alone.
func viewWord(of string, l photo.Landmark, v photo.View) string {
	word := strings.TrimPrefix(v.String(), of+" ")
	if own, isLeft := strings.CutPrefix(word, "left "); isLeft {
		if l.Pair != "" && !l.SeenIn(v+1) { // the same view of the right side
			return "its own " + own
		}
		return own
	}
	return strings.TrimPrefix(word, "right ")
}
