package plotting

import (
	"math"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

func TestOrdersOfOneJoint(t *testing.T) {
	t.Parallel()
	c := newCase(t, 0, [][2]float64{{0, 0}, {20, 0}})
	for i, m := range []float64{2, 4, 6, 8} {
		// The exact series of one joint and its limit for small angles; the transform is
		// good to rounding of the lead.
		exact := 2 / m * math.Pow(math.Tan(10*kinematics.Degree), m) / kinematics.Degree
		theory := 2 / m * math.Pow(10*kinematics.Degree, m) / kinematics.Degree
		if got := c.exactOrders()[i]; got.X != m || !near(got.Y, exact, 1e-13) {
			t.Errorf("exact order: got %v, want (%g, %g)", got, m, exact)
		}
		if got := c.theoryOrders()[i]; got.X != m || !near(got.Y, theory, 1e-15) {
			t.Errorf("order by theory: got %v, want (%g, %g)", got, m, theory)
		}
	}
}

// Where nothing is left every order is drawn as 0, on an axis that has a zero.
func TestNoOrdersOfACancelledDriveline(t *testing.T) {
	t.Parallel()
	f, err := Orders(newCase(t, 0, [][2]float64{{0, 0}, {12, 0}, {0, 0}}))
	if err != nil {
		t.Fatal(err)
	}
	panel := f.Rows[0].Panels[0]
	for _, layer := range panel.Layers {
		for _, p := range layer.(page.Drawing).Reach {
			if p.Y != 0 || panel.Y.Log {
				t.Errorf("point at %v, logarithmic %v, want 0 on a linear axis", p, panel.Y.Log)
			}
		}
	}
	zeros := 0
	for _, text := range inks(t, f) {
		if text.text == hard+"0"+hard { // .svg takes ordinary spaces off
			zeros++
		}
	}
	if zeros != 8 {
		t.Errorf("%d zeros written, want 8: orders 2 to 8, exact and by theory", zeros)
	}
	if want := "The joints cancel: no order at shaft C is above rounding, 6·10⁻¹⁴ degrees."; f.Caption != want {
		t.Errorf("caption: got %q, want %q", f.Caption, want)
	}
}

// What the caption says of the orders is true for a joint of 3° as for one of 80°.
func TestOrdersCaption(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		deg  float64
		want string
	}{
		{3, "order 4 has 0.0343 % of order 2"}, // ½·tan²(β/2)
		{80, "order 4 has 35.2 % of order 2"},
	} {
		f, err := Orders(newCase(t, 0, [][2]float64{{0, 0}, {test.deg, 0}}))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(f.Caption, test.want) || strings.Contains(f.Caption, "^") {
			t.Errorf("%g°: got %q, want %q in it and no caret", test.deg, f.Caption, test.want)
		}
	}
}

// Of one phase there is one name; what is marked is told of the chosen shaft.
func TestPhasingNamesAPhaseOnce(t *testing.T) {
	t.Parallel()
	c := newCase(t, 0, [][2]float64{{3, 0}, {9, 0}, {5, 0}, {8, 0}})
	for _, test := range []struct {
		c     *Case
		shaft int
		want  []string
	}{
		{newCase(t, 0, [][2]float64{{3, 0}, {8, 0}, {4.5, 0}}), 0, []string{"worst: phase 90°", "as it is, the best: phase 0°", "phase of shaft B, °"}},
		{newCase(t, 0, [][2]float64{{3, 0}, {8, 0}, {4.5, 0}}, 90), 0, []string{"best: phase 0°", "as it is, the worst: phase 90°"}},
		{newCase(t, 0, [][2]float64{{3, 0}, {8, 0}, {4.5, 0}}, 30), 0, []string{"worst: phase 90°", "best: phase 0°", "as it is: phase 30°"}},
		{c, 1, []string{"phase of shaft B, °"}},
		{c, 2, []string{"phase of shaft C, °"}},
	} {
		f, err := Phasing(test.c, test.shaft)
		if err != nil {
			t.Fatal(err)
		}
		svg := drawn(t, f)
		for _, want := range test.want {
			if !strings.Contains(svg, ">"+want+"<") {
				t.Errorf("figure does not say %q", want)
			}
		}
	}
}

// The largest working angle is on both panels.
func TestTheoryReachesTheJoints(t *testing.T) {
	t.Parallel()
	for deg, want := range map[float64]float64{5: 45, 44: 45, 61: 70, 80: 80, 86: 89} {
		c := newCase(t, 0, [][2]float64{{0, 0}, {deg, 0}})
		f, err := Theory(c)
		if err != nil {
			t.Fatal(err)
		}
		if got := f.Rows[0].Panels[0].X.Range.Max; !near(got, want, 1e-9) {
			t.Errorf("joint at %g°: the panel ends at %g°, want %g°", deg, got, want)
		}
	}
}

// The curve of what is left at every phase has its least value at the best phase and
// its largest a quarter turn away, and every point is the driveline with that phase.
func TestPhasing(t *testing.T) {
	t.Parallel()
	slopes := [][2]float64{{0, 0}, {8, 0}, {8, 6}, {3, 6}}
	c := newCase(t, 0, slopes, 10, 0)
	p, err := newPhased(c, 0)
	if err != nil {
		t.Fatal(err)
	}
	angles := p.angles()
	var least, largest = math.Inf(1), 0.0
	for _, layer := range angles.Layers {
		curve, ok := layer.(page.Curve)
		if !ok {
			continue
		}
		x, y := columns(curve)
		if len(x) != 181 || x[0] != -90 || x[180] != 90 {
			t.Fatalf("%d phases from %g to %g, want 181 from −90 to 90", len(x), x[0], x[len(x)-1])
		}
		for i, phase := range x {
			phases := []float64{10, 0}
			phases[p.turned-1] = phase
			want := newCase(t, 0, slopes, phases...).Analysis.SecondOrder.Exact / kinematics.Degree
			if !near(y[i], want, 1e-9) {
				t.Fatalf("phase %g°: got %g°, want %g°", phase, y[i], want)
			}
			least, largest = min(least, y[i]), max(largest, y[i])
		}
	}
	best, out := p.best.left.Angle()/kinematics.Degree, p.out.left.Angle()/kinematics.Degree
	// The extremes stand between whole degrees: at most half a degree off, on a flat part
	// or a cusp of slope below 0.1.
	if best > least || least-best > 0.05 || out < largest || out-largest > 0.05 {
		t.Errorf("curve from %g° to %g°, want from the best, %g°, to the worst, %g°", least, largest, best, out)
	}
	if now := c.Analysis.SecondOrder.Exact; p.now.left.Angle() != now {
		t.Errorf("as it is: %g, want %g", p.now.left.Angle(), now)
	}
}

func TestPhaseThatDoesNotMatter(t *testing.T) {
	t.Parallel()
	f, err := Phasing(newCase(t, 0, [][2]float64{{0, 0}, {0, 0}, {5, 0}}, 30), 0)
	if err != nil {
		t.Fatal(err)
	}
	if want := "The phase of shaft B changes nothing: there is no fluctuation on one of its sides."; f.Caption != want {
		t.Errorf("caption: got %q, want %q", f.Caption, want)
	}
}

// For small angles every first-order formula is short by β²/6 of itself at the next
// order, the peak acceleration by that and what the shift of its place adds.
func TestShortfall(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		of    approximation
		exact func(beta float64) float64
	}{
		{"swing", swing, func(b float64) float64 { return math.Sin(b) * math.Tan(b) }},
		{"lead", maxLead, func(b float64) float64 { return math.Atan((1 - math.Cos(b)) / (2 * math.Sqrt(math.Cos(b)))) }},
		{"acceleration", peakAccel, func(b float64) float64 {
			peak := 0.0
			for i := range 100000 { // the steps leave the peak 1e-9 too low
				s, c := math.Sincos(math.Pi / 2 * float64(i) / 100000)
				d := c*c + math.Cos(b)*math.Cos(b)*s*s
				peak = max(peak, math.Cos(b)*math.Sin(b)*math.Sin(b)*2*s*c/(d*d))
			}
			return peak
		}},
	} {
		for _, deg := range []float64{1, 14, 45} {
			beta := deg * kinematics.Degree
			got, err := test.of.shortfall(beta)
			want := 100 * (1 - test.of.factor*beta*beta/test.exact(beta))
			if err != nil || !near(got, want, 1e-6) {
				t.Errorf("%s at %g°: short by %g %% (%v), want %g %%", test.name, deg, got, err, want)
			}
		}
		at := onePercent(test.of)
		if short, err := test.of.shortfall(at); err != nil || !near(short, 1, 1e-9) {
			t.Errorf("%s: short by %g %% at %g°, want 1 %%", test.name, short, at/kinematics.Degree)
		}
	}
}

// Scaling by 1 changes nothing, and the curves pass through the driveline as it is.
func TestScaledDriveline(t *testing.T) {
	t.Parallel()
	c := newCase(t, 0, [][2]float64{{3, 1}, {8, -2}, {5, 2}}, 40)
	d, err := c.scaled(1)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := d.SecondOrder().Exact, c.Analysis.SecondOrder.Exact; !near(got, want, 1e-12) {
		t.Errorf("scaled by 1: %g, want %g", got, want)
	}
	p, err := c.scaledPanel()
	if err != nil {
		t.Fatal(err)
	}
	angles, exact := columns(curve(t, p, "exact"))
	_, sum := columns(curve(t, p, "first order: vector sum"))
	if exact[0] != 0 || sum[0] != 0 {
		t.Errorf("straight: %g and %g, want nothing left", exact[0], sum[0])
	}
	if last := angles[len(angles)-1]; last < 40 {
		t.Errorf("scaled up to a working angle of %g°, want 40° or more", last)
	}
}

func TestCompareNumbersItsCurves(t *testing.T) {
	t.Parallel()
	slow, fast, unknown := newCase(t, 900, [][2]float64{{0, 0}, {4, 0}}), newCase(t, 3000, [][2]float64{{0, 0}, {2, 0}}), newCase(t, 0, [][2]float64{{0, 0}, {3, 0}})
	slow.Name, fast.Name, unknown.Name = "slow", "fast", "unknown"
	f, err := Compare([]*Case{slow, fast})
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Rows) != 2 {
		t.Fatalf("%d rows, want speed and acceleration", len(f.Rows))
	}
	for i, c := range []*Case{slow, fast} {
		omega := c.RPM * kinematics.RPM
		m := c.Analysis.Driving[1]
		name := []string{"1  slow, 900 rev/min", "2  fast, 3000 rev/min"}[i]
		speeds, accels := curve(t, f.Rows[0].Panels[0], name), curve(t, f.Rows[1].Panels[0], name)
		_, speed := columns(speeds)
		_, accel := columns(accels)
		if got, want := speed[90], 100*(m.At(math.Pi/2).Ratio-1); got != want {
			t.Errorf("%s: speed at 90° %g %%, want %g %%", c.Name, got, want)
		}
		if got, want := accel[45], omega*omega*m.At(math.Pi/4).Accel; got != want {
			t.Errorf("%s: acceleration at 45° %g, want %g", c.Name, got, want)
		}
		if speeds.Pen.Color == nil || speeds.End != name[:1] {
			t.Errorf("%s: end labelled %q, want %q", c.Name, speeds.End, name[:1])
		}
	}
	if f, err = Compare([]*Case{slow, unknown}); err != nil || len(f.Rows) != 1 {
		t.Errorf("one speed not known: %v and %d rows, want speed alone", err, len(f.Rows))
	}
}

func TestCorrectionShowsBothStates(t *testing.T) {
	t.Parallel()
	before, after := newCase(t, 2600, [][2]float64{{3, 0}, {8, 0}, {4.5, 0}}), newCase(t, 2600, [][2]float64{{3, 0}, {8, 0}, {3, 0}})
	f, err := Correction(before, after)
	if err != nil {
		t.Fatal(err)
	}
	speeds := f.Rows[0].Panels[0]
	_, was := columns(curve(t, speeds, "before"))
	_, is := columns(curve(t, speeds, "after"))
	if got, want := was[0], 100*(before.Analysis.Driving[2].At(0).Ratio-1); got != want {
		t.Errorf("before: %g, want %g", got, want)
	}
	for i, y := range is {
		if math.Abs(y) > 1e-12 { // percent of 1: rounding
			t.Fatalf("after, at position %d: %g %%, want 0", i, y)
		}
	}
	// Working angles and, last, √(5² − 3.5²): before, then after.
	reach := f.Rows[1].Panels[0].Layers[0].(page.Drawing).Reach[1:]
	for i, want := range []float64{5, 3.5, 3.57, 5, 5, 0} {
		if got := reach[i]; got.X != float64(i%3+1) || !near(got.Y, want, 0.005) {
			t.Errorf("mark %d at %v, want %g° at %d", i+1, got, want, i%3+1)
		}
	}
	svg := drawn(t, f)
	for _, want := range []string{"5.00°", "3.50°", "3.57°", "0.00°", "β₂ joint b"} {
		if !strings.Contains(svg, ">"+want+"<") {
			t.Errorf("figure does not say %q", want)
		}
	}
	if want := "Left at shaft C: one joint at 3.57° before, at 0.00° after."; f.Caption != want {
		t.Errorf("caption: got %q, want %q", f.Caption, want)
	}
}

func TestSheetShowsEverything(t *testing.T) {
	t.Parallel()
	for _, size := range []page.Size{page.A4, page.Letter, page.Slide} {
		f, err := Sheet(twoPiece(t), 3*kinematics.Degree, size)
		if err != nil {
			t.Fatal(err)
		}
		if f.Size.Width != size.Width || f.Size.Height != size.Height {
			t.Errorf("page of %s, want %s", f.Size, size)
		}
		svg := drawn(t, f)
		for _, want := range []string{"Side view (the power flows to the right)", "Top view", "How evenly each shaft turns",
			"How hard each shaft is shaken", "What each joint adds, and their sum", "2800 rev/min", "93.3 Hz", "clockwise"} {
			if !strings.Contains(svg, want) {
				t.Errorf("%s: does not say %q", size, want)
			}
		}
	}
}
