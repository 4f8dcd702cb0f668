package live

import (
	"strconv"
	"strings"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// command returns the command line that checks a driveline: by flags where they say
// all that there is to say of it, else by the file that the page saves.
func command(s *survey.Survey) string {
	var down, right, phase []string
	for k, sh := range s.Shafts {
		if sh.Slope.By != survey.ByDown || len(sh.Slope.Deg) != 1 || len(sh.Heading.Values) > 1 ||
			sh.Heading.Entered() && sh.Heading.By != survey.ByRight || len(sh.PhaseDeg) > 1 {
			return fileCommand
		}
		down, right = append(down, decimal(sh.Slope.Mean())), append(right, decimal(sh.Heading.Mean()))
		if 0 < k && k < len(s.Shafts)-1 {
			phase = append(phase, decimal(sh.PhaseDeg.Mean()))
		}
	}
	for _, j := range s.Joints {
		if j.Kind != kinematics.Cardan || j.At != nil {
			return fileCommand
		}
	}
	if s.GaugeErrorDeg > 0 || s.Road != nil {
		return fileCommand
	}
	line := "halfturn check --down " + strings.Join(down, ",")
	add := func(flag, value string) {
		if strings.Trim(value, "0,") != "" {
			line += " --" + flag + " " + value
		}
	}
	add("right", strings.Join(right, ","))
	add("phase", strings.Join(phase, ","))
	add("rpm", decimal(s.RPM))
	add("reading-error", decimal(s.ReadingErrorDeg))
	return line
}

// fileCommand is for a driveline of which flags cannot tell everything.
const fileCommand = "halfturn check driveline.json"

func decimal(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
