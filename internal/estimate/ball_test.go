package estimate_test

import (
	"bytes"
	"fmt"
	"math"
)

// ballOBJ is a ball of radius r standing on z = 0, in n × 2n patches.
func ballOBJ(r float64, n int) []byte {
	var b bytes.Buffer
	for i := range n + 1 {
		for j := range 2 * n {
			t, f := math.Pi*float64(i)/float64(n), math.Pi*float64(j)/float64(n)
			fmt.Fprintf(&b, "v %.9f %.9f %.9f\n", r*math.Sin(t)*math.Cos(f), r*math.Sin(t)*math.Sin(f), r+r*math.Cos(t))
		}
	}
	at := func(i, j int) int { return i*2*n + j%(2*n) + 1 }
	for i := range n {
		for j := range 2 * n {
			if i > 0 {
				fmt.Fprintf(&b, "f %d %d %d\n", at(i, j), at(i+1, j), at(i, j+1))
			}
			if i < n-1 {
				fmt.Fprintf(&b, "f %d %d %d\n", at(i, j+1), at(i+1, j), at(i+1, j+1))
			}
		}
	}
	return b.Bytes()
}
