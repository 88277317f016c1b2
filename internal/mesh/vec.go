package mesh

import "math"

// Vec is a point or a direction, in the mesh's own unit: the file's, until
// Mesh.Scale has turned it into another.
type Vec [3]float64

// Add is v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v[0] + w[0], v[1] + w[1], v[2] + w[2]} }

// Sub is v − w.
func (v Vec) Sub(w Vec) Vec { return Vec{v[0] - w[0], v[1] - w[1], v[2] - w[2]} }

// Mul is v, k times as long.
func (v Vec) Mul(k float64) Vec { return Vec{v[0] * k, v[1] * k, v[2] * k} }

// Dot is the scalar product of v and w.
func (v Vec) Dot(w Vec) float64 { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }

// Cross is the vector product of v and w: at right angles to both, as long as
// the parallelogram between them is large.
func (v Vec) Cross(w Vec) Vec {
	return Vec{v[1]*w[2] - v[2]*w[1], v[2]*w[0] - v[0]*w[2], v[0]*w[1] - v[1]*w[0]}
}

// Norm is the length of v.
func (v Vec) Norm() float64 { return math.Sqrt(v.Dot(v)) }

// Vec32 is a point as a mesh keeps it.
//
// Single precision is what an STL file holds and what fits a million triangles
// into a few megabytes; a seven-digit coordinate is a tenth of a micrometre on
// a figure of a metre. Sums over points are made in double precision.
type Vec32 [3]float32

// Vec is p in double precision, for reckoning.
func (p Vec32) Vec() Vec { return Vec{float64(p[0]), float64(p[1]), float64(p[2])} }

// Vec32 is v rounded to what a mesh keeps.
func (v Vec) Vec32() Vec32 { return Vec32{float32(v[0]), float32(v[1]), float32(v[2])} }
