package limits

import "testing"

func TestNumbersInSentences(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, got, want string }{
		{"three digits", amount(3.14159, unitDeg), "3.14°"},
		{"whole numbers", amount(512.34, unitAccel), "512 rad/s²"},
		{"all digits before the point", amount(18123.4, unitSpeedDeg), "18123 rpm·deg"},
		{"small", amount(0.00271828, ""), "0.00272"},
		{"nothing", amount(0, unitDeg), "0°"},
		{"rounding up a digit", amount(9.996, unitDeg), "10.00°"},
		{"tiny", amount(1e-15, unitDeg), "0.000000000°"},
		{"limit as given", bounded(0.5, unitDeg), "0.5°"},
		{"limit of four digits", bounded(402.3, unitAccel), "402.3 rad/s²"},
		{"limit that follows from a speed", bounded(5.76235, unitDeg), "5.762°"},
		{"limit of thousands", bounded(17000, unitSpeedDeg), "17000 rpm·deg"},
		{"value that looks like the limit", against(3.0004, 3, unitDeg), "3.0004°"},
		{"value on the limit", against(3, 3, unitDeg), "3.00°"},
		{"no word", listed(nil), ""},
		{"one word", listed([]string{"a"}), "a"},
		{"three words", listed([]string{"a", "b", "c"}), "a, b and c"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if test.got != test.want {
				t.Errorf("%q, want %q", test.got, test.want)
			}
		})
	}
}
