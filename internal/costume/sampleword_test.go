package costume

import (
	"regexp"
	"strings"
	"testing"
)

// What the message about a word in place of a length gives as an example is accepted there.
func TestExamples_wouldBeAccepted(t *testing.T) {
	const wearer = "format: 1\nunits: UNIT\nmeasurements: {stature: 171 cm}\n"
	const costume = "format: 1\nunits: UNIT\n"
	sample := regexp.MustCompile(`such as ([^,;\n]+?)(?:,| or |;|$)`)
	for _, c := range []struct {
		file, text string
	}{
		{WearerFile, wearer + "posture: {chest forward: WORD}\n"},
		{WearerFile, wearer + "posture: {shoulders forward: WORD}\n"},
		{WearerFile, wearer + "wears: {undersuit: WORD}\n"},
		{WearerFile, wearer + "wears: {cape: {thickness: WORD, on: [torso]}}\n"},
		{CostumeFile, costume + "material: {thickness: WORD}\npieces: [{piece: helm}]\n"},
		{CostumeFile, costume + "look: {thickness: WORD}\npieces: [{piece: helm}]\n"},
		{CostumeFile, costume + "printer: {across: WORD, down: 100 mm}\npieces: [{piece: helm}]\n"},
		{CostumeFile, costume + "pieces: [{piece: gorget, settings: {collar: WORD}}]\n"},
		{CostumeFile, costume + "pieces: [{piece: breastplate, settings: {arm drop: WORD}}]\n"},
		{CostumeFile, costume + "pieces: [{piece: vambrace, adjust: {wrist girth: WORD}}]\n"},
	} {
		for _, unit := range []string{"cm", "mm", "in"} {
			read := func(word string) error {
				text := strings.NewReplacer("UNIT", unit, "WORD", word).Replace(c.text)
				if c.file == WearerFile {
					_, err := ReadWearer(c.file, []byte(text))
					return err
				}
				_, err := ReadCostume(c.file, []byte(text), NewCatalogue(nil))
				return err
			}
			err := read("much")
			if err == nil {
				t.Errorf("a word was read in %q", c.text)
				continue
			}
			m := sample.FindStringSubmatch(err.Error())
			if m == nil {
				t.Errorf("no example in %q", err)
				continue
			}
			if again := read(m[1]); again != nil {
				t.Errorf("of a word it says %q; of that example it says %q", err, again)
			}
		}
	}
}
