package ui

import (
	"time"

	"github.com/stretchr/testify/require"

	"meltwright/internal/proposal"
)

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
	scenes["revisions"] = func(b *bench) {
		b.papered()
		b.quote().choose(revisionsID)
		b.tap("Issue revision A …")
		b.tap("Issue A")
		b.quote().choose("form")
		b.fill("form.wall", "6.5 mm")
		b.quote().choose(revisionsID)
		b.clock.pass(time.Second)
	}
	scenes["preview"] = func(b *bench) {
		b.papered()
		b.quote().choose(previewID)
		b.clock.pass(time.Second)
		b.tap("Next")
	}
	mastered = append(mastered, "sure", "soon", "revisions", "preview")
}

// papered opens the window's store anew, with the program's own papers.
func (b *bench) papered() {
	b.Helper()
	require.NoError(b, b.w.desk.Close())
	b.w.options.Papers = proposal.Maker{}
	b.w.open(b.path, false)
}
