package adjust

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"halfturn/kinematics/survey"
)

// SpecError reports what is wrong with the text of a Variable.
type SpecError struct {
	Spec   string
	Column int    // from 1, in characters
	Value  string // what stands there
	Want   string // what would have been accepted
}

func (e *SpecError) Error() string {
	return fmt.Sprintf("%s: column %d: %s: want %s", e.Spec, e.Column, e.Value, e.Want)
}

// ParseVariable reads a Variable of a valid survey from its text. The error is a
// *SpecError.
func ParseVariable(s *survey.Survey, spec string) (Variable, error) {
	v, err := parser{s.Complete(), spec}.variable()
	if err == nil && v.Step == 0 {
		v.Step = max((v.To-v.From)/DefaultSteps, finestStep)
	}
	return v, err
}

// ParseChange reads a change to a valid survey from the text of a Variable, such
// as "wedge(axle pinion)=-6:6:0.5". Without a step it is made in practical ones.
// The error is a *SpecError.
func ParseChange(s *survey.Survey, spec string) (survey.Change, error) {
	p := parser{s.Complete(), spec}
	v, err := p.variable()
	if err == nil && v.field != nil {
		err = p.fail(piece{text: v.Quantity}, "one of the changes "+strings.Join(survey.Changes, ", ")+" and its part in brackets")
	}
	return v.change, err
}

type parser struct {
	s    *survey.Survey
	spec string
}

// piece is a part of the spec without the spaces around it.
type piece struct {
	start int // byte
	text  string
}

// piece returns the part between two bytes.
func (p parser) piece(start, end int) piece {
	text := p.spec[start:end]
	trimmed := strings.TrimLeft(text, " \t")
	return piece{start + len(text) - len(trimmed), strings.TrimRight(trimmed, " \t")}
}

func (p parser) fail(at piece, want string) error {
	value := strconv.Quote(at.text)
	if at.text == "" {
		value = "nothing"
	}
	return p.failValue(at, value, want)
}

func (p parser) failValue(at piece, value, want string) error {
	return &SpecError{p.spec, 1 + utf8.RuneCountInString(p.spec[:at.start]), value, want}
}

func (p parser) variable() (Variable, error) {
	equals := strings.LastIndex(p.spec, "=")
	if equals < 0 {
		return Variable{}, p.fail(p.piece(len(p.spec), len(p.spec)), `"=" and a range, as in "=-3:3:0.25"`)
	}
	v, err := p.quantity(p.piece(0, equals))
	if err != nil {
		return Variable{}, err
	}
	return p.ranged(v, equals+1)
}

// quantity reads what stands before the equals sign.
func (p parser) quantity(at piece) (Variable, error) {
	fields := p.fields()
	if v, ok := fields[at.text]; ok {
		if v.field.position && !p.s.Positioned() {
			return v, p.failValue(at, "the position of a joint", "the position of every joint centre in the file, which gives slopes instead")
		}
		v.Quantity, v.Unit = at.text, v.field.unit(p.s)
		return v, nil
	}
	kind, rest, _ := strings.Cut(at.text, "(")
	if on, closed := strings.CutSuffix(rest, ")"); closed && slices.Contains(survey.Changes, kind) {
		c := survey.Change{Change: kind, On: on}
		return Variable{Quantity: at.text, Unit: p.s.ChangeUnit(kind), change: c}, nil
	}
	part, fieldName := p.named(at)
	if part == "" {
		return Variable{}, p.fail(at, fmt.Sprintf("rpm, a shaft or joint and its field as in %q, or a change as in %q",
			p.s.Shafts[0].Name+".down", "wedge("+p.s.Shafts[len(p.s.Shafts)-1].Name+")"))
	}
	var known []string
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		if field, ok := strings.CutPrefix(name, part); ok {
			known = append(known, field)
		}
	}
	return Variable{}, p.fail(fieldName, "one of "+strings.Join(known, ", "))
}

// fields returns everything in the survey that can be varied, by its text.
func (p parser) fields() map[string]Variable {
	all := map[string]Variable{"rpm": {field: &speed}}
	for k, sh := range p.s.Shafts {
		for name, f := range shaftFields {
			all[sh.Name+"."+name] = Variable{field: f, part: k, on: sh.Name}
		}
	}
	for k, j := range p.s.Joints {
		for name, f := range jointFields {
			all[j.Name+"."+name] = Variable{field: f, part: k, on: j.Name}
		}
	}
	return all
}

// named splits the text into the longest name of a shaft or joint that it begins
// with, including the dot, and the rest; part is "" when there is none.
func (p parser) named(at piece) (part string, field piece) {
	try := func(name string) {
		if name += "."; strings.HasPrefix(at.text, name) && len(name) > len(part) {
			part = name
		}
	}
	for _, sh := range p.s.Shafts {
		try(sh.Name)
	}
	for _, j := range p.s.Joints {
		try(j.Name)
	}
	return part, piece{at.start + len(part), at.text[len(part):]}
}

// ranged reads the range, which begins at a byte, and checks that the survey
// can have what stands at its ends.
func (p parser) ranged(v Variable, start int) (Variable, error) {
	var numbers [3]float64
	var at []piece
	for start <= len(p.spec) {
		end := len(p.spec)
		if colon := strings.Index(p.spec[start:], ":"); colon >= 0 {
			end = start + colon
		}
		number := p.piece(start, end)
		value, ok := decimal(number.text)
		if !ok || len(at) == len(numbers) {
			return v, p.fail(number, `a range from:to or from:to:step in plain numbers, such as -3:3:0.25`)
		}
		numbers[len(at)] = value
		at = append(at, number)
		start = end + 1
	}
	v.From, v.To, v.Step = numbers[0], numbers[1], numbers[2]
	switch {
	case len(at) < 2:
		return v, p.fail(p.piece(len(p.spec), len(p.spec)), `":" and the end of the range`)
	case v.To <= v.From:
		return v, p.fail(at[1], fmt.Sprintf("more than %g", v.From))
	case len(at) == 3 && v.Step <= 0:
		return v, p.fail(at[2], "a step above 0")
	case len(at) == 3 && v.Step > v.To-v.From:
		return v, p.fail(at[2], fmt.Sprintf("a step of at most %g, as wide as the range", v.To-v.From))
	case len(at) == 3 && v.Step < finestStep, v.To-v.From < finestStep:
		return v, p.fail(at[len(at)-1], fmt.Sprintf("a step of at least %g: less would repeat a value", finestStep))
	case len(at) == 3 && (v.To-v.From)/v.Step > survey.MaxSteps:
		return v, p.fail(at[2], fmt.Sprintf("a step that makes no more than %d of them", survey.MaxSteps))
	}
	v.change.From, v.change.To, v.change.Step = v.From, v.To, v.Step
	for i, end := range []float64{v.From, v.To} {
		if fault := v.faultAt(p.s, end); fault != nil {
			place := at[i]
			if v.field == nil { // the fault is in one field of the change
				place = p.placeOf(fault.Path, v, at)
			}
			return v, p.failValue(place, fault.Value, fault.Want)
		}
	}
	return v, nil
}

// placeOf returns where a field of a change stands: its part or its range.
func (p parser) placeOf(path string, v Variable, numbers []piece) piece {
	for i, key := range []string{".from", ".to", ".step"} {
		if strings.HasSuffix(path, key) && i < len(numbers) {
			return numbers[i]
		}
	}
	on := strings.Index(p.spec, "(") + 1
	return p.piece(on, on+len(v.change.On))
}

// faultAt returns what is wrong with the survey at a value of the variable; of a
// change, what is wrong with itself.
func (v Variable) faultAt(s *survey.Survey, value float64) *survey.Fault {
	trial := s.Complete()
	trial.Adjust, trial.Poses = nil, nil
	if v.field == nil {
		trial.Adjust = []survey.Change{v.change}
	} else {
		v.field.set(trial, v.part, value)
	}
	if fault, ok := errors.AsType[*survey.Fault](trial.Validate()); ok {
		return fault
	}
	return nil
}

// decimal reads a plain decimal number; ParseFloat takes more.
func decimal(text string) (float64, bool) {
	if strings.Trim(text, "+-.0123456789eE") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil
}
