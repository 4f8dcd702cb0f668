package proof

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

func TestChecks(t *testing.T) {
	t.Parallel()
	for i, c := range Checks() {
		t.Run(fmt.Sprintf("%s/%s/%d", c.Group, c.What, i), func(t *testing.T) {
			t.Parallel()
			if !c.OK() {
				t.Errorf("%s %s: got %v, want %v within %v", c.ID, c.Source, c.Ours, c.Want, c.Tolerance)
			}
			if c.What == "" || c.Source == "" || c.Printed == "" {
				t.Errorf("got %+v, want what it is, from whom, and the value as printed", c)
			}
		})
	}
}

func TestGroupsAreContiguous(t *testing.T) {
	t.Parallel()
	seen, last := map[string]bool{}, ""
	for _, c := range Checks() {
		if c.Group != last && seen[c.Group] {
			t.Errorf("group %q comes twice", c.Group)
		}
		seen[c.Group], last = true, c.Group
	}
}

// Every row of the table that the program can compute is checked, in each of its
// numbers.
func TestEveryRowIsChecked(t *testing.T) {
	t.Parallel()
	type compared struct {
		id   string
		want float64
	}
	checked, known := map[compared]bool{}, map[string]bool{}
	for _, c := range published() {
		checked[compared{c.ID, c.Want}], known[c.ID] = true, true
	}
	for _, r := range publishedTable() {
		var want []string
		switch r.kind {
		case "value":
			want = []string{r.printed}
		case "approximation":
			want = []string{r.printed, r.trueValue}
		case "misprint":
			want = []string{r.trueValue}
		case "limit":
			// Without a speed it is a number of the source's own choice.
			if _, speed := r.in["rpm"]; speed || r.quantity == "speed_angle_max" {
				want = []string{r.implied}
			}
		case "formula":
			if !known[r.id] {
				t.Errorf("%s (%s): nothing is compared with %s", r.id, r.quantity, r.printed)
			}
		case "outside":
		default:
			t.Errorf("%s: kind %q is not known", r.id, r.kind)
		}
		if r.quantity == "angle_at_accel" {
			want = append(want, r.printed)
		}
		for _, text := range want {
			if text == "" || !checked[compared{r.id, number(text)}] {
				t.Errorf("%s (%s): nothing is compared with %s", r.id, r.quantity, text)
			}
		}
	}
}

func TestMisprintsAreWrong(t *testing.T) {
	t.Parallel()
	found := 0
	for _, c := range Checks() {
		if c.Kind != Misprint {
			continue
		}
		found++
		if c.Want = number(c.Printed); c.OK() {
			t.Errorf("%s: printed %s holds against ours, %v: want a misprint", c.ID, c.Printed, c.Ours)
		}
	}
	if found == 0 {
		t.Error("no misprint is checked")
	}
}

// The two-joint chart follows the small-angle sum: by the exact motion two of its
// values round to other digits.
func TestChartTellsTheSumFromTheMotion(t *testing.T) {
	t.Parallel()
	known := recipes()
	var off []string
	for _, r := range publishedTable() {
		if r.quantity != "companion_angle" {
			continue
		}
		q := known[r.quantity]
		if !r.checkPrinted(q, q.exact).OK() {
			off = append(off, r.id)
		}
	}
	if want := []string{"S2-13", "S2-14"}; !slices.Equal(off, want) {
		t.Errorf("got %q rounded to other digits by the exact motion, want %q", off, want)
	}
}

func TestReferences(t *testing.T) {
	t.Parallel()
	chains := preciseChains()
	for _, test := range []struct {
		name string
		list []comparison
		want int // at least so many
	}{
		{"rigid bodies", solved.compare(), 3 * 2500},
		{"rigid bodies, printed", printed.compare(), 3 * 850},
		{"loads of rigid bodies", compareLoads(), 5000},
		{"single joints", compareJoints(), 3 * 700},
		{"orders of chains", compareOrders(chains), 3 * 180},
		{"motion of chains", compareMotion(chains), 3 * 1500},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if len(test.list) < test.want {
				t.Errorf("%d values are compared, want at least %d", len(test.list), test.want)
			}
			for _, c := range test.list {
				if c.part() > 1 {
					t.Errorf("%s, %s: got %v, want %v within %.2g", c.where, c.what, c.ours, c.want, c.tolerance)
				}
			}
		})
	}
}

func TestCheckThatFails(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for _, test := range []struct {
		name string
		c    Check
		want bool
	}{
		{"equal", Check{Want: 2, Ours: 2}, true},
		{"half a unit off", Check{Want: 2, Ours: 2.5, Tolerance: 0.5}, true},
		{"too high", Check{Want: 2, Ours: 2.6, Tolerance: 0.5}, false},
		{"too low", Check{Want: 2, Ours: 1.4, Tolerance: 0.5}, false},
		{"not a number", Check{Want: 2, Ours: nan, Tolerance: 0.5}, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if got := test.c.OK(); got != test.want {
				t.Errorf("got %v, want %v", got, test.want)
			}
		})
	}
}

func TestWorst(t *testing.T) {
	t.Parallel()
	got := worst("group", "source", []comparison{
		{"lead", "a", 1, 1.5, 1},
		{"ratio", "b", 1, 1, 0},
		{"lead", "c", math.NaN(), 1, 1},
		{"lead", "d", 9, 1, 1},
		{"ratio", "e", 2, 1, 4},
	})
	if len(got) != 2 {
		t.Fatalf("got %d checks, want one of the leads and one of the ratios", len(got))
	}
	if lead := got[0]; lead.What != "lead, 3 values" || lead.Where != "c" || lead.OK() {
		t.Errorf("got %+v, want the lead that is not a number", lead)
	}
	if ratio := got[1]; ratio.What != "ratio, 2 values" || ratio.Where != "e" || !ratio.OK() || ratio.Ours != 1 {
		t.Errorf("got %+v, want the ratio that is off by 1 of 4", ratio)
	}
}

func TestLastDigit(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]float64{"7": 0.5, "0.0306": 0.00005, "-1.0": 0.05, "0.96999": 0.000005} {
		if got := halfUnit(text); math.Abs(got/want-1) > 1e-15 {
			t.Errorf("half a unit of the last digit of %s: got %v, want %v", text, got, want)
		}
	}
	for v, want := range map[float64]float64{1: 5e-12, -0.25: 5e-13, 47.5: 5e-11, 0: 0} {
		if got := halfDigit(v, 12); math.Abs(got-want) > 1e-15*want {
			t.Errorf("half a unit of the 12th digit of %v: got %v, want %v", v, got, want)
		}
	}
}

func TestFind(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name              string
		got, want, within float64
	}{
		{"rising root", root(0, 3, func(x float64) float64 { return x*x - 2 }), math.Sqrt2, 1e-15},
		{"falling root", root(0, 3, func(x float64) float64 { return 2 - x*x }), math.Sqrt2, 1e-15},
		// The square root of rounding.
		{"peak", peak(0, 3, math.Sin), math.Pi / 2, 2e-8},
	} {
		if math.Abs(test.got-test.want) > test.within {
			t.Errorf("%s: got %v, want %v within %v", test.name, test.got, test.want, test.within)
		}
	}
}
