package limits

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// How sentences show numbers.

// Amount returns a value and its unit with three digits, as in the answer of a
// Judgement: 402 rad/s², 2.59°, 0.0104.
func Amount(v float64, unit string) string { return digits(v, 3) + suffix(unit) }

// Bounded returns a limit and its unit with no more digits than it has.
func Bounded(limit float64, unit string) string { return trimmed(limit) + suffix(unit) }

// against prints a value and its unit with as many digits as tell it from a limit, but
// with no more than anyone can read: nearer to it, it is just over or under.
func against(v, limit float64, unit string) string {
	const usual, most = 3, 4
	n := usual
	for digits(v, n) == digits(limit, n) && v != limit && n < most {
		n++
	}
	if digits(v, n) == digits(limit, n) && math.Abs(v-limit) > rounding*math.Abs(limit) {
		return "just " + oneOf(v > limit, "over ", "under ") + Bounded(limit, unit)
	}
	if digits(v, n) == digits(limit, n) {
		n = usual
	}
	return digits(v, n) + suffix(unit)
}

// digits prints a number with n digits that matter, but all before the point and
// at most n+2 behind it, where a number that is not 0 may be left as none.
func digits(v float64, n int) string {
	_, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', n-1, 64), "e")
	e, err := strconv.Atoi(exponent)
	if err != nil {
		panic(err) // strconv reads what it writes
	}
	decimals := min(max(n-1-e, 0), n+2)
	if math.Abs(v) < 0.5*math.Pow10(-decimals) {
		return "0"
	}
	return minus(strconv.FormatFloat(v, 'f', decimals, 64))
}

// trimmed prints a number with at most four significant digits.
func trimmed(v float64) string {
	s := digits(v, 4)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// suffix is a unit as it follows a number.
func suffix(unit string) string {
	switch unit {
	case "":
		return ""
	case unitDeg:
		return "°"
	default:
		return " " + unit
	}
}

// Listed joins words as in a sentence: a, b and c.
func Listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// verbed joins words and says what they do.
func verbed(words []string, one, many string) string {
	if len(words) == 1 {
		return words[0] + " " + one
	}
	return Listed(words) + " " + many
}

// counted prints a number of things.
func counted(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return fmt.Sprintf("%d %s", n, thing)
}

// oneOf returns the first word where that is so, else the second.
func oneOf(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}

// degreesOf prints a phase, which is set to whole degrees.
func degreesOf(deg float64) string { return minus(fmt.Sprintf("%.0f°", deg+0)) }

// minus gives a number the sign that a reader knows instead of a hyphen.
func minus(number string) string { return strings.Replace(number, "-", "−", 1) }

// names lists inputs, those of one kind together: "slopes of front shaft and pinion".
func names(inputs []Input) string {
	var kinds []string
	of := make(map[string][]string)
	for _, in := range inputs {
		kind, part, _ := strings.Cut(in.Name, " of ")
		if of[kind] == nil {
			kinds = append(kinds, kind)
		}
		of[kind] = append(of[kind], part)
	}
	var list []string
	for _, kind := range kinds {
		called := kind
		if len(of[kind]) > 1 { // "positions (down)"
			what, which, split := strings.Cut(kind, " ")
			called = what + "s" + oneOf(split, " ", "") + which
		}
		list = append(list, called+" of "+Listed(of[kind]))
	}
	return Listed(list)
}

func areNames(inputs []Input) string {
	if len(inputs) == 1 {
		return names(inputs) + " is"
	}
	return names(inputs) + " are"
}
