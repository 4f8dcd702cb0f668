package limits

import (
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

// A sign that is wrong is asked about once, and none of a healthy line.
func TestSigns(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name    string
		down    []float64
		lengths []float64
		set     string
		want    string // how the only question begins; "": none
	}{
		{name: "healthy", down: []float64{3, 6, 3}},
		{name: "rising as little as any may", down: []float64{1, -1, 1}},
		{name: "nearly parallel ends of a lowered car", down: []float64{3, 0.8, 4.2}},
		{name: "pinion", down: []float64{2, 6, -2}, want: "shaft 3: entered as rising by 2°; the joints would match if it fell"},
		{name: "shaft, with angles that match", down: []float64{3, -6, 3}, want: "shaft 2: entered as rising by 6°; no joint would be bent too far if it fell"},
		{name: "rear shaft", down: []float64{3, 3.3, -5.5, 3.3}, want: "shaft 3: entered as rising by 5.5°"},
		{name: "gearbox", down: []float64{-3, 3.3, 5.5, 3.3}, want: "shaft 1: entered as rising by 3°"},
		{name: "all of them", down: []float64{-2.5, -5.5, -5}, want: "slopes: from the first joint to the last the line rises by 5.50°"},
		{name: "all of them, and fine", down: []float64{-3, -6, -3}, want: "slopes: from the first joint to the last the line rises by 6.00°"},
		{name: "the long one rises", down: []float64{3, 3.3, -2, 3}, lengths: []float64{300, 300, 1500, 300}, set: survey.SetSlowHeavy},
		{name: "not under a road vehicle", down: []float64{-3, -6, -3}, set: survey.SetMachinery},
		{name: "one joint", down: []float64{-3, -6}, set: survey.SetHeavyRoad},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := inPlane(test.down...)
			s.RPM, s.Limits.Set = 2600, test.set
			for i, length := range test.lengths {
				s.Shafts[i].Length = length
			}
			got := judge(t, s).Questions
			switch {
			case test.want == "" && len(got) > 0:
				t.Errorf("asked %q, want nothing", got)
			case test.want != "" && (len(got) != 1 || !strings.HasPrefix(got[0], test.want)):
				t.Errorf("asked %q, want %q …", got, test.want)
			}
		})
	}
}
