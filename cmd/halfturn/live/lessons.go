package live

import "fmt"

// lesson is a starting point of the class.
type lesson struct {
	Name, Title string
	Ask         string // before anything is moved
	See         string // after
	File        map[string]any
	Figure      string
	sliders     []input
}

// Sliders of the class reach as far as a lecture goes.
func angle(shaft int, label string) input {
	return input{Path: fmt.Sprintf("shafts.%d.down", shaft), Label: label, Unit: "°", Slide: &slide{From: -45, To: 45, Step: 0.5}}
}

func twist(shaft int, label string) input {
	return input{Path: fmt.Sprintf("shafts.%d.right", shaft), Label: label, Unit: "°", Slide: &slide{From: -45, To: 45, Step: 0.5}}
}

func ears(shaft int, label string) input {
	return input{Path: fmt.Sprintf("shafts.%d.phase", shaft), Label: label, Unit: "°", Slide: &slide{From: -90, To: 90, Step: 1}}
}

// lessons lead from one joint to cancellation and to what breaks it. Their drivelines
// are invented.
var lessons = []lesson{
	{
		"one-joint", "One joint: even in, uneven out",
		"The first shaft turns evenly. Does the second?",
		"Twice a turn the driven shaft runs ahead and falls behind: slowest, cos β, while the driving ears stand square to the plane of the shafts, fastest, 1/cos β, while they lie in it.",
		chain([]float64{0, 30}), "speed",
		[]input{angle(1, "angle")},
	},
	{
		"square", "Small angle, small trouble: it grows with the square",
		"Halve the angle. What becomes of the swing?",
		"A quarter is left. The textbook's curve, swing = β², parts from the exact one as the angle grows.",
		chain([]float64{0, 20}), "theory",
		[]input{angle(1, "angle")},
	},
	{
		"cancellation", "Two joints cancel",
		"Two equal angles, ears in line. What is left at the last shaft?",
		"Nothing, in any position: what the first joint does, the second undoes. Only the middle shaft turns unevenly.",
		chain([]float64{0, 12, 0}), "speed",
		[]input{angle(1, "middle shaft falls"), angle(2, "last shaft falls")},
	},
	{
		"unequal-angles", "Unequal angles leave the difference of their squares",
		"12° and 8°: is what is left like one joint at 4°?",
		"More: like one joint at √(12² − 8²) = 8.9°. The arrows are as long as the squares of the angles.",
		chain([]float64{0, 12, 4}), "vectors",
		[]input{angle(1, "middle shaft falls"), angle(2, "last shaft falls")},
	},
	{
		"wrong-phase", "Wrong phase: the joints add",
		"The angles are equal. Turn the ears out of line: what happens?",
		"A quarter turn out, nothing cancels: what is left is like one joint at √2 · 12° = 17°.",
		chain([]float64{0, 12, 0}), "speed",
		[]input{ears(1, "ears of the middle shaft"), angle(1, "middle shaft falls")},
	},
	{
		"twisted-planes", "Twisted planes: ears in line are wrong again",
		"First down, then to the right, by 12° each. Are ears in line still right?",
		"No: the planes of the two bends stand square to each other. Clock the ears until what is left is least.",
		twisted(chain([]float64{0, 12, 12}), 2, 12), "speed",
		[]input{ears(1, "ears of the middle shaft"), twist(2, "last shaft to the right")},
	},
	{
		"middle-shaft", "Cancelled ends, and yet the middle shakes",
		"The ends turn evenly. Is all well then?",
		"The middle shaft speeds up and slows down, driving or coasting, and its inertia loads both joints: equal angles have a limit too.",
		chain([]float64{0, 12, 0}), "acceleration",
		[]input{angle(1, "middle shaft falls")},
	},
	{
		"three-joints", "Three joints can cancel: the arrows close a triangle",
		"Three joints at 20°. Can three arrows come to nothing?",
		"With 30° of phase in both middle shafts they close a triangle. A step of phase turns the next arrow by twice as much.",
		clocked(chain([]float64{0, 20, 0, 20}), 30, 30), "vectors",
		[]input{ears(1, "ears of the second shaft"), ears(2, "ears of the third shaft"), angle(1, "second shaft falls")},
	},
	{
		"torque", "Even speed is not all: what torque does",
		"0°, 3°, 3°: the last shaft turns evenly. Does torque leave the centre bearing in peace?",
		"No: 1000 N·m shake it by ±26 N, twice a turn, at any speed, for the shafts before and behind the front shaft are not parallel. In one plane, ears in line, three joints are never even and quiet at once. Slopes of 3°, 7° and 2° with the ears of the front shaft at 90° are both.",
		loaded(chain([]float64{0, 0, 3, 0}), 1000, 1000), "loads",
		[]input{angle(1, "front shaft falls"), angle(2, "rear shaft falls"), angle(3, "last shaft falls"), ears(1, "ears of the front shaft")},
	},
}

// chain returns a driveline file at 1000 rev/min with the slopes.
func chain(down []float64) map[string]any {
	var shafts []any
	for _, s := range down {
		shafts = append(shafts, map[string]any{"down": s})
	}
	return map[string]any{"rpm": 1000, "shafts": shafts}
}

func twisted(file map[string]any, shaft int, right float64) map[string]any {
	file["shafts"].([]any)[shaft].(map[string]any)["right"] = right
	return file
}

func clocked(file map[string]any, phases ...float64) map[string]any {
	for i, phase := range phases {
		file["shafts"].([]any)[i+1].(map[string]any)["phase"] = phase
	}
	return file
}

// loaded gives a driveline a torque in N·m and all its shafts a length in mm.
func loaded(file map[string]any, torque, length float64) map[string]any {
	file["torque_nm"] = torque
	for _, shaft := range file["shafts"].([]any) {
		shaft.(map[string]any)["length"] = length
	}
	return file
}

// lessonSliders are the sliders of a lesson or, of another driveline, those of all
// its angles.
func lessonSliders(name string, file map[string]any) []input {
	for _, l := range lessons {
		if l.Name == name {
			return l.sliders
		}
	}
	var list []input
	n := len(items(file, "shafts"))
	for i := range n {
		list = append(list, angle(i, title(file, "shafts", i, "shaft")+" falls"))
	}
	for i := range max(n-2, 0) {
		list = append(list, ears(i+1, "ears of "+title(file, "shafts", i+1, "shaft")))
	}
	return list
}
