package kinematics

// Analysis is everything that can be said of a driveline's motion, shaft by
// shaft and joint by joint in the order of the power flow.
type Analysis struct {
	Bends       []Bend
	Driving     []Motion
	Coasting    []Motion
	Revolution  *Revolution // of the first shaft, driving
	Integrals   []Integrals // of Revolution
	Orders      [][]Order   // of Revolution, 2 to 8
	SecondOrder SecondOrder
}

// analysedSteps are positions in a turn. Aliases of order 8 come from order 712
// on, which at any working angle below 85° is beneath rounding.
const analysedSteps = 720

// highestOrder is the last order analysed.
const highestOrder = 8

// Analyse returns the analysis of the driveline over one revolution.
func (d *Driveline) Analyse() (*Analysis, error) {
	a := &Analysis{
		Driving:     d.Driving(nil),
		Coasting:    d.Coasting(nil),
		SecondOrder: d.SecondOrder(),
	}
	for k := range d.joints {
		a.Bends = append(a.Bends, d.Bend(k))
	}
	r, err := NewRevolution(analysedSteps)
	if err != nil {
		return nil, err
	}
	r.Sample(a.Driving)
	a.Revolution = r
	for k := range a.Driving {
		orders, err := r.Orders(k, highestOrder)
		if err != nil {
			return nil, err
		}
		a.Integrals = append(a.Integrals, r.Integrals(k))
		a.Orders = append(a.Orders, orders)
	}
	return a, nil
}
