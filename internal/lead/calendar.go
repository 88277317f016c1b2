package lead

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"meltwright/internal/fault"
	"meltwright/internal/shop"
)

// slotMinutes is how finely a working day is divided: half hours. Two tasks may
// share a half hour; the next in a chain begins with the half hour after.
const slotMinutes = 30

// calendar is what the shop book says of the shop's time.
type calendar struct {
	works, pours [7]bool // by time.Weekday
	closed       []span  // holidays
	yearly       []monthDay
	slots        int32 // of a working day
	tank         int32 // sections that the slurry tanks dip on one
}

// span is a run of days, both ends in it, counted from 1 January 1970.
type span struct{ from, to int32 }

type monthDay struct {
	month time.Month
	day   int
}

// CheckCalendar says what cannot be read in the shop book's calendar, a fault.List
// by the paths of its settings: their texts are only understood here.
func CheckCalendar(s *shop.Shop) error {
	_, err := readCalendar(s)
	return err
}

// readCalendar reads the working days, holidays and pour days of the shop book.
func readCalendar(s *shop.Shop) (calendar, error) {
	var c calendar
	var faults fault.List
	c.setHours(s.Num(shop.WorkHours))
	c.tank = count(s.Num(shop.TankDips))
	take := func(k shop.Key, to *[7]bool) {
		if days, ok := weekdays(s.Value(k).Text); ok {
			*to = days
			return
		}
		faults = append(faults, inBook(s, k, "names no days of the week", "give days such as Monday to Friday, or Tuesday, Thursday"))
	}
	take(shop.WorkDays, &c.works)
	take(shop.PourDays, &c.pours)
	if !c.readHolidays(s.Value(shop.Holidays).Text) {
		faults = append(faults, inBook(s, shop.Holidays, "has a holiday that is no date", "give dates such as 2026-12-24 to 2027-01-02, or 12-25 for every year"))
	}
	if len(faults) == 0 && !c.poursAtAll() {
		faults = append(faults, inBook(s, shop.PourDays, "is no working day", "give at least one of the working days"))
	}
	return c, faults.Err()
}

func inBook(s *shop.Shop, k shop.Key, problem, remedy string) fault.Fault {
	return fault.Fault{Where: "book." + k.Def().Key, Field: "Shop book, " + k.Def().Label, Value: s.Value(k).Text, Problem: problem, Remedy: remedy}
}

func (c *calendar) setHours(hours float64) {
	c.slots = max(1, int32(math.Round(hours*60/slotMinutes)))
}

func (c *calendar) poursAtAll() bool {
	for d := range c.pours {
		if c.pours[d] && c.works[d] {
			return true
		}
	}
	return false
}

// weekdays reads "Monday to Friday", "Tue, Thu and Sat", "Mon-Wed"; three
// letters of a day are enough.
func weekdays(text string) (days [7]bool, ok bool) {
	text = strings.ToLower(text)
	for _, between := range []string{" and ", "&", ";", "\n"} {
		text = strings.ReplaceAll(text, between, ",")
	}
	for part := range strings.SplitSeq(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		from, to := ends(part, " to ", "–", "-")
		first, ok1 := weekday(from)
		last, ok2 := weekday(to)
		if !ok1 || !ok2 {
			return days, false
		}
		for d := first; ; d = (d + 1) % 7 {
			days[d], ok = true, true
			if d == last {
				break
			}
		}
	}
	return days, ok
}

// ends cuts a run such as "a to b" into its ends; a single thing is both.
func ends(text string, marks ...string) (from, to string) {
	for _, m := range marks {
		if a, b, ok := strings.Cut(text, m); ok {
			return strings.TrimSpace(a), strings.TrimSpace(b)
		}
	}
	text = strings.TrimSpace(text)
	return text, text
}

func weekday(name string) (int, bool) {
	name = strings.TrimSuffix(name, "s") // "Thursdays"
	for d := range 7 {
		full := strings.ToLower(time.Weekday(d).String())
		if len(name) >= 3 && strings.HasPrefix(full, name) {
			return d, true
		}
	}
	return 0, false
}

// readHolidays reads dates, runs of dates and days of every year.
func (c *calendar) readHolidays(text string) bool {
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		from, to := ends(part, " to ", "–")
		if from == "" {
			continue
		}
		if md, err := time.Parse("01-02", from); err == nil && from == to {
			c.yearly = append(c.yearly, monthDay{md.Month(), md.Day()})
			continue
		}
		a, err1 := time.Parse(time.DateOnly, from)
		b, err2 := time.Parse(time.DateOnly, to)
		if err1 != nil || err2 != nil || b.Before(a) {
			return false
		}
		c.closed = append(c.closed, span{dayOf(a), dayOf(b)})
	}
	return true
}

// dayOf counts the days to a date from 1 January 1970, and dateOf is its inverse.
func dayOf(t time.Time) int32 {
	y, m, d := t.Date()
	return int32(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

func dateOf(day int32) time.Time { return time.Unix(int64(day)*86400, 0).UTC() }

// weekdayOf is the day of the week: 1 January 1970 was a Thursday.
func weekdayOf(day int32) int { return int((day%7 + 7 + 4) % 7) }

// holidays lists the closed days from one day up to before another, in order.
func (c *calendar) holidays(from, to int32) []span {
	all := slices.Clone(c.closed)
	for y := dateOf(from).Year(); y <= dateOf(to).Year(); y++ {
		for _, md := range c.yearly {
			d := dayOf(time.Date(y, md.month, md.day, 0, 0, 0, 0, time.UTC))
			all = append(all, span{d, d})
		}
	}
	slices.SortFunc(all, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	return all
}
