package adjust

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Options of Search; the zero value is usable.
type Options struct {
	// Only these kinds of change, out of survey.Changes, are made; nil: all.
	Only []string
	// Allow adds to the changes of the survey, or of Defaults, and replaces the
	// range of one that is among them.
	Allow []survey.Change
	// AllPoses asks for plans that are within the limits in every pose of the
	// survey and not only as measured.
	AllPoses bool
	// MostParts is how many changes a plan may combine; 0: all there are.
	MostParts int
	// Workers is how many goroutines search; 0: one for each core.
	Workers int
	// Progress, unless nil, is called from one goroutine now and then with how
	// many combinations have been tried and how many there are at the most. Both
	// count again what has to be tried again with other limits set aside.
	Progress func(tried, most int64)
}

// MostPlans is how many plans Search returns at the most.
const MostPlans = 6

// Result is what can be done about a driveline.
type Result struct {
	Before []State // as measured, then in each pose if all were asked for
	// Fine is set where the verdict is within already; there are no plans then.
	Fine  bool
	Plans []Plan // that differ in kind, the best first
	// SetAside are the verdicts that no change within reach brings within their
	// limits. Plans are ranked by the rest, and by these only among equals.
	SetAside []Breach
	// Needed is what would do with changes beyond their ranges, where no plan is
	// within; nil: one or two of them would not do even if they could go three
	// times as far and either way.
	Needed *Plan

	Changes []survey.Change // that were tried
	Assumed bool            // possible by Defaults, because the survey lists none
	Refused []string        // changes that cannot be followed, and why
	Remarks []string        // what was taken for granted, one sentence each
	Tried   int64           // combinations, with those that were ruled out
}

// Search looks for the changes that bring a valid driveline within its limits,
// driving and coasting, whatever the errors of the measurement. It tries every
// combination of the settings of changes made in steps, in the exact model, and
// beside each of them sets the changes that can take any value where they leave
// the most room, by a scan and a local search.
//
// The best plan is within every limit, touches the fewest parts, changes the
// least in parts of what is possible, and leaves the most room, in this order.
// Combinations are left untried only where they cannot win: because fewer changes
// serve, or because their working angles alone, which no clocking alters, leave
// less room than less change does.
//
// Where no plan keeps every limit, those that no combination keeps are set aside
// and the search is for the rest; where the rest needs or allows no correction,
// it is for what comes nearest to all limits but those that nothing betters.
//
// Search fails where no limit applies, where no change can be followed, where
// there are more than MaxCombinations, and with the error of ctx when that ends.
// Of changes that are possible by Defaults, it rather combines fewer at once.
func Search(ctx context.Context, s *survey.Survey, opts Options) (*Result, error) {
	s = s.Complete()
	r, changes, err := choose(s, opts)
	if err != nil {
		return nil, err
	}
	if r.Before, err = states(s, opts.AllPoses); err != nil {
		return nil, err
	}
	if len(r.Before[0].Judgement.Verdicts) == 0 {
		return nil, errors.New("nothing is judged, so that nothing can be corrected: want a driveline with a limit")
	}
	if r.Fine = len(breaches(r.Before)) == 0; r.Fine {
		return r, nil
	}
	if len(changes) == 0 {
		return nil, errors.New(strings.Join(append([]string{"no change can be tried"}, r.Refused...), "\n"))
	}
	most, total, err := r.together(changes, opts)
	if err != nil {
		return nil, err
	}
	q := &quest{survey: s, before: r.Before, allPoses: opts.AllPoses, workers: cmp.Or(opts.Workers, runtime.GOMAXPROCS(0))}
	tried := int64(0)
	q.progress = func(more int64) {
		tried += more
		if opts.Progress != nil {
			opts.Progress(tried, total*max(1, (tried+total-1)/total))
		}
	}
	for i, p := range inPoses(s, opts.AllPoses) {
		t, err := newStand(p, r.Before[i].Judgement)
		if err != nil {
			return nil, err
		}
		q.stands = append(q.stands, t)
	}
	picks, err := q.search(ctx, changes, most)
	if err != nil {
		return nil, err
	}
	r.Tried = tried
	rest := q
	if !slices.ContainsFunc(picks, func(p pick) bool { return p.within }) {
		if rest, picks, err = q.mend(ctx, changes, most, picks); err != nil {
			return nil, err
		}
		r.SetAside = rest.breaches(r.Before, true)
	}
	r.Plans, err = rest.plans(ctx, picks, MostPlans)
	if err == nil && (len(r.Plans) == 0 || r.Plans[0].Outcome != limits.Within) {
		r.Needed, err = q.needed(ctx, changes)
	}
	return r, err
}

// together returns how many changes a plan may combine, and how many combinations
// that makes.
func (r *Result) together(changes []*change, opts Options) (most int, total int64, err error) {
	most = min(len(changes), cmp.Or(opts.MostParts, len(changes)))
	total, err = countCombinations(changes, most)
	if asked := !r.Assumed || opts.MostParts > 0 || len(opts.Allow) > 0; err == nil || asked {
		return most, total, err
	}
	for err != nil && most > 1 {
		most--
		total, err = countCombinations(changes, most)
	}
	r.Remarks = append(r.Remarks, fmt.Sprintf("No plan combines more than %d changes: more at once would be too many to try.", most))
	return most, total, err
}
