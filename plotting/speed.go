package plotting

import (
	"fmt"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// speed is the deviation of a shaft's speed from its mean. The floor is what a single
// joint of 0.8° leaves, far below what an inclinometer can set.
var speed = quantity{
	label: "speed deviation, %",
	unit:  100,
	base:  1,
	floor: 0.01,
	of:    func(s kinematics.State) float64 { return s.Ratio },
}

// Speed returns the figure of every shaft's speed over a turn, with what is left at the
// end shown apart.
func Speed(c *Case, drive Drive) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	t := c.over(drive)
	return speed.figure(t, "How evenly does each shaft turn?", t.speedCaption()), nil
}

// speedCaption says what is left, in a sentence.
func (t *turning) speedCaption() string {
	name, source := t.shaft(t.left()), t.shaft(t.source())
	if t.cancels() {
		return fmt.Sprintf("The joints cancel: %s turns as evenly as %s.", name, source)
	}
	m := t.motion()
	text := fmt.Sprintf("Left at %s: what one joint at %s leaves. Twice a turn the speed swings between −%s and +%s %%",
		name, degrees(m.Angle()), significant(100*(1-m.MinRatio())), significant(100*(m.MaxRatio()-1)))
	if t.RPM > 0 {
		text += fmt.Sprintf(", %s times a second", significant(t.RPM/30))
	}
	return text + "."
}
