package limits

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"testing"

	"halfturn/kinematics/survey"
)

// Every limit of the library is what its row prints, under the same source.
func TestLibraryIsAsPrinted(t *testing.T) {
	t.Parallel()
	printed := make(map[string]printedRow)
	for _, row := range printedRows(t, "S2-", "S3-", "S7-") {
		printed[row.id] = row
	}
	for _, id := range slices.Sorted(maps.Keys(library)) {
		p, row := library[id], printed[id]
		if row.source != p.source {
			t.Errorf("%s: source %q, want %q", id, p.source, row.source)
		}
		want := row.value
		if id == "S2-08" { // a row of a chart that was made with this limit
			want = row.inputs["accel_rad_s2"]
		}
		if v, ok := p.bound.(fixed); ok && float64(v) != want {
			t.Errorf("%s: %v, want %v as printed", id, v, want)
		}
	}
}

// The rules by speed give the printed angles at the printed speeds, and on the
// safe side between them.
func TestRulesBySpeed(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		rule string
		rows []printedRow
	}{
		{"S3-07", printedRows(t, "S3-01", "S3-03", "S3-05", "S3-06")},
		{"S3-08", printedRows(t, "S3-08", "S3-09", "S3-10", "S3-11", "S3-12", "S3-13")},
	} {
		bound := library[test.rule].bound
		for _, row := range test.rows {
			rpm := row.inputs["rpm"]
			t.Run(fmt.Sprintf("%s at %v rpm", test.rule, rpm), func(t *testing.T) {
				t.Parallel()
				got, ok := bound.at(rpm)
				if !ok || !near(got, row.value, row.halfUnit) {
					t.Errorf("%v deg (%v), want %v as printed", got, ok, row.value)
				}
				if below, _ := bound.at(rpm + 1); below > got {
					t.Errorf("%v deg a little faster, want no more than %v", below, got)
				}
			})
		}
	}
}

// The accelerations that belong to the printed angles, as this package measures
// them behind one joint.
func TestAccelerationOfPrintedAngles(t *testing.T) {
	t.Parallel()
	for _, row := range printedRows(t, "S3-01", "S3-03", "S3-05", "S3-06", "S3-08", "S3-09", "S3-1", "S3-32") {
		rpm := row.inputs["rpm"]
		if row.impliedAccel == 0 || rpm == 0 {
			continue
		}
		t.Run(row.id, func(t *testing.T) {
			t.Parallel()
			s := inPlane(0, cmp.Or(row.inputs["beta_deg"], row.value))
			s.RPM = rpm
			s.Limits = alone(survey.LimitResidualAccel, row.impliedAccel)
			// Implied values are written to the unit.
			if got := judge(t, s).Verdicts[0].Value; !near(got, row.impliedAccel, 0.5) {
				t.Errorf("%v rad/s², want %v", got, row.impliedAccel)
			}
		})
	}
}

// The chart of a two-joint shaft: with the first joint at the printed angle the
// second just passes at the printed one. The chart is read to 0.1 deg and was
// drawn by the small-angle formula, so a step of 0.1 deg is left on both sides.
func TestTwoJointChart(t *testing.T) {
	t.Parallel()
	for _, row := range printedRows(t, "S2-08", "S2-09", "S2-1", "S2-20", "S2-21", "S2-22", "S2-23", "S2-24", "S2-25", "S2-26") {
		t.Run(row.id, func(t *testing.T) {
			t.Parallel()
			for _, step := range []struct {
				off  float64
				want Outcome
			}{{-0.1, Within}, {0.1, Over}} {
				first, second := row.inputs["joint1_deg"], row.value+step.off
				s := inPlane(0, first, first-second)
				s.RPM = row.inputs["rpm"]
				s.Limits = alone(survey.LimitResidualAccel, row.inputs["accel_rad_s2"])
				v := judge(t, s).Verdicts[0]
				if v.Outcome != step.want {
					t.Errorf("%v and %.1f deg: %.1f rad/s² is %s, want %s", first, second, v.Value, v.Outcome, step.want)
				}
			}
		})
	}
}

func TestSpeedTimesAngle(t *testing.T) {
	t.Parallel()
	row := printedRows(t, "S3-71")[0]
	s := inPlane(0, row.inputs["beta_deg"])
	s.RPM = row.inputs["rpm"]
	s.Limits = alone(survey.LimitSpeedAngle, row.value)
	v := judge(t, s).Verdicts[0]
	if !near(v.Value, row.value, 1e-9) || v.Outcome != Within {
		t.Errorf("%v rpm·deg is %s, want %v, which keeps a limit of as much", v.Value, v.Outcome, row.value)
	}
}

func TestTyresTurnAsPrinted(t *testing.T) {
	t.Parallel()
	for _, row := range printedRows(t, "S5-11", "S5-15", "S5-16", "S5-17") {
		t.Run(row.id, func(t *testing.T) {
			t.Parallel()
			s := inPlane(0, 1)
			s.Road = &survey.Road{SpeedMPH: row.inputs["mph"], FinalDrive: 1}
			unit := 60.0 // of a frequency, in rpm
			if inches := row.inputs["diameter_in"]; inches > 0 {
				s.Units, s.Road.TyreDiameter, unit = survey.Inch, inches, 1
			} else {
				s.Road.Tyre = fmt.Sprintf("%v/%vR%v", row.inputs["width_mm"], row.inputs["aspect_percent"], row.inputs["rim_in"])
			}
			// The printed tyres roll on other parts of their diameter than
			// survey.RollingFactor, within survey.RollingSpread, and are rounded.
			g := s.Gearing()
			tolerance := row.value*unit*g.Spread + row.halfUnit*unit
			if got := s.ShaftRPM(); !near(got, row.value*unit, tolerance) {
				t.Errorf("%v rpm, want %v within %v", got, row.value*unit, tolerance)
			}
		})
	}
}

// From the turns of a tyre to the orders of the shaft, as workshop texts work it
// out.
func TestOrdersAsPrinted(t *testing.T) {
	t.Parallel()
	for _, row := range printedRows(t, "S5-13", "S5-14", "S5-2") {
		t.Run(row.id, func(t *testing.T) {
			t.Parallel()
			hz, ratio := row.inputs["tyre_hz"], row.inputs["axle_ratio"]
			if per5 := row.inputs["hz_at_5_mph"]; per5 > 0 {
				hz, ratio = per5*row.inputs["mph"]/5, 1
			}
			turning := TurningAt(60*hz*ratio, &survey.Gearing{Radius: 0.33, FinalDrive: ratio})
			got := map[string]map[float64]float64{
				"driveshaft_hz": {1: turning.ShaftHz, 2: turning.SecondOrderHz},
				"order_hz":      {1: turning.WheelHz, 2: 2 * turning.WheelHz, 3: 3 * turning.WheelHz},
			}[row.quantity][row.inputs["order"]]
			want, tolerance := cmp.Or(row.trueValue, row.value), row.halfUnit
			if row.trueValue == 0 && row.inputs["order"] > 1 {
				tolerance *= row.inputs["order"] // the source multiplies a rounded first order
			}
			if !near(got, want, tolerance) {
				t.Errorf("%v Hz, want %v within %v", got, want, tolerance)
			}
		})
	}
}
