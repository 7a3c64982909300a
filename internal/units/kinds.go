package units

import (
	"fmt"
	"math"
	"strconv"
)

// Every kind of number has one way to be written on a print, so that one thing is
// one number wherever it stands:
//
//	Format         what a tape measures: sizes, seams, straps, widths
//	FormatFine     what is less than a tape shows: clearances, deviations
//	FormatFoam     the thickness of foam, as it is sold
//	FormatSetting  a setting, as it may be typed
//	FormatArea     openings; FormatSheet what foam is bought by
//	FormatStrain   how much foam stretches or gathers; FormatShare a limit of that
//	Parts          lengths that add up to one that is written too

// FormatFoam writes a thickness as foam is sold: in millimetres to a tenth; where u
// is Inch, in sixteenths of an inch if it is one of those, else in millimetres too.
func FormatFoam(mm float64, u Unit) string {
	if s, ok := sixteenths(mm); ok && u == Inch {
		return s
	}
	return decimal(mm, 1) + " mm"
}

// sameFoam is how far a thickness may lie from a sixteenth of an inch and be sold as
// it, mm (foam is made no nearer; common practice, no source).
const sameFoam = 0.1

// sixteenths writes a length that is some sixteenths of an inch.
func sixteenths(mm float64) (string, bool) {
	n := math.Round(mm / 25.4 * 16)
	return fraction(mm/25.4, 16) + " in", n != 0 && math.Abs(mm-n/16*25.4) <= sameFoam
}

// FoamDown is the greatest thickness up to mm that FormatFoam writes as it is in the
// unit: of whole millimetres, or sixteenths of an inch. It is 0 if there is none.
func FoamDown(mm float64, u Unit) float64 {
	step := 1.0
	if u == Inch {
		step = 25.4 / 16
	}
	return max(math.Floor(mm/step+1e-9)*step, 0)
}

// FormatSetting writes a length that is set: as FormatFine does, but sixteenths of an
// inch as such.
func FormatSetting(mm float64, u Unit) string {
	if s, ok := sixteenths(mm); ok && u == Inch {
		return s
	}
	return FormatFine(mm, u)
}

const squareFoot = 304.8 * 304.8 // mm²

// FormatArea writes a small area: whole square centimetres, or tenths of a square
// inch where u is Inch.
func FormatArea(mm2 float64, u Unit) string {
	if u == Inch {
		return decimal(mm2/(25.4*25.4), 1) + " in²"
	}
	return decimal(mm2/100, 0) + " cm²"
}

// FormatSheet writes an area that is bought, rounded up: hundredths of a square
// metre, or tenths of a square foot where u is Inch.
func FormatSheet(mm2 float64, u Unit) string {
	if u == Inch {
		return fmt.Sprintf("%.1f sq ft", math.Ceil(10*mm2/squareFoot)/10)
	}
	return fmt.Sprintf("%.2f m²", math.Ceil(100*mm2/1e6)/100)
}

// Parts writes lengths as Format does, each rounded so that those written add up to
// their sum as it is written.
func Parts(mm []float64, u Unit) []string {
	var out []string
	sum, written := 0.0, 0.0
	for _, v := range mm {
		sum += v
		n := steps(sum, u) - written
		written += n
		out = append(out, Format(n*step(u), u))
	}
	return out
}

// Rest writes what is left of a length, so that it and what was taken away add up to the
// length as they are written.
func Rest(mm float64, u Unit, taken ...float64) string {
	n := steps(mm, u)
	for _, v := range taken {
		n -= steps(v, u)
	}
	return Format(n*step(u), u)
}

// step is what a length that Format writes is a multiple of, mm.
func step(u Unit) float64 {
	if u == Inch {
		return 25.4 / 8
	}
	return 1
}

// steps is how many steps long Format writes a length: it rounds a half to even, and
// centimetres as they are.
func steps(mm float64, u Unit) float64 {
	switch u {
	case Inch:
		return math.Round(mm / 25.4 * 8)
	case CM:
		v, _ := strconv.ParseFloat(centimetres(mm/10), 64)
		return math.Round(10 * v)
	}
	return math.RoundToEven(mm)
}

// LeastStrain is the least share of its length that foam is told to stretch or gather by
// (judgement: less is within what the knife strays).
const LeastStrain = 0.0005

// FormatStrain writes how much foam must stretch or gather, a share of its length: rounded
// up, to half a percent and from 10 % on to one, so that no text asks for less than is
// needed; less than LeastStrain is 0.
func FormatStrain(share float64) string {
	step := 0.005
	switch {
	case share < LeastStrain:
		return "0 %"
	case share > 0.1:
		step = 0.01
	}
	return FormatShare(math.Ceil(share/step-1e-9) * step)
}

// FormatShare writes a share that is set, such as what foam bears easily, in percent.
func FormatShare(share float64) string { return decimal(100*share, 2) + " %" }
