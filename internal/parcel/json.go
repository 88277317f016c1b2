package parcel

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// tooMuch looks through JSON before it is read, and says what in it is beyond
// anything a parcel holds: things within things within things, so many of them
// that they would fill the memory, numbers beyond reason. Whether it is JSON at
// all is for the decoder to say.
func tooMuch(data []byte) string {
	depth, things, values := 0, 0, 0
	for i := 0; i < len(data); i++ {
		switch c := data[i]; {
		case c == '"':
			i = pastText(data, i)
			values++
		case c == '{' || c == '[':
			if depth++; depth > mostDepth {
				return "holds things within things more deeply than any quote does"
			}
			if values++; c == '{' {
				things++
			}
		case c == '}' || c == ']':
			depth--
		case c == '-' || c >= '0' && c <= '9':
			end := pastNumber(data, i)
			if v, err := strconv.ParseFloat(string(data[i:min(end, i+mostDigits+1)]), 64); end-i > mostDigits || errors.Is(err, strconv.ErrRange) || math.Abs(v) > mostNumber {
				return "holds the number “" + string(data[i:min(end, i+20)]) + "”, which is beyond anything that is cast"
			}
			values++
			i = end - 1
		}
		if things > mostThings || values > mostValues {
			return "holds more single values than any quote does"
		}
	}
	return ""
}

// pastText is where the text that begins at i ends: at its closing quote.
func pastText(data []byte, i int) int {
	for i++; i < len(data) && data[i] != '"'; i++ {
		if data[i] == '\\' {
			i++
		}
	}
	return i
}

// pastNumber is the first place behind the number that begins at i.
func pastNumber(data []byte, i int) int {
	for i < len(data) && strings.IndexByte("+-.eE0123456789", data[i]) >= 0 {
		i++
	}
	return i
}

// decode reads JSON. What it holds that this version has no place for is passed
// over, and the first of it named.
func decode(data []byte, into any) (passedOver string, err error) {
	if problem := tooMuch(data); problem != "" {
		return "", errors.New(problem)
	}
	err = decodeWith(data, into, true)
	if err == nil {
		return "", nil
	}
	const unknown = "json: unknown field "
	if name, ok := strings.CutPrefix(err.Error(), unknown); ok {
		passedOver, err = strings.Trim(name, `"`), decodeWith(data, into, false)
	}
	return passedOver, sentence(err)
}

func decodeWith(data []byte, into any, strict bool) error {
	d := json.NewDecoder(bytes.NewReader(data))
	if strict {
		d.DisallowUnknownFields()
	}
	if err := d.Decode(into); err != nil {
		return err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return errors.New("json: more follows after its end")
	}
	return nil
}

// sentence says in words what was wrong with JSON.
func sentence(err error) error {
	var kind *json.UnmarshalTypeError
	var syntax *json.SyntaxError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &kind):
		where := ""
		if kind.Field != "" {
			where = ", in “" + kind.Field + "”"
		}
		return fmt.Errorf("has %s where %s belongs%s", article(kind.Value), wanted(kind.Type.Kind()), where)
	case errors.As(err, &syntax), errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return errors.New("is not the JSON it should be")
	}
	return errors.New("cannot be read: " + strings.TrimPrefix(err.Error(), "json: "))
}

func article(what string) string {
	switch what, _, _ = strings.Cut(what, " "); what {
	case "array":
		return "a list"
	case "object":
		return "a group of values"
	case "bool":
		return "yes or no"
	case "string":
		return "text"
	}
	return "a " + what
}

// wanted names what belongs in a place of that kind.
func wanted(k reflect.Kind) string {
	switch k {
	case reflect.String:
		return "text"
	case reflect.Map, reflect.Struct, reflect.Pointer:
		return "a group of values"
	case reflect.Slice, reflect.Array:
		return "a list"
	case reflect.Bool:
		return "yes or no"
	}
	return "a number"
}
