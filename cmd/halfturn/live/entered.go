package live

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"halfturn/kinematics/survey"
)

// faults are messages by the path of the field that they stand beside.
type faults map[string]string

// enter puts what was typed into the tree of a driveline file. What cannot be read
// is a fault of its field, and the field is left out of the file.
func enter(file map[string]any, entered map[string]string) faults {
	wrong := make(faults)
	unit, _ := file["units"].(string)
	for _, path := range slices.Sorted(maps.Keys(entered)) {
		value, err := readTyped(path, entered[path], survey.Unit(unit))
		if err != nil {
			wrong[path] = err.Error()
		}
		if !place(file, strings.Split(path, "."), value) {
			wrong[path] = "the file has no such place"
		}
		if value != nil {
			displace(file, path)
		}
	}
	joinTurned(file)
	return wrong
}

// readTyped returns what a text in the field at path stands for, as a value of the
// file; nil for none.
func readTyped(path, text string, unit survey.Unit) (any, error) {
	if text = strings.TrimSpace(text); text == "" {
		return nil, nil
	}
	name := path[strings.LastIndexByte(path, '.')+1:]
	switch name {
	case "down", "incline", "turned":
		return readReadings(text, angles(survey.SlopeSense))
	case "right":
		return readReadings(text, angles(survey.HeadingSense))
	case "phase":
		return readReadings(text, angles(survey.TurnSense))
	case "offset":
		return readReadings(text, func(word string) (float64, error) { return survey.ParseLength(word, unit, survey.HeadingSense) })
	case "name", "note", "units", "kind", "tyre", "set", "change", "on":
		return text, nil
	case "companion":
		return readNames(text), nil
	}
	return number(survey.ParseNumber(text))
}

// angles reads single angles.
func angles(sense survey.Sense) func(string) (float64, error) {
	return func(word string) (float64, error) { return survey.ParseAngle(word, sense) }
}

// readReadings reads one reading, or several parted by semicolons.
func readReadings(text string, read func(string) (float64, error)) (any, error) {
	var list []any
	for word := range strings.SplitSeq(text, ";") {
		v, err := number(read(word))
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	if len(list) == 1 {
		return list[0], nil
	}
	return list, nil
}

// readNames reads one name, or several parted by semicolons.
func readNames(text string) any {
	if !strings.Contains(text, ";") {
		return text
	}
	var list []any
	for name := range strings.SplitSeq(text, ";") {
		list = append(list, strings.TrimSpace(name))
	}
	return list
}

func number(v float64, err error) (any, error) {
	if err != nil {
		return nil, err
	}
	return json.Number(strconv.FormatFloat(v, 'g', -1, 64)), nil
}

// place puts a value into a tree of objects and lists, or takes out what is there
// for nil. Objects on the way are made; lists are only as long as they are.
func place(tree map[string]any, path []string, value any) bool {
	key := path[0]
	if len(path) == 1 {
		if value == nil {
			delete(tree, key)
		} else {
			tree[key] = value
		}
		return true
	}
	switch next := tree[key].(type) {
	case map[string]any:
		return place(next, path[1:], value)
	case []any:
		i, err := strconv.Atoi(path[1])
		if err != nil || i < 0 || i >= len(next) || len(path) < 3 {
			return false
		}
		item, ok := next[i].(map[string]any)
		return ok && place(item, path[2:], value)
	case nil:
		if value == nil {
			return true
		}
		inner := make(map[string]any)
		tree[key] = inner
		return place(inner, path[1:], value)
	}
	return false
}

// displace takes out of the file what the value at a path stands instead of: a slope or
// a heading that was read in another way. A single reading leaves the one beside it with
// the gauge turned end for end, or along the shaft; a pair holds both.
func displace(file map[string]any, path string) {
	cut := strings.LastIndexByte(path, '.')
	part, _ := lookUp(file, path[:max(cut, 0)]).(map[string]any)
	name := path[cut+1:]
	for _, among := range []ways{slopes, headings} {
		if !slices.ContainsFunc(among, func(w way) bool { return w.Name == name }) {
			continue
		}
		for _, w := range among {
			half := name == "incline" && w.Name == "turned" || name == "turned" && w.Name == "incline"
			if w.Name != name && !(half && single(part[name]) && single(part[w.Name])) {
				delete(part, w.Name)
			}
		}
	}
}

// single reports whether a value of the file is one reading, not several.
func single(value any) bool {
	_, ok := value.(json.Number)
	return ok
}

// joinTurned makes a pair of a reading along a shaft and the one beside it with the
// gauge turned end for end, which two fields hold on their way.
func joinTurned(file map[string]any) {
	shafts, _ := file["shafts"].([]any)
	for _, item := range shafts {
		shaft, _ := item.(map[string]any)
		second, ok := shaft["turned"].(json.Number)
		if !ok {
			continue
		}
		delete(shaft, "turned")
		if first, ok := shaft["incline"].(json.Number); ok {
			delete(shaft, "incline")
			shaft["turned"] = []any{first, second}
		}
	}
}

// remarks returns what to ask of readings along a shaft that are seldom meant, by the
// fields that they stand in when measuring.
func remarks(file map[string]any) map[string]string {
	asked := make(map[string]string)
	for i, item := range items(file, "shafts") {
		shaft, _ := item.(map[string]any)
		readings := map[string]any{"incline": shaft["incline"]}
		if pair, _ := shaft["turned"].([]any); len(pair) == 2 {
			readings = map[string]any{"incline": pair[0], "turned": pair[1]}
		}
		for name, reading := range readings {
			number, _ := reading.(json.Number)
			slope, _ := number.Float64()
			if question := survey.OnFlange(slope); question != "" {
				asked[fmt.Sprintf("shafts.%d.%s", i, name)] = fmt.Sprintf("%s: %s.", number, question)
			}
		}
	}
	return asked
}

// lookUp returns the value at a path of a tree, nil where there is none.
func lookUp(tree any, path string) any {
	for _, key := range strings.Split(path, ".") {
		switch node := tree.(type) {
		case map[string]any:
			tree = node[key]
		case []any:
			i, err := strconv.Atoi(key)
			if err != nil || i < 0 || i >= len(node) {
				return nil
			}
			tree = node[i]
		default:
			return nil
		}
	}
	return tree
}

// typed returns a value of the file as a field shows it.
func typed(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case []any:
		words := make([]string, len(v))
		for i, item := range v {
			words[i] = typed(item)
		}
		return strings.Join(words, "; ")
	}
	return fmt.Sprint(value)
}
