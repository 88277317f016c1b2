package estimate_test

import (
	"testing"

	"meltwright/internal/estimate"
)

// threePieces is a group of figure, animal and solids, each with typed inputs.
func threePieces() estimate.Commission {
	return estimate.Commission{
		Title: "Group", Inputs: map[string]string{"price.tax": "Ontario", "delivery.distance": "120 km", "price.fee": "a share of the price"},
		Pieces: []estimate.Piece{
			{Name: "Figure", Inputs: map[string]string{"form.dress": "coat and boots", "form.height": "2.19 m", "form.wall": "3/16 in", "base.plinth": "block", "base.footing": "by us"}},
			{Name: "Dog", Inputs: map[string]string{"form.known_by": "animal", "form.animal_mass": "32 kg", "form.measured_height": "0.62 m", "form.height": "0.78 m"}},
			{Name: "Bench", Inputs: map[string]string{"form.known_by": "solids", "form.measured_height": "0.45 m", "form.wall": "6 mm"}, Solids: []map[string]string{
				{"shape": "box", "length": "1.6 m", "width": "0.42 m", "height": "0.09 m"},
			}},
		},
	}
}

func BenchmarkThreePieceCommission(b *testing.B) {
	s, c := startingShop(b), threePieces()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := estimate.Of(c, s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTrial(b *testing.B) {
	m, err := estimate.NewModel(threePieces(), startingShop(b))
	if err != nil {
		b.Fatal(err)
	}
	v := estimate.Still(m.Pieces())
	v.Area[0], v.Material, v.Metal, v.Freight, v.Site = 1.1, 1.05, 0.95, 1.1, 1.2
	b.ReportAllocs()
	for b.Loop() {
		m.Try(&v)
	}
}
