package desk

import (
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

// Demo is a shop's invented business: a waterfront group for a town that does
// not exist, and a small edition.
func Demo() []quote.Quote {
	return []quote.Quote{
		{State: quote.Draft, Commission: otter(), Words: map[string]string{"idea": "An otter on its back, a mussel held on its chest: small enough for a shelf, in an edition of twelve."}},
		{State: quote.Draft, Commission: weirKeeper(), Words: map[string]string{
			"idea": "The weir keeper has come down to the quay at the end of the day. His dog leans on his leg; beside them a bench is left open, so that whoever sits there is part of the group.",
		}},
	}
}

func weirKeeper() estimate.Commission {
	return estimate.Commission{
		Title: "The Weir Keeper", Client: "Town of Port Haskel", Place: "Cannery Quay", Currency: "CAD", Units: "metric",
		Inputs: map[string]string{
			"pour.crucible":          "Bilge no. 60",
			"delivery.distance":      "140 km",
			"delivery.days":          "2",
			"delivery.nights":        "1",
			"delivery.crane_days":    "1",
			"delivery.permits":       "450",
			"delivery.site_works":    "3200",
			"price.fee":              "a share of the price",
			"price.fee_share":        "15 %",
			"price.tax":              "Nova Scotia",
			"delivery.documentation": "900",
		},
		Pieces: []estimate.Piece{
			{Name: "Weir keeper", Inputs: map[string]string{
				"form.known_by": "human figure", "form.body_height": "1.75 m", "form.body_mass": "78 kg", "form.dress": "coat and boots",
				"form.height": "2.19 m", "form.wall": "3/16 in", "form.difficulty": "1.1", "patina.colours": "2",
				"base.plinth": "block", "base.stone": "Granite", "base.height": "0.45 m", "base.width": "1.1 m", "base.depth": "1.1 m", "base.footing": "by us",
			}},
			{Name: "Dog", Inputs: map[string]string{
				"form.known_by": "animal", "form.animal": "Dog", "form.animal_mass": "32 kg", "form.measured_height": "0.62 m",
				"form.height": "0.78 m", "form.wall": "4.5 mm",
			}},
			{Name: "Bench", Inputs: map[string]string{
				"form.known_by": "solids", "form.measured_height": "0.45 m", "form.wall": "6 mm", "form.difficulty": "0.8", "original.hours": "18 h/m²", "base.footing": "by us",
			}, Solids: []map[string]string{
				{"shape": "box", "length": "1.6 m", "width": "0.42 m", "height": "0.09 m"},
				{"shape": "box", "count": "2", "ends": "one open", "length": "0.12 m", "width": "0.36 m", "height": "0.36 m"},
			}},
		},
	}
}

func otter() estimate.Commission {
	return estimate.Commission{
		Title: "Otter, Floating", Client: "Gallery Tern", Currency: "CAD", Units: "metric",
		Inputs: map[string]string{
			"pour.days": "2", "delivery.by": "by others", "base.engineer": "0", "price.gallery": "40 %",
		},
		Pieces: []estimate.Piece{{Name: "Otter", Inputs: map[string]string{
			"form.known_by": "animal", "form.animal": "Other animal", "form.animal_mass": "9 kg", "form.measured_height": "0.24 m",
			"form.height": "0.16 m", "form.wall": "4 mm", "form.casts": "12", "form.repeat": "92 %",
			"base.plinth": "block", "base.stone": "Hardwood", "base.height": "4 cm", "base.width": "34 cm", "base.depth": "16 cm", "base.anchors": "2", "base.mount_hours": "0.5 h", "base.anchor_hours": "0.25 h",
		}}},
	}
}
