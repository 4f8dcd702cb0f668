package findings

import (
	"fmt"
	"io"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics"
	"halfturn/kinematics/limits"
)

// How text and report say what torque does. The headline has the swing of the forces
// only: their steady part is spoilt by what leftOutOfLoads names.

// leftOutOfLoads says what the loads do not know.
const leftOutOfLoads = "Left out: friction of the slip (under torque it can push harder than all of this, but evenly: it spoils the steady part, not the swing), weight and unbalance of the shafts, springs and play of the supports, wind-up of the line. Torque itself turns axle and engine: these loads are those of the angles as entered."

// loadsKnown reports whether there is more to tell of the loads than couples for each
// 100 N·m.
func (f *Findings) loadsKnown() bool {
	return !f.Loads.TorqueAssumed || f.Loads.Forces != nil && f.Loads.Forces.Free >= 0
}

// LoadSentences say in a line or two how torque shakes the supports; none where
// there is nothing to say, or no torque is given and a length is missing.
func (f *Findings) LoadSentences() []string {
	l := f.Loads
	switch {
	case !f.loadsKnown():
		return nil
	case l.Forces == nil:
		return []string{f.noForces()}
	case l.Forces.Free < 0:
		return nil
	case len(l.Forces.Bearings) == 0 && f.endForce() < gram:
		return []string{fmt.Sprintf("Ends of %s: torque does not push them sideways.", f.shaftName(l.Forces.Free))}
	case len(l.Forces.Bearings) == 0:
		return []string{fmt.Sprintf("Ends of %s: torque pushes them sideways with up to %s %s, twice a turn, at any speed.",
			f.shaftName(l.Forces.Free), newtons(f.endForce()), f.perTorque())}
	}
	return f.bearingSentences()
}

func (f *Findings) bearingSentences() []string {
	var shafts, swings, joints []string
	for _, b := range f.Loads.Forces.Bearings {
		shafts = append(shafts, f.shaftName(b.Shaft))
		swings = append(swings, "±"+newtons(b.Force.Swing()))
		joints = append(joints, f.Survey.Joints[b.Shaft].Name)
	}
	bearing, it := "Centre bearing", "it"
	if len(shafts) > 1 {
		bearing, it = "Centre bearings", "them"
	}
	sentences := []string{fmt.Sprintf("%s of %s: torque shakes %s by %s %s, twice a turn, at any speed.",
		bearing, limits.Listed(shafts), it, limits.Listed(swings), f.perTorque())}
	if f.Loads.BearingsAssumed {
		sentences = append(sentences, "No bearing is given: taken at "+limits.Listed(joints)+".")
	}
	return sentences
}

func (f *Findings) noForces() string {
	return fmt.Sprintf("What torque does to the supports cannot be told: the length of %s is not given.", f.shaftName(f.Loads.Unmeasured))
}

// endForce is the greatest force at the ends of the shaft without a centre bearing.
func (f *Findings) endForce() float64 {
	return f.Loads.Forces.Joints[f.Loads.Forces.Free].Peak()
}

// perTorque says for which torque on the first shaft the loads are.
func (f *Findings) perTorque() string {
	torque := limits.Bounded(f.Loads.TorqueNM, "N·m")
	if f.Loads.TorqueAssumed {
		return "for each " + torque + " (no torque is given)"
	}
	return "at " + torque
}

// shaftName names shaft k, counted from 0.
func (f *Findings) shaftName(k int) string { return f.Survey.Shafts[k].Name }

// gram is its weight in N, less than which is no force.
const gram = 0.01

func newtons(force float64) string {
	if force < gram {
		force = 0
	}
	return limits.Amount(force, "N")
}

// Torques is the table of the torque along every shaft.
func (f *Findings) Torques() Table {
	t := Table{
		Title: "Torque along the shafts, N·m", Names: []int{nameWidth},
		Head: []string{"shaft", "least", "greatest"},
	}
	for k, torque := range f.Loads.Couples.Torques {
		t.Add(f.shaftName(k), limits.Bounded(torque.Min(), ""), limits.Bounded(torque.Max(), ""))
	}
	return t
}

// Couples is the table of what bends the shafts at every joint.
func (f *Findings) Couples() Table {
	t := Table{
		Title: "Couples that bend the shafts at the joints, N·m", Names: []int{nameWidth, nameWidth},
		Head: []string{"joint", "bends", "steady", "swing", "greatest"},
	}
	for k, couple := range f.Loads.Couples.Joints {
		for side, load := range []kinematics.Load{couple.Driving, couple.Driven} {
			t.Add(f.Survey.Joints[k].Name, f.shaftName(k+side), short(r3.Norm(load.Steady)), "±"+short(load.Swing()), short(load.Peak()))
		}
	}
	return t
}

// Bearings is the table of what the centre bearings bear; empty without one, or
// where lengths are missing.
func (f *Findings) Bearings() Table {
	t := Table{
		Title: "Force on the centre bearings, N: the part that swings twice a turn", Names: []int{nameWidth},
		Head: []string{"bearing of", "swing", "sideways", "up and down"},
	}
	if f.Loads.Forces == nil {
		return t
	}
	for _, b := range f.Loads.Forces.Bearings {
		t.Add(f.shaftName(b.Shaft), "±"+short(b.Force.Swing()), "±"+short(b.Force.Right().Swing()), "±"+short(b.Force.Down().Swing()))
	}
	return t
}

// LoadNotes say what else there is to the loads, and what they leave out.
func (f *Findings) LoadNotes() []string {
	var notes []string
	switch l := f.Loads; {
	case l.Forces == nil:
		notes = append(notes, f.noForces())
	case l.Forces.Free >= 0:
		notes = append(notes, fmt.Sprintf("%s has no centre bearing: it is pushed at both ends with up to %s.", f.shaftName(l.Forces.Free), newtons(f.endForce())))
	default:
		notes = append(notes, "With one joint the housings decide what force it passes on; none is told.")
	}
	if f.Loads.Quiet != nil {
		notes = append(notes, f.quietCentre())
	}
	return append(notes, leftOutOfLoads)
}

// quietCentre tells the place without swing, and at once what it costs.
func (f *Findings) quietCentre() string {
	q, last := f.Loads.Quiet, len(f.Survey.Shafts)-1
	return fmt.Sprintf("With %s %s the bearing would be left with ±%s. That is no advice by itself: at %s it would leave what one joint at %s leaves (now %s).",
		f.Survey.Joints[1].Name, f.moved(q.Down, "lower", "higher")+" and "+f.moved(q.Right, "to the right", "to the left"),
		newtons(q.Swing), f.shaftName(last), degrees(q.Left.Angle()), degrees(f.Analysis.Driving[last].Angle()))
}

// moved words a way given in metres, in the unit of the survey.
func (f *Findings) moved(metres float64, ahead, back string) string {
	way := f.inUnits(metres)
	if way < 0 {
		ahead = back
	}
	return limits.Amount(math.Abs(way), string(f.Survey.Units)) + " " + ahead
}

// inUnits returns a length given in metres in the unit of the survey.
func (f *Findings) inUnits(metres float64) float64 {
	return metres * 1000 / f.Survey.Units.Millimetres(1)
}

// LoadTitle heads the loads.
func (f *Findings) LoadTitle() string { return "What torque does " + f.perTorque() }

// writeLoads prints all there is of the loads.
func (f *Findings) writeLoads(w io.Writer) {
	fmt.Fprint(w, "\n"+text.Wrap("", f.LoadTitle()))
	f.Torques().Write(w)
	f.Couples().Write(w)
	f.Bearings().Write(w)
	fmt.Fprintln(w)
	for _, note := range f.LoadNotes() {
		fmt.Fprint(w, text.Wrap("  ", note))
	}
}
