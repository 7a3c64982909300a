package template

import "reflect"

// Uses are the identifiers that all formulas of a part of a template read: of a
// Template, an Opening or a list of them.
func Uses(part any) map[string]bool {
	out := map[string]bool{}
	gather(reflect.ValueOf(part), out)
	return out
}

func gather(v reflect.Value, into map[string]bool) {
	if !v.CanInterface() {
		return
	}
	switch p := v.Interface().(type) {
	case Formula:
		addUses(into, p.uses)
		return
	case Condition:
		addUses(into, p.uses)
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			gather(v.Elem(), into)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			gather(v.Field(i), into)
		}
	case reflect.Slice:
		for i := range v.Len() {
			gather(v.Index(i), into)
		}
	}
}

func addUses(into map[string]bool, names []string) {
	for _, n := range names {
		into[n] = true
	}
}
