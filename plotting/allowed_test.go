package plotting

import (
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics/limits"
	"halfturn/plotting/page"
)

func angleFigure(rpm float64) *limits.AngleFigure {
	speeds := []float64{0, 1000, 2000, 3000}
	return &limits.AngleFigure{
		Allowed: limits.Curve{RPM: speeds, Value: []float64{9, 4, 3, 2}},
		Printed: []limits.Curve{
			{RPM: speeds, Value: []float64{3, 3, 3, 3}, Basis: "First maker, manual p. 3 (figure 4)"},
			{RPM: speeds, Value: []float64{5, 4, 3, 2}, Basis: "Navy table"},
			{RPM: speeds, Value: []float64{3, 3, 3, 3}, Basis: "Second maker"},
			{Basis: "not at these speeds"},
		},
		Joints: []limits.Marked{{Subject: "front joint", Value: 2.5, Low: 2.3, High: 2.7}, {Subject: "rear joint", Value: 2.6, Low: 2.4, High: 2.8}},
		RPM:    rpm,
	}
}

func TestAllowedAngles(t *testing.T) {
	t.Parallel()
	f, err := Allowed("a van", angleFigure(1500))
	if err != nil {
		t.Fatal(err)
	}
	p := f.Rows[0].Panels[0]
	allowed := curve(t, p, "allowed here")
	if x, y := columns(allowed); len(x) != 3 || x[0] != 1000 || y[2] != 2 {
		t.Errorf("allowed: %v at %v, want 4, 3, 2 at 1000, 2000, 3000 rev/min, nothing at standstill", y, x)
	}
	var printed []string
	for _, layer := range p.Layers {
		if c, ok := layer.(page.Curve); ok && c.Name == "limits in print" {
			printed = append(printed, c.End)
		}
	}
	if got, want := strings.Join(printed, "; "), "First maker and 1 more; Navy table"; got != want {
		t.Errorf("printed limits: got %q, want %q", got, want)
	}
	marks := p.Layers[len(p.Layers)-1].(page.Drawing)
	if got := marks.Reach; len(got) != 4 || got[0] != (plotter.XY{X: 1500, Y: 2.3}) || got[3] != (plotter.XY{X: 1500, Y: 2.8}) {
		t.Errorf("joints reach %v, want the ends of their intervals at 1500 rev/min", got)
	}
	svg := drawn(t, f)
	for _, want := range []string{"front joint 2.50°", "rear joint 2.60°", "a van"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
	}
}

// Without a speed the joints are lines across all speeds.
func TestAllowedAnglesWithoutSpeed(t *testing.T) {
	t.Parallel()
	f, err := Allowed("a van", angleFigure(0))
	if err != nil {
		t.Fatal(err)
	}
	rules := 0
	for _, layer := range f.Rows[0].Panels[0].Layers {
		if r, ok := layer.(page.Rule); ok {
			rules++
			if r.At != 2.5 && r.At != 2.6 {
				t.Errorf("rule %q at %g, want at 2.5 or 2.6", r.Label, r.At)
			}
		}
	}
	if rules != 2 {
		t.Errorf("%d rules, want one for each joint", rules)
	}
}

func TestResidual(t *testing.T) {
	t.Parallel()
	speeds := []float64{0, 1000, 2000}
	data := func(crossing, limit float64) *limits.ResidualFigure {
		return &limits.ResidualFigure{
			Accel:       limits.Curve{RPM: speeds, Value: []float64{0, 100, 400}},
			Low:         limits.Curve{RPM: speeds, Value: []float64{0, 80, 320}},
			High:        limits.Curve{RPM: speeds, Value: []float64{0, 130, 520}},
			Limit:       limits.Limit{Value: limit, Basis: "a catalogue"},
			CrossingRPM: crossing, RPM: 1000,
			Now: limits.Marked{Subject: "pinion", Value: 100, Low: 80, High: 130},
		}
	}
	for _, test := range []struct {
		name    string
		data    *limits.ResidualFigure
		upright float64 // rule at the crossing; 0: none
		caption string
	}{
		{"crossing shown", data(1732, 300), 1732, "Limit: 300 rad/s² (a catalogue); it is reached at 1732 rev/min."},
		{"crossing beyond", data(5000, 2500), 0, "Limit: 2500 rad/s² (a catalogue); it is reached at 5000 rev/min."},
		{"no crossing", data(0, 300), 0, "Limit: 300 rad/s² (a catalogue); no speed reaches it."},
		{"no limit", data(0, 0), 0, "No limit of the acceleration applies."},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			f, err := Residual("a van", test.data)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.HasPrefix(f.Caption, test.caption) {
				t.Errorf("caption: got %q, want it to begin with %q", f.Caption, test.caption)
			}
			p := f.Rows[0].Panels[0]
			if _, y := columns(curve(t, p, "left at the last shaft")); y[2] != 400 {
				t.Errorf("curve ends at %g, want 400", y[2])
			}
			upright := 0.0
			for _, layer := range p.Layers {
				if r, ok := layer.(page.Rule); ok && r.Upright {
					upright = r.At
				}
			}
			if upright != test.upright {
				t.Errorf("crossing marked at %g, want %g", upright, test.upright)
			}
			if svg := drawn(t, f); !strings.Contains(svg, "100 rad/s² at 1000 rev/min") {
				t.Error("the present state is not named")
			}
		})
	}
}
