package costume

import (
	"fmt"
	"strings"

	"tasset/body"
	"tasset/internal/units"
)

// coverage turns the half-width of a 95 % interval, which is what makers mean
// by "give or take", into a standard deviation.
const coverage = 1.96

// readMeasurements reads the sizes, in the file's order.
func readMeasurements(v value, def units.Unit) []body.Entry {
	var out []body.Entry
	for _, e := range v.entries("write measurements with their values, such as \"head girth: 57.4 cm\"") {
		d, ok := body.Describe(body.Name(e.key))
		if !ok {
			e.notMeasured()
			continue
		}
		out = append(out, readEntry(e, d, def)...)
	}
	return out
}

// notMeasured records a measurement that nobody knows.
func (v value) notMeasured() {
	if n := body.Suggest(v.key); n != "" {
		v.r.fail(v.line, "found the measurement %q, which is not known; did you mean %q?", v.key, n)
		return
	}
	v.r.fail(v.line, "found the measurement %q, which is not known; \"tasset measure --all\" lists them", v.key)
}

// readEntry reads one measurement: a value, or keys with one value for both
// sides or one for each.
func readEntry(e value, d body.Description, def units.Unit) []body.Entry {
	if !e.isMapping() {
		return []body.Entry{readSize(e, d, def)}
	}
	at := e.r.keyed(e, []string{"value", "left", "right", "over", "plus-minus"})
	var out []body.Entry
	for i, key := range []string{"value", "left", "right"} {
		if s := at[key]; s != nil {
			s.key = strings.TrimSuffix(e.key+", "+key, ", value")
			entry := readSize(*s, d, def)
			entry.Side = body.Side(i)
			out = append(out, entry)
		}
	}
	switch {
	case len(out) == 0:
		e.fail("found no value; write {value: 25.8 cm}, or {left: 15.9 cm, right: 16.2 cm}")
	case !d.Sided && (at["left"] != nil || at["right"] != nil):
		e.fail("found a left or right, but this measurement has no sides; write one value")
	case at["value"] != nil && len(out) > 1:
		e.fail("found a value and a side; write either one value, or left and right")
	}
	for i := range out {
		if over := at["over"]; over != nil {
			out[i].Over = over.text()
		}
		if pm := at["plus-minus"]; pm != nil {
			out[i].SD = pm.size(d, def) / coverage
		}
	}
	return out
}

func readSize(v value, d body.Description, def units.Unit) body.Entry {
	typed := v.typed()
	if _, err := units.ParseNumber(typed); err == nil && d.Kind != body.KindWeight {
		typed += " " + def.String() // so that a doubt can say which unit was meant
	}
	return body.Entry{Name: d.Name, Value: v.size(d, def), Where: v.where(), Typed: typed}
}

// size reads a positive length, or a weight.
func (v value) size(d body.Description, def units.Unit) float64 {
	s := v.text()
	if s == "" {
		return 0
	}
	n, err := ParseSize(d, s, def)
	if err != nil {
		v.fail("%v", err)
	}
	return n
}

// typed is the scalar as typed, for findings; "" if it is none.
func (v value) typed() string {
	if v.isMapping() {
		return ""
	}
	return strings.Trim(v.node.String(), `"' `)
}

// ParseSize reads a measurement's value as a maker types it: mm, or kg for
// weight. It must be more than nothing.
func ParseSize(d body.Description, s string, def units.Unit) (float64, error) {
	parse := func(s string) (float64, error) { return units.ParseLength(s, def) }
	if d.Kind == body.KindWeight {
		parse = units.ParseWeight
	}
	n, err := parse(s)
	if err == nil && n <= 0 {
		err = fmt.Errorf("%q; a size is more than 0", s)
	}
	return n, err
}
