package kit

import (
	"fyne.io/fyne/v2"
)

// input is the part of a field that is filled in.
type input interface {
	object() fyne.CanvasObject // nil for a heading
	show()                     // shows the field's text, default and state
}

func newInput(f *Field) input {
	switch f.spec.Kind {
	case ChoiceField:
		return newChoiceInput(f)
	case CheckField:
		return newCheckInput(f)
	case HeadingField:
		return noInput{}
	}
	return newTypedInput(f)
}

// noInput is a heading's.
type noInput struct{}

func (noInput) object() fyne.CanvasObject { return nil }
func (noInput) show()                     {}

// typedInput is an entry with a unit and a × in it.
type typedInput struct {
	f     *Field
	entry *Entry
	tail  *tail
}

func newTypedInput(f *Field) *typedInput {
	lines := 1
	if f.spec.Kind == NotesField {
		lines = max(f.spec.Lines, 2)
		if f.spec.Lines == 0 {
			lines = 3
		}
	}
	in := &typedInput{f: f, entry: NewEntry(lines)}
	in.entry.replaces = lines == 1
	if lines == 1 {
		in.tail = newTail(f.spec.Unit, func() {
			f.given("")
			f.Focus()
		})
		in.entry.ActionItem = in.tail
	}
	in.entry.OnFocus = f.focus
	in.entry.OnChanged = f.given
	return in
}

func (in *typedInput) object() fyne.CanvasObject { return in.entry }

func (in *typedInput) show() {
	f := in.f
	in.entry.put(f.text)
	if in.entry.PlaceHolder != f.spec.Default {
		in.entry.SetPlaceHolder(f.spec.Default)
	}
	if in.tail != nil {
		in.tail.offer(f.text != "" && f.spec.Default != "" && !f.readOnly)
		if in.tail.unit.say(f.spec.Unit) {
			in.entry.Refresh()
		}
	}
	if f.readOnly {
		in.entry.Disable()
	} else {
		in.entry.Enable()
	}
}

// choiceInput is a picker.
type choiceInput struct {
	f      *Field
	picker *Picker
}

func newChoiceInput(f *Field) *choiceInput {
	in := &choiceInput{f: f, picker: NewPicker(f.spec.Options)}
	in.picker.OnFocus = f.focus
	in.picker.OnChanged = f.given
	return in
}

func (in *choiceInput) object() fyne.CanvasObject { return in.picker }

func (in *choiceInput) show() {
	in.picker.SetOptions(in.f.spec.Options)
	in.picker.Choose(in.f.text)
	in.picker.SetStanding(in.f.spec.Default)
	if in.f.readOnly {
		in.picker.Disable()
	} else {
		in.picker.Enable()
	}
}

// checkInput is a box to tick, with a × beside it.
type checkInput struct {
	f     *Field
	check *Check
}

func newCheckInput(f *Field) *checkInput {
	in := &checkInput{f: f}
	in.check = NewCheck(f.spec.Caption, func(ticked bool) { f.given(yesNo(ticked)) })
	in.check.OnFocus = f.focus
	in.check.onClear = func() { f.given("") }
	f.cross = newCross(func() { f.given("") })
	return in
}

func yesNo(ticked bool) string {
	if ticked {
		return Yes
	}
	return No
}

func (in *checkInput) object() fyne.CanvasObject { return in.check }

func (in *checkInput) show() {
	f := in.f
	holds := f.text
	if holds == "" {
		holds = f.spec.Default
	}
	in.check.put(holds == Yes)
	f.cross.light(f.text != "" && f.spec.Default != "" && f.text != f.spec.Default && !f.readOnly)
	if f.readOnly {
		in.check.Disable()
	} else {
		in.check.Enable()
	}
}
