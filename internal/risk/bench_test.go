package risk_test

import (
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/risk"
	"meltwright/internal/shop"
)

// Ten thousand trials of the demo's group of three pieces, on all cores; and on
// one core and on two, the best of eight runs in turn, so that what else the
// machine does falls on both. The collector has as many cores as the trials.
func Benchmark10kTrials(b *testing.B) {
	s, err := shop.Read(shop.Start())
	require.NoError(b, err)
	c := desk.Demo()[1].Commission
	draw := func(cores int) time.Duration {
		if cores > 0 {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		}
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
	for range 7 {
		one, two = min(one, draw(1)), min(two, draw(2))
	}
	b.ReportMetric(one.Seconds(), "s-on-1-core")
	b.ReportMetric(two.Seconds(), "s-on-2-cores")
	b.ReportMetric(one.Seconds()/two.Seconds(), "times-as-quick")
}
