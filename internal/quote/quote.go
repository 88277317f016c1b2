// Package quote holds what a shop keeps: quotes with their commissions, the
// revisions it has issued, its clients, and the shop book; and the Store that
// keeps them. It knows nothing of how they are kept.
package quote

import (
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// ID names a quote in its store. The zero ID is of a quote not yet saved.
type ID int64

// State is where a quote stands, in the plain words of contract.
type State string

// The states of a quote.
const (
	Draft     State = "draft"
	Issued    State = "issued"
	Accepted  State = "accepted"
	Declined  State = "declined"
	Lapsed    State = "lapsed"
	Withdrawn State = "withdrawn"
)

// Quote is a piece of business: a commission being priced, and its papers.
type Quote struct {
	ID         ID
	Number     string // "2026-014", given by the store at the first save
	Letter     string // the revision being worked on: "A", "B"
	State      State
	Commission estimate.Commission
	Words      map[string]string // what the user wrote for the papers, by part: "idea", "recommendation"
	Client     ClientID          // 0 where only a name was typed, in the commission
	Call       CallID            // that it answers; 0 for none
	Pictures   []Shown           // for its papers, in their order
	By         string            // who changed it last
	Created    time.Time
	Changed    time.Time
	Deleted    time.Time // zero unless it lies in the bin
	Version    int64     // counted up by every save; a save of an older version is refused
}

// Summary is what a list of quotes shows of one.
type Summary struct {
	ID            ID
	Number        string
	Letter        string // being worked on
	Issued        string // the last letter that was issued; empty if none was
	State         State
	Title, Client string
	Place         string
	Price         string    // as last reckoned, printed: "$128,400"; empty where it has faults
	Call          string    // that it answers
	Due           time.Time // the deadline of its call; zero where there is none
	ValidUntil    time.Time // of the last that was issued; zero where none was
	Changed       time.Time
	Deleted       time.Time
}

// Filter says which quotes a list holds, and in which order.
type Filter struct {
	Words  string   // every word must occur in number, title, client, call, place or pieces' names
	State  State    // empty for all
	Client ClientID // 0 for all
	Call   CallID   // 0 for all
	Bin    bool     // those in the bin, instead of those that are not
	Order  Order
	Today  time.Time // by which a deadline is past; zero where the order is another
	Limit  int       // 0 is 200
	Offset int
}

// Order is what a list of quotes is sorted by.
type Order string

// The orders of a list.
const (
	ByChange   Order = ""         // the last changed first
	ByNumber   Order = "number"   // the last begun first
	ByClient   Order = "client"   // as a card index is
	ByPrice    Order = "price"    // the dearest first
	ByDeadline Order = "deadline" // the next to come first, those that are past behind them, those without last
)

// Orders lists every order.
func Orders() []Order { return []Order{ByChange, ByNumber, ByClient, ByPrice, ByDeadline} }

// Revision is a quote as it was issued: nothing in it ever changes.
type Revision struct {
	Quote      ID
	Letter     string
	IssuedAt   time.Time
	ValidUntil time.Time
	Commission estimate.Commission
	Book       shop.Book // the shop book it was reckoned with
	Words      map[string]string
	Price      string // decimal text, in the commission's currency
	Total      string
	Frozen     *Frozen // the estimate; nil in what was issued before it was kept
	By         string  // who issued it
	Proposal   []byte  // the PDF as it was sent
}
