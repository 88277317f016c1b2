package mesh

import (
	"context"
	"sync"
)

// step is the share of the work after which it is told again.
const step = 0.002

// A meter counts the bytes that are done with, tells the share of them now and
// then, and says when to stop. Several goroutines may add to it.
type meter struct {
	ctx   context.Context
	tell  func(done float64)
	total int64

	mu   sync.Mutex
	done int64
	told float64
}

// add counts n more bytes. Its error is the context's: to be obeyed at once.
func (m *meter) add(n int) error {
	if m.tell != nil {
		m.mu.Lock()
		m.done += int64(n)
		// The last step is for when the whole work is done, not just the reading.
		if share := min(float64(m.done)/float64(max(m.total, 1)), 1-step); share >= m.told+step {
			m.told = share
			m.tell(share)
		}
		m.mu.Unlock()
	}
	return m.ctx.Err()
}
