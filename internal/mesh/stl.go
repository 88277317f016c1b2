package mesh

import (
	"encoding/binary"
	"errors"
	"io"
	"math"
	"runtime"
	"sync"
)

// A binary STL is 80 bytes of anything, the number of triangles, and for each
// triangle its normal, its three corners, all in single precision, and two
// bytes of anything.
const (
	stlHead   = 84
	stlRecord = 50
)

// isBinarySTL is whether the file is as long as its count of triangles says.
func isBinarySTL(head []byte, size int64) bool {
	return len(head) >= stlHead && size == stlHead+stlRecord*int64(binary.LittleEndian.Uint32(head[80:]))
}

// seemsBinarySTL is whether most of what would be the first triangles are of
// numbers that a form may have.
func seemsBinarySTL(head []byte) bool {
	seen, sane := 0, 0
	for at := stlHead; at+stlRecord <= len(head) && seen < 64; at += stlRecord {
		seen++
		if saneRecord(head[at:]) {
			sane++
		}
	}
	return seen > 0 && 10*sane >= 9*seen
}

// saneRecord is whether all corners are zero or between 1e-20 and 1e10: among
// bytes that are no numbers hardly one record in a thousand is.
func saneRecord(record []byte) bool {
	for i := range 9 {
		x := math.Abs(float64(math.Float32frombits(binary.LittleEndian.Uint32(record[12+4*i:]))))
		if x != 0 && !(x > 1e-20 && x < 1e10) {
			return false
		}
	}
	return true
}

// readBinarySTL reads the triangles on all processors: each welds a stretch of
// the file by itself, then the stretches are joined.
func readBinarySTL(in *input, b *builder) error {
	var head [stlHead]byte
	if _, err := in.src.ReadAt(head[:], 0); err != nil {
		return err
	}
	b.report.Unit = unitNamedIn(head[:80])
	b.report.Bodies = 1
	count, err := in.countSTL(binary.LittleEndian.Uint32(head[80:]), b.report)
	if err != nil {
		return err
	}
	if count > int64(b.limit) {
		count = int64(b.limit)
		err = b.tooMany()
	}
	var stretches []*stretch
	b.triangles, stretches = shareOut(in, int(count))
	if failed := b.joinStretches(stretches); failed != nil {
		err = failed
	}
	return err
}

// countSTL is how many triangles to read: what the header says, unless the
// file holds fewer, or the header cannot know.
func (in *input) countSTL(declared uint32, report *Report) (int64, error) {
	space := in.size - stlHead
	held := space / stlRecord
	report.Declared = int(declared)
	switch {
	case int64(declared) == held && space%stlRecord == 0:
		return held, nil
	case int64(declared) > held:
		report.harm("The header says %s, %s found.", many(int(declared), "triangle"), grouped(int(held)))
		return held, nil
	}
	// There is more than the header says: triangles it did not count, or
	// something else behind them.
	var next [stlRecord]byte
	if _, err := in.src.ReadAt(next[:], stlHead+stlRecord*int64(declared)); err != nil && !errors.Is(err, io.EOF) {
		return 0, err
	}
	if space%stlRecord == 0 && saneRecord(next[:]) || declared == 0 {
		report.harm("The header says %s, %s found.", many(int(declared), "triangle"), grouped(int(held)))
		return held, nil
	}
	report.note("%s follow the last triangle and were passed over.", many(int(space-stlRecord*int64(declared)), "byte"))
	return int64(declared), nil
}

// A stretch is a run of triangles that one goroutine reads and welds.
type stretch struct {
	first, count          int         // which triangles of the file
	triangles             [][3]uint32 // where they go; in the end those kept
	weld                  *welder
	nonFinite, degenerate int
	err                   error

	corners [batch]Vec32 // those being welded
	numbers [batch]uint32

	low, top Vec32 // of the box of its points

	met [][]uint32 // for each earlier stretch, the numbers plus one that it has for the points
	at  []uint32   // the numbers of the points in the whole mesh
}

// shareOut reads so many triangles, a stretch a processor. Memory takes time to
// come, so each stretch asks for its own.
func shareOut(in *input, count int) (all [][3]uint32, stretches []*stretch) {
	const fewest = 1 << 15
	stretches = make([]*stretch, min(runtime.GOMAXPROCS(0), 4, count/fewest+1))
	var work sync.WaitGroup
	for i := range stretches {
		from, to := count*i/len(stretches), count*(i+1)/len(stretches)
		room := to - from
		if i == 0 {
			room = count // in the end it has the points of all
		}
		room = room/2 + room/16 // a closed form has half as many points as triangles; a stretch of it a few more
		s := &stretch{first: from, count: to - from}
		stretches[i] = s
		work.Go(func() { s.weld = newWelder(min(room, 1<<20), min(s.count*3/4, 1<<20)) })
	}
	all = make([][3]uint32, count)
	work.Wait()
	for _, s := range stretches {
		s.triangles = all[s.first:][:s.count:s.count]
		work.Go(func() { s.read(in) })
	}
	work.Wait()
	return all, stretches
}

// read fills the stretch.
func (s *stretch) read(in *input) {
	const some = batch / 3
	want := int64(len(s.triangles)) * stlRecord
	r := in.section(stlHead+int64(s.first)*stlRecord, want)
	buf := make([]byte, 16*some*stlRecord)
	kept := 0
	for s.err == nil && want > 0 {
		n, err := io.ReadFull(r, buf[:min(want, int64(len(buf)))])
		s.err = err
		want -= int64(n)
		for b := buf[:n/stlRecord*stlRecord]; len(b) > 0; {
			n := min(len(b), some*stlRecord)
			kept = s.take(b[:n], kept)
			b = b[n:]
		}
	}
	s.triangles = s.triangles[:kept]
	s.low, s.top = bounds(s.weld.points)
}

// take welds up to a batch of records and adds the triangles to those kept.
func (s *stretch) take(records []byte, kept int) int {
	n := 0
	s.weld.ready(batch)
	for ; len(records) >= stlRecord; records = records[stlRecord:] {
		corners := (*[3]Vec32)(s.corners[n:])
		if !cornersOf((*[stlRecord]byte)(records), corners) {
			s.nonFinite++
			continue
		}
		s.weld.aim(n, &corners[0])
		s.weld.aim(n+1, &corners[1])
		s.weld.aim(n+2, &corners[2])
		n += 3
	}
	s.weld.settle(s.corners[:n], s.numbers[:n])
	into := s.triangles[kept:]
	into = into[:n/3]
	fine := 0
	for numbers := s.numbers[:n]; len(numbers) >= 3; numbers = numbers[3:] {
		a, b, c := numbers[0], numbers[1], numbers[2]
		if a == b || b == c || c == a {
			s.degenerate++
			continue
		}
		into[fine] = [3]uint32{a, b, c}
		fine++
	}
	return kept + fine
}

// cornersOf takes the corners out of a record; false if one is not finite.
func cornersOf(record *[stlRecord]byte, corners *[3]Vec32) bool {
	b := (*[36]byte)(record[12:])
	for k := range corners {
		corners[k] = Vec32{floatAt((*[4]byte)(b[12*k:])), floatAt((*[4]byte)(b[12*k+4:])), floatAt((*[4]byte)(b[12*k+8:]))}
	}
	if odd(pair(b, 0))|odd(pair(b, 8))|odd(pair(b, 16))|odd(pair(b, 24))|odd(uint64(binary.LittleEndian.Uint32(b[32:]))) == 0 {
		return true
	}
	for k := range corners {
		corners[k] = plain(corners[k])
	}
	return finite(&corners[0]) && finite(&corners[1]) && finite(&corners[2])
}

func floatAt(b *[4]byte) float32 { return math.Float32frombits(binary.LittleEndian.Uint32(b[:])) }

func pair(b *[36]byte, at int) uint64 { return binary.LittleEndian.Uint64(b[at:]) }

// odd is not zero if either of two numbers in single precision, side by side,
// is a negative zero or not finite; it looks at the bits of both at once.
func odd(two uint64) uint64 {
	const (
		signs = 0x80000000_80000000
		ulp   = 0x00800000_00800000 // added to the exponent of what is not finite it reaches the sign
	)
	size := two &^ signs
	zero := ^(size + ^uint64(signs)) // has the sign where size is zero
	return (size + ulp | two&zero) & signs
}

// finite is whether p is a point: only the difference of a finite number with
// itself is zero.
func finite(p *Vec32) bool { return (p[0]-p[0])+(p[1]-p[1])+(p[2]-p[2]) == 0 }

// joinStretches makes one mesh of what each goroutine has welded by itself.
// The points are numbered as if one had read the file from front to back.
func (b *builder) joinStretches(stretches []*stretch) (err error) {
	kept := 0
	for _, s := range stretches {
		b.report.NonFinite += s.nonFinite
		b.report.Degenerate += s.degenerate
		b.report.Found += s.nonFinite + s.degenerate + len(s.triangles)
		if err == nil {
			err = s.err
		}
	}
	points := renumber(stretches)
	for _, s := range stretches {
		if kept < s.first {
			copy(b.triangles[kept:], s.triangles)
		}
		kept += len(s.triangles)
	}
	b.triangles = b.triangles[:kept]
	b.weld = &welder{points: points}
	b.spare = b.report.Degenerate > 0
	return err
}

// renumber gives the points of all stretches, each once, and makes the
// triangles name those.
func renumber(stretches []*stretch) (points []Vec32) {
	// Which points were met in an earlier stretch: all goroutines look at once,
	// for nothing is written but each one's own list.
	var all sync.WaitGroup
	for i, s := range stretches {
		s.met = make([][]uint32, i)
		for j, earlier := range stretches[:i] {
			n := len(s.weld.points)
			s.met[j] = make([]uint32, n)
			for k := range len(stretches) {
				from, to := n*k/len(stretches), n*(k+1)/len(stretches)
				all.Go(func() { earlier.meet(s.weld.points[from:to], s.met[j][from:to]) })
			}
		}
	}
	all.Wait()
	points = stretches[0].weld.points
	for i, s := range stretches[1:] {
		points = s.settle(stretches[:i+1], points)
		for k := range len(stretches) {
			n := len(s.triangles)
			some := s.triangles[n*k/len(stretches) : n*(k+1)/len(stretches)]
			all.Go(func() { rename(some, s.at) })
		}
	}
	all.Wait()
	return points
}

// meet finds those of later points that the stretch has too. In most files
// neighbours stand together, so that most points lie out of reach.
func (s *stretch) meet(points []Vec32, met []uint32) {
	for len(points) > 0 {
		n := min(batch, len(points))
		if s.reaches(points[:n]) {
			s.weld.known(points[:n], met[:n])
		}
		points, met = points[n:], met[n:]
	}
}

// reaches is whether one of the points lies in the box of the stretch.
func (s *stretch) reaches(points []Vec32) bool {
	for i := range points {
		p := &points[i]
		if p[0] >= s.low[0] && p[0] <= s.top[0] && p[1] >= s.low[1] && p[1] <= s.top[1] && p[2] >= s.low[2] && p[2] <= s.top[2] {
			return true
		}
	}
	return false
}

// rename makes triangles of points numbered otherwise.
func rename(triangles [][3]uint32, at []uint32) {
	for i := range triangles {
		t := &triangles[i]
		t[0], t[1], t[2] = at[t[0]], at[t[1]], at[t[2]]
	}
}

// settle gives the points of the stretch the numbers that earlier ones have
// for them, and new ones to the others, which it adds to points.
func (s *stretch) settle(earlier []*stretch, points []Vec32) []Vec32 {
	s.at = make([]uint32, len(s.weld.points))
	for k, p := range s.weld.points {
		s.at[k] = none
		for j, e := range earlier {
			if n := s.met[j][k]; n > 0 {
				s.at[k] = n - 1
				if e.at != nil {
					s.at[k] = e.at[n-1]
				}
				break
			}
		}
		if s.at[k] == none {
			s.at[k] = uint32(len(points))
			points = append(points, p)
		}
	}
	return points
}
