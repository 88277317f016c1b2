package proposal

import (
	"slices"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
)

// facts are what the templates of a proposal can say. Everything is printed
// already, as the language writes it.
type facts struct {
	Title, Client, Place  string
	Shop, Address         string
	Phone, Email, Web     string
	Registration          string
	Number, Revision      string
	Date, Until           string // spelled out
	Days                  string // that the quote stands
	Begins, Ready, Weeks  string // of the schedule, where there is one
	Trials, Least, Most   string // of the range of the price, where it is told
	Currency              string // "CAD"
	Price, Total          string
	Own                   map[string]string // what the user wrote, by part
	Pieces                []piece
	Alike                 []alike         // pieces of which the same is said
	Ours                  map[string]bool // stages that we do of some piece
	Visitor               string          // how tall the person for scale is
	Sections              int             // of one cast of every piece
	Whole                 bool            // every cast is poured in one
	Casts                 bool            // some piece is cast more than once
	Alloys                []string
	Delivery              string // "delivered and installed", "delivered", "by others"
	Distance, Reach, Site string // km one way, the crane's reach, days on site
	Crane                 string // what lifts the heaviest part: "City crane"; or empty
	Heaviest              string
	Heavy                 bool // heavier than a person should lift
	Engineer              bool // an engineer's design is in the price
	Footing               string
	Permits, SiteWorks    bool
	Records               bool
	Extras                []string // lines of the user's own
	Others                []other
	Taxes                 []taxFact
	Metals                []metalFact
	Beyond                string // by how much a metal's price must differ for the price to move
	BaseParts             string // what of the base is in the price: "base, anchors"
	DeliveryParts         string // and of delivery and site: "crates, freight"
	Frame, Anchors        bool
	Insured, Bonded       bool   // the price has insurance, or a bond
	Law                   string // whose law of authors' rights: "us", "ca", "uk"
	Leaded                []string
}

// taxFact is a tax on the price.
type taxFact struct {
	Name, Rate, Amount string
	Since              string // when the rate came into force, or empty
}

// other is something that somebody else does.
type other struct {
	What string // "The mould"
	Of   string // the pieces, where it is not all of them
}

// metalFact is the basis of the metal clause for one alloy.
type metalFact struct {
	Alloy, Price, Used string
}

// gather gathers what a proposal says.
func (o *offer) gather() *facts {
	p, e, l := o.paper, o.paper.Estimate, o.language
	c := p.Quote.Commission
	f := &facts{
		Title: c.Title, Client: c.Client, Place: c.Place,
		Shop: p.Shop.Book.Shop, Address: p.Shop.Book.Address,
		Phone: p.Shop.Book.Phone, Email: p.Shop.Book.Email, Web: p.Shop.Book.Web, Registration: p.Shop.Book.Registration,
		Number: p.Quote.Number, Revision: p.Quote.Letter,
		Date: o.date(p.Date), Until: o.date(p.Until), Days: l.count(e.ValidDays),
		Currency: e.Currency.Code, Price: l.amount(e.Currency, e.Price), Total: l.amount(e.Currency, e.Total),
		Own: map[string]string{}, Ours: map[string]bool{}, Law: lawOf(p),
	}
	f.Visitor = l.length(drawing.PersonHeight, e.System)
	for part, words := range o.own {
		f.Own[part] = ownWords(words)
	}
	for i := range e.Pieces {
		f.Pieces = append(f.Pieces, o.piece(i))
	}
	f.Alike = together(f.Pieces)
	for _, pc := range f.Pieces {
		for stage, byOthers := range pc.By {
			f.Ours[stage] = f.Ours[stage] || !byOthers
		}
		f.Casts = f.Casts || pc.Casts > 1
		f.Sections += pc.Sections
		if !slices.Contains(f.Alloys, pc.Alloy) {
			f.Alloys = append(f.Alloys, pc.Alloy)
		}
	}
	f.Whole = f.Sections == len(f.Pieces)
	for _, alloy := range leaded(p.Shop, e) {
		f.Leaded = append(f.Leaded, o.term(alloy))
	}
	o.site(f)
	for _, t := range e.Taxes {
		f.Taxes = append(f.Taxes, taxFact{o.term(t.Name), l.percent(t.Rate), l.amount(e.Currency, t.Amount), o.date(t.Dated)})
	}
	f.Metals = o.metals()
	f.Beyond = l.percent(money.Round(exactInput(p, estimate.Whole, "price.metal_clause").Num, 6))
	for _, line := range e.PriceLines {
		f.Insured = f.Insured || line.Name == "Insurance"
		f.Bonded = f.Bonded || line.Name == "Bond"
	}
	f.Others = o.others(f)
	return f
}

// others lists what is by others: stages of pieces, footings, and what is done at
// the site.
func (o *offer) others(f *facts) (out []other) {
	add := func(what string, is func(p piece) bool) {
		var names []string
		for _, p := range f.Pieces {
			if is(p) {
				names = append(names, p.Name)
			}
		}
		switch {
		case len(names) == 0:
		case len(names) == len(f.Pieces):
			out = append(out, other{What: o.label("other-" + what)})
		default:
			out = append(out, other{o.label("other-" + what), strings.Join(names, ", ")})
		}
	}
	for _, stage := range []string{"original", "mould", "wax", "patina", "base"} {
		add(stage, func(p piece) bool { return p.By[stage] })
	}
	add("footing", func(p piece) bool { return p.Footing == "by others" })
	switch f.Delivery {
	case "by others":
		out = append(out, other{What: o.label("other-delivery")})
	case "delivered":
		out = append(out, other{What: o.label("other-install")})
	}
	return out
}

// lawOf is the country whose law on authors' rights is spoken of: by the tax's
// place, else by the money.
func lawOf(p quote.Paper) string {
	switch {
	case p.Quote.Commission.Inputs["price.tax"] == "United Kingdom" || p.Estimate.Currency.Code == "GBP":
		return "uk"
	case p.Estimate.Currency.Code == "CAD":
		return "ca"
	case p.Estimate.Currency.Code == "USD":
		return "us"
	}
	return ""
}

// metals are the alloys that the price rests on, each with what the work uses up
// of it and the price it was reckoned at; none where there is no metal clause. A
// second melt of what fails loses some of each alike.
func (o *offer) metals() (out []metalFact) {
	e, l := o.paper.Estimate, o.language
	if e.MetalClause == "" {
		return nil
	}
	type metal struct {
		estimate.Line
		kg float64
	}
	var metals []metal
	sum := 0.0
	for _, line := range e.Lines {
		unit, ok := quantity.ParseUnit(line.Unit)
		if !strings.HasPrefix(line.Item, itemMetal) || !ok {
			continue
		}
		kg := line.Quantity.InexactFloat64() * unit.Size
		sum += kg
		at := slices.IndexFunc(metals, func(m metal) bool { return m.Item == line.Item })
		if at < 0 {
			at, metals = len(metals), append(metals, metal{Line: line})
		}
		metals[at].kg += kg
	}
	for _, m := range metals {
		out = append(out, metalFact{
			Alloy: o.term(strings.TrimPrefix(m.Item, itemMetal)),
			Price: l.amount(e.Currency, e.Currency.Of(m.Rate)) + "\u00a0/\u00a0" + m.Per,
			Used:  l.size(quantity.KindMass, m.kg/sum*float64(e.MetalUsed), e.System),
		})
	}
	return out
}
