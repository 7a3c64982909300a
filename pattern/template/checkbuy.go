package template

// bought compiles what is bought for a piece beside its foam.
func (k *fileCheck) bought() []Bought {
	var out []Bought
	for _, f := range k.f.Buy {
		k.filled(f.Name, "name", "say in plain words what is asked for in a shop")
		k.filled(f.Text, "text", "say what it is for")
		out = append(out, Bought{Name: f.Name.s, Text: k.said(f.Text), Count: k.number(f.Count),
			Thickness: k.mm(f.Thick), Width: k.mm(f.Width), Length: k.mm(f.Length), When: k.condition(f.When), Line: f.Pos.line})
	}
	return out
}

// doubts compiles what a maker is told of settings that do not go together.
func (k *fileCheck) doubts() []Doubt {
	var out []Doubt
	for _, f := range k.f.Doubts {
		k.filled(f.Text, "text", "say what is wrong")
		k.filled(f.Perhaps, "perhaps", "say what to do about it")
		d := Doubt{When: k.condition(f.When), Text: k.said(f.Text), Perhaps: k.said(f.Perhaps), Line: f.Pos.line}
		if d.When.prog != nil && len(d.When.uses) == 0 {
			k.at(f.When.at, "compare one of its settings", "a doubt that reads nothing of the piece is there for all or for none")
		}
		out = append(out, d)
	}
	return out
}

// filled holds a text to having words.
func (k *fileCheck) filled(t text, key, advice string) {
	if t.set() && t.s == "" {
		k.at(t.at, advice, "the %s is empty", key)
	}
}

// marks compiles notes to the maker: at places of the shell, or on flat parts.
func (k *fileCheck) marks() []Mark {
	var out []Mark
	for _, f := range k.f.Marks {
		m := Mark{Name: f.Name.s, Text: k.said(f.Text), Angle: k.rad(f.Angle), Level: k.mm(f.Level),
			X: k.mm(f.X), Y: k.mm(f.Y), When: k.condition(f.When), Line: f.Pos.line}
		for _, on := range f.On {
			if k.flatNamed(on, "marked") {
				m.On = append(m.On, on.s)
			}
		}
		k.markPlaced(f)
		out = append(out, m)
	}
	return out
}

func (k *fileCheck) markPlaced(f fileMark) {
	flat, placed := len(f.On) > 0, f.X.set() && f.Y.set()
	switch {
	case !flat && (f.X.set() || f.Y.set()):
		k.at(f.Pos, "write on: and the names of flat parts in [ ]", "x and y are places on flat parts, and the mark %q names none", short(f.Name.s))
	case !flat && !(f.Angle.set() && f.Level.set()):
		k.at(f.Pos, "write angle and level, or on, x and y", "the mark %q does not say where it stands", short(f.Name.s))
	case flat && (f.Angle.set() || f.Level.set()):
		k.at(f.Pos, "leave angle and level out, or on", "the mark %q is on the shell and on flat parts", short(f.Name.s))
	case flat && !placed:
		k.at(f.Pos, "write x and y", "the mark %q does not say where it stands on the flat parts", short(f.Name.s))
	}
}
