package photo

// fewestCopied is how many marks must stand at the same places in two pictures
// for one to be a copy: two pictures of one pose never agree to the pixel.
const fewestCopied = 5

// admitCopies refuses two pictures with the same marks at the same places: one
// picture, or its marks, entered twice, would seem to check itself.
func admitCopies(shots []Shot, fail failure) {
	for i := range shots {
		for j := range i {
			a, b := &shots[j], &shots[i]
			if a.copies(b) {
				fail(b.Where, b.Name, "its marks stand at the same pixels as those of %s, which two pictures never do, and a copy checks nothing; mark it by itself, or take one of the two out", a.Name)
			}
		}
	}
}

// copies tells whether all marks of the picture with fewer of them stand at the
// same places in the other.
func (s *Shot) copies(other *Shot) bool {
	if len(s.Marks) > len(other.Marks) {
		s, other = other, s
	}
	if len(s.Marks) < fewestCopied {
		return false
	}
	for _, m := range s.Marks {
		if k := other.find(m.Name); k < 0 || other.Marks[k].At != m.At {
			return false
		}
	}
	return true
}
