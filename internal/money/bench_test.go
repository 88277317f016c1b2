package money

import "testing"

func BenchmarkParse(b *testing.B) {
	cad := must(b, "CAD")
	for _, text := range []string{"1200", "$1,200.50", "1 200,50 $", "dear"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = cad.Parse(text)
			}
		})
	}
}

func BenchmarkPrint(b *testing.B) {
	cad := must(b, "CAD")
	for _, locale := range []string{"en-CA", "fr-CA"} {
		b.Run(locale, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_ = cad.Print(123456789, locale)
			}
		})
	}
	b.Run("whole", func(b *testing.B) {
		for b.Loop() {
			_ = cad.Whole(123456789, "en-CA")
		}
	})
	b.Run("first of a locale", func(b *testing.B) {
		for b.Loop() {
			_ = learn(cad, "fr-CA", withSymbol)
		}
	})
}

func BenchmarkTimes(b *testing.B) {
	cad, quantity, rate := must(b, "CAD"), dec("41.8"), dec("5.9316")
	b.ReportAllocs()
	for b.Loop() {
		_ = cad.Times(quantity, rate)
	}
}

func BenchmarkRound(b *testing.B) {
	for b.Loop() {
		_ = Round(75.7749, 2)
	}
}

func BenchmarkSplit(b *testing.B) {
	weights := []Decimal{dec("30"), dec("30"), dec("30"), dec("10")}
	for b.Loop() {
		_ = Split(12840007, weights)
	}
}

func BenchmarkGrossUp(b *testing.B) {
	share := dec("0.14975")
	for b.Loop() {
		_, _ = GrossUp(12840007, share)
	}
}
