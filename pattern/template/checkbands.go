package template

import "fmt"

// ringOrder gives a shape's rings their places along the axis.
type ringOrder struct {
	at    map[string]int
	names []string
}

func orderOf(f fileShape) ringOrder {
	o := ringOrder{at: map[string]int{}}
	for i, r := range f.Rings {
		o.at[r.Name.s] = i
		o.names = append(o.names, r.Name.s)
	}
	return o
}

func (k *fileCheck) bands(f fileShape, s Shape) []Band {
	order := orderOf(f)
	var out []Band
	for _, b := range f.Bands {
		out = append(out, k.band(b, f, s, order))
	}
	if len(out) == 0 && len(order.names) > 0 && f.Lames == nil {
		k.at(f.Pos, "give it a band from ring to ring", "the template has rings and no bands")
	}
	return out
}

func (k *fileCheck) band(b fileBand, f fileShape, s Shape, order ringOrder) Band {
	out := Band{Name: b.Name.s, From: b.From.s, To: b.To.s, Bend: bend(b.Bend), When: k.condition(b.When), Line: b.Pos.line, Seams: k.seams(b.Seams, f)}
	if b.To.s == "cap" && len(order.names) > 0 {
		out.To = order.names[len(order.names)-1]
		k.toCap(b, s.Cap)
		k.ringNamed(b.From, order)
	} else {
		k.upwards(b.From, b.To, order, "bands go")
	}
	if out.Bend == "along" && b.Seams == nil {
		k.at(b.Pos, "write for example seams: {count: 8}", "a band that bends along the axis needs seams")
	}
	return out
}

func bend(t text) string {
	if t.set() {
		return t.s
	}
	return "around"
}

// toCap checks a band that closes the shell.
func (k *fileCheck) toCap(b fileBand, cap *Cap) {
	if cap == nil || cap.Kind == "plate" {
		k.at(b.To.at, "write cap: {kind: point} beside the bands, or name a ring", "a band goes to the cap only where that is a point, a ridge or a dome")
	}
}

// upwards checks that a run goes from one ring to a later one.
func (k *fileCheck) upwards(from, to text, order ringOrder, what string) {
	a, okA := k.ringNamed(from, order)
	b, okB := k.ringNamed(to, order)
	if okA && okB && b <= a {
		k.at(to.at, what+" up along the axis", "ring %q does not lie above ring %q", short(to.s), short(from.s))
	}
}

func (k *fileCheck) ringNamed(t text, order ringOrder) (int, bool) {
	i, ok := order.at[t.s]
	if !ok && t.set() {
		k.at(t.at, didYouMean(t.s, order.names), "there is no ring %q", short(t.s))
	}
	return i, ok
}

func (k *fileCheck) seams(f *fileSeams, s fileShape) Seams {
	if f == nil {
		return Seams{}
	}
	out := Seams{Count: k.number(f.Count), Start: k.rad(f.Start), Within: k.mm(f.Within), Most: k.number(f.Most)}
	for _, a := range f.At {
		out.At = append(out.At, k.rad(a))
	}
	for _, p := range f.Panels {
		if contains(out.Names, p.s) {
			k.at(p.at, "give each panel a name of its own", "two panels of one band are called %q", short(p.s))
		}
		out.Names = append(out.Names, p.s)
	}
	switch {
	case len(f.At) > 0 && f.Count.set():
		k.at(f.Pos, "leave one of them out", "seams stand at angles or are counted, not both")
	case f.Start.set() && !f.Count.set():
		k.at(f.Start.at, "add count, or list the angles under at", "start says where counted seams begin")
	case f.Within.set() && !f.Count.set():
		k.at(f.Within.at, "add count, the fewest that there are", "within says how near counted seams must bring the panels")
	case f.Most.set() && !f.Within.set():
		k.at(f.Most.at, "add within, or leave it out", "most caps what within asks for")
	case len(f.At) > 0 && len(f.Panels) > 0:
		k.eachNamed(f, s)
	}
	return out
}

// eachNamed wants as many names as seams at angles make panels: one for each seam
// round a whole turn, and one more where the shell is open. A gap may stand at one of
// the seams.
func (k *fileCheck) eachNamed(f *fileSeams, s fileShape) {
	names, seams := len(f.Panels), len(f.At)
	least, most := seams, seams
	if s.Span != nil {
		least, most = seams+1, seams+1
	} else if s.Gap != nil {
		most++
	}
	if names >= least && names <= most {
		return
	}
	mend := "write the panels' names from the first seam on, all round"
	switch {
	case s.Span != nil:
		mend = "write the panels' names from one edge of the shell to the other"
	case s.Gap != nil:
		mend = "write the panels' names from the first seam on, or from the edge at the gap on where no seam stands there"
	}
	k.at(f.Panels[0].at, mend, "%s for the %s that %s here", numbered(names, "name"), numbered(most, "panel"), making(seams))
}

func making(seams int) string {
	if seams == 1 {
		return "1 seam makes"
	}
	return fmt.Sprintf("%d seams make", seams)
}

func numbered(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// lames compiles a run of lames and checks that no band lies under it.
func (k *fileCheck) lames(f fileShape) *Lames {
	l := f.Lames
	if l == nil {
		return nil
	}
	order := orderOf(f)
	k.upwards(l.From, l.To, order, "lames go")
	for _, b := range f.Bands {
		from, to := order.at[b.From.s], order.at[b.To.s]
		if from < order.at[l.To.s] && order.at[l.From.s] < to {
			k.at(l.From.at, "let the lames begin or end at one of its rings", "the lames and the band %q lie between the same rings", short(b.Name.s))
		}
	}
	return &Lames{Name: l.Name.s, From: l.From.s, To: l.To.s, Count: k.number(l.Count), Overlap: k.mm(l.Overlap), Through: k.rad(l.Through),
		UpperOut: l.Over.s != "lower over upper", Pivot: l.Pivot.on, Bend: bend(l.Bend), Seams: k.seams(l.Seams, f), When: k.condition(l.When), Line: l.Pos.line}
}
