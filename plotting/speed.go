package plotting

import (
	"fmt"
	"math"

	"halfturn/kinematics"
)

// speed is the deviation of a shaft's speed from its mean. The floor is what a single joint of 0.8° leaves, far below
// what an inclinometer can set.
var speed = quantity{
	label: "speed deviation, %",
	unit:  100,
	base:  1,
	floor: 0.01,
	of:    func(t kinematics.Track) []float64 { return t.Ratio },
	order: func(o kinematics.Order) (float64, float64) { return o.Speed, o.Phase - math.Pi/2 },
}

// Speed returns the figure of every shaft's speed over a turn, with what is left at the end shown apart.
func Speed(c *Case, drive Drive) (*Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	t, err := c.over(drive)
	if err != nil {
		return nil, err
	}
	f := &Figure{Title: "How evenly does each shaft turn?", Subtitle: t.subtitle(), Caption: t.speedCaption()}
	every := speed.everyShaft(t)
	every.X.Bare = true
	f.Rows = []Row{
		{Panels: []*Panel{every}, Height: 1.25},
		{Panels: []*Panel{speed.whatIsLeft(t)}},
	}
	return f, nil
}

// speedCaption says what is left, in a sentence.
func (t *turning) speedCaption() string {
	name, source := t.shaft(t.left()), t.shaft(t.source())
	if t.cancels() {
		return fmt.Sprintf("The joints cancel: %s turns as evenly as %s.", name, source)
	}
	text := fmt.Sprintf("%s is left with what one joint at %s leaves: twice a turn its speed rises and falls by ±%s %%",
		name, degrees(t.motion().Angle()), significant(100*t.second.Speed))
	if t.RPM > 0 {
		text += fmt.Sprintf(", %s times a second", significant(t.RPM/30))
	}
	return text + "."
}
