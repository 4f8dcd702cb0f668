package adjust

import (
	"fmt"
	"slices"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Becoming is what a plan makes of a judged quantity.
type Becoming struct {
	Tightest         // after the plan, without the errors of measurement
	Was      float64 // as it is
}

// worse reports whether a limit is broken, and further than it was.
func (b Becoming) worse() bool {
	return b.Margin < 0 && (b.Value-b.Was)*(b.Value-b.Limit) > 0 && b.now() != b.then()
}

func (b Becoming) now() string { return limits.Amount(b.Was, b.Unit) }

func (b Becoming) then() string { return limits.Amount(b.Value, b.Unit) }

// String says what becomes of a limit that is broken then.
func (b Becoming) String() string {
	becomes := fmt.Sprintf("is then %s (now %s)", b.then(), b.now())
	if b.now() == b.then() {
		becomes = "stays " + b.now()
	}
	return fmt.Sprintf("In the pose %q the %s at %s %s, against %s.", b.Pose, b.Quantity, b.Subject, becomes, limits.Bounded(b.Limit, b.Unit))
}

// worse returns, of the limits that may give way, those that the settings leave
// broken noticeably further than they are.
func (o *objective) worse(e evaluator, settings []setting) (list []Becoming) {
	e.set(settings)
	for i, p := range e {
		for k := range p.values {
			r := o.owed[i][k]
			if now := p.room(k); r.yields && now.Margin < min(0, r.margin-nothing) {
				list = append(list, Becoming{now, r.value})
			}
		}
	}
	return list
}

// elsewhere returns what the settings make of the poses in which the evaluator is not,
// of each the quantity with the least room.
func elsewhere(s *survey.Survey, e evaluator, settings []setting) ([]Becoming, error) {
	others, err := newEvaluator(inPoses(s, func(pose survey.Pose) bool { return !e.asks(pose) })[1:])
	if err != nil {
		return nil, err
	}
	var list []Becoming
	for _, p := range others {
		p.set(nil)
		was := slices.Clone(p.values)
		if len(was) == 0 || !p.set(settings) {
			continue
		}
		least := 0
		for k := range p.values {
			if p.room(k).Margin < p.room(least).Margin {
				least = k
			}
		}
		list = append(list, Becoming{p.room(least), was[least]})
	}
	return list, nil
}
