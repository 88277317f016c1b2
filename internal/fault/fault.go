// Package fault says what went wrong in words a sculptor can act on: in which
// field, what is wrong there, and what would be right.
//
// A Fault is an error; a List is several of them, told together, because
// somebody who typed three wrong things wants to hear of three.
package fault

import (
	"errors"
	"fmt"
	"strings"
)

// Fault is one thing that is wrong with one field.
type Fault struct {
	Where   string // path of the field: "figure.wall", "price.margin"; empty if it is no field's
	Field   string // the field as the user knows it: "Wall thickness of the figure"
	Value   string // what was given, as typed; empty if nothing was
	Problem string // what is wrong, a clause: "is below zero"
	Remedy  string // what would be right, a clause: "give a thickness such as 5 mm"
}

// Error puts the fault in one sentence: field, value, problem, remedy.
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.Field)
	if f.Value != "" {
		if f.Field != "" {
			b.WriteString(" ")
		}
		fmt.Fprintf(&b, "“%s”", f.Value)
	}
	if f.Problem != "" {
		if b.Len() > 0 {
			b.WriteString(" ")
		}
		b.WriteString(f.Problem)
	}
	if f.Remedy != "" {
		b.WriteString("; ")
		b.WriteString(f.Remedy)
	}
	return b.String()
}

// Short is the sentence without the field's name, for a place beside the field.
func (f Fault) Short() string {
	s := f.Problem
	if f.Remedy != "" {
		s += "; " + f.Remedy
	}
	return s
}

// List is every fault found, in the order of the work.
type List []Fault

// Error gives one line a fault.
func (l List) Error() string {
	lines := make([]string, len(l))
	for i, f := range l {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Err is nil for an empty list, and the list itself otherwise.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	return l
}

// At gives the first fault of the field at path where.
func (l List) At(where string) (Fault, bool) {
	for _, f := range l {
		if f.Where == where {
			return f, true
		}
	}
	return Fault{}, false
}

// All takes the faults out of any error: a Fault, a List, or one that wraps
// either; any other error becomes a single Fault with its text as the problem.
func All(err error) List {
	if err == nil {
		return nil
	}
	var l List
	if errors.As(err, &l) {
		return l
	}
	var f Fault
	if errors.As(err, &f) {
		return List{f}
	}
	return List{{Problem: err.Error()}}
}
