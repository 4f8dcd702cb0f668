package main

import (
	"fmt"
	"io"
	"math/cmplx"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
)

// nameWidth is how much of a name fits the first column of a table.
const nameWidth = 20

// writeCheck prints a check for a person: the answer first.
func writeCheck(w io.Writer, c *checked) {
	verdict := c.judgement.Answer
	if poses := c.elsewhere(); poses != "" {
		verdict += " Not within in other poses: " + poses + "."
	}
	answer := []string{verdict, c.left()}
	if c.felt != nil {
		answer = append(answer, c.felt.Answer)
	}
	writeAnswer(w, c.survey.Name, answer...)
	writeVerdicts(w, c.judgement)
	if len(c.poses) > 0 {
		writePoses(w, c.poses)
	}
	c.writeJoints(w)
	c.writeShafts(w)
	c.writeSecondOrder(w)
	writeCrossings(w, c.judgement)
	if c.survey.Road != nil {
		writeFrequencies(w, limits.Turnings(c.survey))
	}
	fmt.Fprint(w, "\n"+wrap("", shortCaution))
}

// left is what is left at the last shaft, in a sentence.
func (c *checked) left() string {
	n := len(c.survey.Shafts) - 1
	m, name := c.analysis.Driving[n], c.survey.Shafts[n].Name
	if m.SecondOrder() < kinematics.NoiseFloor {
		return fmt.Sprintf("The joints cancel: %s turns as evenly as %s.", name, c.survey.Shafts[0].Name)
	}
	text := fmt.Sprintf("Left at %s: what one joint at %s leaves. Twice a turn its speed rises and falls by %s",
		name, degrees(m.Angle()), percent(c.analysis.Orders[n][0].Speed))
	if c.rpm == 0 {
		return text + ". Give the speed (rpm) to know how often and how hard."
	}
	speed := c.rpm * kinematics.RPM
	return text + fmt.Sprintf("; at %.0f rev/min that is %.1f shakes a second, with up to %s.",
		c.rpm, limits.TurningAt(c.rpm, nil).SecondOrderHz, acceleration(m.PeakAccel()*speed*speed))
}

func (c *checked) writeJoints(w io.Writer) {
	fmt.Fprintln(w, "\nJoints")
	c.joints().shortened(nameWidth).write(w)
}

// joints is the table of the true working angles beside what the views show.
func (c *checked) joints() table {
	t := table{{"joint", "kind", "works at", "side view", "top view", "plane"}}
	for k, b := range c.analysis.Bends {
		j := c.survey.Joints[k]
		t = append(t, []string{
			j.Name, string(j.Kind),
			degrees(b.Angle), signed(b.Side), signed(b.Top), plane(b),
		})
	}
	return t
}

func (c *checked) writeShafts(w io.Writer) {
	title := "\nShafts over one turn: fluctuation"
	if c.rpm > 0 {
		title += ", and peak acceleration in rad/s²"
	}
	fmt.Fprintln(w, title)
	c.shafts().shortened(nameWidth).write(w)
}

// shafts is the table of how each shaft turns.
func (c *checked) shafts() table {
	head := []string{"shaft", "as one joint at", "speed", "lead"}
	if c.rpm > 0 {
		head = append(head, "driving", "coasting")
	}
	t := table{head}
	speed := c.rpm * kinematics.RPM
	for k, m := range c.analysis.Driving {
		row := []string{
			c.survey.Shafts[k].Name,
			degrees(m.Angle()), percent(m.Nonuniformity() / 2), "±" + degrees(m.MaxLead()),
		}
		if c.rpm > 0 {
			row = append(row, short(m.PeakAccel()*speed*speed), short(c.analysis.Coasting[k].PeakAccel()*speed*speed))
		}
		t = append(t, row)
	}
	return t
}

func (c *checked) writeSecondOrder(w io.Writer) {
	s := c.analysis.SecondOrder
	t := table{{"joint", "adds deg²", "direction"}}
	for k, term := range s.Terms {
		t = append(t, vectorRow(c.survey.Joints[k].Name, term))
	}
	t = append(t, vectorRow("sum", s.Sum))
	fmt.Fprintln(w, "\nSecond order: what each joint adds (opposite directions cancel)")
	t.write(w)
	fmt.Fprintf(w, "  as one joint at: %s by the sum, %s exactly\n", degrees(s.Equivalent), degrees(s.Exact))
}

func vectorRow(name string, v complex128) []string {
	size := cmplx.Abs(v) / (kinematics.Degree * kinematics.Degree)
	direction := "-"
	if size >= 0.005 { // below, it is printed as zero
		direction = wholeDegrees(cmplx.Phase(v))
	}
	return []string{brief(name, nameWidth), fmt.Sprintf("%.2f", size), direction}
}
