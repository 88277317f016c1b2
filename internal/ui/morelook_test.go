package ui

import "time"

// The pages below the stages, looked at like the screens.
func init() {
	scenes["sure"] = func(b *bench) {
		b.clock.pass(time.Second)
		b.quote().choose(sureID)
	}
	mastered = append(mastered, "sure")
}
