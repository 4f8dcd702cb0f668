package adjust

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"halfturn/kinematics/survey"
)

// SpecError reports what is wrong with the text of a Variable.
type SpecError struct {
	Spec  string
	Value string // what is wrong in it
	Want  string // what would have been accepted
}

func (e *SpecError) Error() string { return fmt.Sprintf("%s: %s: want %s", e.Spec, e.Value, e.Want) }

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
		err = p.fail(v.Quantity, "one of the changes "+strings.Join(survey.Changes, ", ")+" and its part in brackets")
	}
	return v.change, err
}

type parser struct {
	s    *survey.Survey
	spec string
}

func (p parser) fail(text, want string) error {
	value := strconv.Quote(text)
	if text == "" {
		value = "nothing"
	}
	return &SpecError{p.spec, value, want}
}

func (p parser) variable() (Variable, error) {
	equals := strings.LastIndex(p.spec, "=")
	if equals < 0 {
		return Variable{}, p.fail("", `"=" and a range, as in "=-3:3:0.25"`)
	}
	v, err := p.quantity(strings.TrimSpace(p.spec[:equals]))
	if err != nil {
		return Variable{}, err
	}
	return p.ranged(v, strings.Split(p.spec[equals+1:], ":"))
}

// quantity reads what stands before the equals sign.
func (p parser) quantity(text string) (Variable, error) {
	v := Variable{Quantity: text}
	if text == "rpm" {
		v.field, v.Unit = &speed, speed.unit(p.s)
		return v, nil
	}
	kind, rest, _ := strings.Cut(text, "(")
	if on, closed := strings.CutSuffix(rest, ")"); closed && slices.Contains(survey.Changes, kind) {
		v.change, v.Unit = survey.Change{Change: kind, On: on}, p.s.ChangeUnit(kind)
		return v, nil
	}
	unknown, known := "", map[string]*field(nil)
	try := func(k int, part string, fields map[string]*field) {
		if name, ok := strings.CutPrefix(text, part+"."); ok && fields[name] != nil {
			v.field, v.part, v.on, v.Unit = fields[name], k, part, fields[name].unit(p.s)
		} else if ok {
			unknown, known = name, fields
		}
	}
	for k, sh := range p.s.Shafts {
		try(k, sh.Name, shaftFields)
	}
	for k, j := range p.s.Joints {
		try(k, j.Name, jointFields)
	}
	switch {
	case v.field == nil && known != nil:
		return v, p.fail(unknown, "one of "+strings.Join(slices.Sorted(maps.Keys(known)), ", "))
	case v.field == nil:
		return v, p.fail(text, fmt.Sprintf("rpm, a shaft or joint and its field as in %q, or a change as in %q",
			p.s.Shafts[0].Name+".down", "wedge("+p.s.Shafts[len(p.s.Shafts)-1].Name+")"))
	case v.field.position && !p.s.Positioned():
		return v, p.fail(text, "the position of every joint centre in the file, which gives slopes instead")
	}
	return v, nil
}

// ranged reads the range and checks that the survey can have what stands at its
// ends.
func (p parser) ranged(v Variable, texts []string) (Variable, error) {
	var numbers [3]float64
	for i, text := range texts {
		value, ok := decimal(strings.TrimSpace(text))
		if !ok || i == len(numbers) {
			return v, p.fail(strings.TrimSpace(text), `a range from:to or from:to:step in plain numbers, such as -3:3:0.25`)
		}
		numbers[i] = value
	}
	v.From, v.To, v.Step = numbers[0], numbers[1], numbers[2]
	number := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	width, stepped := v.To-v.From, len(texts) == 3
	switch {
	case len(texts) < 2:
		return v, p.fail("", `":" and the end of the range`)
	case width <= 0:
		return v, p.fail(number(v.To), "more than "+number(v.From))
	case width < finestStep:
		return v, p.fail(number(v.To), "at least "+number(finestStep)+" more than "+number(v.From))
	case stepped && v.Step <= 0:
		return v, p.fail(number(v.Step), "a step above 0")
	case stepped && v.Step > width:
		return v, p.fail(number(v.Step), "a step of at most "+number(width)+", as wide as the range")
	case stepped && v.Step < finestStep:
		return v, p.fail(number(v.Step), "a step of at least "+number(finestStep)+": less would repeat a value")
	case stepped && width/v.Step > survey.MaxSteps:
		return v, p.fail(number(v.Step), fmt.Sprintf("a step that makes no more than %d of them", survey.MaxSteps))
	}
	v.change.From, v.change.To, v.change.Step = v.From, v.To, v.Step
	for _, end := range []float64{v.From, v.To} {
		if fault := v.faultAt(p.s, end); fault != nil {
			return v, &SpecError{p.spec, fault.Value, fault.Want}
		}
	}
	return v, nil
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
