package proof

// root returns where f changes sign between low and high, which it does once.
func root(low, high float64, f func(float64) float64) float64 {
	rising := f(high) > f(low)
	for range 60 { // down to rounding
		middle := (low + high) / 2
		if (f(middle) < 0) == rising {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// peak returns where f is greatest between low and high. It has one maximum
// there, which is found to about the square root of rounding, 1e-8.
func peak(low, high float64, f func(float64) float64) float64 {
	for range 100 { // each cuts off a third
		left, right := low+(high-low)/3, high-(high-low)/3
		if f(left) < f(right) {
			low = left
		} else {
			high = right
		}
	}
	return (low + high) / 2
}
