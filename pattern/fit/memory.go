package fit

// memory keeps the answers of one check for the next. What is not asked again
// there is forgotten.
type memory[Q comparable, A any] struct{ before, now map[Q]A }

// next is the memory for a further check. One memory may have several.
func (m memory[Q, A]) next() memory[Q, A] {
	return memory[Q, A]{before: m.now, now: map[Q]A{}}
}

// of is the answer that is remembered, or else looked for.
func (m memory[Q, A]) of(question Q, look func() A) A {
	answer, known := m.before[question]
	if !known {
		answer = look()
	}
	m.now[question] = answer
	return answer
}
