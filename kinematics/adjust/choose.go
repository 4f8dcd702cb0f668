package adjust

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"halfturn/kinematics/survey"
)

// ErrTooMany is the error of a search that nobody narrowed down.
var ErrTooMany = errors.New(`choose some kinds of change, or list those that are possible in the file ("adjust")`)

// choose returns the changes to try and the part of the result that tells of
// them.
func choose(s *survey.Survey, opts Options) (*Result, []*change, error) {
	if err := s.Validate(); err != nil {
		return nil, nil, err
	}
	asked, refused := s.Adjust, []error(nil)
	assumed := len(asked) == 0
	if assumed {
		asked, refused = Defaults(s)
	}
	asked = slices.DeleteFunc(allow(asked, opts.Allow), func(c survey.Change) bool {
		return opts.Only != nil && !slices.Contains(opts.Only, c.Change)
	})
	if n := len(asked); assumed && n > survey.MaxChanges {
		return nil, nil, fmt.Errorf("%d changes are usual on a driveline of %d shafts: want at most %d: %w",
			n, len(s.Shafts), survey.MaxChanges, ErrTooMany)
	}
	if err := opts.check(s, asked); err != nil {
		return nil, nil, err
	}
	r := &Result{Assumed: assumed}
	g := newGeometry(s)
	var changes []*change
	for _, c := range asked {
		made, err := newChange(s, g, c)
		switch {
		case err != nil:
			refused = append(refused, err)
		case made.values != nil && len(made.values) == 0:
			refused = append(refused, fmt.Errorf("%s: its range holds no value but 0", label(c)))
		default:
			changes = append(changes, made)
			r.Changes = append(r.Changes, c)
		}
	}
	for _, err := range refused {
		r.Refused = append(r.Refused, err.Error())
	}
	r.Remarks = remarks(s, changes, assumed)
	return r, changes, nil
}

// allow returns the changes with others added, or put in the place of the same
// change of the same part.
func allow(changes, others []survey.Change) []survey.Change {
	changes = slices.Clone(changes)
	for _, c := range others {
		same := func(have survey.Change) bool { return have.Change == c.Change && have.On == c.On }
		if i := slices.IndexFunc(changes, same); i >= 0 {
			changes[i] = c
		} else {
			changes = append(changes, c)
		}
	}
	return changes
}

// check refuses options that make no sense, and changes that the survey cannot
// have.
func (o Options) check(s *survey.Survey, changes []survey.Change) error {
	for _, kind := range o.Only {
		if !slices.Contains(survey.Changes, kind) {
			return fmt.Errorf("%q is no kind of change: want some of %s", kind, strings.Join(survey.Changes, ", "))
		}
	}
	for _, count := range []struct {
		name  string
		value int
	}{{"changes at once", o.MostParts}, {"workers", o.Workers}} {
		if count.value < 0 {
			return fmt.Errorf("%d %s: want 1 or more, or 0 for the program's choice", count.value, count.name)
		}
	}
	trial := s.Complete()
	trial.Adjust = changes
	return trial.Validate()
}

// remarks says what is taken for granted, one sentence for each kind of change.
func remarks(s *survey.Survey, changes []*change, assumed bool) []string {
	var list []string
	if assumed {
		list = append(list, "The file lists no changes: these are taken to be possible by common practice, without a source.")
	}
	told := make(map[string]bool)
	for _, c := range changes {
		if text := c.remark(s); !told[text] {
			told[text] = true
			list = append(list, text)
		}
	}
	return list
}

// remark says how a change is taken to move the vehicle.
func (c *change) remark(s *survey.Survey) string {
	switch c.asked.Change {
	case survey.ChangeWedge:
		if c.tiltOnly {
			return fmt.Sprintf("The wedge is taken to tilt the pinion and leave %q where it is, an approximation: with the lengths of %q and %q, the joint would move about the axle and turn the shaft by the wedge times the ratio of the lengths.",
				s.Joints[c.joint].Name, s.Shafts[c.joint].Name, s.Shafts[c.joint+1].Name)
		}
		return "A wedge turns the axle about its centre line, taken to lie level and square to the pinion and to meet its axis; the last joint moves along, and the shaft before it turns."
	case survey.ChangeMount:
		return "Shims at the mount turn the first shaft about the pivot of the engine mounts; the rise is counted at the first joint, under which the mount is taken to stand."
	case survey.ChangeClocking:
		return "Clocking turns the yoke at the driven end of a shaft, and everything behind it, against the yoke at its driving end."
	case survey.ChangeLength:
		return "A shaft of another length moves the joint at its driven end along its axis, and the slip of the shaft behind makes up for it."
	default:
		return "A centre bearing moves its joint straight down or sideways and turns the shafts on both sides; their slip makes up for the change of distance."
	}
}
