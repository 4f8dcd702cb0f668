package adjust

import (
	"errors"
	"sync/atomic"
)

// What a search may cost is counted and not timed, so that the same driveline has the
// same answer on every machine. It is counted in steps: to measure one joint in one pose
// once, which takes about a microsecond. All bounds together keep a search of the longest
// driveline in the most poses below half a minute of one processor.
const (
	// combinable is how many steps all combinations may take, but for a few of the single
	// changes, and affordable those of so many changes in one go, and again what lies
	// around the best of them.
	combinable = 20_000_000
	affordable = 4_000_000
	// judgeable is how many steps the judging of states under the errors of the
	// measurement may take, and judging is what it takes for each joint and pose.
	judgeable = 26_000_000
	judging   = 2_000
)

// ErrBudget is what Search fails with where Options.Budget does not do.
var ErrBudget = errors.New("the search takes more than it may")

// costs counts what a search costs, and holds how much it may, in steps.
type costs struct {
	joints     int64 // in all poses: the steps that one combination takes
	judgement  int64 // the steps that it takes to judge all poses
	judgements int64 // that may still be made
	total      int64 // as combinable, or less where judging takes most

	budget int64 // of Options
	judged int64
	spent  atomic.Int64 // what was judged, too
}

// newCosts returns those of a driveline with so many joints in all its poses, which has
// been judged as measured. It may be judged once more at the least, when it is corrected.
func newCosts(joints int64, exact bool, budget int64) *costs {
	c := &costs{joints: joints, judgement: judging * joints, budget: budget, total: combinable}
	if exact {
		c.judgement = joints
	}
	if c.judgements = judgeable/c.judgement - 1; c.judgements < 2 {
		c.judgements, c.total = 1, combinable/4
	}
	return c
}

// spend counts steps.
func (c *costs) spend(steps int64) error {
	if spent := c.spent.Add(steps); c.budget > 0 && spent > c.budget {
		return ErrBudget
	}
	return nil
}

// judge counts judgements of all poses.
func (c *costs) judge(n int) error {
	c.judgements -= int64(n)
	c.judged += int64(n) * c.judgement
	return c.spend(int64(n) * c.judgement)
}

// bound returns how many steps the combinations of so many changes may take in one go: of
// larger groups fewer, since they seldom win, and ever fewer toward the end.
func (c *costs) bound(size int) int64 {
	left := c.total + c.judged - c.spent.Load()
	bound := min(affordable, max(0, left/4))
	if size > 2 {
		bound /= 8
	}
	return bound
}
