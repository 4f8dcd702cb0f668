package findings

import (
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

// The first sentence says that it is not fine everywhere, and where and why.
func TestVerdictInPoses(t *testing.T) {
	t.Parallel()
	const file = `{"rpm": 2400, "reading_error_deg": 0.2, "shafts": [{"down": 3}, {"name": "shaft", "down": 6}, {"name": "pinion", "down": 3}], "poses": [`
	pose := func(name, shaft, pinion string) string {
		return `{"name": "` + name + `", "kind": "travel", "shafts": [{"name": "shaft", "down": ` + shaft + `}, {"name": "pinion", "down": ` + pinion + `}]}`
	}
	bent := pose("droop", "15", "6")
	for _, test := range []struct {
		name, poses, want string
	}{
		{"fine", pose("bump", "5", "3"), "Fine: all limits are kept, in "},
		{"broken in a pose", bent, `Fine as measured, but not in the pose "droop": joint 1 is bent by 12.0°, 7.199° is allowed (and 1 more limit). As measured all limits are kept`},
		{"too close to call in a pose", pose("droop", "10.1", "4"), `Fine as measured, but too close to call in the pose "droop": the working angle at joint 1, 7.10°, may be`},
		{"in many poses", bent + "," + pose("air", "16", "6") + "," + pose("jump", "17", "6"), `not in the pose "air": joint 1 is bent by 13.0°, 7.199° is allowed (and 1 more limit); nor in 1 more pose. As measured`},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			sv, err := survey.Read("", strings.NewReader(file+test.poses+"]}"))
			if err != nil {
				t.Fatal(err)
			}
			f, err := New(t.Context(), sv, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if got := f.Answer()[0]; !strings.Contains(got, test.want) {
				t.Errorf("%s\nwant %s", got, test.want)
			}
		})
	}
}

// Nobody cuts for what is read wrongly, or for a joint that is nearly too straight.
func TestNothingYet(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, file, want string }{
		{"misread", `{"rpm": 2600, "reading_error_deg": 0.2, "shafts": [{"down": 2.5}, {"down": 5.5}, {"down": [2.5, 2.6, 5.6]}]}`, "Change nothing before that is read anew."},
		{"just straight enough", `{"rpm": 1900, "reading_error_deg": 0.2, "limits": {"set": "heavy-road"},
			"shafts": [{"down": 3.5}, {"down": 4}, {"down": 4.5}, {"down": 8.5}, {"down": 4}]}`, "Nothing needs to be changed."},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			sv, err := survey.Read("", strings.NewReader(test.file))
			if err != nil {
				t.Fatal(err)
			}
			f, err := New(t.Context(), sv, Options{Correct: true})
			if err != nil {
				t.Fatal(err)
			}
			if got := f.Cure(); got != test.want {
				t.Errorf("%s\nwant %s", got, test.want)
			}
		})
	}
}

// What is fine as measured and broken at another ride height is cured.
func TestCureOfAnotherRideHeight(t *testing.T) {
	t.Parallel()
	const file = `{"rpm": 2600, "reading_error_deg": 0.1, "shafts": [{"down": 3, "length": 700}, {"name": "shaft", "down": 6, "length": 1300}, {"name": "pinion", "down": 3, "length": 250}],
		"poses": [{"name": "laden", "kind": "cruise", "shafts": [{"name": "shaft", "down": 5}, {"name": "pinion", "down": 2.3}]}]}`
	sv, err := survey.Read("", strings.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	f, err := New(t.Context(), sv, Options{Correct: true})
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	f.WriteShort(&out)
	text := strings.Join(strings.Fields(out.String()), " ")
	for _, want := range []string{`not in the pose "laden"`, "Best: "} {
		if !strings.Contains(text, want) {
			t.Errorf("%s\nwant %q in it", text, want)
		}
	}
}
