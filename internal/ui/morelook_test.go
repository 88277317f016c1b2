package ui

import "time"

// The pages below the stages, looked at like the screens.
func init() {
	scenes["sure"] = func(b *bench) {
		b.clock.pass(time.Second)
		b.quote().choose(sureID)
	}
	scenes["soon"] = func(b *bench) {
		b.quote().choose(soonID)
		b.fill("soon.start", "2 March 2026")
		b.fill("soon.required", "1 June 2026")
		b.clock.pass(time.Second)
	}
	mastered = append(mastered, "sure", "soon")
}
