package live

import (
	"fmt"

	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

// lesson is how the class begins with a lesson of the lecture: which figure shows it, and
// what can be moved.
type lesson struct {
	figure  string
	sliders []input
}

// lessons are by their names in the lecture.
var lessons = map[string]lesson{
	"one-joint": {
		"speed",
		[]input{angle(1, "angle")},
	},
	"square": {
		"theory",
		[]input{angle(1, "angle")},
	},
	"cancellation": {
		"speed",
		[]input{angle(1, "middle shaft falls"), angle(2, "last shaft falls")},
	},
	"unequal-angles": {
		"vectors",
		[]input{angle(1, "middle shaft falls"), angle(2, "last shaft falls")},
	},
	"wrong-phase": {
		"speed",
		[]input{ears(1, "ears of the middle shaft"), angle(1, "middle shaft falls")},
	},
	"twisted-planes": {
		"speed",
		[]input{ears(1, "ears of the middle shaft"), twist(2, "last shaft to the right")},
	},
	"middle-shaft": {
		"acceleration",
		[]input{angle(1, "middle shaft falls")},
	},
	"three-joints": {
		"vectors",
		[]input{ears(1, "ears of the second shaft"), ears(2, "ears of the third shaft"), angle(1, "second shaft falls")},
	},
	"torque": {
		"loads",
		[]input{ears(1, "ears of the second shaft"), angle(1, "second shaft falls"), angle(2, "third shaft falls")},
	},
}

// Sliders of the class reach as far as a lecture goes.
var (
	lecture = &slide{From: -45, To: 45, Step: 0.5}
	quarter = &slide{From: -90, To: 90, Step: 1}
)

func angle(shaft int, label string) input {
	return input{Path: fmt.Sprintf("shafts.%d.down", shaft), Label: label, Unit: "°", Slide: lecture}
}

func twist(shaft int, label string) input {
	return input{Path: fmt.Sprintf("shafts.%d.right", shaft), Label: label, Unit: "°", Slide: lecture}
}

func ears(shaft int, label string) input {
	return input{Path: fmt.Sprintf("shafts.%d.phase", shaft), Label: label, Unit: "°", Slide: quarter}
}

// lessonFile returns the driveline of a lesson as a file: 1 m from joint to joint,
// 1000 rev/min and 1000 N·m, round numbers for the board. No limit holds: a class looks
// at what is left, at angles that no shop would allow.
func lessonFile(l plotting.Lesson) map[string]any {
	var shafts []any
	for k, slope := range l.Slopes {
		shaft := map[string]any{"down": slope[0], "length": 1000}
		if slope[1] != 0 {
			shaft["right"] = slope[1]
		}
		if 0 < k && k <= len(l.Phases) {
			shaft["phase"] = l.Phases[k-1]
		}
		shafts = append(shafts, shaft)
	}
	limits := make(map[string]any)
	for _, name := range survey.LimitNames {
		limits[name] = nil
	}
	return map[string]any{"rpm": 1000, "torque_nm": 1000, "shafts": shafts, "limits": limits}
}

// lessonSliders are the sliders of a lesson or, of another driveline, those of all
// its angles.
func lessonSliders(name string, file map[string]any) []input {
	if l, ok := lessons[name]; ok {
		return l.sliders
	}
	var list []input
	n := len(items(file, "shafts"))
	for i := range n {
		list = append(list, angle(i, title(file, "shafts", i, "shaft")+" falls"))
	}
	for i := 1; i < n-1; i++ {
		list = append(list, ears(i, "ears of "+title(file, "shafts", i, "shaft")))
	}
	return list
}
