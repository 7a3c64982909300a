package booklet

import (
	"fmt"

	"tasset/internal/draw"
)

// The safety page's sizes: the text is read at arm's length.
const (
	safetyText  = 3.3 // mm, least height of the font
	safetyLarge = 3.9 // and the most
	smallPrint  = 2.1 // mm, least, for sources
)

const safetyFirst = "This is costume, not protective equipment. The rules of your country, of the place and of the event, and the advice of people licensed for the work (doctor, fire officer, safety officer), come before this page."

// safetyPoints are what a maker and a wearer must know. Their sources are
// named in safetySources, by number.
var safetyPoints = []string{
	"Nothing made from these templates protects. Foam armour passed no impact test: never wear it in place of a helmet or guard for riding, sport or work.",
	"Read the tin and its safety data sheet before opening any glue. Choose water-based contact cement where you can, and none with n-hexane, which can harm nerves.",
	"Use solvent glue outdoors or in a strong flow of fresh air. A headache or a dizzy feeling means stop and go outside. Do not use it while pregnant.",
	"Glue vapour is heavier than air, creeps along the floor and can catch fire far away. No flame, cigarette, heater, pilot light or heat gun in the room until the smell has gone.",
	"A dust mask does not stop glue vapour. If a respirator is needed, fit the cartridge that the glue's maker names; it does not replace fresh air. Wear gloves made for that solvent and change them often.",
	"Warm foam only until it is soft and faintly shiny, and keep the gun moving. Smoke or a smell of vinegar means too hot: stop and air the room. Never burn scraps.",
	"Air from a heat gun can pass 500 °C. Wear heat-proof gloves, never heat a piece on a body, set the hot nozzle down on a tile, and finish heating before any glue is opened.",
	"Cut on a mat with a fresh blade, away from yourself, in several light passes, the other hand out of its path. Old blades go into a hard box.",
	"For sanding and rotary tools: goggles and a particle mask (N95 or FFP2). Tie back hair, strings and sleeves, and take cut-resistant gloves off.",
	"Try out what you can see. With a view under about 75° wide or 48° high, walk slowly and with a helper. Never drive, ride, or take stairs alone in a closed helmet.",
	"Leave mouth, neck and ears open to fresh air. Helmet off at the first headache, stuffy feeling or dizziness, and at least every 20 to 30 minutes.",
	"Armour is hot. Drink often, rest somewhere cool, and have a friend near who knows the signs. Confusion, fainting, or no better after 30 minutes of cooling: call the emergency number.",
	"You must be able to take off every piece by yourself within seconds. Nothing round the neck may hold fast: use closures that pull open.",
	"Stay well away from open flame, stage fire and people who smoke. This foam burns, and so do paint and glue on it.",
	"For children, an adult does the gluing, heating and cutting and stays close while it is worn. No cords at the neck; no loose small parts or magnets for anyone under three.",
	"Ask the organiser about props, masks and sizes beforehand. With asthma, heart trouble, epilepsy or any other doubt about your health, ask a doctor before wearing closed headgear.",
}

const safetySources = "Where this comes from, by number. 1: 16 CFR 1203; EN 397; Regulation (EU) 2016/425. 2, 3: HSE INDG273; OSHA and NIOSH on n-hexane; ICSC 0078. 4: ICSC 0078; safety data sheets of contact cements. 5: NIOSH Pocket Guide; 29 CFR 1910.134; HSE INDG380. 6: studies of how EVA breaks down (acetic acid). 7: ISO 13732-1; tool makers' manuals. 8: US labour statistics on hand tools; EN 388. 9: OSHA on dust and eye protection. 10: Percept. Mot. Skills 107 (2008) 811; the grades are ours. 11: Appl. Ergonomics 36 (2005) 625; OSHA on carbon dioxide; the interval is common practice. 12: NIOSH on heat stress; NHS and CDC advice. 13: EN 397 (strap release); 16 CFR 1120. 14: fire tests of EVA foam; CPSC on costumes. 15: 16 CFR 1120 and 1501. 16: common practice."

// Safety is the page of safety in plain words that goes with every output, in
// the largest font that fits: A4, US Letter and anything larger have at least
// safetyText, down to A5 at least smallPrint.
func Safety(width, height float64) draw.Page {
	size := safetyLarge
	page, left := safetyAt(width, height, size)
	for left < 0 && size > smallPrint {
		size = max(size-0.1, smallPrint)
		page, left = safetyAt(width, height, size)
	}
	return page
}

// safetyAt sets the page in a font, and tells how much height is left over.
func safetyAt(width, height, size float64) (draw.Page, float64) {
	c := column{left: margin, right: width - margin, y: height - margin, size: size}
	c.heading(1.9*size, "Make it safely, wear it safely")
	c.space(0.3 * size)
	c.bold = true
	c.paragraph(0, safetyFirst)
	c.bold = false
	c.space(0.55 * size)
	for i, s := range safetyPoints {
		c.numbered(2.6*size, fmt.Sprint(i+1), s)
		c.space(0.32 * size)
	}
	foot := column{left: c.left, right: c.right, size: smallPrint, color: grey}
	lines := len(wrap(safetySources, foot.right-foot.left, foot.size, false))
	foot.y = margin + float64(lines)*leading*foot.size + 1
	foot.rule()
	foot.space(1)
	foot.paragraph(0, safetySources)
	left := c.y - (margin + float64(lines)*leading*foot.size + 1)
	return draw.Page{
		Width: width, Height: height, Title: "Safety",
		Items: append(c.items, foot.items...),
	}, left
}
