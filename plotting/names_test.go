package plotting

import (
	"slices"
	"strings"
	"testing"
)

func TestShortened(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		n           int
		names, want []string
	}{
		{28, []string{"front shaft", "rear shaft"}, []string{"front shaft", "rear shaft"}},
		{8, []string{"front shaft", "rear"}, []string{"front s…", "rear"}},
		{12, []string{"shaft of the line, first", "shaft of the line, second"}, []string{"shaft …first", "shaft …econd"}},
		{12, []string{"middle shaft 1 of the line", "middle shaft 2 of the line"}, []string{"middle… (1)", "middle… (2)"}},
		{12, []string{"the same in two places", "the same in two places"}, []string{"the same in…", "the same in…"}},
	} {
		if got := shortened(test.names, test.n); !slices.Equal(got, test.want) {
			t.Errorf("%q to %d characters: got %q, want %q", test.names, test.n, got, test.want)
		}
	}
}

// A legend with room for it has whole names, and names that begin alike stay apart in
// every figure.
func TestNamesStayApart(t *testing.T) {
	t.Parallel()
	c := newCase(t, 2800, [][2]float64{{3, 0}, {7, 0}, {5, 0}, {4, 0}})
	c.Shafts[1], c.Shafts[2] = "propeller shaft behind the gearbox, front piece", "propeller shaft behind the gearbox, rear piece"
	f, err := Speed(c, Driving)
	if err != nil {
		t.Fatal(err)
	}
	svg := drawn(t, f)
	for _, name := range c.Shafts[1:3] {
		if !strings.Contains(svg, ">"+name+"<") {
			t.Errorf("the legend does not name %q in full", name)
		}
	}
	sixty := make([]string, 60)
	for k := range sixty {
		sixty[k] = strings.Repeat("a shaft of a long line ", 3) + string(rune('A'+k))
	}
	seen := make(map[string]bool)
	for _, name := range shortened(sixty, roomFor(sixty)) {
		if seen[name] {
			t.Errorf("two shafts are called %q", name)
		}
		seen[name] = true
	}
}
