package survey

import (
	"regexp"
	"strconv"
	"strings"
)

// TyreDiameter returns the nominal diameter in millimetres of an unloaded tyre
// of an ISO-style size such as "235/60R16":
//
//	diameter = rim·25.4 + 2·width·ratio/100
//
// with the width in mm, the ratio of the section's height to its width in per
// cent and the rim's diameter in inches; ok is false for any other text. A
// rolling tyre turns as if it were some 2 to 4 % smaller.
func TyreDiameter(size string) (mm float64, ok bool) {
	m := tyreSize.FindStringSubmatch(size)
	if m == nil {
		return 0, false
	}
	var part [3]float64
	for i, digits := range m[1:] {
		part[i], _ = strconv.ParseFloat(digits, 64) // digits by the pattern
	}
	width, ratio, rim := part[0], part[1], part[2]
	return rim*inch + 2*width*ratio/100, true
}

// tyreSize takes the "P" or "LT" that some markets put in front.
var tyreSize = regexp.MustCompile(`^(?:P|LT)?([1-9][0-9]{2})/([1-9][0-9]) ?Z?R ?([1-9][0-9](?:\.5)?)$`)

func (s *Survey) checkRoad(a *audit) {
	r := s.Road
	if r == nil || a.faulted["road"] {
		return
	}
	if r.SpeedKMH != 0 && r.SpeedMPH != 0 {
		a.report("road.speed_mph", quantity(r.SpeedMPH, "mph"), "speed_kmh or speed_mph, never both")
	}
	if s.RPM != 0 && (r.SpeedKMH != 0 || r.SpeedMPH != 0) {
		a.report("rpm", quantity(s.RPM, "rpm"), "rpm or a road speed, never both")
	}
	if _, ok := TyreDiameter(r.Tyre); r.Tyre != "" && !ok {
		a.report("road.tyre", quoted(r.Tyre), `a size such as "235/60R16"`)
	}
	var sizes []string
	for _, size := range []struct {
		key   string
		blank bool
	}{
		{"tyre", r.Tyre == ""},
		{"tyre_diameter", r.TyreDiameter == 0},
		{"rolling_radius", r.RollingRadius == 0},
	} {
		if !size.blank || a.given(member("road", size.key)) {
			sizes = append(sizes, size.key)
		}
	}
	switch len(sizes) {
	case 0:
		a.report("road", "no size of the tyre", "one of tyre, tyre_diameter and rolling_radius")
	case 1:
	default:
		a.report("road", strings.Join(sizes, " and "), "one of them only")
	}
}
