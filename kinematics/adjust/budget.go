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
	// affordable is how many steps combinations of so many changes may take, and again
	// what lies around the best of them.
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
	afford     int64 // as affordable, or less where judging takes most

	budget int64 // of Options
	spent  atomic.Int64
}

// newCosts returns those of a driveline with so many joints in all its poses, which has
// been judged as measured. It may be judged once more at the least, when it is corrected.
func newCosts(joints int64, exact bool, budget int64) *costs {
	c := &costs{joints: joints, judgement: judging * joints, budget: budget, afford: affordable}
	if exact {
		c.judgement = joints
	}
	if c.judgements = judgeable/c.judgement - 1; c.judgements < 2 {
		c.judgements, c.afford = 1, affordable/4
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
	return c.spend(int64(n) * c.judgement)
}

// bound returns how many steps combinations of so many changes may take. Of larger
// groups it is less: they seldom win.
func (c *costs) bound(size int) int64 {
	if size <= 2 {
		return c.afford
	}
	return c.afford / 8
}
