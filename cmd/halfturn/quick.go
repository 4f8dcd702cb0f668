package main

import (
	"fmt"
	"strconv"
	"strings"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/survey"
)

// quick returns the driveline that the quick flags describe.
func (s *source) quick(c *console) (*survey.Survey, error) {
	down, err := angles("down", s.down)
	if err != nil {
		return nil, err
	}
	right, err := angles("right", s.right)
	if err != nil {
		return nil, err
	}
	phase, err := angles("phase", s.phase)
	if err != nil {
		return nil, err
	}
	n := max(len(down), len(right))
	if n < 2 {
		return nil, usagef("--down and --right describe %s: want one value for each of at least 2 shafts", text.Count(n, "shaft"))
	}
	if len(down) < n {
		return nil, usagef("--down has %s for %d shafts: want one for each, 0 where it is level", text.Count(len(down), "value"), n)
	}
	if len(phase) > n-2 {
		return nil, usagef("--phase has %s for %d shafts: want one for each shaft between two joints, %d at most", text.Count(len(phase), "value"), n, n-2)
	}
	s.remarkMissing(c, "right", len(right), n)
	s.remarkMissing(c, "phase", len(phase), n-2)

	sv := &survey.Survey{Name: s.quickName(), Shafts: make([]survey.Shaft, n)}
	for k := range sv.Shafts {
		shaft := &sv.Shafts[k]
		shaft.Slope = survey.Down(down[k])
		if k < len(right) {
			shaft.Heading = survey.Right(right[k])
		}
		if k > 0 && k-1 < len(phase) {
			shaft.PhaseDeg = survey.Readings{phase[k-1]}
		}
	}
	if err := sv.Validate(); err != nil {
		return nil, usageError{err}
	}
	return sv.Complete(), nil
}

// quickName says what the flags give, since nobody has named the driveline.
func (s *source) quickName() string {
	var parts []string
	for _, list := range []struct{ flag, text string }{{"down", s.down}, {"right", s.right}, {"phase", s.phase}} {
		if list.text != "" {
			parts = append(parts, list.flag+" "+strings.Join(strings.Fields(list.text), ""))
		}
	}
	return text.Brief(strings.Join(parts, "; "), 60)
}

// remarkMissing says so when a list stops short of the shafts.
func (s *source) remarkMissing(c *console, flag string, got, want int) {
	if got > 0 && got < want {
		c.remark("--%s has %d of %d values: the rest count as 0", flag, got, want)
	}
}

// angles reads a list such as "0,12.5,-3" of degrees; an empty text is no list.
func angles(flag, text string) ([]float64, error) {
	if text == "" {
		return nil, nil
	}
	var values []float64
	for i, word := range strings.Split(text, ",") {
		v, err := decimal(strings.TrimSpace(word))
		if err != nil {
			return nil, usagef("--%s value %d: %q: want degrees as a decimal number, such as 3.5", flag, i+1, word)
		}
		values = append(values, v)
	}
	return values, nil
}

// decimal reads a plain decimal number. The digits are checked first, since
// strconv also takes NaN, Inf, hexadecimal numbers and underscores.
func decimal(text string) (float64, error) {
	if strings.Trim(text, "+-.0123456789eE") != "" {
		return 0, fmt.Errorf("%q is not a decimal number", text)
	}
	return strconv.ParseFloat(text, 64)
}
