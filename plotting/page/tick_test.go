package page

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/plot"
)

// number reads a label as a person would.
func number(t *testing.T, label string) float64 {
	t.Helper()
	plain := strings.NewReplacer("−", "-", "·10", "e", "⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3",
		"⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9").Replace(label)
	if strings.HasPrefix(label, "10") && strings.ContainsAny(label, superscripts) {
		plain = "1e" + strings.TrimPrefix(plain, "10")
	}
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		t.Fatalf("label %q is no number: %v", label, err)
	}
	return v
}

// labelled returns the ticks that carry labels.
func labelled(ticks []plot.Tick) []plot.Tick {
	var l []plot.Tick
	for _, t := range ticks {
		if t.Label != "" {
			l = append(l, t)
		}
	}
	return l
}

// checkTicks holds what the Ticker interface promises, and that labels say the truth.
func checkTicks(t *testing.T, ticks []plot.Tick, lo, hi float64) {
	t.Helper()
	labels := labelled(ticks)
	if len(labels) < 2 {
		t.Fatalf("[%v, %v]: got %d labels, want at least 2", lo, hi, len(labels))
	}
	slack := 1e-3 * (hi - lo) / float64(len(labels))
	seen := make(map[string]bool)
	for i, tick := range ticks {
		if tick.Value < lo-slack || tick.Value > hi+slack {
			t.Errorf("[%v, %v]: tick at %v is outside", lo, hi, tick.Value)
		}
		if i > 0 && tick.Value <= ticks[i-1].Value {
			t.Errorf("[%v, %v]: tick at %v after %v", lo, hi, tick.Value, ticks[i-1].Value)
		}
		if tick.Label == "" {
			continue
		}
		if seen[tick.Label] {
			t.Errorf("[%v, %v]: label %q twice", lo, hi, tick.Label)
		}
		seen[tick.Label] = true
		// A tick may be moved by a millionth of a step on to the end of its axis, no
		// more.
		if got := number(t, tick.Label); math.Abs(got-tick.Value) > 2e-6*(labels[1].Value-labels[0].Value) {
			t.Errorf("[%v, %v]: label %q at %v", lo, hi, tick.Label, tick.Value)
		}
	}
}

func TestStepsAlwaysTellTicksApart(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for _, centre := range []float64{0, 1, 3000, -250, 1e-9, -7e11} {
		for range 1000 {
			// Half spans from rounding noise that axes still show to a thousand times the
			// centre.
			half := math.Pow(10, -8.5+11.5*rnd.Float64())
			if centre != 0 {
				half *= math.Abs(centre)
			}
			lo := centre - half*(0.5+rnd.Float64())
			hi := centre + half*(0.5+rnd.Float64())
			want := 2 + rnd.IntN(12)
			ticks := Steps{Want: want}.Ticks(lo, hi)
			checkTicks(t, ticks, lo, hi)
			// Where one step leaves a single label, the next smaller one, 2.5 times
			// finer, may leave five.
			if most := max(want, 5); len(ticks) > most {
				t.Errorf("[%v, %v]: got %d labels, want at most %d", lo, hi, len(ticks), most)
			}
			checkSteps(t, ticks)
		}
	}
}

// checkSteps holds that inner ticks are a step of 1, 2 or 5 times a power of ten apart.
func checkSteps(t *testing.T, ticks []plot.Tick) {
	t.Helper()
	if len(ticks) < 4 {
		return // the outermost may have been moved on to the ends of the axis
	}
	step := (ticks[len(ticks)-2].Value - ticks[1].Value) / float64(len(ticks)-3)
	mantissa := step / math.Pow(10, math.Floor(math.Log10(step*1.0001)))
	for _, m := range []float64{1, 2, 5} {
		// Ticks at 1 ± 1e-9 are differences of numbers with 7 digits more.
		if math.Abs(mantissa-m) < 1e-4 {
			return
		}
	}
	t.Errorf("step %v from ticks %v: want 1, 2 or 5 times a power of ten", step, ticks)
}

func TestTickers(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		ticker plot.Ticker
		lo, hi float64
		want   string
	}{
		{"an 18° joint", Steps{Want: 7}, 0.945, 1.055, "0.96 0.98 1.00 1.02 1.04"},
		{"0.05 about 1", Steps{Want: 4}, 0.95, 1.05, "0.95 1.00 1.05"},
		{"nothing but noise about 1", Steps{Want: 4}, 1 - 1e-8, 1 + 1e-8, "0.99999999 1.00000000 1.00000001"},
		{"percent", Steps{}, -6, 6, "−5 0 5"},
		{"zero has no sign", Steps{Want: 5}, -0.1, 0.1, "−0.10 −0.05 0 0.05 0.10"},
		{"small", Steps{Want: 3}, -2e-7, 2e-7, "−2·10⁻⁷ 0 2·10⁻⁷"},
		{"small about a value", Steps{Want: 3}, 9.6e-7, 1.04e-6, "9.6·10⁻⁷ 9.8·10⁻⁷ 1.00·10⁻⁶ 1.02·10⁻⁶ 1.04·10⁻⁶"},
		{"large", Steps{Want: 4}, 0, 3e7, "0 10⁷ 2·10⁷ 3·10⁷"},
		{"one turn", Turn{}, 0, 360, "0 90 180 270 360"},
		{"a turn about zero", Turn{Minor: 45}, -180, 180, "−180 −90 0 90 180"},
		{"a turn short of its end by rounding", Turn{}, 0, 360 - 1e-10, "0 90 180 270 360"},
		{"part of a turn", Turn{}, 10, 80, "20 40 60 80"},
		{"two quarters that are not shown", Turn{}, 1, 95, "20 40 60 80"},
		{"many turns", Turn{}, 0, 7200, "0 2000 4000 6000"},
		{"decades", Decades{}, 0.01, 10, "0.01 0.1 1 10"},
		{"long decades", Decades{Want: 8}, 1e-7, 1, "10⁻⁷ 10⁻⁶ 10⁻⁵ 10⁻⁴ 10⁻³ 10⁻² 10⁻¹ 10⁰"},
		{"less than two decades", Decades{}, 0.3, 7, "0.5 1 2 5"},
		{"less than one step of a decade", Decades{Want: 3}, 2.1, 2.3, "2.1 2.2 2.3"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			var got []string
			for _, tick := range labelled(test.ticker.Ticks(test.lo, test.hi)) {
				got = append(got, tick.Label)
			}
			if got := strings.Join(got, " "); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

func TestTurnAndDecadesKeepThePromiseOfTickers(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 4000 {
		lo := -720 + 1440*rnd.Float64()
		hi := lo + math.Pow(10, 4*rnd.Float64())
		checkTicks(t, Turn{Minor: []float64{0, 15, 30, 45, 90}[rnd.IntN(5)]}.Ticks(lo, hi), lo, hi)

		lo = math.Pow(10, -12+20*rnd.Float64())
		hi = lo * math.Pow(10, 0.01+12*rnd.Float64()*rnd.Float64())
		checkTicks(t, Decades{Want: 2 + rnd.IntN(10)}.Ticks(lo, hi), lo, hi)
	}
}

func TestTickersRefuseWhatIsNoRange(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	for _, r := range [][2]float64{{nan, 1}, {0, nan}, {-inf, inf}, {0, inf}, {1, 1}, {2, 1}, {-1e308, 1e308}, {1, 1 + 1e-15}} {
		for _, ticker := range []plot.Ticker{Steps{}, Turn{}, Decades{}} {
			t.Run(fmt.Sprint(ticker, r), func(t *testing.T) {
				// What is held here is that the call comes back; an axis with fewer than
				// two labels is an error later.
				if got := ticker.Ticks(r[0], r[1]); len(labelled(got)) > 1 {
					t.Errorf("got %v, want no two labels", got)
				}
			})
		}
	}
}
