package mesh

import "math"

// Near is the point of a surface that lies closest to another.
type Near struct {
	Point    Vec
	Distance float64
	Triangle int // of the mesh; -1 if there is no surface
	place    int // the triangle's place in the tree
}

// waiting is a node still to be looked at, and how far its box is, squared.
type waiting struct {
	node uint32
	far  float32
}

// Closest finds the closest point of the surface to q, exactly.
func (t *Tree) Closest(q Vec) Near { return t.closest(q, -1) }

// closest begins from a triangle known to be near, by its place; -1 for none.
// A good guess spares most of the tree.
func (t *Tree) closest(q Vec, guess int) Near {
	return t.closestWithin(q, math.Inf(1), math.MaxInt, guess)
}

// closestWithin looks no farther than limit; if nothing is so near, the place is
// −1 and the distance is the limit. After effort boxes it gives the best so far:
// from the middle of a ball all triangles are equally near, and it would look at
// every one to find the nearest by a hair.
func (t *Tree) closestWithin(q Vec, limit float64, effort, guess int) Near {
	best := Near{Distance: limit * limit, Triangle: -1, place: -1}
	if len(t.nodes) == 0 {
		return best
	}
	if guess >= 0 {
		t.try(q, guess, &best)
	}
	x, y, z := float32(q[0]), float32(q[1]), float32(q[2])
	const room = 1 + 1e-5 // for the single precision of the boxes
	var stack [64]waiting
	top := 0
	far := float32(best.Distance * room)
	at := uint32(0)
	for ; ; effort-- {
		n := &t.nodes[at]
		if n.count > 0 {
			for k := n.first; k < n.first+n.count; k++ {
				if int(k) != guess {
					t.try(q, int(k), &best)
				}
			}
			far = float32(best.Distance * room)
		} else {
			a, b := n.first, n.first+1
			da, db := t.nodes[a].away(x, y, z), t.nodes[b].away(x, y, z)
			if db < da {
				a, b, da, db = b, a, db, da
			}
			if db < far && top < len(stack) {
				stack[top] = waiting{b, db}
				top++
			}
			if da < far {
				at = a
				continue
			}
		}
		for {
			if top == 0 || effort <= 0 {
				best.Distance = math.Sqrt(best.Distance)
				if best.place >= 0 {
					best.Triangle = int(t.order[best.place])
				}
				return best
			}
			top--
			if stack[top].far < far {
				at = stack[top].node
				break
			}
		}
	}
}

// away is the squared distance of a point from the box.
func (n *node) away(x, y, z float32) float32 {
	dx := max(n.low[0]-x, x-n.high[0], 0)
	dy := max(n.low[1]-y, y-n.high[1], 0)
	dz := max(n.low[2]-z, z-n.high[2], 0)
	return dx*dx + dy*dy + dz*dz
}

// try keeps the closest point of the triangle at place k if it is closer than
// best, whose Distance is squared meanwhile. The regions of a triangle are
// those of Ericson, Real-Time Collision Detection, section 5.1.5.
func (t *Tree) try(q Vec, k int, best *Near) {
	c := &t.corners[k]
	ax, ay, az := float64(c[0]), float64(c[1]), float64(c[2])
	ux, uy, uz := float64(c[3])-ax, float64(c[4])-ay, float64(c[5])-az
	vx, vy, vz := float64(c[6])-ax, float64(c[7])-ay, float64(c[8])-az
	px, py, pz := q[0]-ax, q[1]-ay, q[2]-az
	uu, uv, vv := ux*ux+uy*uy+uz*uz, ux*vx+uy*vy+uz*vz, vx*vx+vy*vy+vz*vz
	pu, pv := px*ux+py*uy+pz*uz, px*vx+py*vy+pz*vz
	f, g := inTriangle(uu, uv, vv, pu, pv)
	dx, dy, dz := f*ux+g*vx-px, f*uy+g*vy-py, f*uz+g*vz-pz
	if d := dx*dx + dy*dy + dz*dz; d < best.Distance {
		best.Distance, best.place = d, k
		best.Point = Vec{q[0] + dx, q[1] + dy, q[2] + dz}
	}
}

// inTriangle gives the shares f, g of the two sides u, v from a corner to the
// closest point, out of the products of u, v and the way p from that corner.
func inTriangle(uu, uv, vv, pu, pv float64) (f, g float64) {
	if !(uu*vv-uv*uv > 1e-12*uu*vv) {
		return alongSides(uu, uv, vv, pu, pv)
	}
	if pu <= 0 && pv <= 0 {
		return 0, 0
	}
	bu, bv := pu-uu, pv-uv // the products of the way from the corner at u
	if bu >= 0 && bv <= bu {
		return 1, 0
	}
	if c := pu*bv - bu*pv; c <= 0 && pu >= 0 && bu <= 0 {
		return share(pu, -bu), 0
	}
	cu, cv := pu-uv, pv-vv // and from the corner at v
	if cv >= 0 && cu <= cv {
		return 0, 1
	}
	vb := cu*pv - pu*cv
	if vb <= 0 && pv >= 0 && cv <= 0 {
		return 0, share(pv, -cv)
	}
	va := bu*cv - cu*bv
	if va <= 0 && bv-bu >= 0 && cu-cv >= 0 {
		w := share(bv-bu, cu-cv)
		return 1 - w, w
	}
	vc := pu*bv - bu*pv
	sum := va + vb + vc
	return vb / sum, vc / sum
}

// alongSides is inTriangle for a triangle so slender that it is a line: the
// closest point of its longest side will do.
func alongSides(uu, uv, vv, pu, pv float64) (f, g float64) {
	ww := uu - 2*uv + vv // the side across
	switch {
	case ww > uu && ww > vv:
		w := min(max((pv-pu-uv+uu)/ww, 0), 1)
		return 1 - w, w
	case uu >= vv && uu > 0:
		return min(max(pu/uu, 0), 1), 0
	case vv > 0:
		return 0, min(max(pv/vv, 0), 1)
	}
	return 0, 0
}

// share is a of a and b together; nothing of nothing.
func share(a, b float64) float64 {
	if a+b <= 0 {
		return 0
	}
	return a / (a + b)
}
