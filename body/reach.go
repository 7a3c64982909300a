package body

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/report"
)

// How far the survey reaches: people of 18 to 45 years and a body mass index of
// 18.5 to 32, of at least 16 years and 1450 mm. Beyond, its deviations are too
// small. Source: stature and weight to girth on 5533 US adults (NHANES 2017-18):
// 90 to 95 % of people in the 95 % interval inside that range, 69 to 86 %
// outside, where errors spread 1.4 to 1.7 times as wide.
const (
	youngest, oldest   = 18, 45
	leanest, stoutest  = 18.5, 32
	grownAge           = 16
	grownStature       = 1450 // mm
	widenOne, widenTwo = 1.5, 1.7
	childSD            = 0.25 // of the value: far too wide for anything but a draft
	headGirthWiden     = 1.3
	childSlips         = 3 // how much wider a child's sizes may lie to those of adults (judgement): its build is another, but a slip by ten or by two stays one
)

// reach says how an estimate's deviation widens for one person.
type reach struct {
	widen     float64
	child     bool
	young     bool // the age says so
	headGirth bool // it is measured
	findings  []report.Finding
}

// slip tells whether a size lies too far off what the survey's people say of it. Of
// a child by its age only what no other build explains does. Where the stature alone
// says that this is a child, a size does too of which another reading fits: then the
// slip may be there.
func (r reach) slip(x suspect) bool {
	most := float64(slipDeviations)
	if r.child && (r.young || x.probably == "") {
		most *= childSlips
	}
	return math.Abs(x.z) > most
}

// factor multiplies the deviation of an estimate, which rel gives as a share of
// its value. A measured head girth tells head length and breadth less well than
// the survey thinks, where hair and the calliper's pressure differ (source: 3997
// heads of the 2003 US respirator survey: 86 to 90 % in the 95 % interval).
func (r reach) factor(n Name, rel float64) float64 {
	k := r.widen
	if r.headGirth && (n == "head length" || n == "head breadth") {
		k *= headGirthWiden
	}
	if r.child {
		k = max(k, childSD/rel)
	}
	return k
}

// reach judges a person by stated age and by stature and weight, measured or as
// estimated from what was measured.
func (s *Survey) reach(tape Tape, o observed, c conditional) reach {
	r := reach{widen: 1}
	_, r.headGirth = o.origin["head girth"]
	size := func(n Name) float64 {
		for i, m := range o.names {
			if m == n {
				return o.values[i]
			}
		}
		return math.Exp(c.mean[s.row[n]])
	}
	stature := size("stature")
	if !tape.grown() || stature < grownStature {
		r.child, r.young = true, !tape.grown()
		r.findings = append(r.findings, childFinding(tape, stature))
		return r
	}
	var outside []string
	if tape.Age > 0 && (tape.Age < youngest || tape.Age > oldest) {
		outside = append(outside, fmt.Sprintf("%.0f years", tape.Age))
	}
	if bmi := size("weight") / (stature * stature * 1e-6); bmi < leanest || bmi > stoutest {
		outside = append(outside, fmt.Sprintf("a body mass index of %.0f kg/m²", bmi))
	}
	r.widen = [...]float64{1, widenOne, widenTwo}[len(outside)]
	if len(outside) > 0 {
		f := report.Notef("survey", "The survey that sizes are estimated from holds few people of %s; every estimate's ± is taken %g times as wide.",
			strings.Join(outside, " and "), r.widen)
		f.Perhaps = "Measure more of what your pieces need."
		r.findings = append(r.findings, f)
	}
	return r
}

func childFinding(tape Tape, stature float64) report.Finding {
	who, perhaps := fmt.Sprintf("%.0f years", tape.Age), "Measure every size that the pieces need."
	if tape.grown() {
		said := fmt.Sprintf("%.0f mm", stature)
		for _, e := range tape.Entries {
			if e.Name == "stature" {
				said = typed(e)
			}
		}
		who = "a stature of " + said
		perhaps += " If the wearer is grown up, look at the stature first; of a child, write the age."
	}
	f := report.Problemf("survey", "There are no children in the survey that sizes are estimated from, and nobody of %s; no estimate here is good enough to cut from.", who)
	f.Perhaps = perhaps
	return f
}

// grown tells whether no age says that this is a child.
func (t Tape) grown() bool { return !(t.Age > 0 && t.Age < grownAge) }
