package survey

import (
	"fmt"
	"regexp"
	"strconv"
)

// TyreDiameter returns the nominal diameter in millimetres of an unloaded tyre of
// a size such as "235/60R16" (ISO style):
//
//	diameter = rim·25.4 + 2·width·ratio/100
//
// with the width in mm, the ratio of the section's height to its width in per
// cent and the rim's diameter in inches; or such as "31x10.5R15", which begins with
// the diameter in inches. What stands behind the size on a sidewall, as in
// "205/65R16C 107T", changes nothing. ok is false for any other text, as for
// "195R14C" or "7.50R16", which do not print how high the section is. A rolling tyre
// turns as if it were some 2 to 4 % smaller.
func TyreDiameter(size string) (mm float64, ok bool) {
	m := tyrePattern.FindStringSubmatch(size)
	if m == nil {
		return 0, false
	}
	var part [4]float64
	for i, digits := range m[1:] {
		part[i], _ = strconv.ParseFloat(digits, 64) // digits by the pattern, or none
	}
	width, ratio, rim, diameter := part[0], part[1], part[2], part[3]
	return (diameter+rim)*inch + 2*width*ratio/100, true // one of the two is 0
}

// tyrePattern takes what stands before and behind a size on a sidewall: the market or
// the use (P, LT, C), the build (R, ZR, B, D or a dash) and the load and speed that the
// tyre bears.
var tyrePattern = regexp.MustCompile(`^(?:(?:P|LT)?([1-9][0-9]{2})/([1-9][0-9])` + build + `([1-9][0-9](?:\.5)?)` +
	`|([1-9][0-9](?:\.[0-9]{1,2})?)[xX][1-9][0-9]?(?:\.[0-9]{1,2})?` + build + `[1-9][0-9](?:\.5)?)` +
	`(?:C|LT)?(?: [0-9]{2,3}(?:/[0-9]{2,3})?[A-Z])?$`)

const build = ` ?(?:Z?R|[BD-]) ?`

// checkRoad holds that the shafts have one speed, and one that a shaft may have.
func (s *Survey) checkRoad(c *collector) {
	r := s.Road
	if r == nil || r.SpeedKMH == 0 && r.SpeedMPH == 0 {
		return
	}
	if s.RPM != 0 {
		c.report("rpm", quantity(s.RPM, "rpm"), "rpm or a road speed, never both")
	}
	if !c.sound("rpm", "road") {
		return
	}
	if rpm := s.ShaftRPM(); !(rpm <= MaxRPM) {
		c.report("road", fmt.Sprintf("%.0f rpm of the shafts at this speed, tyre and final drive", rpm), fmt.Sprintf("at most %d rpm", MaxRPM))
	}
}
