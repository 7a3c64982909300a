package template

import (
	"encoding/json"
	"reflect"
	"strings"

	"github.com/invopop/jsonschema"
)

// Schema is the JSON Schema of template files, for editors that check and
// complete YAML. It is made from the same types and tags that Parse reads with;
// a formula's inside is only checked by Parse.
func Schema() []byte {
	s := reflector().ReflectFromType(reflect.TypeFor[fileTemplate]())
	s.Title = "Piece template"
	s.Description = "One piece of armour in the language of docs/templates.md."
	b, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic(err) // a schema of our own types always marshals
	}
	return append(b, '\n')
}

func reflector() *jsonschema.Reflector {
	return &jsonschema.Reflector{
		FieldNameTag: "yaml", ExpandedStruct: true, DoNotReference: true, Anonymous: true,
		RequiredFromJSONSchemaTags: true, Mapper: schemaOf,
	}
}

// schemaOf gives the schema of the types that are not plain structs and lists.
func schemaOf(t reflect.Type) *jsonschema.Schema {
	switch t {
	case reflect.TypeFor[text]():
		return &jsonschema.Schema{Type: "string"}
	case reflect.TypeFor[formatF]():
		return &jsonschema.Schema{Const: 1}
	case reflect.TypeFor[valueF]():
		return formulaSchema("")
	case reflect.TypeFor[lengthF]():
		return formulaSchema("A length, such as 10 mm or 0.25 * wrist_girth + 10 mm.")
	case reflect.TypeFor[angleF]():
		return formulaSchema("An angle, such as 30 deg.")
	case reflect.TypeFor[numberF]():
		return formulaSchema("A plain number or a formula that comes to one.")
	case reflect.TypeFor[whenF]():
		return &jsonschema.Schema{Type: "string", Description: "A condition, such as holes > 0."}
	case reflect.TypeFor[yesNo]():
		return &jsonschema.Schema{Type: "boolean"}
	case reflect.TypeFor[fileBearing]():
		two := uint64(2)
		return &jsonschema.Schema{Type: "array", Items: formulaSchema(""), MinItems: &two, MaxItems: &two}
	case reflect.TypeFor[filePoint]():
		two, three := uint64(2), uint64(3)
		return &jsonschema.Schema{Type: "array", Items: formulaSchema(""), MinItems: &two, MaxItems: &three}
	case reflect.TypeFor[fileDirections]():
		type byDirection fileDirections
		lengths := reflector().ReflectFromType(reflect.TypeFor[byDirection]())
		lengths.Version = ""
		return &jsonschema.Schema{OneOf: []*jsonschema.Schema{formulaSchema(""), lengths}}
	}
	if strings.HasPrefix(t.Name(), "named[") {
		is, _ := t.Elem().FieldByName("is")
		entries := reflector().ReflectFromType(is.Type)
		entries.Version = ""
		return &jsonschema.Schema{Type: "object", AdditionalProperties: entries}
	}
	return nil
}

// formulaSchema is that of a value that may be written as text or, for 0 and
// plain numbers, as a number.
func formulaSchema(about string) *jsonschema.Schema {
	return &jsonschema.Schema{OneOf: []*jsonschema.Schema{{Type: "string"}, {Type: "number"}}, Description: about}
}
