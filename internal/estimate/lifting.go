package estimate

import "math"

// SlingLeg is the load on one leg of a sling of n legs that carries load w, each
// leg at the given angle from the horizontal in degrees: W/(n sin θ), 29 CFR
// 1910.184. Units are w's own.
func SlingLeg(w float64, n int, degrees float64) float64 {
	return w / (float64(n) * math.Sin(degrees*math.Pi/180))
}

// WindPressure is the pressure of a wind of v metres a second, in newtons a
// square metre: 0.613 V² (ASCE 7, from memory). It is a flag for the engineer,
// who knows exposure, gusts and shape; no design.
func WindPressure(v float64) float64 { return 0.613 * v * v }
