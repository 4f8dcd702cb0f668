package limits

import "testing"

func TestNumbersInSentences(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, got, want string }{
		{"three digits", Amount(3.14159, unitDeg), "3.14°"},
		{"whole numbers", Amount(512.34, unitAccel), "512 rad/s²"},
		{"all digits before the point", Amount(18123.4, unitSpeedDeg), "18123 rpm·deg"},
		{"small", Amount(0.00271828, ""), "0.00272"},
		{"nothing", Amount(0, unitDeg), "0°"},
		{"rounding up a digit", Amount(9.996, unitDeg), "10.0°"},
		{"tiny", Amount(1e-15, unitDeg), "0°"},
		{"close to a power of ten", Amount(0.99999999, unitDeg), "1.00°"},
		{"limit as given", Bounded(0.5, unitDeg), "0.5°"},
		{"limit of four digits", Bounded(402.3, unitAccel), "402.3 rad/s²"},
		{"limit that follows from a speed", Bounded(5.76235, unitDeg), "5.762°"},
		{"limit of thousands", Bounded(17000, unitSpeedDeg), "17000 rpm·deg"},
		{"value that looks like the limit", against(3.004, 3, unitDeg), "3.004°"},
		{"value hardly over the limit", against(1.00000001, 1, unitDeg), "just over 1°"},
		{"value hardly under the limit", against(0.49999, 0.5, unitDeg), "just under 0.5°"},
		{"value on the limit but for rounding", against(1+1e-12, 1, unitDeg), "1.00°"},
		{"value on the limit", against(3, 3, unitDeg), "3.00°"},
		{"no word", Listed(nil), ""},
		{"one word", Listed([]string{"a"}), "a"},
		{"three words", Listed([]string{"a", "b", "c"}), "a, b and c"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if test.got != test.want {
				t.Errorf("%q, want %q", test.got, test.want)
			}
		})
	}
}
