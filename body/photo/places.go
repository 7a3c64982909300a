package photo

// Places are all places that are marked in a shot: landmarks, ruler and card.
func (s *Shot) Places() []Pixel {
	var all []Pixel
	for _, m := range s.Marks {
		all = append(all, m.At)
	}
	if r := s.Ruler; r != nil {
		all = append(all, r.From, r.To)
	}
	if c := s.Card; c != nil {
		all = append(all, c.Corners[:]...)
	}
	return all
}
