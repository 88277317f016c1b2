package quantity

import "testing"

func BenchmarkParse(b *testing.B) {
	for _, c := range []struct {
		name, text string
		kind       Kind
	}{
		{"bare", "1.8", KindLength},
		{"metric", "4.5 mm", KindLength},
		{"compound", `5'10 1/2"`, KindLength},
		{"curly", "5’10½”", KindLength},
		{"density", "0.302 lb/in³", KindDensity},
		{"capitals", "90 Lbs.", KindMass},
		{"fault", "3 mm mm", KindLength},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = Parse(c.kind, c.text, Metric)
			}
		})
	}
}

func BenchmarkPrint(b *testing.B) {
	for _, c := range []struct {
		name string
		kind Kind
		v    float64
		sys  System
	}{
		{"metres", KindLength, 2.19, Metric},
		{"feet", KindLength, 2.19, InchPound},
		{"pounds", KindMass, 75.77, InchPound},
		{"density", KindDensity, 8360, Metric},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_ = Print(c.kind, c.v, c.sys)
			}
		})
	}
}
