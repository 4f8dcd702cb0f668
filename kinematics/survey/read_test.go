package survey_test

import (
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"

	"halfturn/kinematics/survey"
)

func TestReadReturnsTypedFaults(t *testing.T) {
	t.Parallel()
	_, err := survey.Read("drive.json", strings.NewReader("{\"rpm\": -1,\n\"shafts\": [{\"down\": 95}, {\"down\": 0}]}"))
	want := survey.Faults{
		{"drive.json", 1, 9, "rpm", "-1 rpm", "a speed above 0 and at most 100000 rpm"},
		{"drive.json", 2, 21, "shafts[0].down", "95 deg", "a slope between -90 and 90 deg; read on a flange face? Then enter -5 deg, as along the shaft"},
	}
	if !reflect.DeepEqual(err, error(want)) {
		t.Errorf("got %#v, want %#v", err, want)
	}
	first, ok := errors.AsType[*survey.Fault](err)
	if !ok || !reflect.DeepEqual(first, want[0]) {
		t.Errorf("got first fault %#v (%t), want %#v", first, ok, want[0])
	}
}

func TestReadName(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{
		"a/b.json": "a/b.json:1:1: empty file: want a driveline: { … }",
		"-":        "standard input:1:1: empty file: want a driveline: { … }",
	} {
		if _, err := survey.Read(name, strings.NewReader("")); err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestReadFails(t *testing.T) {
	t.Parallel()
	broken := errors.New("cable pulled")
	s, err := survey.Read("drive.json", io.MultiReader(strings.NewReader("{"), iotest.ErrReader(broken)))
	if s != nil || !errors.Is(err, broken) || err.Error() != "drive.json: cable pulled" {
		t.Errorf("got %v and error %v, want %v", s, err, broken)
	}
}

func TestReadSize(t *testing.T) {
	t.Parallel()
	const file = `{"shafts": [{"down": 0}, {"down": 0}]}`
	for _, test := range []struct {
		name string
		size int
		want string
	}{
		{"at the limit", 1 << 20, "<nil>"},
		{"beyond", 1<<20 + 1, "drive.json: more than 1 MiB: want a driveline file of 1 MiB at most"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			_, err := survey.Read("drive.json", strings.NewReader(file+strings.Repeat(" ", test.size-len(file))))
			if got := fmt.Sprint(err); got != test.want {
				t.Errorf("got %s, want %s", got, test.want)
			}
		})
	}
}

func TestReadByteOrderMark(t *testing.T) {
	t.Parallel()
	if _, err := survey.Read("drive.json", strings.NewReader("\ufeff{\"shafts\": [{\"down\": 0}, {\"down\": 0}]}")); err != nil {
		t.Error(err)
	}
	_, err := survey.Read("drive.json", strings.NewReader("\ufeff{\"rpm\": 0, \"shafts\": [{\"down\": 0}, {\"down\": 0}]}"))
	if fault, ok := errors.AsType[*survey.Fault](err); !ok || fault.Column != 9 {
		t.Errorf("got %v, want column 9: a byte order mark is no character", err)
	}
}

// A file that is nothing like a driveline does not flood the screen.
func TestReadManyFaults(t *testing.T) {
	t.Parallel()
	file := `{"shafts": [{"down": 0}, {"down": 0}], ` + strings.Repeat(`"x": 0, `, 5000) + `"y": 0}`
	_, err := survey.Read("drive.json", strings.NewReader(file))
	if faults, ok := errors.AsType[survey.Faults](err); !ok || len(faults) != 2 {
		t.Errorf("got %d faults for one unknown name many times and another, want 2", len(faults))
	}
	file = `{"shafts": [{"down": [` + strings.Repeat("true, ", 99) + `true]}, {"down": "x", "right": "y"}]}`
	_, err = survey.Read("drive.json", strings.NewReader(file))
	if faults, ok := errors.AsType[survey.Faults](err); !ok || len(faults) != 100 {
		t.Errorf("got %d faults, want 100", len(faults))
	}
}

func TestReadFillsIn(t *testing.T) {
	t.Parallel()
	s, err := survey.Read("drive.json", strings.NewReader(`{"$schema": "x", "shafts": [{"down": 0}, {"down": 0, "name": "b"}, {"down": 0}], "limits": {"odd_joint_max_deg": null}}`))
	if err != nil {
		t.Fatal(err)
	}
	want := &survey.Survey{
		Units:  survey.Millimetre,
		Shafts: []survey.Shaft{{Name: "shaft 1", Slope: survey.Down(0)}, {Name: "b", Slope: survey.Down(0)}, {Name: "shaft 3", Slope: survey.Down(0)}},
		Joints: []survey.Joint{{Name: "joint 1", Kind: "cardan"}, {Name: "joint 2", Kind: "cardan"}},
		Limits: survey.Limits{Off: []string{survey.LimitOddJointMax}},
	}
	if !reflect.DeepEqual(s, want) {
		t.Errorf("got\n%+v\nwant\n%+v", s, want)
	}
}
