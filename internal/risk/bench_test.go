package risk_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/risk"
	"meltwright/internal/shop"
)

// Ten thousand trials of the demo's group of three pieces, on all cores, and how
// much quicker two cores are than one.
func Benchmark10kTrials(b *testing.B) {
	s, err := shop.Read(shop.Start())
	require.NoError(b, err)
	c := desk.Demo()[1].Commission
	draw := func(cores int) time.Duration {
		from := time.Now()
		_, err := risk.Draw(b.Context(), c, s, risk.Ask{Cores: cores})
		require.NoError(b, err)
		return time.Since(from)
	}
	for b.Loop() {
		draw(0)
	}
	b.StopTimer()
	one, two := draw(1), draw(2)
	b.ReportMetric(one.Seconds()/two.Seconds(), "1-core/2-cores")
}
