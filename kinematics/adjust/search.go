package adjust

import (
	"context"
	"errors"
	"slices"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// MostPlans is how many plans Search returns at the most.
const MostPlans = 6

// Result is what can be done about a driveline.
type Result struct {
	// Before is as measured, then in the poses that the plans are to suit: those of the
	// kind cruise, or all if they were asked for.
	Before []State
	// Fine is set where no limit is known to be broken: nothing needs to be changed.
	// There may still be a plan, that takes a doubt away or halves what is left.
	Fine bool
	// Plans touch different parts, or the same the other way; the best first.
	Plans []Plan
	// SetAside are the verdicts on limits that are broken and that no change within
	// reach mends without making something else worse. Where the vehicle is not driven
	// for hours, such a limit may be broken a little further by a plan that mends others.
	SetAside []Breach
	// Needed is what it would take, with changes beyond their ranges, where no plan
	// mends everything; nil: one or two of them would not do even if they could go
	// three times as far and either way.
	Needed *Plan

	Changes []survey.Change // that were tried, with their steps
	Assumed bool            // possible by common practice, because the survey lists none
	Refused []string        // changes that cannot be followed, and why
	Untried []string        // those of them that want a length, as a sweep names them
	// Twisted are shafts with yokes in phase between companions whose planes are not.
	Twisted    []string
	OtherPoses int      // of the survey, that the plans need not suit
	Remarks    []string // what was taken for granted or left out, one sentence each
	Tried      int64    // combinations
}

// Search looks for the changes that a good technician would make to a valid
// driveline. Every change is made in practical steps; every setting of one change
// and of two together is tried in the exact model, of more changes and of very long
// drivelines as many as can be afforded: Remarks tell what was left out.
//
// A plan makes nothing worse than it is as measured and keeps every limit that it
// touches and that the readings can prove. Of such plans the best
//
//   - mends the gravest limits and the most of them,
//   - touches the fewest parts, where each part more must mend a limit or halve
//     what is left,
//   - leaves the ends parallel rather than mirrored, on a sprung axle,
//   - leaves the least at the last shaft, at the worst ride height,
//   - and of what leaves about as much changes the least, in parts of what is
//     usual, and lifts the nose of the axle the least,
//
// in this order. What no plan mends stays as it is, or gets a little worse where the
// vehicle only passes through. Of the usual changes, a mount is lowered only where
// nothing else mends everything, and a shaft with its yokes in phase is cut only where
// that alone does.
//
// Search fails where no limit applies, where something is broken and no change can
// be followed, with ErrBudget, and with the error of ctx when that ends.
func Search(ctx context.Context, s *survey.Survey, opts Options) (*Result, error) {
	s = s.Complete()
	r, changes, err := choose(s, opts)
	if err != nil {
		return nil, err
	}
	asked := driven
	if opts.AllPoses {
		asked = everyPose
	}
	poses := inPoses(s, asked)
	r.OtherPoses = 1 + len(s.Poses) - len(poses)
	judged := newMeter(opts.Progress, "pose")
	if r.Before = known(opts.Before, poses); r.Before == nil {
		r.Before, err = states(ctx, poses, judged)
	}
	if err != nil {
		return nil, err
	}
	if len(r.Before[0].Judgement.Verdicts) == 0 {
		return nil, errors.New("nothing is judged, so that nothing can be corrected: want a driveline with a limit")
	}
	r.Fine = len(breaches(r.Before, broken)) == 0
	if len(changes) == 0 {
		if r.Fine {
			return r, nil
		}
		return nil, errors.New(strings.Join(append([]string{"no change can be tried"}, r.Refused...), "\n"))
	}
	q, err := newSearcher(poses, changes, exact(r.Before), opts)
	if err != nil {
		return nil, err
	}
	q.judged = judged
	for _, c := range q.cuts {
		r.Twisted = append(r.Twisted, c.asked.On)
	}
	if r.Fine {
		q.most = 1
	}
	if err := r.find(ctx, s, q); err != nil {
		return nil, err
	}
	r.Tried = q.tried.done
	r.Remarks = remarks(r, s, q)
	return r, nil
}

// known returns those of the states that are in the poses, nil unless all are there.
func known(states []State, poses []posed) []State {
	var list []State
	for _, s := range states {
		if slices.ContainsFunc(poses, func(p posed) bool { return p.pose == s.Pose }) {
			list = append(list, s)
		}
	}
	if len(list) < len(poses) {
		return nil
	}
	return list
}

// remarks says what is taken for granted and what was left out, one sentence each.
func remarks(r *Result, s *survey.Survey, q *searcher) []string {
	var list []string
	if r.Assumed {
		list = append(list, "The file lists no changes: these are taken to be possible by common practice, without a source.")
	}
	for _, c := range q.all {
		if text := c.remark(s); !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	for _, what := range q.leftOut {
		list = append(list, "Left out: "+what+".")
	}
	return list
}

// exact reports whether nothing that the states were judged by is uncertain.
func exact(states []State) bool {
	return !slices.ContainsFunc(states, func(s State) bool { return len(s.Judgement.Inputs) > 0 })
}

// notWithin reports whether a limit is broken or in doubt.
func notWithin(o limits.Outcome) bool { return o != limits.Within }

// broken reports whether a limit is known to be broken.
func broken(o limits.Outcome) bool { return o == limits.Over || o == limits.Under }
