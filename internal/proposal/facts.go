package proposal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// facts are what the templates of a proposal can say. Everything is printed
// already, as the language writes it.
type facts struct {
	Title, Client, Place  string
	Shop, Address         string
	Number, Revision      string
	Date, Until           string // spelled out
	Days                  string // that the quote stands
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
	Metal                 *metalFact
	Law                   string // whose law of authors' rights: "us", "ca", "uk"
	Leaded                []string
}

// piece is what a proposal says of a piece.
type piece struct {
	Name                   string
	Height, Original       string
	Standing               string // with what it stands on, or empty
	Weight                 string // of one cast
	Alloy, Wall            string
	Casts                  int
	Sections               int
	Colours                int
	Start                  string // what they bring
	KnownBy                string
	Plinth                 string // "block", "drum", "tapered block", or empty
	Stone                  string // "granite"
	PlinthSize             string // "1.1 m × 1.1 m × 0.45 m"
	PlinthMass             string
	Footing                string          // "by us", "by others", "none"
	By                     map[string]bool // by others: stage → true
	height, plinth, weight float64
	drawing                drawing.Silhouette
}

// alike are pieces that are made in the same way.
type alike struct {
	Names string
	Many  bool
	piece
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

// metalFact is the basis of the metal clause.
type metalFact struct {
	Alloy, Price, Used, Beyond string
}

// gather gathers what a proposal says.
func (b *offer) gather() *facts {
	p, e, l := b.paper, b.paper.Estimate, b.language
	c := p.Quote.Commission
	f := &facts{
		Title: c.Title, Client: c.Client, Place: c.Place,
		Shop: p.Shop.Book.Shop, Address: p.Shop.Book.Address,
		Number: p.Quote.Number, Revision: p.Quote.Letter,
		Date: b.date(p.Date), Until: b.date(p.Until), Days: l.count(e.ValidDays),
		Currency: e.Currency.Code, Price: l.amount(e.Currency, e.Price), Total: l.amount(e.Currency, e.Total),
		Own: map[string]string{}, Ours: map[string]bool{}, Law: lawOf(p),
	}
	f.Visitor = l.length(drawing.PersonHeight, e.System)
	for part, words := range b.own {
		f.Own[part] = ownWords(words)
	}
	for i := range e.Pieces {
		f.Pieces = append(f.Pieces, b.piece(i))
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
	f.Leaded = leaded(p.Shop, f.Alloys)
	b.site(f)
	for _, t := range e.Taxes {
		f.Taxes = append(f.Taxes, taxFact{t.Name, l.percent(t.Rate), l.amount(e.Currency, t.Amount), b.date(t.Dated)})
	}
	f.Metal = b.metal()
	f.Others = b.others(f)
	return f
}

// others lists what is by others: stages of pieces, footings, and what is done at
// the site.
func (b *offer) others(f *facts) (out []other) {
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
			out = append(out, other{What: b.label("other-" + what)})
		default:
			out = append(out, other{b.label("other-" + what), strings.Join(names, ", ")})
		}
	}
	for _, stage := range []string{"original", "mould", "wax", "patina", "base"} {
		add(stage, func(p piece) bool { return p.By[stage] })
	}
	add("footing", func(p piece) bool { return p.Footing == "by others" })
	switch f.Delivery {
	case "by others":
		out = append(out, other{What: b.label("other-delivery")})
	case "delivered":
		out = append(out, other{What: b.label("other-install")})
	}
	return out
}

// height prints a height or a side of a base, all of a proposal's in one unit:
// metres where something is taller than one, else centimetres.
func (b *offer) height(v float64) string {
	e := b.paper.Estimate
	if e.System == quantity.InchPound {
		return b.language.length(quantity.Length(v), e.System)
	}
	for _, p := range e.Pieces {
		if p.Standing >= 1 {
			return b.language.fixed(strconv.FormatFloat(v, 'f', 2, 64) + " m")
		}
	}
	return b.language.fixed(quantity.Number(v*100, 1) + " cm")
}

// piece gathers what is said of piece i.
func (b *offer) piece(i int) piece {
	e, l := b.paper.Estimate, b.language
	r := e.Pieces[i]
	a := answersOf(b.paper, i, "form", "patina", "base")
	p := piece{
		Name: r.Name, Height: b.height(float64(r.Height)), Original: b.height(float64(r.OriginalHeight)),
		Weight: l.size(quantity.KindMass, float64(r.Finished), e.System), Alloy: r.Alloy, Wall: l.length(r.Wall, e.System),
		Casts: r.Casts, Sections: r.Sections, Colours: a.count("patina.colours"),
		Start: a["form.start"], KnownBy: a["form.known_by"], Footing: a["base.footing"], By: map[string]bool{},
		height: float64(r.Height), plinth: float64(r.Standing - r.Height), weight: float64(r.Finished),
	}
	for _, st := range estimate.Stages {
		p.By[st.ID] = slices.Contains(r.ByOthers, st.Name)
	}
	if shape := a["base.plinth"]; shape != "no plinth" && a["base.stone"] != "" {
		p.Plinth, p.Stone = shape, strings.ToLower(a["base.stone"][:1])+a["base.stone"][1:]
		var sizes []string
		for _, side := range []string{"width", "depth", "height"} {
			if side != "depth" || shape != "drum" {
				sizes = append(sizes, b.height(exactInput(b.paper, i, "base."+side).Num))
			}
		}
		p.PlinthSize = joinSome(sizes, "\u00a0× ")
		p.PlinthMass = l.size(quantity.KindMass, float64(r.Plinth), e.System)
	}
	if p.plinth > 0 {
		p.Standing = b.height(float64(r.Standing))
	}
	p.drawing = silhouetteOf(r.Name, a, b.own[fmt.Sprintf("drawing.%d", i)])
	return p
}

// together puts pieces that are made in the same way into one line.
func together(pieces []piece) (out []alike) {
	for _, p := range pieces {
		at := slices.IndexFunc(out, func(a alike) bool {
			return a.Casts == p.Casts && a.Alloy == p.Alloy && a.Colours == p.Colours && a.Start == p.Start && a.By["patina"] == p.By["patina"]
		})
		if at < 0 {
			out = append(out, alike{Names: p.Name, piece: p})
			continue
		}
		out[at].Names, out[at].Many = out[at].Names+", "+p.Name, true
	}
	return out
}

// joinSome joins the texts that are not empty.
func joinSome(texts []string, with string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(texts), func(s string) bool { return s == "" }), with)
}

// silhouetteOf chooses the drawing of a piece: the one the user named, else the
// one its name or its form suggests.
func silhouetteOf(name string, a answers, chosen string) drawing.Silhouette {
	if s, ok := drawing.Named(chosen); ok {
		return s
	}
	n, hints := "block", thingHints
	if a["form.known_by"] == "human figure" {
		n, hints = "standing", personHints
	}
	words := strings.FieldsFunc(strings.ToLower(name+" "+a["form.animal"]), func(r rune) bool { return !unicode.IsLetter(r) })
	for _, w := range words {
		if hint, ok := hints[w]; ok {
			n = hint
			break
		}
	}
	s, _ := drawing.Named(n)
	return s
}

// The words of a piece's name that suggest a drawing, for people and for all else.
var (
	personHints = map[string]string{"striding": "striding", "walking": "striding", "running": "striding", "seated": "seated", "sitting": "seated", "bust": "bust", "portrait": "bust", "head": "head"}
	thingHints  = map[string]string{"bust": "bust", "torso": "bust", "portrait": "bust", "head": "head", "horse": "horse", "pony": "horse", "dog": "dog", "hound": "dog", "cat": "cat", "bird": "bird", "bench": "bench"}
)

// site gathers what is said of delivery, site and lifting.
func (b *offer) site(f *facts) {
	p, e, l := b.paper, b.paper.Estimate, b.language
	a := answersOf(p, estimate.Whole, "delivery")
	f.Delivery, f.Reach, f.Site = a["delivery.by"], l.fixed(a["delivery.reach"]), l.number(a["delivery.days"])
	if v := exactInput(p, estimate.Whole, "delivery.distance"); v.Num > 0 {
		f.Distance = l.fixed(a["delivery.distance"])
	}
	f.Heaviest = l.size(quantity.KindMass, e.Lift.Kg, e.System)
	f.Heavy = e.Lift.Kg > p.Shop.Num(shop.HandsLimit)
	for _, line := range e.Lines {
		switch {
		case line.Stage == "base" && line.Item == itemEngineer:
			f.Engineer = true
		case line.Stage == "delivery" && line.Item == e.Lift.By:
			f.Crane = line.Item
		case line.Item == itemPermits:
			f.Permits = true
		case line.Item == itemSiteWorks:
			f.SiteWorks = true
		case line.Item == itemRecords:
			f.Records = true
		}
	}
	for _, x := range p.Quote.Commission.Extras {
		f.Extras = append(f.Extras, x.Item)
	}
	footings := map[string]bool{}
	for _, pc := range f.Pieces {
		footings[pc.Footing] = true
	}
	for _, by := range []string{"by others", "by us"} {
		if footings[by] {
			f.Footing = by
		}
	}
}

// The estimate's names of lines that a proposal speaks of; a test holds that
// the estimate has them.
const (
	itemEngineer  = "Engineer's design and stamp"
	itemPermits   = "Permits"
	itemSiteWorks = "Site works"
	itemRecords   = "Photographs and records"
)

// leaded lists those of the alloys that hold lead.
func leaded(s *shop.Shop, names []string) (out []string) {
	for _, a := range s.Alloys {
		if slices.Contains(names, a.Name) && strings.Contains(a.Caution, "lead") {
			out = append(out, a.Name)
		}
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

// metal takes the estimate's metal clause ("… at 17.80 CAD / kg") apart, so that
// it can be said in any language.
func (b *offer) metal() *metalFact {
	e, l := b.paper.Estimate, b.language
	at := strings.LastIndex(e.MetalClause, " at ")
	if at < 0 {
		return nil
	}
	m := &metalFact{
		Alloy: e.MetalClause[:at], Price: l.fixed(e.MetalClause[at+4:]),
		Used:   l.size(quantity.KindMass, float64(e.MetalUsed), e.System),
		Beyond: l.percent(money.Round(exactInput(b.paper, estimate.Whole, "price.metal_clause").Num, 6)),
	}
	if number, rest, ok := strings.Cut(e.MetalClause[at+4:], " "); ok {
		if a, err := e.Currency.Parse(number); err == nil {
			_, unit, _ := strings.Cut(rest, "/ ")
			m.Price = l.amount(e.Currency, a) + " / " + unit
		}
	}
	return m
}
