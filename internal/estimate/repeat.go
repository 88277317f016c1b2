package estimate

import "math"

// Wright is the average time of the first n repeats, where doubling n multiplies
// that average by rate: a cumulative-average curve, T̄(n) = T(1) n^b, b = log₂
// rate (T. P. Wright, Journal of the Aeronautical Sciences 3, 1936).
func Wright(first, rate float64, n int) float64 {
	return first * math.Pow(float64(n), math.Log2(rate))
}

// Crawford is the time of the nth repeat, where doubling n multiplies it by
// rate: a unit curve, T(n) = T(1) n^b (J. R. Crawford, Lockheed, 1944).
func Crawford(first, rate float64, n int) float64 { return Wright(first, rate, n) }

// CrawfordTotal is the time of the first n repeats on a unit curve.
func CrawfordTotal(first, rate float64, n int) float64 {
	total := 0.0
	for i := 1; i <= n; i++ {
		total += Crawford(first, rate, i)
	}
	return total
}

// repeatOf is the average time of n casts, of the first's.
func repeatOf(curve string, rate float64, n int) float64 {
	switch {
	case rate == 1 || n <= 1:
		return 1
	case curve == "cumulative average (Wright)":
		return Wright(1, rate, n)
	}
	return CrawfordTotal(1, rate, n) / float64(n)
}
