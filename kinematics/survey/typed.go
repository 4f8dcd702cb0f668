package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// This file reads numbers as people type them: with a decimal comma, a typographic
// minus, a unit, or a word for the direction instead of a sign. Files hold JSON
// numbers only; what is typed into flags and fields comes through here.

// A Sense is the pair of words for the two directions of an angle or a run
// sideways. The first is the positive one by the sign rule.
type Sense struct{ Positive, Negative []string }

// The senses of what is measured; each list begins with the word that is printed.
var (
	SlopeSense   = Sense{[]string{"down"}, []string{"up"}}
	HeadingSense = Sense{[]string{"right"}, []string{"left"}}
	TurnSense    = Sense{[]string{"clockwise"}, []string{"anticlockwise", "counterclockwise"}}
)

// String returns the words as a message gives them: "up" or "down".
func (s Sense) String() string { return s.Negative[0] + " or " + s.Positive[0] }

// degreeSigns are the ways to write the unit of an angle; º and ˚ stand beside °
// on many keyboards.
var degreeSigns = []string{"°", "º", "˚", "degrees", "degree", "deg"}

// ParseAngle reads an angle in degrees: 3.9, 3,9, −3.9, 3.9°, 3.9 deg, or 2.8 up
// with a word of the sense instead of a sign. Which angles are allowed is the
// matter of the field that the angle is for.
func ParseAngle(text string, sense Sense) (float64, error) {
	return parseTyped(text, degreeSigns, sense, fmt.Sprintf("degrees, such as 3.9 or 3.9 %s", sense.Negative[0]))
}

// ParseLength reads a run sideways, a length with a direction: 12, −12 mm, 12 left.
func ParseLength(text string, unit Unit, sense Sense) (float64, error) {
	return parseTyped(text, unit.signs(), sense, fmt.Sprintf("%s, such as 12 or 12 %s", unit, sense.Negative[0]))
}

// ParseNumber reads a number with one of the units, or without any. A comma before
// exactly three digits is refused, for it may be meant to part thousands.
func ParseNumber(text string, units ...string) (float64, error) {
	if _, after, found := strings.Cut(strings.TrimRight(text, " "), ","); found && len(after) == 3 && digits(after) {
		return 0, fmt.Errorf("%s: want a number without a comma, which could part thousands or decimals", quoted(text))
	}
	return parseTyped(text, units, Sense{}, "a decimal number, such as 12.5")
}

func (u Unit) signs() []string {
	if u == Inch {
		return []string{"inches", "inch", "in", "″", "\""}
	}
	return []string{"mm"}
}

func parseTyped(text string, units []string, sense Sense, want string) (float64, error) {
	wrong := fmt.Errorf("%s: want %s", quoted(text), want)
	number, negative, directed := cutDirection(strings.ToLower(strings.TrimSpace(text)), sense)
	number = trimUnit(number, units)
	number = strings.NewReplacer("−", "-", "–", "-", "‐", "-", "‑", "-").Replace(number)
	if signed := strings.HasPrefix(number, "-") || strings.HasPrefix(number, "+"); signed && directed {
		return 0, fmt.Errorf("%s: want a sign or a direction (%s), not both", quoted(text), sense)
	}
	if strings.Count(number, ",") == 1 && !strings.Contains(number, ".") {
		number = strings.Replace(number, ",", ".", 1)
	}
	// Digits are checked first: strconv also takes NaN, Inf, 0x1p4 and 1_0.
	if strings.Trim(number, "+-.0123456789e") != "" {
		return 0, wrong
	}
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return 0, wrong
	}
	if negative && v != 0 {
		v = -v
	}
	return v, nil
}

// cutDirection takes a word of the sense off the end of a text.
func cutDirection(text string, sense Sense) (rest string, negative, found bool) {
	for i, words := range [][]string{sense.Positive, sense.Negative} {
		for _, word := range words {
			// "left" must stand apart from what goes before it, be it only by a unit.
			if rest, ok := strings.CutSuffix(text, word); ok && rest != "" && !letter(rest[len(rest)-1]) {
				return strings.TrimSpace(rest), i == 1, true
			}
		}
	}
	return text, false, false
}

func trimUnit(text string, units []string) string {
	i := slices.IndexFunc(units, func(u string) bool { return strings.HasSuffix(text, u) })
	if i < 0 {
		return text
	}
	return strings.TrimSpace(strings.TrimSuffix(text, units[i]))
}

func letter(b byte) bool { return 'a' <= b && b <= 'z' }

func digits(text string) bool { return strings.Trim(text, "0123456789") == "" }
