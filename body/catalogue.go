package body

import "strings"

// Kind is what sort of size a measurement is; it decides how a layer is taken
// off it and which slips it can suffer.
type Kind int

// The kinds. An arc runs over the body without closing.
const (
	KindGirth Kind = iota
	KindArc
	KindLength
	KindBreadth
	KindDepth
	KindHeight
	KindWeight
)

// String is the kind as a word.
func (k Kind) String() string {
	return [...]string{"girth", "arc", "length", "breadth", "depth", "height", "weight"}[k]
}

// Description is what is known about a measurement before anyone is measured.
type Description struct {
	Name     Name
	HowTo    string  // how to take it, in one sentence
	Kind     Kind    //
	Region   Segment // where it is taken; "" is the whole body
	Sided    bool    // taken on a left and a right limb
	Advanced bool    // makers hardly ever tape it; lists show it last
	TapeSD   float64 // standard deviation of a maker's own reading, mm (kg for weight)
	Survey   string  // column or difference of columns of the 2012 US Army survey; "" if it has none
	Low      float64 // below this, or above High, nobody is: the entry is refused; 0: as the survey says
	High     float64
}

// Unit is the unit that a value of this measurement has.
func (d Description) Unit() string {
	if d.Kind == KindWeight {
		return "kg"
	}
	return "mm"
}

// Catalogue lists every measurement, from head to foot, those that makers
// hardly ever tape at the end.
func Catalogue() []Description { return append([]Description(nil), catalogue...) }

// Describe gives what is known about a measurement.
func Describe(n Name) (Description, bool) {
	i, ok := order[n]
	if !ok {
		return Description{}, false
	}
	return catalogue[i], true
}

// Ident is the name as formulas write it: "head girth" is head_girth.
func (n Name) Ident() string { return strings.NewReplacer(" ", "_", "-", "_").Replace(string(n)) }

// NameOf gives the measurement that a formula's identifier stands for.
func NameOf(ident string) (Name, bool) {
	n, ok := byIdent[ident]
	return n, ok
}

var order, byIdent = index(catalogue)

// index gives each name its place in the catalogue, and each identifier its name.
func index(ds []Description) (map[Name]int, map[string]Name) {
	place, ident := map[Name]int{}, map[string]Name{}
	for i, d := range ds {
		place[d.Name] = i
		ident[d.Name.Ident()] = d.Name
	}
	return place, ident
}
