package report

import "strings"

// Nearest is the known word that a mistyped one most probably means, or "" if
// none is near. Ties go to the earlier one.
func Nearest(typed string, known []string) string {
	word := plain(typed)
	best, least := "", 2+len(word)/4
	for _, k := range known {
		if d := Edits(word, plain(k)); d < least {
			best, least = k, d
		}
	}
	return best
}

// plain takes out what people write one way or another.
func plain(s string) string {
	return strings.NewReplacer("-", " ", "_", " ").Replace(strings.ToLower(strings.TrimSpace(s)))
}

// Edits is how many letters must be put in, taken out, changed or swapped with
// their neighbour to turn a into b (optimal string alignment).
func Edits(a, b string) int {
	var before, last []int
	for i := range len(a) + 1 {
		row := make([]int, len(b)+1)
		for j := range row {
			switch {
			case i == 0:
				row[j] = j
			case j == 0:
				row[j] = i
			default:
				row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+differ(a[i-1], b[j-1]))
				if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
					row[j] = min(row[j], before[j-2]+1)
				}
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}

func differ(a, b byte) int {
	if a == b {
		return 0
	}
	return 1
}
