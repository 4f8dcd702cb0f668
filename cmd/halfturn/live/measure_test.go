package live

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics"
)

// A technician who knows nothing of the program gets from nothing to what to change:
// a one-piece line whose pinion points 2° too low, at 360 px with a thumb.
func TestMeasureFromNothingToTheCure(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address, 360, 740)
	p.wait(`document.body?.dataset.way === 'measure' && document.querySelector('#choose').innerText.includes('never under a vehicle on a jack alone')`)
	p.fits()
	p.click(`[data-arrangement="one-piece"]`)
	p.settled()
	for _, step := range []struct{ id, value, word, choice string }{
		{"joints", "", "", ""},
		{"units", "", "", ""},
		{"shaft-0-slope", "3", "down", ""},
		{"shaft-1-slope", "5,5", "down", ""},
		{"shaft-1-length", "1300", "", ""},
		{"shaft-1-sideways", "", "", ""},
		{"shaft-1-phase", "", "", "0"},
		{"shaft-2-slope", "1", "down", ""},
		{"ends", "", "", ""},
		{"speed", "2800", "", ""},
		{"torque", "", "", ""},
		{"gauge", "", "", "0.1"},
		{"name", "Van 12", "", ""},
	} {
		p.wait(fmt.Sprintf(`!document.querySelector('#%s').hidden`, step.id))
		p.fits()
		within := "#" + step.id + " "
		if strings.HasPrefix(step.id, "shaft-") {
			p.wait(fmt.Sprintf(`document.querySelector('%s.place svg')`, within))
		}
		switch {
		case step.choice != "":
			p.click(fmt.Sprintf(`%s[data-set="%s"]`, within, step.choice))
		case step.value == "":
			p.click(within + `[data-do="skip"]`)
			continue
		default:
			p.enter(p.eval(fmt.Sprintf(`document.querySelector('%s[data-field]').dataset.field`, within)), step.value)
		}
		if step.word != "" {
			p.click(within + `[data-do="step-next"]`) // without a direction it does not go on
			if got := p.text(within + ".fault"); !strings.Contains(got, "Which way?") {
				t.Errorf("%s: got %q, want to be asked for the direction", step.id, got)
			}
			p.click(fmt.Sprintf(`%sinput[value="%s"]`, within, step.word))
		}
		p.settled()
		p.click(within + `[data-do="step-next"]`)
	}
	f := p.agrees()
	if got := fmt.Sprint(f.Survey.Shafts[0].Slope.Mean(), f.Survey.Shafts[1].Slope.Mean(), f.Survey.Shafts[2].Slope.Mean()); got != "3 5.5 1" {
		t.Errorf("the slopes are %s", got)
	}
	p.wait(`document.querySelector('#cure').innerText.includes('wedge')`)
	if got := p.eval(`JSON.stringify(document.querySelector('#cure').getBoundingClientRect().height > 0)`); got != "true" {
		t.Error("the cure is not to be seen")
	}
	p.fits()
	p.quiet(address)
}

// The same by keyboard alone.
func TestMeasureByKeyboard(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#measure", 1280, 800)
	p.wait(`document.body?.dataset.way`) // the script runs
	tabTo := func(script string) {
		t.Helper()
		for range 60 {
			if p.eval(fmt.Sprintf(`Boolean(document.activeElement?.matches(%q))`, script)) == "true" {
				if p.eval(`getComputedStyle(document.activeElement).outlineStyle`) == "none" {
					t.Errorf("%s: its focus is not to be seen", script)
				}
				return
			}
			p.press("Tab")
		}
		t.Fatalf("%s: not reached by Tab", script)
	}
	tabTo(`[data-arrangement="single-joint"]`)
	p.press("Enter")
	p.settled()
	tabTo(`#joints [data-do="step-next"]`)
	p.press("Enter")
	for i, slope := range []string{"2", "9"} {
		tabTo(fmt.Sprintf(`[data-field="shafts.%d.incline"]`, i))
		p.call("Input.insertText", map[string]any{"text": slope}, nil)
		tabTo(fmt.Sprintf(`#shaft-%d-slope input[type="radio"]`, i))
		p.press(" ")
		tabTo(fmt.Sprintf(`#shaft-%d-slope [data-do="step-next"]`, i))
		p.press("Enter")
	}
	for _, step := range []string{"speed", "torque", "gauge", "name"} {
		tabTo(fmt.Sprintf(`#%s [data-do="skip"]`, step))
		p.press("Enter")
	}
	f := p.agrees()
	if got := f.Document().Joints[0].WorkingAngleDeg; got < 6.999 || got > 7.001 {
		t.Errorf("2° and 9° down: the joint works at %v", got)
	}
	p.quiet(address)
}

// A slope that is read in another way stands instead of the one in the file.
func TestReadAnotherWay(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	file := map[string]any{"shafts": []any{
		map[string]any{"down": 2}, map[string]any{"down": []any{3, 4}, "right": 1, "length": 900}, map[string]any{"turned": []any{1, 2}},
	}}
	a := answered(t, address, map[string]any{"file": file, "entered": map[string]string{
		"shafts.0.incline": "5 up", "shafts.1.offset": "12 left", "shafts.2.incline": "6", "shafts.2.turned": "7",
	}})
	want := `[{"name":"shaft 1","incline":-5},{"name":"shaft 2","down":[3,4],"offset":-12,"length":900},{"name":"shaft 3","turned":[6,7]}]`
	var got struct{ Shafts []map[string]any }
	var wanted []map[string]any
	must(t, json.Unmarshal(a.File, &got))
	must(t, json.Unmarshal([]byte(want), &wanted))
	for _, shaft := range wanted {
		delete(shaft, "name")
	}
	if len(a.Faults) > 0 || fmt.Sprint(got.Shafts) != fmt.Sprint(wanted) {
		t.Errorf("got %v and the faults %v, want %v", got.Shafts, a.Faults, wanted)
	}
}

// The gauge turned end for end makes a pair of its readings.
func TestMeasureTurned(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	a := answered(t, address, map[string]any{
		"file": map[string]any{"shafts": []any{map[string]any{}, map[string]any{"incline": 2}}},
		"entered": map[string]string{
			"shafts.0.incline": "3.4 down", "shafts.0.turned": "3 down", "shafts.1.turned": "",
		},
	})
	if want := `{"turned": [3.4, 3]}`; len(a.Faults) > 0 || !strings.Contains(string(a.File), strings.ReplaceAll(want, " ", "")) {
		t.Errorf("got %s and the faults %v, want %s in it", a.File, a.Faults, want)
	}
}

func TestShapeOf(t *testing.T) {
	t.Parallel()
	var file map[string]any
	if err := json.Unmarshal([]byte(`{"shafts": [{"name": "case"}, {}, {}], "joints": [{"kind": "double-cardan"}, {"name": "pinion joint"}]}`), &file); err != nil {
		t.Fatal(err)
	}
	got := shapeOf(file)
	if want := []kinematics.Kind{kinematics.DoubleCardan, kinematics.Cardan}; !slices.Equal(got.Joints, want) {
		t.Errorf("joints %q, want %q", got.Joints, want)
	}
	if want := []string{"case", "shaft 2", "shaft 3"}; !slices.Equal(got.Shafts, want) {
		t.Errorf("shafts %q, want %q", got.Shafts, want)
	}
	if want := []string{"joint 1", "pinion joint"}; !slices.Equal(got.Names, want) {
		t.Errorf("names of joints %q, want %q", got.Names, want)
	}
}
