package photo_test

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/report"
)

// twoViews photographs a woman from the front and her left.
func twoViews(t *testing.T, s studio, seed uint64) []photo.Shot {
	chance := rand.New(rand.NewPCG(seed, 9))
	p := drawPerson(t, chance, body.Woman)
	front, side := s.shoot(p, photo.BodyFront, chance), s.shoot(p, photo.BodyLeft, chance)
	front.Name, side.Name = "front.jpg", "left.jpg"
	return []photo.Shot{front, side}
}

func mark(s *photo.Shot, name string) *photo.Mark {
	for i := range s.Marks {
		if s.Marks[i].Name == name {
			return &s.Marks[i]
		}
	}
	return &photo.Mark{}
}

func without(s *photo.Shot, names ...string) {
	var kept []photo.Mark
	for _, m := range s.Marks {
		if !strings.Contains(strings.Join(names, ","), m.Name) {
			kept = append(kept, m)
		}
	}
	s.Marks = kept
}

func tell(fs []report.Finding) string {
	var all []string
	for _, f := range fs {
		all = append(all, f.String())
	}
	return strings.Join(all, "\n")
}

// Each fault of a whole-body picture gives the finding that it should, and right
// pictures none of them.
func TestBody_faults(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(shots []photo.Shot)
		want  []string
	}{
		{"swapped knees", func(s []photo.Shot) {
			l, r := mark(&s[0], "left knee"), mark(&s[0], "right knee")
			l.At, r.At = r.At, l.At
		}, []string{"problem: front.jpg: The left knee stands to the left of the right knee", "exchange their places"}},
		{"all sides swapped", func(s []photo.Shot) {
			for i, m := range s[0].Marks {
				switch {
				case strings.HasPrefix(m.Name, "left "):
					s[0].Marks[i].Name = "right " + m.Name[5:]
				case strings.HasPrefix(m.Name, "right "):
					s[0].Marks[i].Name = "left " + m.Name[6:]
				}
			}
		}, []string{"problem: front.jpg: All left and right marks stand the wrong way round"}},
		{"a side picture labelled front", func(s []photo.Shot) { s[1].View = photo.BodyFront },
			[]string{"problem: left.jpg: It is labelled body front, but its marks lie as in a body left side picture"}},
		{"the wrong side", func(s []photo.Shot) { s[1].View = photo.BodyRight },
			[]string{"problem: left.jpg: It is labelled body right side, but its marks lie as in a body left side picture"}},
		{"a hip mark 15 cm off", func(s []photo.Shot) { mark(&s[0], "right hip side").At.X -= 230 },
			[]string{"doubt: right hip side in front.jpg: It stands"}},
		{"no feet", func(s []photo.Shot) { without(&s[0], "left toe", "right toe") },
			[]string{"doubt: front.jpg: The toes are not marked, so no height is read off it.", "needs 2.6 m to the camera"}},
		{"no crown", func(s []photo.Shot) { without(&s[0], "crown") }, []string{"front.jpg: The crown is not marked, so stature is not read off it."}},
		{"a hand before the hip", func(s []photo.Shot) { mark(&s[0], "left wrist").At.X = mark(&s[0], "left hip side").At.X + 10 },
			[]string{"doubt: left arm in front.jpg: The wrist hangs close to the hip", "the hand may cover the outline"}},
		{"a ruler of 600 mm written down as 300 in the side picture", func(s []photo.Shot) { s[1].Ruler.Length /= 2 },
			[]string{"problem: ruler in", "contradict each other"}},
		{"no focal length", func(s []photo.Shot) { s[0].F35 = 0 }, []string{"front.jpg: Its focal length is not known"}},
		{"a landmark of heads", func(s []photo.Shot) { s[0].Marks[0].Name = "left pupil" }, []string{"no landmark of a body has this name"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			shots := twoViews(t, usualStudio(3000), 3)
			_, fs, err := photo.Solve(context.Background(), shots)
			clean := tell(fs)
			if err != nil || report.Worst(fs) != report.Note {
				t.Fatalf("right pictures give %v\n%s", err, clean)
			}
			c.spoil(shots)
			_, fs, err = photo.Solve(context.Background(), shots)
			said := tell(fs)
			if err != nil {
				said += err.Error()
			}
			t.Log(said)
			for _, w := range c.want {
				if !strings.Contains(said, w) || strings.Contains(clean, w) {
					t.Errorf("found\n%s\nwant %q, which right pictures do not give", said, w)
				}
			}
		})
	}
}

// From too near, the finding says so and what it costs.
func TestBody_tooNear(t *testing.T) {
	_, fs, err := photo.Solve(context.Background(), twoViews(t, usualStudio(1500), 4))
	if err != nil || !strings.Contains(tell(fs), "From so near") || !strings.Contains(tell(fs), "Stand 3 m away") {
		t.Errorf("%v\n%s", err, tell(fs))
	}
}
