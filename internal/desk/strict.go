package desk

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strconv"
	"strings"

	"meltwright/internal/fault"
)

// strict walks through JSON beside the type it is to fill and tells of every key
// that the type has not, every key given twice, and every value of another kind.
type strict struct {
	d      *json.Decoder
	data   []byte
	faults fault.List
}

// checkJSON tells what in data does not fit a value like v: faults to go on with,
// or an error where data is no JSON at all.
func checkJSON(data []byte, v any) (fault.List, error) {
	k := &strict{d: json.NewDecoder(bytes.NewReader(data)), data: data}
	if err := k.value("", reflect.TypeOf(v)); err != nil {
		return nil, notJSON(err, data)
	}
	if _, err := k.d.Token(); !errors.Is(err, io.EOF) {
		k.tell("", "has more after its end", "take away what follows the last bracket")
	}
	return k.faults, nil
}

// value reads one value; t is nil where anything will do.
func (k *strict) value(path string, t reflect.Type) error {
	tok, err := k.d.Token()
	if err != nil {
		return err
	}
	if t != nil && (t.Kind() == reflect.Interface || reflect.PointerTo(t).Implements(reflect.TypeFor[json.Unmarshaler]())) {
		t = nil
	}
	for t != nil && t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t != nil && tok != nil && !fits(tok, t) {
		k.tell(path, "is "+kindOf(tok), "give "+wanted(t))
		t = nil
	}
	switch tok {
	case json.Delim('{'):
		return k.object(path, t)
	case json.Delim('['):
		for i := 0; k.d.More(); i++ {
			if err := k.value(path+"["+strconv.Itoa(i)+"]", elem(t)); err != nil {
				return err
			}
		}
		_, err = k.d.Token()
	}
	return err
}

func (k *strict) object(path string, t reflect.Type) error {
	seen := map[string]bool{}
	for k.d.More() {
		tok, err := k.d.Token()
		if err != nil {
			return err
		}
		key := tok.(string)
		at := strings.TrimPrefix(path+"."+key, ".")
		if seen[key] {
			k.tell(at, "is given twice", "keep one of them")
		}
		seen[key] = true
		inner, known := inside(t, key)
		if !known {
			k.tell(at, "is no key of a commission file", "take it away, or look for the right one in what “meltwright-cli example” explains")
		}
		if err := k.value(at, inner); err != nil {
			return err
		}
	}
	_, err := k.d.Token()
	return err
}

func (k *strict) tell(path, problem, remedy string) {
	at := min(int(k.d.InputOffset()), len(k.data))
	f := fault.Fault{Where: path, Field: fmt.Sprintf("Commission file, line %d", 1+bytes.Count(k.data[:at], []byte("\n"))), Value: path, Problem: problem, Remedy: remedy}
	k.faults = append(k.faults, f)
}

// inside is the type of what an object has under a key, nil for anything, and
// whether it may have that key.
func inside(t reflect.Type, key string) (reflect.Type, bool) {
	switch {
	case t == nil:
		return nil, true
	case t.Kind() == reflect.Map:
		return t.Elem(), true
	}
	for _, f := range reflect.VisibleFields(t) {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" {
			name = f.Name // as encoding/json does
		}
		if name == key && name != "-" {
			return f.Type, true
		}
	}
	return nil, false
}

func elem(t reflect.Type) reflect.Type {
	if t == nil {
		return nil
	}
	return t.Elem()
}

// isBytes is whether JSON has it as text, in base 64.
func isBytes(t reflect.Type) bool {
	return t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Uint8
}

func fits(tok json.Token, t reflect.Type) bool {
	k := t.Kind()
	if isBytes(t) {
		k = reflect.String
	}
	switch tok {
	case json.Delim('{'):
		return k == reflect.Struct || k == reflect.Map
	case json.Delim('['):
		return k == reflect.Slice || k == reflect.Array
	}
	switch tok.(type) {
	case string:
		return k == reflect.String
	case bool:
		return k == reflect.Bool
	}
	return k >= reflect.Int && k <= reflect.Float64
}

func kindOf(tok json.Token) string {
	switch tok {
	case json.Delim('{'):
		return "an object"
	case json.Delim('['):
		return "a list"
	}
	switch tok.(type) {
	case string:
		return "text"
	case bool:
		return "true or false"
	}
	return "a number"
}

func wanted(t reflect.Type) string {
	if isBytes(t) {
		return "text in base 64, between quotes"
	}
	switch t.Kind() {
	case reflect.Struct, reflect.Map:
		return "an object, between { and }"
	case reflect.Slice, reflect.Array:
		return "a list, between [ and ]"
	case reflect.String:
		return "text, between quotes"
	case reflect.Bool:
		return "true or false"
	}
	return "a number"
}
