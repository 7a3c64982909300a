package template

import "strings"

// Said is a text with lengths of the piece in it, in braces: "a groove {0.5 * rod} deep".
// It has one word more than lengths: the words stand before, between and after them.
type Said struct {
	Words   []string
	Lengths []Formula // mm
}

// In is the text with its lengths written by write.
func (s Said) In(env Env, write func(mm float64) string) (string, error) {
	var out strings.Builder
	for i, w := range s.Words {
		out.WriteString(w)
		if i < len(s.Lengths) {
			v, err := s.Lengths[i].Eval(env)
			if err != nil {
				return "", err
			}
			out.WriteString(write(v))
		}
	}
	return out.String(), nil
}

// said compiles a text with lengths in braces.
func (c compiler) said(t text) Said {
	const advice = "write a length between braces, as in {rod}"
	var out Said
	rest, col := t.s, t.at.col
	for {
		before, after, more := strings.Cut(rest, "{")
		if strings.Contains(before, "}") {
			c.at(place{t.at.line, col}, advice, "a brace is closed in %q that was not opened", short(t.s))
			return Said{}
		}
		out.Words = append(out.Words, before)
		if !more {
			return out
		}
		col += len([]rune(before)) + 1
		formula, behind, closed := strings.Cut(after, "}")
		switch {
		case !closed, strings.Contains(formula, "{"):
			c.at(place{t.at.line, col - 1}, advice, "a brace is opened in %q and not closed", short(t.s))
			return Said{}
		case strings.TrimSpace(formula) == "":
			c.at(place{t.at.line, col - 1}, advice, "nothing stands between two braces in %q", short(t.s))
			return Said{}
		}
		out.Lengths = append(out.Lengths, c.mm(lengthF{text{formula, place{t.at.line, col}}}))
		rest, col = behind, col+len([]rune(formula))+1
	}
}
