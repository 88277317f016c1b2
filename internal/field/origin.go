package field

// From says where a value came from.
type From int

// Where values come from, best known last.
const (
	Proposed  From = iota // worked out by the program from other inputs
	ShopBook              // the shop book
	Published             // a named published source
	Scanned               // measured on a scan
	Typed                 // typed for this commission
)

// NoSource is what a value is called that every shop knows and nobody published.
const NoSource = "common practice, no source"

// Origin is where a value came from, with its source and date where it has them.
type Origin struct {
	From   From
	Source string // "A. Soderberg, practitioners' measurements"; NoSource; as typed
	Dated  string // "2026-03-14": when the shop book's value was set; or empty
}

// String says the origin in a few words: "shop book, 2026-03-14: common
// practice, no source".
func (o Origin) String() string {
	s := [...]string{"worked out", "shop book", "published", "scan", "typed"}[o.From]
	if o.Dated != "" {
		s += ", " + o.Dated
	}
	if o.Source != "" {
		s += ": " + o.Source
	}
	return s
}
