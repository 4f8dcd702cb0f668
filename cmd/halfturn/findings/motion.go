package findings

import (
	"cmp"
	"fmt"
	"math/cmplx"

	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
)

// rpm is the speed of the first shaft in rev/min; 0: not given.
func (f *Findings) rpm() float64 { return f.Judgement.RPM }

// accel is the peak acceleration of a motion in rad/s².
func (f *Findings) accel(m kinematics.Motion) float64 {
	omega := f.rpm() * kinematics.RPM
	return m.PeakAccel() * omega * omega
}

// Joints is the table of the true working angles beside what the views show.
func (f *Findings) Joints() Table {
	t := Table{
		Title: "Joints", Names: []int{nameWidth},
		Head: []string{"joint", "kind", "works at", "side view", "top view", "plane"},
	}
	for k, b := range f.Analysis.Bends {
		j := f.Survey.Joints[k]
		t.Add(j.Name, string(j.Kind), degrees(b.Angle), signed(b.Side), signed(b.Top), plane(b))
	}
	return t
}

// Shafts is the table of how each shaft turns.
func (f *Findings) Shafts() Table {
	t := Table{
		Title: "Shafts over one turn: fluctuation", Names: []int{nameWidth},
		Head: []string{"shaft", "as one joint at", "speed", "lead"},
	}
	if f.rpm() > 0 {
		t.Title += ", and peak acceleration in rad/s²"
		t.Head = append(t.Head, "driving", "coasting")
	}
	for k, m := range f.Analysis.Driving {
		row := []string{
			f.Survey.Shafts[k].Name,
			degrees(m.Angle()), swing(m), "±" + degrees(m.MaxLead()),
		}
		if f.rpm() > 0 {
			row = append(row, short(f.accel(m)), short(f.accel(f.Analysis.Coasting[k])))
		}
		t.Add(row...)
	}
	return t
}

// SecondOrder is the table of what each joint adds to the second-order sum.
func (f *Findings) SecondOrder() Table {
	t := Table{
		Title: "Second order: what each joint adds (opposite directions cancel)", Names: []int{nameWidth},
		Head: []string{"joint", "adds deg²", "direction"},
	}
	add := func(name string, v complex128) {
		size, direction := cmplx.Abs(v)/(kinematics.Degree*kinematics.Degree), "-"
		if size >= 0.005 { // below, it is printed as zero
			direction = wholeDegrees(cmplx.Phase(v))
		}
		t.Add(name, fmt.Sprintf("%.2f", size), direction)
	}
	for k, term := range f.Analysis.SecondOrder.Terms {
		add(f.Survey.Joints[k].Name, term)
	}
	add("sum", f.Analysis.SecondOrder.Sum)
	return t
}

// Frequencies is the table of how often everything shakes at the speeds of
// interest; empty where nothing is known of the road.
func (f *Findings) Frequencies() Table {
	t := Table{
		Title: "Shakes a second on the road",
		Head:  []string{"km/h", "mph", "rev/min", "wheels Hz", "shafts Hz", "second order Hz"},
	}
	if f.Survey.Road == nil {
		return t
	}
	for _, x := range limits.Turnings(f.Survey) {
		t.Add(fmt.Sprintf("%.0f", x.KMH), fmt.Sprintf("%.0f", x.MPH), fmt.Sprintf("%.0f", x.RPM),
			fmt.Sprintf("%.1f", x.WheelHz), fmt.Sprintf("%.1f", x.ShaftHz), fmt.Sprintf("%.1f", x.SecondOrderHz))
	}
	return t
}

// PoseTable is the table of the driveline across its poses; empty without them.
func (f *Findings) PoseTable() Table {
	t := Table{Title: "Poses", Head: []string{"pose", "as one joint at", "left rad/s²", "verdict"}, Names: []int{36}}
	for _, s := range f.Poses {
		t.addVerdict(s.Judgement.Outcome, poseName(s), inDegrees(s.ExactEquivalentDeg), residual(s))
	}
	return t
}

// poseName names a pose, that of the survey itself too.
func poseName(s adjust.State) string { return cmp.Or(s.Pose, "as measured") }

// residual is the acceleration left, "" where no speed is given.
func residual(s adjust.State) string {
	if s.Judgement.RPM == 0 {
		return ""
	}
	return short(s.ResidualAccelRadS2)
}
