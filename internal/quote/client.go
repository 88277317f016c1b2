package quote

import "time"

// ClientID names a client in the store.
type ClientID int64

// Client is somebody quotes are made for.
type Client struct {
	ID      ClientID
	Name    string // body or person
	Contact string
	Email   string
	Phone   string
	Address string
	Notes   string
	People  []Person // others to talk to there
	Sites   []Site   // places of theirs
	Deleted time.Time
	Version int64 // as of a Quote
}

// Stamped is the client with the identity and the version of another.
func (c Client) Stamped(by Client) Client {
	c.ID, c.Deleted, c.Version = by.ID, by.Deleted, by.Version
	return c
}

// Person is somebody at a client's.
type Person struct {
	Name  string `json:"name"`
	Role  string `json:"role,omitempty"`
	Email string `json:"email,omitempty"`
	Phone string `json:"phone,omitempty"`
}

// Site is a place where a work may stand.
type Site struct {
	Name    string `json:"name"`
	Address string `json:"address,omitempty"`
	Access  string `json:"access,omitempty"` // what a crane and a crew have to know
}

// CallID names a call in the store.
type CallID int64

// Call is a call for artists, or an invitation to offer.
type Call struct {
	ID       CallID
	Title    string
	Client   ClientID // whose call it is; 0 where that client is not kept
	Site     string
	Deadline string    // as typed
	Due      time.Time // the day that Deadline says; zero where it says none
	Budget   string    // as typed
	Link     string    // where it was published
	Notes    string
	Deleted  time.Time
	Version  int64 // as of a Quote
}

// Stamped is the call with the identity, the version and the day of another.
func (c Call) Stamped(by Call) Call {
	c.ID, c.Due, c.Deleted, c.Version = by.ID, by.Due, by.Deleted, by.Version
	return c
}

// Reminder is a day that comes near.
type Reminder struct {
	What   Reminding
	On     time.Time
	Quote  ID     // 0 for a call without a quote
	Call   CallID // 0 for what is about a quote alone
	Number string // of the quote, with its letter
	Title  string
	Client string
	State  State
}

// Reminding is what a reminder is about.
type Reminding string

// What there are reminders of.
const (
	DeadlineNear Reminding = "deadline" // of a call that has no quote issued yet
	LapseNear    Reminding = "lapses"   // an issued quote's last day
	HasLapsed    Reminding = "lapsed"   // it was
)
