package page

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

func TestSettle(t *testing.T) {
	t.Parallel()
	inf := math.Inf(1)
	for _, test := range []struct {
		name string
		axis Axis
		data Interval
		want Interval
		held bool
	}{
		{name: "room at both ends", data: Interval{-10, 10}, want: Interval{-11, 11}},
		{name: "no room across zero", data: Interval{0, 10}, want: Interval{0, 10.5}},
		{name: "no room across zero from below", data: Interval{-10, -0.1}, want: Interval{-10.495, 0}},
		{name: "given range", axis: Axis{Range: Interval{0, 360}}, data: Interval{-5, 1000}, want: Interval{0, 360}},
		{name: "given range without data", axis: Axis{Range: Interval{0, 1}}, data: nothing, want: Interval{0, 1}},
		{name: "noise below the floor", axis: Axis{Least: Around(1, 0.001)}, data: Interval{1 - 1e-16, 1 + 2e-16}, want: Interval{0.999, 1.001}, held: true},
		{name: "data beyond the floor", axis: Axis{Least: Around(0, 1)}, data: Interval{-0.5, 9.5}, want: Interval{-1, 10}},
		{name: "one value", data: Interval{40, 40}, want: Interval{38, 42}},
		{name: "one value and noise", data: Interval{1 - 1e-12, 1 + 1e-12}, want: Interval{0.95, 1.05}},
		{name: "zero alone", data: Interval{0, 0}, want: Interval{-1, 1}},
		{name: "denormal numbers alone", data: Interval{-5e-324, 5e-324}, want: Interval{-1, 1}},
		{name: "logarithmic", axis: Axis{Log: true}, data: Interval{1e-10, 1e10}, want: Interval{1e-11, 1e11}},
		{name: "infinite data within a given range", axis: Axis{Range: Interval{0, 1}}, data: Interval{-inf, inf}, want: Interval{0, 1}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s, err := test.axis.settle(test.data, 0.05)
			if err != nil {
				t.Fatal(err)
			}
			// A few roundings of numbers of the size of the limits, and the noise in "one
			// value and noise".
			tolerance := 1e-12 * test.want.size()
			if math.Abs(s.Min-test.want.Min) > tolerance || math.Abs(s.Max-test.want.Max) > tolerance || s.floored != test.held {
				t.Errorf("got %v, held %v, want %v, %v", s.Interval, s.floored, test.want, test.held)
			}
		})
	}
}

func TestSettleRefuses(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	some := Interval{1, 2}
	for _, test := range []struct {
		name string
		axis Axis
		data Interval
		want string
	}{
		{"no data", Axis{}, nothing, "nothing to draw"},
		{"infinite data", Axis{}, Interval{0, inf}, "want finite values"},
		{"data that overflow", Axis{}, Interval{-1e305, 1e305}, "want finite values"},
		{"NaN limit", Axis{Range: Interval{nan, 1}}, some, "range: NaN to 1"},
		{"infinite limit", Axis{Range: Interval{0, inf}}, some, "range: 0 to +Inf"},
		{"falling limits", Axis{Range: Interval{2, 1}}, some, "rising order"},
		{"limits too close", Axis{Range: Interval{1, 1 + 1e-12}}, some, "not closer than"},
		{"NaN floor", Axis{Least: Around(nan, 1)}, some, "least range: NaN"},
		{"zero on a logarithmic axis", Axis{Log: true, Range: Interval{0, 1}}, some, "want values > 0"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s, err := test.axis.settle(test.data, 0.05)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, %v, want an error with %q", s.Interval, err, test.want)
			}
		})
	}
}

func TestNorm(t *testing.T) {
	t.Parallel()
	linear := scale{Interval: Interval{-1, 3}}
	log := scale{Interval: Interval{0.01, 100}, log: true}
	for _, test := range []struct {
		scale   scale
		v, want float64
	}{{linear, -1, 0}, {linear, 3, 1}, {linear, 1, 0.5}, {linear, 5, 1.5}, {log, 0.01, 0}, {log, 1, 0.5}, {log, 100, 1}} {
		if got := test.scale.norm(test.v); math.Abs(got-test.want) > 1e-15 {
			t.Errorf("%v on %v: got %v, want %v", test.v, test.scale.Interval, got, test.want)
		}
	}
	for _, v := range []float64{-1, math.NaN()} {
		if got := log.norm(v); !math.IsNaN(got) {
			t.Errorf("%v on a logarithmic scale: got %v, want NaN", v, got)
		}
	}
}

// However short an axis is, and whatever its range, zero keeps its number.
func TestZeroKeepsItsNumber(t *testing.T) {
	t.Parallel()
	sizes := map[string]func(string) extent{
		"upright": func(string) extent { return extent{18, 27, 4} },
		"level":   func(label string) extent { return extent{vg.Length(12 * len(label)), 30, 4} },
	}
	for way, size := range sizes {
		for _, data := range []Interval{{-1, 1}, {-0.52, 0.523}, {-82.6, 476}, {-2.2, 2.2}, {0, 7}, {-90, 90}, {-3e-4, 1e-4}} {
			for length := vg.Length(60); length < 700; length += 20 {
				for _, axis := range []Axis{{}, {Ticker: Turn{}}, {Ticker: plot.ConstantTicks{{Value: data.Min, Label: "a"}, {Value: 0, Label: "0"}, {Value: data.Max, Label: "b"}}}} {
					s, err := axis.settle(data, 0.06)
					if err == nil {
						err = axis.mark(&s, length, size)
					}
					if err != nil {
						t.Fatal(err)
					}
					if !slices.ContainsFunc(s.ticks, func(tick plot.Tick) bool { return tick.Value == 0 && tick.Label != "" }) {
						t.Errorf("%s axis of %g pt from %g to %g: zero has no number among %v", way, length, data.Min, data.Max, s.ticks)
					}
				}
			}
		}
	}
}

// A range that reaches as far on both sides of zero has numbers on both, however flat its
// panel.
func TestFlatPanelsHaveNumbersOnBothSides(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		reach float64
		from  vg.Length // em: below that three numbers would touch
	}{
		{6.1, 3}, {4.9, 3}, {1.99, 3}, {0.9, 3},
		{1.78, 3.2}, {0.35, 3.2}, // 2 and 0.4 lie within their axes, −2 and −0.4 do not
	} {
		reach := test.reach
		for height := test.from; height < 12; height += 0.25 {
			p := &Panel{Layers: []plot.Plotter{Curve{Points: plotter.XYs{{X: 0, Y: -reach}, {X: 1, Y: 1.05 * reach}}, Pen: Accent()}}}
			l := lettersFor(Slide)
			f, err := p.fit(l, room{30 * l.Em(), vg.Point{X: 25 * l.Em(), Y: height * l.Em()}}, Place{}, false)
			if err != nil {
				t.Fatal(err)
			}
			var below, zero, above bool
			for _, tick := range f.y.ticks {
				if tick.Label != "" {
					below, zero, above = below || tick.Value < 0, zero || tick.Value == 0, above || tick.Value > 0
				}
			}
			if !below || !zero || !above {
				t.Errorf("±%g, %g em high: numbers below, at and above zero: %v, %v, %v", reach, height, below, zero, above)
			}
		}
	}
}

// Where labels are taken off an axis, zero keeps its own.
func TestThinKeepsZero(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		at   []float64
		want []float64
	}{
		{"zero first", []float64{0, 90, 180, 270, 360}, []float64{0, 180, 360}},
		{"zero inside", []float64{-10, 0, 10, 20, 30}, []float64{0, 20}},
		{"zero in the middle", []float64{-20, -10, 0, 10, 20}, []float64{-20, 0, 20}},
		{"no zero", []float64{1, 2, 3, 4}, []float64{1, 3}},
		{"zero alone would be left", []float64{-90, 0, 90}, []float64{0, 90}},
		{"no zero, three", []float64{1, 2, 3}, []float64{1, 3}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			var s scale
			for _, v := range test.at {
				s.ticks = append(s.ticks, plot.Tick{Value: v, Label: "x"})
			}
			s.thin()
			var got []float64
			for _, tick := range s.ticks {
				if tick.Label != "" {
					got = append(got, tick.Value)
				}
			}
			if !slices.Equal(got, test.want) {
				t.Errorf("labels at %v, want %v", got, test.want)
			}
		})
	}
}
