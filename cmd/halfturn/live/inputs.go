package live

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// inputs are the fields of one of the three ways for a driveline. Which there are
// follows from the file; what stands in them is the matter of the script.
type inputs struct {
	Way    string
	Groups []group // of the bench and the class
	Steps  []step  // of measuring
}

// group is what is entered of one part of the driveline.
type group struct {
	Title  string
	Fields []input
}

// input is one field.
type input struct {
	Path, Label, Unit string
	Slide             *slide   // nil: no slider
	Choices           []string // nil: a text
	Text              bool     // holds words, not a number
	Half              bool     // two stand beside each other
	Hint              string   // what an empty field stands for
	// Switch chooses under which name the shaft at Path is entered; At is the name now.
	Switch ways
	At     string
}

// slide is the reach of a slider and its step.
type slide struct {
	From, To, Step float64
	Around         bool // From and To count from the reading
}

// Sliders of the bench reach 3° to both sides of a reading.
var (
	fine     = &slide{-3, 3, 0.1, true}
	clocking = &slide{-3, 3, 0.5, true}
)

func newInputs(req *request) (inputs, error) {
	in, file := inputs{Way: req.Inputs}, req.File
	switch in.Way {
	case "measure":
		var err error
		if in.Steps, err = newSteps(req); err != nil {
			return inputs{}, err
		}
	case "class":
		in.Groups = []group{{Fields: lessonSliders(req.Lesson, file)}}
	default:
		in.Groups = bench(file)
	}
	return in, nil
}

// bench returns every field of a driveline file, in the order of the power flow.
func bench(file map[string]any) []group {
	groups := []group{{"Driveline", []input{
		{Path: "name", Label: "name", Text: true},
		{Path: "rpm", Label: "first shaft", Unit: "rev/min", Half: true},
		{Path: "torque_nm", Label: "torque", Unit: "N·m", Half: true},
		{Path: "units", Label: "unit of length", Choices: texts(survey.Units), Hint: "mm", Half: true},
	}}}
	n := len(items(file, "shafts"))
	positions := lookUp(file, "joints.0.at") != nil
	for i := range n {
		groups = append(groups, shaftGroup(file, i, n, positions))
		if i < n-1 {
			groups = append(groups, jointGroup(file, i, positions))
		}
	}
	return append(groups,
		group{"Road, instead of the speed of the shaft", []input{
			{Path: "road.speed_kmh", Label: "speed", Unit: "km/h", Half: true},
			{Path: "road.speed_mph", Label: "or speed", Unit: "mph", Half: true},
			{Path: "road.tyre", Label: "tyre", Text: true, Hint: "235/60R16", Half: true},
			{Path: "road.tyre_diameter", Label: "or its diameter", Unit: unit(file), Half: true},
			{Path: "road.rolling_radius", Label: "or its rolling radius", Unit: unit(file), Half: true},
			{Path: "road.final_drive", Label: "ratio of the axle", Half: true},
		}},
		group{"How close the readings are, at most off by", []input{
			{Path: "reading_error_deg", Label: "one placing of the gauge", Unit: "°", Half: true},
			{Path: "gauge_error_deg", Label: "the gauge's own zero", Unit: "°", Half: true},
			{Path: "gauge_resolution_deg", Label: "step of its display", Unit: "°", Half: true},
			{Path: "phase_error_deg", Label: "a phase", Unit: "°", Half: true},
			{Path: "tape_error", Label: "a position by tape", Unit: unit(file), Half: true},
		}},
		limitGroup(file),
		rest(file))
}

func shaftGroup(file map[string]any, i, n int, positions bool) group {
	at := fmt.Sprintf("shafts.%d.", i)
	between := 0 < i && i < n-1
	slope, heading := entry(file, at, slopes), entry(file, at, headings)
	across := input{Path: at + heading, Label: headings.label(heading), Unit: "°", Slide: fine, Hint: "straight"}
	if heading == "offset" {
		across.Unit, across.Slide = unit(file), nil
	}
	var fields []input
	add := func(list ...input) { fields = append(fields, list...) }
	measured := !positions || !between // else the positions of the joints say it
	if measured {
		add(input{Path: at + slope, Label: slopes.label(slope), Unit: "°", Slide: slider(slope)}, across)
	}
	if between {
		add(input{Path: at + "phase", Label: "phase", Unit: "°", Slide: clocking, Hint: "in phase"})
	}
	add(input{Path: at + "name", Label: "name", Text: true, Half: true, Hint: fmt.Sprintf("shaft %d", i+1)},
		input{Path: at + "length", Label: "length", Unit: unit(file), Half: true})
	if measured {
		add(input{Path: at, Label: "slope read", Switch: slopes, At: slope, Half: true},
			input{Path: at, Label: "heading", Switch: headings, At: heading, Half: true})
	}
	if between {
		add(input{Path: at + "bearing", Label: "centre bearing, from the driving end", Unit: unit(file), Hint: "none"})
	}
	return group{title(file, "shafts", i, "shaft"), fields}
}

// A way is how a slope or a heading is read: under which name it stands in the file.
type way struct{ Name, Way, Label string }

type ways []way

var (
	slopes = ways{
		{"down", "in the side view", "down, in the side view"},
		{"incline", "along the shaft", "down, along the shaft"},
		{"turned", "gauge turned", "down; gauge turned end for end"},
	}
	headings = ways{{"right", "by angle", "right"}, {"offset", "by tape", "driven end stands to the right by"}}
)

// slider returns the slider of a slope; a pair of readings has none.
func slider(slope string) *slide {
	if slope == "turned" {
		return nil
	}
	return fine
}

func (w ways) label(name string) string {
	return w[slices.IndexFunc(w, func(x way) bool { return x.Name == name })].Label
}

// entry returns the way that a shaft is entered by, the first where there is none yet.
func entry(file map[string]any, at string, among ways) string {
	shaft, _ := lookUp(file, strings.TrimSuffix(at, ".")).(map[string]any)
	for _, w := range among {
		if _, there := shaft[w.Name]; there { // be it empty
			return w.Name
		}
	}
	return among[0].Name
}

func jointGroup(file map[string]any, i int, positions bool) group {
	at := fmt.Sprintf("joints.%d.", i)
	g := group{Title: title(file, "joints", i, "joint"), Fields: []input{
		{Path: at + "name", Label: "name", Text: true, Half: true, Hint: fmt.Sprintf("joint %d", i+1)},
		{Path: at + "kind", Label: "kind", Choices: texts(kinematics.Kinds), Half: true, Hint: string(kinematics.Cardan)},
	}}
	if positions {
		for _, axis := range []string{"along", "right", "down"} {
			g.Fields = append(g.Fields, input{Path: at + "at." + axis, Label: axis, Unit: unit(file), Half: true})
		}
	}
	if lookUp(file, at+"kind") == string(kinematics.DoubleCardan) {
		g.Fields = append(g.Fields, input{Path: at + "synchronous_deg", Label: "synchronous at", Unit: "°", Hint: "every bend", Half: true})
	}
	g.Fields = append(g.Fields, input{Path: at + "companion", Label: "companion", Text: true, Hint: "found from the line", Half: true})
	return g
}

func limitGroup(file map[string]any) group {
	g := group{"Limits", []input{{Path: "limits.set", Label: "set of limits", Choices: survey.SetNames, Hint: "usual"}}}
	set, _ := file["limits"].(map[string]any)
	for _, name := range survey.LimitNames {
		if set[name] != nil {
			g.Fields = append(g.Fields, input{Path: "limits." + name, Label: name})
		}
	}
	return g
}

// rest holds what a file tells of other poses and of what can be changed.
func rest(file map[string]any) group {
	return group{"Poses and possible changes", slices.Concat(
		leaves("poses", "", file["poses"]), leaves("adjust", "", file["adjust"]))}
}

// leaves returns a field for every number below a place of the file, labelled by the
// names on the way to it.
func leaves(path, label string, value any) []input {
	var fields []input
	switch v := value.(type) {
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			switch key {
			case "name", "on", "change": // which tie the file together
			default:
				fields = append(fields, leaves(path+"."+key, label+key, v[key])...)
			}
		}
		return fields
	case []any:
		if len(v) > 0 {
			if _, ok := v[0].(map[string]any); !ok {
				break // readings
			}
		}
		for i, item := range v {
			it, _ := item.(map[string]any)
			name := label
			for _, key := range []string{"change", "on", "name"} {
				if text, ok := it[key].(string); ok {
					name += text + " · "
				}
			}
			fields = append(fields, leaves(fmt.Sprintf("%s.%d", path, i), name, item)...)
		}
		return fields
	case nil:
		return nil
	}
	return []input{{Path: path, Label: label, Half: true}}
}

func items(file map[string]any, list string) []any {
	l, _ := file[list].([]any)
	return l
}

// title is the name of a shaft or a joint, or what stands for it.
func title(file map[string]any, list string, i int, thing string) string {
	name, _ := lookUp(file, fmt.Sprintf("%s.%d.name", list, i)).(string)
	return cmp.Or(name, fmt.Sprintf("%s %d", thing, i+1))
}

func unit(file map[string]any) string {
	u, _ := file["units"].(string)
	return cmp.Or(u, string(survey.Millimetre))
}

func texts[T ~string](list []T) []string {
	var out []string
	for _, v := range list {
		out = append(out, string(v))
	}
	return out
}
