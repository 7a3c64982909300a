package body

// A regression predicts a girth that the survey did not take, from sizes that
// it did, by least squares over another set of measured people.
type regression struct {
	terms     map[Name]float64 // mm per mm (per kg for weight)
	intercept float64          // mm
	residual  float64          // standard deviation of what it leaves, mm
}

// regressions by name, for men and for women. Source: fits of our own to the
// 507 active adults (247 men, 260 women) of Heinz et al., "Exploring
// Relationships in Body Dimensions", J. Statistics Education 11 (2), 2003.
// Elbow, underbust and armscye girths were measured there by nobody: they are
// asked for, never estimated.
var regressions = map[Name][2]regression{
	"knee girth": {
		{map[Name]float64{"stature": .034, "weight": .715, "thigh girth": .054, "calf girth": .344}, 96.4, 13.6},
		{map[Name]float64{"stature": .034, "weight": 1.095, "thigh girth": .084, "calf girth": .328}, 67.7, 12.8},
	},
	"natural waist girth": {
		{map[Name]float64{"stature": -.231, "weight": 3.863, "waist girth": .599}, 428.3, 35.6},
		{map[Name]float64{"stature": -.274, "weight": 5.431, "waist girth": .259}, 603.6, 30.3},
	},
}

// predict gives the regression's value for one person.
func (r regression) predict(size func(Name) float64) float64 {
	v := r.intercept
	for _, d := range catalogue { // fixed order: the sum must not depend on the map's
		if k, ok := r.terms[d.Name]; ok {
			v += k * size(d.Name)
		}
	}
	return v
}
