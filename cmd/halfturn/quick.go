package main

import (
	"fmt"
	"regexp"
	"strings"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/survey"
)

// shaftLists are the flags that hold a value for every shaft.
var shaftLists = [...]struct {
	name, usage string
	inner       bool // only shafts between two joints have one
	parse       func(typed string, unit survey.Unit) (float64, error)
	set         func(*survey.Shaft, float64)
}{
	{
		"down", "side-view `slopes` of the shafts in degrees, as 0,12,0 or \"2.8 up, 3.9 down\"; down is positive", false,
		func(typed string, _ survey.Unit) (float64, error) { return survey.ParseAngle(typed, survey.SlopeSense) },
		func(s *survey.Shaft, v float64) { s.Slope = survey.Down(v) },
	},
	{
		"right", "top-view `headings` of the shafts in degrees; right is positive", false,
		func(typed string, _ survey.Unit) (float64, error) {
			return survey.ParseAngle(typed, survey.HeadingSense)
		},
		func(s *survey.Shaft, v float64) { s.Heading = survey.Right(v) },
	},
	{
		"phase", "`phases` of the shafts between two joints in degrees; clockwise is positive", true,
		func(typed string, _ survey.Unit) (float64, error) { return survey.ParseAngle(typed, survey.TurnSense) },
		func(s *survey.Shaft, v float64) { s.PhaseDeg = survey.Readings{v} },
	},
	{
		"length", "`lengths` of the shafts, beside a FILE too; first shaft from the engine mounts, last one to the axle", false,
		func(typed string, u survey.Unit) (float64, error) { return survey.ParseNumber(typed, string(u)) },
		nil, // beside a file too: see source.setLengths
	},
}

// lengthList is the list of lengths in shaftLists; geometryFlags, the lists before it,
// are the flags that stand for a file.
const lengthList = len(shaftLists) - 1

var geometryFlags = []string{"down", "right", "phase"}

// quick returns the driveline that the quick flags describe.
func (s *source) quick(c *console) (*survey.Survey, error) {
	var values [lengthList][]float64
	n := 0
	for i := range values {
		var err error
		if values[i], err = s.list(i, ""); err != nil {
			return nil, err
		}
		if !shaftLists[i].inner {
			n = max(n, len(values[i]))
		}
	}
	if n < 2 {
		return nil, usagef("--down and --right describe %s: want one value for each of at least 2 shafts", text.Count(n, "shaft"))
	}
	if down := len(values[0]); down < n {
		return nil, usagef("--down has %s for %d shafts: want one for each, 0 where it is level", text.Count(down, "value"), n)
	}
	sv := &survey.Survey{Name: s.quickName(), Units: survey.Unit(s.units), Shafts: make([]survey.Shaft, n)}
	for i, list := range values {
		first, want := 0, n
		if shaftLists[i].inner {
			first, want = 1, n-2
		}
		switch got := len(list); {
		case got > want:
			return nil, usagef("--%s has %s for %d shafts: want one for each shaft between two joints, %d at most",
				shaftLists[i].name, text.Count(got, "value"), n, want)
		case 0 < got && got < want:
			c.remark("--%s has %d of %d values: the rest count as 0", shaftLists[i].name, got, want)
		}
		for k, v := range list {
			shaftLists[i].set(&sv.Shafts[first+k], v)
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
	for i, name := range geometryFlags {
		if typed := s.lists[i]; typed != "" {
			parts = append(parts, name+" "+strings.Join(strings.Fields(typed), " "))
		}
	}
	return text.Brief(strings.Join(parts, "; "), 60)
}

// list reads the values of a list, which stand between commas or, where commas are
// those of decimals, between semicolons. An empty text is no list.
func (s *source) list(i int, unit survey.Unit) ([]float64, error) {
	typed, flag := s.lists[i], shaftLists[i].name
	if typed == "" {
		return nil, nil
	}
	separator := ","
	if strings.Contains(typed, ";") {
		separator = ";"
	} else if decimals := asDecimals(typed); decimals != "" {
		s.questions = append(s.questions, fmt.Sprintf("Are the commas in --%s %s those of decimals? Then part the values by semicolons: --%s \"%s\".",
			flag, typed, flag, decimals))
	}
	var values []float64
	for k, word := range strings.Split(typed, separator) {
		v, err := shaftLists[i].parse(word, unit)
		if err != nil {
			return nil, usageError{fmt.Errorf("--%s value %d: %w", flag, k+1, err)}
		}
		values = append(values, v)
	}
	return values, nil
}

// decimalCommas matches lists of whole numbers of which every second one is a single
// digit, as 3,9,7,1,4,0 for 3.9, 7.1 and 4.0.
var decimalCommas = regexp.MustCompile(`^([-−+]?\d+,\d)(,[-−+]?\d+,\d)+$`)

// asDecimals returns the list that a list may have been meant for, parted by
// semicolons; "" where it is no such list.
func asDecimals(list string) string {
	list = strings.ReplaceAll(list, " ", "")
	if !decimalCommas.MatchString(list) {
		return ""
	}
	words := strings.Split(list, ",")
	var pairs []string
	for i := 0; i < len(words); i += 2 {
		pairs = append(pairs, words[i]+","+words[i+1])
	}
	return strings.Join(pairs, "; ")
}
