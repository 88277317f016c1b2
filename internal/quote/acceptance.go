package quote

import "time"

// Acceptance is an accepted quote, and when it was accepted.
type Acceptance struct {
	Quote Quote
	At    time.Time
}
