package pattern

// Material is the foam as the maker's own tests describe it.
type Material struct {
	Name      string
	Thickness float64 // mm; 0: each piece's own default
	K         float64 // where the neutral line lies, 0 (inner face) to 1 (outer face); 0.5 unless tested
	Shrink    float64 // share of length lost when heated; 0 until tested
	Stretch   float64 // share of its length by which heated foam stretches easily; 0: a rule of thumb
	Gather    float64 // and by which it gathers
	Density   float64 // kg/m³
	Cut       float64 // largest bevel that the tool can cut, rad from square
}

// easyStretch and easyGather are what foam bears easily when it is formed, of
// 95 % of a panel, and mostEasy times as much is the most (judgement: nothing is
// published for foam; it stretches more willingly than it gathers).
const (
	easyStretch = 0.05
	easyGather  = 0.03
	mostEasy    = 2
)

// strainLimits are what a formed panel is held to.
type strainLimits struct{ stretch, gather float64 }

func (m Material) strainLimits() strainLimits {
	l := strainLimits{m.Stretch, m.Gather}
	if l.stretch == 0 {
		l.stretch = easyStretch
	}
	if l.gather == 0 {
		l.gather = easyGather
	}
	return l
}

// load is a strain as a share of what foam bears easily; 0 where nothing is
// limited.
func (l strainLimits) load(stretch, gather float64) float64 {
	if l == (strainLimits{}) {
		return 0
	}
	return max(stretch/l.stretch, gather/l.gather)
}
