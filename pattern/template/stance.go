package template

// What formulas call how much further forward over the hips than usual the wearer's
// trunk stands at a place, mm: for rings that are drawn, which do not go with the body
// of themselves.
const (
	ChestForward     = "chest_forward"
	WaistForward     = "waist_forward"
	ShouldersForward = "shoulders_forward"
)

var stances = []string{ChestForward, WaistForward, ShouldersForward}
