package mesh

import "math"

// A welder gives every distinct point one number, in the order in which they
// are first met. It is an open-addressed table of numbers beside the points:
// a Go map of a million points costs ten times as much.
type welder struct {
	points []Vec32
	slots  []uint32 // number of a point plus one; 0 where free
	shift  uint     // 64 less the binary logarithm of len(slots)
	home   [batch]uint32
}

const (
	fewestSlots = 1 << 10
	// fullness is how many slots there are for each point at least: with fewer,
	// the first slot is too often another point's.
	fullness = 2
	// A batch is how many points are looked up together: their slots are all
	// asked for before the first is needed, so the memory answers in parallel.
	batch = 192
)

// newWelder has room for so many points, and its table for about n, before
// they must grow.
func newWelder(room, n int) *welder {
	slots := fewestSlots
	for slots/fullness < n+batch {
		slots *= 2
	}
	w := &welder{points: make([]Vec32, 0, room)}
	w.room(slots)
	return w
}

func (w *welder) room(slots int) {
	w.slots = zeroes(slots)
	w.shift = 64
	for n := slots; n > 1; n /= 2 {
		w.shift--
	}
}

// scatter is a hash of a point whose upper bits are the good ones.
func scatter(p *Vec32) uint64 {
	x, y, z := math.Float32bits(p[0]), math.Float32bits(p[1]), math.Float32bits(p[2])
	h := (uint64(x) | uint64(y)<<32) * 0x9e3779b97f4a7c15
	h ^= h>>32 ^ uint64(z)*0xd6e8feb86659fd93
	return h * 0xff51afd7ed558ccd
}

// number writes the number of every point to into, a new one for a point not
// met before. The points must be finite and hold no negative zero.
func (w *welder) number(points []Vec32, into []uint32) {
	into = into[:len(points)]
	for len(points) > batch {
		w.numberBatch(points[:batch], into[:batch])
		points, into = points[batch:], into[batch:]
	}
	w.numberBatch(points, into)
}

func (w *welder) numberBatch(points []Vec32, into []uint32) {
	w.ready(len(points))
	for i := range points {
		w.aim(i, &points[i])
	}
	w.settle(points, into)
}

// ready makes room in the table for n points more.
func (w *welder) ready(n int) {
	if len(w.points)+n > len(w.slots)/fullness {
		w.grow()
	}
}

// aim finds out where in the table point i of a batch would be.
func (w *welder) aim(i int, p *Vec32) { w.home[i] = uint32(scatter(p) >> (w.shift & 63)) }

// settle numbers a batch of points that have been aimed.
func (w *welder) settle(points []Vec32, into []uint32) {
	home, into := w.home[:len(points)], into[:len(points)]
	for i, at := range home {
		into[i] = w.slots[at]
	}
	w.touch(into)
	known := w.points
	for i := range points {
		// A slot that was taken is so still, and most often by the point itself.
		if n := into[i] - 1; int(n) < len(known) && same(&known[n], &points[i]) {
			into[i] = n
			continue
		}
		into[i] = w.find(&points[i], home[i])
	}
}

// same compares two points bit by bit, at once: among finite numbers only the
// zeros are equal and look different, and there is no negative one.
func same(p, q *Vec32) bool {
	return (math.Float32bits(p[0])^math.Float32bits(q[0]))|
		(math.Float32bits(p[1])^math.Float32bits(q[1]))|
		(math.Float32bits(p[2])^math.Float32bits(q[2])) == 0
}

// touch reads the points that the slots named, only to have them at hand.
//
//go:noinline
func (w *welder) touch(slots []uint32) (all uint32) {
	known := w.points
	for _, n := range slots {
		if n := n - 1; int(n) < len(known) {
			all |= math.Float32bits(known[n][0])
		}
	}
	return all
}

func (w *welder) find(p *Vec32, at uint32) uint32 {
	mask := uint32(len(w.slots) - 1)
	for {
		n := w.slots[at&mask]
		if n == 0 {
			w.points = append(w.points, *p)
			w.slots[at&mask] = uint32(len(w.points))
			return uint32(len(w.points) - 1)
		}
		if same(&w.points[n-1], p) {
			return n - 1
		}
		at++
	}
}

// known writes the number of every point to into, plus one; 0 for a point not
// met before. It changes nothing: several goroutines may ask at once.
func (w *welder) known(points []Vec32, into []uint32) {
	var home [batch]uint32
	for len(points) > 0 {
		some := points[:min(batch, len(points))]
		for i := range some {
			home[i] = uint32(scatter(&some[i]) >> w.shift)
		}
		for i := range some {
			into[i] = w.slots[home[i]]
		}
		w.touch(into[:len(some)])
		for i := range some {
			if into[i] != 0 && !same(&w.points[into[i]-1], &some[i]) {
				into[i] = w.seek(&some[i], home[i])
			}
		}
		points, into = points[len(some):], into[len(some):]
	}
}

func (w *welder) seek(p *Vec32, at uint32) uint32 {
	mask := uint32(len(w.slots) - 1)
	for {
		n := w.slots[at&mask]
		if n == 0 {
			return 0
		}
		if same(&w.points[n-1], p) {
			return n
		}
		at++
	}
}

func (w *welder) grow() {
	w.room(2 * len(w.slots))
	mask := uint32(len(w.slots) - 1)
	for i := range w.points {
		at := uint32(scatter(&w.points[i]) >> w.shift)
		for w.slots[at&mask] != 0 {
			at++
		}
		w.slots[at&mask] = uint32(i + 1)
	}
}

// plain is p without negative zeros, which equal zero but look different.
func plain(p Vec32) Vec32 { return Vec32{p[0] + 0, p[1] + 0, p[2] + 0} }
