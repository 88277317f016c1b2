package shop

import (
	"fmt"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// Shop is the shop book read: what estimates are made with. It never changes.
type Shop struct {
	Book      Book
	Currency  money.Currency
	System    quantity.System
	values    []field.Value
	origins   []field.Origin
	Alloys    []Alloy
	Crucibles []Crucible
	Rubbers   []Rubber
	Stones    []Stone
	Animals   []Animal
	Cranes    []Crane
	Taxes     []Tax
	Packs     []Pack
}

// The rows of the tables, read. A Source or Caution may be empty.
type (
	Alloy struct {
		Name              string
		Density           quantity.Density
		Solidus, Liquidus quantity.Temperature
		Shrinkage         float64 // the alloy's own, a share
		Price             field.Value
		Caution, Source   string
		Priced            string // where the price comes from
	}
	Crucible struct {
		Name   string
		Holds  quantity.Mass
		Source string
	}
	Rubber struct {
		Name            string
		Density         quantity.Density
		Price           field.Value
		Caution, Source string
		Priced          string
	}
	Stone struct {
		Name           string
		Density        quantity.Density
		Price          field.Value
		Source, Priced string
	}
	Animal struct {
		Name   string
		K      float64 // m² for kg^⅔
		Source string
	}
	Crane struct {
		Name   string
		Moment float64 // tonne-metres
		Day    field.Value
		Source string
	}
	Tax struct {
		Place, Name   string
		Rate          money.Decimal
		Dated, Source string
	}
)

// Read reads every setting and table of the book. All faults are told together;
// a setting that cannot be read has its starting value in the Shop, and a row
// that cannot be read is left out.
func Read(b Book) (*Shop, error) {
	var faults fault.List
	s := &Shop{Book: b}
	var err error
	if s.Currency, err = money.NewCurrency(b.Currency); err != nil {
		f := fault.All(err)[0]
		f.Where, f.Field = "book.currency", "Shop book, currency"
		faults = append(faults, f)
		s.Currency, _ = money.NewCurrency("CAD")
	}
	s.System, _ = quantity.ParseSystem(b.Units)
	ctx := field.Context{System: s.System, Currency: s.Currency}
	s.values = make([]field.Value, len(settings))
	s.origins = make([]field.Origin, len(settings))
	for i, d := range settings {
		set, ok := b.Settings[d.Key]
		if !ok {
			set = Setting{Text: d.Start, Source: d.Source}
		}
		v, err := d.Read(set.Text, ctx)
		if err != nil {
			faults = append(faults, inBook(err, "book."+d.Key))
			v, _ = d.Read(d.Start, field.Context{Currency: s.Currency})
		}
		s.values[i], s.origins[i] = v, set.origin()
	}
	for _, t := range tables {
		faults = append(faults, s.readTable(t, b.Tables[t.Key], ctx)...)
	}
	return s, faults.Err()
}

func inBook(err error, where string) fault.Fault {
	f := fault.All(err)[0]
	f.Where, f.Field = where, "Shop book, "+f.Field
	return f
}

// Value gives a setting as read.
func (s *Shop) Value(k Key) field.Value { return s.values[k] }

// Num gives a setting's number in canonical units.
func (s *Shop) Num(k Key) float64 { return s.values[k].Num }

// Origin says where a setting came from.
func (s *Shop) Origin(k Key) field.Origin { return s.origins[k] }

// readTable reads the rows of one table into its slice.
func (s *Shop) readTable(t Table, rows []Row, ctx field.Context) (faults fault.List) {
	for i, row := range rows {
		cells := make(map[string]field.Value, len(t.Columns))
		bad := false
		for _, c := range t.Columns {
			text := row[c.Key]
			where := fmt.Sprintf("book.%s.%d.%s", t.Key, i, c.Key)
			if text == "" && c.Sort == field.Text {
				if !c.Optional {
					faults = append(faults, fault.Fault{Where: where, Field: fmt.Sprintf("Shop book, %s, row %d, %s", t.Label, i+1, c.Label), Problem: "is empty", Remedy: "give it a name"})
					bad = true
				}
				continue
			}
			v, err := c.Read(text, ctx)
			if err != nil {
				f := inBook(err, where)
				f.Field = fmt.Sprintf("Shop book, %s, row %d, %s", t.Label, i+1, c.Label)
				faults, bad = append(faults, f), true
				continue
			}
			cells[c.Key] = v
		}
		if _, _, ok := readHolds(cells["holds"].Text); t.Key == PackTable && !bad && !ok {
			faults, bad = append(faults, packFault(i, row["holds"])), true
		}
		if !bad {
			s.addRow(t.Key, cells)
		}
	}
	return faults
}

func (s *Shop) addRow(table string, c map[string]field.Value) {
	switch table {
	case AlloyTable:
		s.Alloys = append(s.Alloys, Alloy{
			c["name"].Text, quantity.Density(c["density"].Num), quantity.Temperature(c["solidus"].Num), quantity.Temperature(c["liquidus"].Num),
			c["shrinkage"].Num, c["price"], c["caution"].Text, c["source"].Text, pricedBy(table, c),
		})
	case CrucibleTable:
		s.Crucibles = append(s.Crucibles, Crucible{c["name"].Text, quantity.Mass(c["holds"].Num), c["source"].Text})
	case RubberTable:
		s.Rubbers = append(s.Rubbers, Rubber{c["name"].Text, quantity.Density(c["density"].Num), c["price"], c["caution"].Text, c["source"].Text, pricedBy(table, c)})
	case StoneTable:
		s.Stones = append(s.Stones, Stone{c["name"].Text, quantity.Density(c["density"].Num), c["price"], c["source"].Text, pricedBy(table, c)})
	case AnimalTable:
		s.Animals = append(s.Animals, Animal{c["name"].Text, c["k"].Num, c["source"].Text})
	case CraneTable:
		s.Cranes = append(s.Cranes, Crane{c["name"].Text, c["moment"].Num, c["day"], c["source"].Text})
	case PackTable:
		n, u, _ := readHolds(c["holds"].Text)
		s.Packs = append(s.Packs, Pack{c["item"].Text, c["product"].Text, c["supplier"].Text, n, u, c["price"], c["source"].Text})
	case TaxTable:
		s.Taxes = append(s.Taxes, Tax{c["place"].Text, c["name"].Text, c["rate"].Dec, c["dated"].Text, c["source"].Text})
	}
}

// pricedBy says where the price of a row comes from: what the row says; else
// common practice, where it is the price that the book starts with.
func pricedBy(key string, c map[string]field.Value) string {
	if said := c["priced"].Text; said != "" {
		return said
	}
	for _, t := range tables {
		for _, row := range t.Start {
			for i, col := range t.Columns {
				if t.Key == key && col.Key == "price" && row[0] == c["name"].Text && row[i] == col.Print(c["price"], quantity.Metric) {
					return field.NoSource
				}
			}
		}
	}
	return "set by the shop"
}
