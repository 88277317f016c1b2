package quote

import "meltwright/internal/money"

// Frozen is an estimate as it was issued, in the words and sums that were
// printed then: whatever a later program would reckon, this stands.
type Frozen struct {
	Currency string       `json:"currency"`
	Price    money.Amount `json:"price"` // before tax
	Lines    []FrozenLine `json:"lines"`
	Steps    []FrozenLine `json:"steps"`    // from direct cost to price
	Pictures []Shown      `json:"pictures"` // that the papers showed; nil in what was issued before they were kept
}

// FrozenLine is one line of it.
type FrozenLine struct {
	Stage  string       `json:"stage,omitempty"`
	Piece  string       `json:"piece,omitempty"`
	Item   string       `json:"item"`
	Text   string       `json:"text,omitempty"` // quantity × rate, as printed
	Amount money.Amount `json:"amount"`
}
