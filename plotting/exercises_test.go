package plotting

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"halfturn/plotting/page"
)

func solved(t *testing.T) map[string][]page.Passage {
	t.Helper()
	pages, err := Exercises(page.A4)
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string][]page.Passage{}
	for _, p := range pages {
		texts[p.Name] = p.Text
	}
	return texts
}

// TestExercisesFaceTheirSolutions holds that exercises are on left-hand pages, solutions on
// the right-hand pages beside them, and that nothing is cut off or lies on another text.
func TestExercisesFaceTheirSolutions(t *testing.T) {
	t.Parallel()
	for _, size := range []page.Size{page.A4, page.Letter} {
		pages, err := Exercises(size)
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) != 2*len(exercises())+1 {
			t.Fatalf("%d pages, want one and two for each of %d exercises", len(pages), len(exercises()))
		}
		for i, p := range pages {
			if i%2 == 0 && i > 0 && p.Name != pages[i-1].Name+"-solution" {
				t.Errorf("page %d, %s, stands beside %s", i+1, p.Name, pages[i-1].Name)
			}
			texts := inks(t, p.Figure)
			for j, a := range texts {
				if !onPage(a.Rectangle, size) {
					t.Errorf("%s: %q is cut off", p.Name, a.text)
				}
				for _, b := range texts[:j] {
					if overlap(a.Rectangle, b.Rectangle) {
						t.Errorf("%s: %q lies on %q", p.Name, a.text, b.text)
					}
				}
			}
		}
	}
}

// TestExercisesAreWorkedRight calculates every formula of the solutions again from the
// numbers put in. What follows, from the packages, must agree within the roundings of the
// digits printed, and no further.
func TestExercisesAreWorkedRight(t *testing.T) {
	t.Parallel()
	for name, text := range solved(t) {
		steps := 0
		for _, passage := range text {
			for _, p := range passage.Paragraphs {
				line, is := strings.CutPrefix(p, "\t")
				if !is {
					continue
				}
				var last *worked
				for _, part := range strings.Split(strings.ReplaceAll(line, " ≈ ", " = "), " = ") {
					w, err := workedOut(part)
					if err != nil {
						continue // symbols
					}
					if last != nil {
						steps++
						if off := math.Abs(w.value - last.value); off > w.rounding+last.rounding {
							t.Errorf("%s: %s: %q is off by %.2g, roundings allow %.2g", name, line, part, off, w.rounding+last.rounding)
						}
					}
					last = &w
				}
				if last != nil && !strings.Contains(line, " = ") && !strings.Contains(line, " ≈ ") {
					t.Errorf("%s: %s: nothing follows", name, line)
				}
			}
		}
		if strings.HasSuffix(name, "-solution") && steps < 3 {
			t.Errorf("%s: %d steps can be calculated again, want 3 or more", name, steps)
		}
	}
}

// TestExercisesAgainstPrint holds results against printed ones of the same joint.
func TestExercisesAgainstPrint(t *testing.T) {
	t.Parallel()
	f, err := os.Open("../testdata/published.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	printed := map[string][]string{}
	for _, row := range rows {
		printed[row[0]] = row
	}
	texts := solved(t)
	for _, test := range []struct {
		id, inputs, exercise, formula string
	}{
		{"S2-02", "rpm=500;beta_deg=20", "speed-range", "n₂ = n₁/cos β"},
		{"S2-03", "rpm=500;beta_deg=20", "speed-range", "n₂ = n₁·cos β"},
		{"S1-18", "rpm=1000", "acceleration", "ω = "},
		{"S1-23", "rpm=1000;beta_deg=20", "acceleration", "α = "},
		{"S3-01", "rpm=3000;accel_rad_s2=1000", "acceleration", "β ≈ "},
	} {
		row := printed[test.id]
		if row == nil || row[2] != test.inputs {
			t.Errorf("%s: row %q, want one for %s", test.id, row, test.inputs)
			continue
		}
		want, err1 := strconv.ParseFloat(row[3], 64)
		half, err2 := strconv.ParseFloat(row[4], 64)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		got := resultOf(t, texts[test.exercise+"-solution"], test.formula)
		if math.Abs(got.number-want) > half+got.half {
			t.Errorf("%s: %s is %g, printed %g ± %g", test.id, test.formula, got.number, want, half)
		}
	}
}

// resultOf returns the number at the end of a formula.
func resultOf(t *testing.T, text []page.Passage, formula string) literal {
	t.Helper()
	for _, passage := range text {
		for _, p := range passage.Paragraphs {
			if line, ok := strings.CutPrefix(p, "\t"+formula); ok {
				parts := strings.Split(line, " = ")
				w, err := workedOut(parts[len(parts)-1])
				if err != nil {
					t.Fatal(err)
				}
				return w.literals[0]
			}
		}
	}
	t.Fatalf("no formula %q", formula)
	return literal{}
}

// worked is the value of a formula with numbers put in, angles in radians, and by how much
// their rounding may change it.
type worked struct {
	value, rounding float64
	literals        []literal
}

// A literal is a number as it is printed, with half of its last digit.
type literal struct{ number, half float64 }

// workedOut calculates a formula. Whole numbers in it are taken as exact, but not one that
// stands alone: that is a result.
func workedOut(text string) (worked, error) {
	text = strings.TrimPrefix(text, "±")
	for _, unit := range []string{" N·m", " rev/min", " rad/s²", " rad/s", " Hz", " N"} {
		text = strings.TrimSuffix(text, unit)
	}
	base := &reader{rest: text, bumped: -1}
	w := worked{value: base.sum()}
	if base.fault || base.rest != "" || len(base.literals) == 0 {
		return worked{}, errors.New("no formula of numbers: " + text)
	}
	w.literals = base.literals
	w.rounding = 1e-9 * (1 + math.Abs(w.value)) // of the arithmetic
	for i := range base.literals {
		r := &reader{rest: text, bumped: i, alone: len(base.literals) == 1}
		w.rounding += math.Abs(r.sum() - w.value)
	}
	return w, nil
}

// reader reads a formula by its grammar from the left and calculates it on the way, one of
// its literals larger by its rounding.
type reader struct {
	rest     string
	literals []literal
	bumped   int
	alone    bool
	fault    bool
}

func (r *reader) accept(token string) bool {
	rest, ok := strings.CutPrefix(strings.TrimLeft(r.rest, " "), token)
	if ok {
		r.rest = rest
	}
	return ok
}

func (r *reader) sum() float64 {
	v := r.product()
	for {
		switch {
		case r.accept("+"):
			v += r.product()
		case r.accept("−"):
			v -= r.product()
		default:
			return v
		}
	}
}

func (r *reader) product() float64 {
	v := r.factor()
	for {
		switch {
		case r.accept("·"):
			v *= r.factor()
		case r.accept("/"):
			v /= r.factor()
		default:
			return v
		}
	}
}

// factor reads a number, a bracket or a function of a factor, and what follows it closely.
func (r *reader) factor() float64 {
	if r.accept("−") {
		return -r.factor()
	}
	for _, f := range []struct {
		name string
		of   func(float64) float64
	}{{"asin", math.Asin}, {"acos", math.Acos}, {"atan", math.Atan}, {"sin", math.Sin}, {"cos", math.Cos}, {"tan", math.Tan}, {"√", math.Sqrt}} {
		if r.accept(f.name) {
			return f.of(r.factor())
		}
	}
	var v float64
	switch {
	case r.accept("("):
		v = r.sum()
		r.fault = r.fault || !r.accept(")")
	default:
		v = r.number()
	}
	for {
		switch {
		case r.accept("π"):
			v *= math.Pi
		case r.accept("deg²"):
			v *= math.Pi / 180 * math.Pi / 180
		case r.accept("°"):
			v *= math.Pi / 180
		case r.accept("²"):
			v *= v
		case r.accept("⁴"):
			v *= v * v * v
		default:
			return v
		}
	}
}

func (r *reader) number() float64 {
	r.rest = strings.TrimLeft(r.rest, " ")
	end := strings.IndexFunc(r.rest, func(c rune) bool { return c != '.' && (c < '0' || c > '9') })
	if end < 0 {
		end = len(r.rest)
	}
	v, err := strconv.ParseFloat(r.rest[:end], 64)
	if err != nil {
		r.fault = true
		_, size := utf8.DecodeRuneInString(r.rest)
		r.rest = r.rest[size:]
		return math.NaN()
	}
	_, decimals, broken := strings.Cut(r.rest[:end], ".")
	r.rest = r.rest[end:]
	l := literal{number: v}
	if broken || r.alone {
		l.half = math.Pow10(-len(decimals)) / 2
	}
	r.literals = append(r.literals, l)
	if r.bumped == len(r.literals)-1 {
		return v + l.half
	}
	return v
}
