package plotting

import (
	"fmt"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// lead is how far a shaft is ahead of uniform rotation. The floor is what a single joint
// of 0.8° leaves, rounded up.
var lead = quantity{
	label: "lead, °",
	unit:  1 / kinematics.Degree,
	floor: 0.005,
	of:    func(s kinematics.State) float64 { return s.Lead },
}

// Lead returns the figure of how far every shaft runs ahead and behind over a turn, with
// what is left at the end shown apart.
func Lead(c *Case, drive Drive) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	t := c.over(drive)
	caption := fmt.Sprintf("The joints cancel: %s keeps step with %s.", t.shaft(t.left()), t.shaft(t.source()))
	if !t.cancels() {
		caption = fmt.Sprintf("Left at %s: it runs up to %s° ahead and behind, twice a turn. Lead is the rotation of a shaft less θ, with its mean taken out.",
			t.shaft(t.left()), significant(t.motion().MaxLead()/kinematics.Degree))
	}
	return lead.figure(t, "How far does each shaft run ahead and behind?", caption), nil
}
