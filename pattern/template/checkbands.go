package template

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
		out = append(out, k.band(b, s, order))
	}
	if len(out) == 0 && len(order.names) > 0 && f.Lames == nil {
		k.at(f.Pos, "give it a band from ring to ring", "the template has rings and no bands")
	}
	return out
}

func (k *fileCheck) band(b fileBand, s Shape, order ringOrder) Band {
	out := Band{Name: b.Name.s, From: b.From.s, To: b.To.s, Bend: bend(b.Bend), When: k.condition(b.When), Line: b.Pos.line, Seams: k.seams(b.Seams)}
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

func (k *fileCheck) seams(f *fileSeams) Seams {
	if f == nil {
		return Seams{}
	}
	out := Seams{Count: k.number(f.Count), Start: k.rad(f.Start), Within: k.mm(f.Within), Most: k.number(f.Most)}
	for _, a := range f.At {
		out.At = append(out.At, k.rad(a))
	}
	for _, p := range f.Panels {
		out.Names = append(out.Names, p.s)
	}
	switch {
	case len(f.At) > 0 && f.Count.set():
		k.at(f.Pos, "leave one of them out", "seams stand at angles or are counted, not both")
	case f.Start.set() && !f.Count.set():
		k.at(f.Start.at, "add count, or list the angles under at", "start says where counted seams begin")
	case f.Within.set() && !f.Count.set():
		k.at(f.Within.at, "add count, the fewest that there are", "within says how near counted seams must bring the panels")
	case len(f.At) > 0 && len(f.Panels) > len(f.At)+1:
		k.at(f.Pos, "name one a seam, or one more where the shell is open", "%d panels are named, and %d seams make no more than %d", len(f.Panels), len(f.At), len(f.At)+1)
	case f.Most.set() && !f.Within.set():
		k.at(f.Most.at, "add within, or leave it out", "most caps what within asks for")
	}
	return out
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
		UpperOut: l.Over.s != "lower over upper", Pivot: l.Pivot.on, Bend: bend(l.Bend), Seams: k.seams(l.Seams), When: k.condition(l.When), Line: l.Pos.line}
}
