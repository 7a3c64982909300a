package costume

import (
	_ "embed"
	"fmt"
	"strings"
)

// suitPieces are the default suit, in the order in which one dresses: from the
// feet up, the hands last.
var suitPieces = []string{
	"sabaton", "greave", "poleyn", "cuisse", "backplate", "breastplate", "faulds", "tassets",
	"gorget", "rerebrace", "couter", "vambrace", "pauldron", "visored-helmet", "visor", "gauntlet",
}

// suitLines are what stands under a piece of the suit.
var suitLines = map[string]string{
	"gauntlet": "    settings: {lames: 5}   # comes before the look: with fewer, gaps open when the fist closes\n",
}

// Suit lists the pieces of the default suit.
func Suit() []string {
	known := NewCatalogue(nil).Names()
	var out []string
	for _, name := range suitPieces {
		if contains(known, name) {
			out = append(out, name)
		}
	}
	return out
}

//go:embed suit/wearer.yaml
var suitWearer []byte

// DemoSuit makes a folder with the default suit for an invented wearer whose
// sizes were all taken by tape. Nothing that is there is overwritten.
func DemoSuit(dir string) error {
	return start(dir, map[string][]byte{WearerFile: suitWearer, CostumeFile: []byte(suitFile("Gate warden", "A4"))})
}

// suitFile is a costume.yaml with the default suit.
func suitFile(title, paper string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `# The default suit: every piece of it, in the order of dressing. Take out what you do not want.
format: 1
title: %s
paper: %s         # or Letter, A3, tabloid, "300 x 450 mm", "roll 610 mm"

material:
  density: 100    # kg per cubic metre
  # thickness: 5 mm   # for all pieces; without it each takes the thickness that suits it
  # Tested your foam with the scrap test? Then write k and shrink here.

# What holds for every piece that has such a setting. A piece's own "settings"
# come first. Take the # signs out, and change what you like; "tasset check" then
# tells what no longer fits together, and what to do about it:
# look:
#   trim: 10 mm       # width of a raised edge trim; 0 mm is none
#   lames: 4          # how many lames a run of them has
#   crease: 8 mm      # how far a keel or a ridge stands out
#   thickness: 5 mm   # of the foam

# "tasset pieces" lists what can be made, "tasset pieces gorget" its settings,
# "tasset picture" draws the suit on its wearer.
pieces:
`, title, paper)
	for _, name := range Suit() {
		fmt.Fprintf(&b, "  - piece: %s\n%s", name, suitLines[name])
	}
	return b.String()
}
