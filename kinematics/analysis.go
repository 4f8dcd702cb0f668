package kinematics

// Analysis is everything that can be said of a driveline's motion, shaft by
// shaft and joint by joint in the order of the power flow.
type Analysis struct {
	Bends       []Bend
	Driving     []Motion
	Coasting    []Motion
	Orders      [][]Order // of Driving, 2 to 8
	SecondOrder SecondOrder
}

// highestOrder is the last order analysed.
const highestOrder = 8

// Analyse returns the analysis of the driveline.
func (d *Driveline) Analyse() *Analysis {
	a := &Analysis{
		Driving:     d.Driving(nil),
		Coasting:    d.Coasting(nil),
		SecondOrder: d.SecondOrder(),
	}
	for k := range d.joints {
		a.Bends = append(a.Bends, d.Bend(k))
	}
	for _, m := range a.Driving {
		a.Orders = append(a.Orders, m.Orders(highestOrder))
	}
	return a
}
