package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/look"
)

// FieldKind says how a field is filled in.
type FieldKind int

// The kinds of field.
const (
	TextField    FieldKind = iota // one line, typed
	NotesField                    // several lines, typed
	ChoiceField                   // one of FieldSpec.Options, few or thousands
	CheckField                    // a tick; its text is Yes or No
	HeadingField                  // no field: a heading over those that follow
)

// The texts of a CheckField.
const (
	Yes = "yes"
	No  = "no"
)

// FieldSpec says what a field is.
type FieldSpec struct {
	ID      string // "figure.wall"
	Kind    FieldKind
	Label   string
	Unit    string   // stands at the right end of what is typed
	Hint    string   // a few words beside the field
	Default string   // what holds while nothing is typed; shown in grey
	Origin  string   // where the default comes from: "shop book, 14 March"
	Options []string // of a ChoiceField
	Caption string   // the words beside a CheckField's box
	Lines   int      // of a NotesField; 0 is three
	Wide    bool     // takes all the width there is

	// Understand says what a typed text means ("= 1.78 m"), or what is wrong with
	// it; it is asked at every keystroke and may be nil.
	Understand func(text string) (echo, fault string)
	// OnChanged is told each text the user gives, "" for back to the default.
	OnChanged func(text string)
}

// Field is one input with all that stands around it: its label, its unit, what it
// understood or what is wrong, what holds while it is empty and where that comes
// from. A fault never takes away what was typed. Fields are shown by a FieldGrid.
type Field struct {
	spec     FieldSpec
	text     string
	amiss    string // a fault told from outside
	readOnly bool
	hidden   bool
	focused  bool

	label *ink
	note  *para
	mark  *badge // beside the note of a fault
	frame ring   // around the box: focus, or fault
	input input
	box   fyne.CanvasObject // the input's widget
	cross *cross            // beside a check; nil elsewhere
	grid  *FieldGrid
}

// NewField makes a field. Put it into a FieldGrid to show it.
func NewField(spec FieldSpec) *Field {
	f := &Field{spec: spec, note: newPara(theme.SizeNameCaptionText), frame: newRing()}
	style := plain
	if spec.Kind == HeadingField {
		style = bold
	}
	f.label = newInk(theme.SizeNameText, look.Ink, style)
	f.label.say(spec.Label)
	f.mark = newBadge(theme.IconNameError, look.Bad)
	f.mark.Hide()
	f.input = newInput(f)
	f.box = f.input.object()
	f.input.show()
	f.renote()
	return f
}

// ID is the field's name in the program.
func (f *Field) ID() string { return f.spec.ID }

// Text is what the user gave, "" while the default holds.
func (f *Field) Text() string { return f.text }

// SetText shows a text as if the user had given it, without telling OnChanged.
func (f *Field) SetText(text string) {
	if f.text != text {
		f.text = text
		f.input.show()
		f.renote()
	}
}

// SetDefault changes what holds while nothing is typed, and where it comes from.
func (f *Field) SetDefault(value, origin string) {
	if f.spec.Default != value || f.spec.Origin != origin {
		f.spec.Default, f.spec.Origin = value, origin
		f.input.show()
		f.renote()
	}
}

// SetHint changes the few words beside the field.
func (f *Field) SetHint(hint string) {
	if f.spec.Hint != hint {
		f.spec.Hint = hint
		f.renote()
	}
}

// SetUnit changes the unit at the right end of the field.
func (f *Field) SetUnit(unit string) {
	if f.spec.Unit != unit {
		f.spec.Unit = unit
		f.input.show()
	}
}

// SetLabel changes the label.
func (f *Field) SetLabel(label string) {
	f.spec.Label = label
	if f.label.say(label) {
		f.regrid()
	}
}

// SetOptions changes what a ChoiceField chooses from.
func (f *Field) SetOptions(options []string) {
	f.spec.Options = options
	f.input.show()
}

// SetFault says what the rest of the program finds wrong with the field, "" for
// nothing. What Understand finds comes first.
func (f *Field) SetFault(fault string) {
	if f.amiss != fault {
		f.amiss = fault
		f.renote()
	}
}

// Fault is what the field says is wrong, "" for nothing.
func (f *Field) Fault() string {
	if _, fault := f.understood(); fault != "" {
		return fault
	}
	return f.amiss
}

// SetReadOnly makes the field show without being changed.
func (f *Field) SetReadOnly(on bool) {
	if f.readOnly != on {
		f.readOnly = on
		f.input.show()
	}
}

// SetVisible shows the field in its grid or leaves it out.
func (f *Field) SetVisible(on bool) {
	if f.hidden == on {
		f.hidden = !on
		f.regrid()
	}
}

// Focus puts the keyboard into the field.
func (f *Field) Focus() {
	o, ok := f.box.(fyne.Focusable)
	if c := fyne.CurrentApp().Driver().CanvasForObject(f.box); ok && c != nil {
		c.Focus(o)
	}
}

// given is a text from the user.
func (f *Field) given(text string) {
	if f.text == text {
		return
	}
	f.text = text
	f.amiss = "" // said of another text
	f.input.show()
	f.renote()
	tell(f.spec.OnChanged, text)
}

// focus is told by the input when it gains or loses the keyboard.
func (f *Field) focus(on bool) {
	f.focused = on
	f.reframe()
}

func (f *Field) understood() (echo, fault string) {
	if f.spec.Understand == nil || f.text == "" {
		return "", ""
	}
	return f.spec.Understand(f.text)
}

// renote writes anew what stands beside the field.
func (f *Field) renote() {
	echo, fault := f.understood()
	if fault == "" {
		fault = f.amiss
	}
	show(f.mark, fault != "")
	f.reframe()
	if f.note.say(f.spans(echo, fault)...) {
		f.regrid()
	}
}

// spans puts the note together: the fault alone, or what was understood, the
// hint, and the default with its origin.
func (f *Field) spans(echo, fault string) []span {
	if fault != "" {
		return []span{{text: fault, colour: look.Bad}}
	}
	var rest []string
	if f.spec.Hint != "" {
		rest = append(rest, f.spec.Hint)
	}
	switch {
	case f.text == "" && f.spec.Default != "" && f.spec.Origin != "":
		rest = append(rest, f.spec.Origin)
	case f.text != "" && f.spec.Default != "" && f.spec.Kind != CheckField:
		rest = append(rest, insteadOf(f.spec))
	}
	spans := []span{{text: echo, colour: look.Ink}}
	for _, s := range rest {
		if spans[len(spans)-1].text != "" {
			s = " · " + s
		}
		spans = append(spans, span{text: s, colour: look.Muted})
	}
	return spans
}

func insteadOf(spec FieldSpec) string {
	s := "instead of " + spec.Default
	if spec.Origin != "" {
		s += ", " + spec.Origin
	}
	return s
}

// reframe draws the outline that says focus or fault.
func (f *Field) reframe() {
	faulty := f.mark.Visible()
	tone := look.Accent
	if faulty {
		tone = look.Bad
	}
	f.frame.dress(tone, theme.InputRadiusSize())
	show(f.frame, (faulty || f.focused) && f.spec.Kind != CheckField)
}

func (f *Field) regrid() {
	if f.grid != nil {
		f.grid.relay()
		canvas.Refresh(f.grid)
	}
}

// dress takes colours and sizes from the theme again.
func (f *Field) dress() {
	f.label.dress()
	f.mark.dress()
	f.reframe()
	f.note.Refresh()
	if f.box != nil {
		f.box.Refresh()
	}
	if f.cross != nil {
		f.cross.Refresh()
	}
}
