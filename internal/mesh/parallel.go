package mesh

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// inChunks calls work(chunk, from, to) for every run of size items out of n,
// on all cores at once, and returns when all are done or ctx is over. The
// chunks are the same on every machine, so sums kept by chunk come out the same
// to the last digit.
func inChunks(ctx context.Context, n, size int, work func(chunk, from, to int)) error {
	chunks := (n + size - 1) / size
	workers := min(runtime.GOMAXPROCS(0), chunks)
	var next atomic.Int64
	run := func() {
		for ctx.Err() == nil {
			c := int(next.Add(1)) - 1
			if c >= chunks {
				return
			}
			work(c, c*size, min((c+1)*size, n))
		}
	}
	if workers <= 1 {
		run()
		return ctx.Err()
	}
	var group sync.WaitGroup
	for range workers {
		group.Go(run)
	}
	group.Wait()
	return ctx.Err()
}

// counter tells how much of a work is done, from any goroutine.
type counter struct {
	total int
	mu    sync.Mutex
	done  int
	tell  func(share float64)
}

func newCounter(total int, tell func(share float64)) *counter {
	return &counter{total: total, tell: tell}
}

func (c *counter) add(n int) {
	if c.tell == nil {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done += n
	c.tell(float64(c.done) / float64(max(c.total, 1)))
}
