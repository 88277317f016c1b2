package proposal

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/lead"
	"meltwright/internal/money"
	"meltwright/internal/quote"
)

// begun is a quote's paper whose work begins on a Monday in June.
func begun(t testing.TB, q quote.Quote) quote.Paper {
	p := paperOf(t, q)
	p.Start = "2026-06-01"
	return p
}

func scheduleOf(t testing.TB, p quote.Paper) lead.Schedule {
	t.Helper()
	start, err := time.Parse(time.DateOnly, p.Start)
	require.NoError(t, err)
	s, err := lead.Plan(p.Quote.Commission, p.Estimate, p.Shop, start, nil)
	require.NoError(t, err)
	return s
}

func TestATimelineTellsThePaymentsOnTheDaysOfTheSchedule(t *testing.T) {
	for code, want := range map[string][]string{
		"en": {"Timeline", "Begun on 1 June 2026", "The work begins 1 June 2026", "1 Agreement signed", "4 Installed and accepted"},
		"fr": {"Calendrier", "Commencée le 1er juin 2026", "Début des travaux 1er juin 2026", "1 Entente signée", "4 Installée et acceptée"},
		"es": {"Calendario", "Comenzada el 1 de junio de 2026", "Inicio del trabajo 1 de junio de 2026", "1 Acuerdo firmado", "4 Instalada y aceptada"},
	} {
		p := inLanguage(begun(t, waterfront()), code)
		s := scheduleOf(t, p)
		d, err := Maker{}.proposal(p)
		require.NoError(t, err)
		words, err := wordingOf(code, nil)
		require.NoError(t, err)
		o := offer{words: words}
		text := flat(textOf(t, made(t, func(b *bytes.Buffer) error { return d.pdf(b) }), "-layout"))
		for _, w := range want {
			assert.Contains(t, text, w)
		}
		sum := money.Amount(0)
		for _, m := range s.Milestones {
			assert.Contains(t, text, flat(o.date(m.Date.Format(time.DateOnly))+" "+languageOf(code, s.Currency).amount(s.Currency, m.Amount)))
			sum += m.Amount
		}
		assert.Equal(t, p.Estimate.Total, sum)
		assert.Contains(t, text, flat(o.date(s.Ready.Format(time.DateOnly))))
	}
}

func TestEveryTaskOfTheScheduleIsInOneRowOfTheTimeline(t *testing.T) {
	for name, q := range stories() {
		p := begun(t, q)
		s := scheduleOf(t, p)
		words, err := wordingOf("en", nil)
		require.NoError(t, err)
		o := offer{words: words, schedule: &s, language: languageOf("en", s.Currency)}
		for _, task := range s.Tasks {
			rows := 0
			for _, r := range stretches {
				one := s
				one.Tasks = []lead.Task{task}
				o.schedule = &one
				if _, ok := o.stretch(r); ok {
					rows++
				}
			}
			assert.Equal(t, 1, rows, "%s: %s", name, task.Name)
		}
	}
}

func TestWhatOthersPrepareIsARowOfItsOwn(t *testing.T) {
	s := scheduleOf(t, begun(t, waterfront()))
	seen := map[string]bool{}
	for _, task := range s.Tasks {
		seen[task.Name] = prepares(task)
	}
	for name, want := range map[string]bool{"Engineer's design and stamp": true, "Permits": true, "Freight": false, "Crates and loading": false} {
		got, ok := seen[name]
		require.True(t, ok, name)
		assert.Equal(t, want, got, name)
	}
}

func TestATimelineStaysWithinTheMarginsAndItsWordsApart(t *testing.T) {
	for name, q := range stories() {
		d, err := Maker{}.proposal(begun(t, q))
		require.NoError(t, err, name)
		for i, page := range d.pages {
			texts := page.Texts()
			for k, words := range texts {
				b := words.Box()
				assert.True(t, b.Min.X > d.sheet.left-7 && b.Max.X < d.sheet.width-d.sheet.right+7, "%s, page %d: %q", name, i+1, words.Words)
				for n := range k {
					assert.False(t, tight(texts[n]).Overlaps(tight(words)), "%s, page %d: %q and %q", name, i+1, texts[n].Words, words.Words)
				}
			}
		}
	}
}

func TestWithoutADayToBeginOnThereIsNoTimeline(t *testing.T) {
	assert.NotContains(t, textOf(t, proposalOf(t, waterfront())), "Timeline")
}

func TestTheUsersOwnDayIsTheBeginning(t *testing.T) {
	q := waterfront()
	q.Words = map[string]string{"start": " 2026-09-07 "}
	text, err := said(t, Maker{}, q)
	require.NoError(t, err)
	assert.Contains(t, text, "Begun on 7 September 2026")
	q.Words["start"] = "in autumn"
	_, err = said(t, Maker{}, q)
	assert.EqualError(t, err, "Start of the work “in autumn” is no date; give one such as 2026-05-04")
}

func TestTheTimelineOfLongWorkCountsQuartersAndYears(t *testing.T) {
	words, err := wordingOf("en", nil)
	require.NoError(t, err)
	start := time.Date(2026, 6, 15, 0, 0, 0, 0, time.UTC)
	for weeks, want := range map[float64][]string{
		20: {"July", "August", "September", "October", "November"}, 80: {"July", "October", "January 2027", "April", "July", "October"}, 210: {"January 2027", "January 2028", "January 2029", "January 2030"},
	} {
		s := lead.Schedule{Start: start, Ready: start.AddDate(0, 0, int(weeks*7)), Weeks: weeks}
		o := offer{words: words, schedule: &s}
		var got []string
		for _, tick := range o.months() {
			got = append(got, tick.Label)
		}
		assert.Equal(t, want, got)
	}
}
